package stash

// Leftover says whether a cloth is what was left of something: it was cut from another
// cloth, has an outline of its own, or lacks a selvedge.
func (c Cloth) Leftover() bool {
	return c.CutFrom != NoID || !c.Plain() || !c.SelvedgeLow || !c.SelvedgeHigh
}
