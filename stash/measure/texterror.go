package measure

import "fmt"

// TextError says why a text could not be read as a quantity.
type TextError struct {
	Text  string // what was typed
	Wrong string // what is wrong with it, a clause: "there is a zero below the line"
	Want  string // what would be accepted, a clause: "a length such as 1 1/4 yd or 114 cm"
}

// Error gives one sentence with both: what was wrong and what would be accepted.
func (e *TextError) Error() string {
	return fmt.Sprintf("%q: %s; write %s", shortened(e.Text), e.Wrong, e.Want)
}

// shortened keeps a long text from filling the screen.
func shortened(s string) string {
	const most = 40
	r := []rune(s)
	if len(r) <= most {
		return s
	}
	return string(r[:most]) + "…"
}
