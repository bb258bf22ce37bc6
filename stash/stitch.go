package stash

import (
	"slices"
	"strings"
	"unicode/utf8"
)

// StitchNote is a setting that worked on a fabric.
type StitchNote struct {
	Seam, Stitch         string
	Width, Length        string // as the machine's dial says
	Feed, Needle, Thread string
	Tension              string `json:",omitempty"`
	Note                 string
	// Still: the seam need not stretch, such as a shoulder over tape. Seams of knits else must.
	Still bool `json:",omitempty"`
}

// mostStitches is how many notes one fabric or garment may have, mostStitchText how many
// bytes one line of them.
const mostStitches, mostStitchText = 100, 2000

// trimmed returns the note without blanks at the ends of its lines.
func (n StitchNote) trimmed() StitchNote {
	for _, s := range n.lines() {
		*s = strings.TrimSpace(*s)
	}
	return n
}

func (n *StitchNote) lines() []*string {
	return []*string{&n.Seam, &n.Stitch, &n.Width, &n.Length, &n.Feed, &n.Needle, &n.Thread, &n.Tension, &n.Note}
}

// Validate says what cannot be about a stitch note: nil, or an Error of kind Invalid.
func (n StitchNote) Validate() error {
	if n.Stitch == "" && n.Note == "" {
		return invalid("Say which stitch it was, such as: narrow zigzag", "The note names no stitch")
	}
	for _, s := range n.lines() {
		if !utf8.ValidString(*s) || len(*s) > mostStitchText {
			return invalid("Make it shorter", "A line of the stitch note is too long")
		}
	}
	return nil
}

// PutStitch returns notes with n in place at, counted from 1, or at the end where at is 0,
// and where it is then.
func PutStitch(notes []StitchNote, at int, n StitchNote) ([]StitchNote, int, error) {
	n = n.trimmed()
	if err := n.Validate(); err != nil {
		return notes, 0, err
	}
	notes = slices.Clone(notes)
	switch {
	case at < 0 || at > len(notes):
		return notes, 0, noStitch(len(notes))
	case at == 0 && len(notes) >= mostStitches:
		return notes, 0, invalid("Change one of them instead", "There are %d stitch notes already", len(notes))
	case at == 0:
		return append(notes, n), len(notes) + 1, nil
	}
	notes[at-1] = n
	return notes, at, nil
}

// DropStitch returns notes without that in place at, counted from 1.
func DropStitch(notes []StitchNote, at int) ([]StitchNote, error) {
	if at < 1 || at > len(notes) {
		return notes, noStitch(len(notes))
	}
	return slices.Delete(slices.Clone(notes), at-1, at), nil
}

func noStitch(n int) error {
	if n == 0 {
		return invalid("Add one first", "There is no stitch note yet")
	}
	return invalid("Choose one of them", "There are only %d stitch notes", n)
}
