package stash

// Notion is thread, elastic, needles, hardware.
type Notion struct {
	ID       ID
	Name     string
	Kind     string
	Quantity float64
	Unit     string
	Reorder  float64
}
