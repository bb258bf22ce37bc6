package measure

import (
	"cmp"
	"fmt"
)

// TextError says why a text could not be read as a quantity.
type TextError struct {
	Text  string // what was typed
	Wrong string // what is wrong with it, a clause: "there is a zero below the line"
	Want  string // what would be accepted, a clause: "a length such as 1 1/4 yd or 114 cm"
	Like  string // the same in a few words, for small places: "1.25 m or 45 in"; Want where it is empty
}

// Error gives one sentence with both: what was wrong and what would be accepted.
func (e *TextError) Error() string {
	return fmt.Sprintf("%q: %s; write %s", shortened(e.Text), e.Wrong, e.Want)
}

// Cure gives the cure first and in few words, for the place beside the text itself:
// "Write 1.25 m or 45 in: it is negative."
func (e *TextError) Cure() string {
	return fmt.Sprintf("Write %s: %s.", cmp.Or(e.Like, e.Want), e.Wrong)
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
