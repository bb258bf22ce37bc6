package stash

import (
	"slices"
	"strings"
	"unicode/utf8"

	"tallycloth/stash/measure"
)

// StripNote is a binding strip that worked on a fabric.
type StripNote struct {
	Edge      string  `json:",omitempty"` // what it was sewn to: "neck"
	Technique string  // how the edge was finished
	Ratio     float64 // strip to edge over all that was sewn, a fraction
	// Drawn is how far free parts drew out in sewing, a fraction; zero where nobody measured it.
	Drawn    float64        `json:",omitzero"`
	Width    measure.Length `json:",omitzero"` // finished
	Seam     measure.Length `json:",omitzero"`
	CutWidth measure.Length `json:",omitzero"`
	Note     string         `json:",omitempty"`
	Date     Date           `json:",omitempty"`
}

// mostStripNotes is how many a fabric keeps; older ones give way.
const mostStripNotes = 100

// Validate says what cannot be about a note: nil, or an Error of kind Invalid.
func (n StripNote) Validate() error {
	switch {
	case strings.TrimSpace(n.Technique) == "":
		return invalid("Choose how the edge was finished", "The strip has no technique")
	case !(n.Ratio >= 0.4 && n.Ratio <= 1.5):
		return invalid("Type for instance 88 %", "A strip of %.4g of its edge cannot have been sewn", n.Ratio)
	case !(n.Drawn >= 0 && n.Drawn <= 0.5):
		return invalid("Type how much longer a strap became in sewing, usually about 3 %", "Free parts do not draw out that far")
	case n.Width < 0 || n.Seam < 0 || n.CutWidth < 0:
		return invalid("Type zero or more", "A width of the strip is negative")
	}
	for _, s := range []string{n.Edge, n.Technique, n.Note} {
		if !utf8.ValidString(s) || len(s) > mostStitchText {
			return invalid("Make it shorter", "A line of the note is too long")
		}
	}
	return nil
}

// WithStrip returns the fabric with a strip that worked, the newest last. Errors: see
// StripNote.Validate.
func (f Fabric) WithStrip(n StripNote) (Fabric, error) {
	n.Edge, n.Technique, n.Note = strings.TrimSpace(n.Edge), strings.TrimSpace(n.Technique), strings.TrimSpace(n.Note)
	if err := n.Validate(); err != nil {
		return f, err
	}
	f.Strips = append(slices.Clone(f.Strips), n)
	if over := len(f.Strips) - mostStripNotes; over > 0 {
		f.Strips = f.Strips[over:]
	}
	return f, nil
}

// StripsBy returns the strips of a technique that worked on the fabric, the newest first.
func (f Fabric) StripsBy(technique string) []StripNote {
	var out []StripNote
	for _, n := range slices.Backward(f.Strips) {
		if n.Technique == technique {
			out = append(out, n)
		}
	}
	return out
}
