package garment

import (
	"slices"
	"strings"
	"unicode/utf8"

	"tallycloth/planner/adjust"
	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// Record is what is noted of a garment from the wish to the last stitch.
type Record struct {
	Purpose string `json:",omitzero"` // what it is for: sleeping, dancing, a class sample
	// Reached are the states it came to with their days, oldest first. A garment from before
	// days were kept begins with its next step.
	Reached []Reached `json:",omitzero"`
	// Done are the steps of the order of work that are done.
	Done []Done `json:",omitzero"`
	// Seams are seams that differ from those the pattern shows, and those it does not know.
	Seams    []Seam    `json:",omitzero"`
	Fittings []Fitting `json:",omitzero"`
	// CopyOf is the garment that it was copied from, or NoID.
	CopyOf stash.ID `json:",omitzero"`
}

// Reached says on which day a garment came to a state.
type Reached struct {
	State State
	On    stash.Date
}

// Done is a step of the order of work that is done.
type Done struct {
	Step string     // its text
	On   stash.Date `json:",omitzero"`
	// Asked is what was noted at a stop, such as "take-in" or "strap length", Value how much:
	// 0 is nothing to change, or not said.
	Asked string         `json:",omitzero"`
	Value measure.Length `json:",omitzero"`
	Note  string         `json:",omitzero"`
}

// Fitting is what was seen when it was tried on.
type Fitting struct {
	On     stash.Date
	Text   string
	Photos []stash.ID `json:",omitzero"`
}

// Bounds of what is noted.
const (
	mostText     = 4000
	mostFittings = 200
	mostSeams    = 200
)

// Became returns the garment in a state that it came to on a day. A state that it is in
// already leaves the days alone.
func (g Garment) Became(to State, on stash.Date) Garment {
	if g.State != to || g.Changed == "" {
		g.Record.Reached = append(slices.Clip(g.Record.Reached), Reached{to, on})
	}
	g.State, g.Changed = to, on
	return g
}

// ReachedOn returns the day on which the garment last came to a state; "" where it is not known.
func (g Garment) ReachedOn(s State) stash.Date {
	for _, r := range slices.Backward(g.Record.Reached) {
		if r.State == s {
			return r.On
		}
	}
	return ""
}

// WithFitting returns the garment with a note of a fitting, in the order of days.
func (g Garment) WithFitting(f Fitting) (Garment, error) {
	f.Text = strings.TrimSpace(f.Text)
	switch {
	case f.On == "" || !f.On.Valid():
		return g, invalid("“"+string(f.On)+"” is not a day", "Write it as 2026-03-02.")
	case f.Text == "" && len(f.Photos) == 0:
		return g, invalid("Nothing is noted", "Write what you saw, or add a photo.")
	case tooLong(f.Text):
		return g, invalid("The note is too long", "Make it shorter.")
	case len(g.Record.Fittings) >= mostFittings:
		return g, invalid("There are very many notes already", "Take some away first.")
	}
	all := append(slices.Clip(g.Record.Fittings), f)
	slices.SortStableFunc(all, func(a, b Fitting) int { return strings.Compare(string(a.On), string(b.On)) })
	g.Record.Fittings = all
	return g, nil
}

// WithoutFitting returns the garment without the note in place at, counted from 1.
func (g Garment) WithoutFitting(at int) (Garment, error) {
	if at < 1 || at > len(g.Record.Fittings) {
		return g, invalid("There is no such note", "Choose one of them.")
	}
	g.Record.Fittings = slices.Delete(slices.Clone(g.Record.Fittings), at-1, at)
	return g, nil
}

// Copy returns a garment to be made again: the same pattern, size, adjustments, person, purpose,
// seams and notes, wanted anew. What belongs to the cloth of the first, and to how it was sewn, stays
// with it. The ID and the day are still missing.
func (g Garment) Copy() Garment {
	out := g
	out.ID, out.State, out.Changed, out.Wanted = stash.NoID, "", "", ""
	out.Strips, out.Stitches = nil, nil
	out.Adjustments = adjust.NextTime(g.Adjustments)
	out.Record = Record{Purpose: g.Record.Purpose, Seams: slices.Clone(g.Record.Seams), CopyOf: g.ID}
	return out
}

// Validate says what cannot be about what a person types of a garment: nil, or an Error of
// kind Invalid.
func (g Garment) Validate() error {
	switch {
	case strings.TrimSpace(g.Name) == "":
		return invalid("The garment has no name", "Give it a name.")
	case !g.Wanted.Valid():
		return invalid("“"+string(g.Wanted)+"” is not a day", "Write it as 2026-03-02, or leave it empty.")
	}
	for _, s := range []string{g.Name, g.For, g.Variant, g.Notes, g.Record.Purpose} {
		if tooLong(s) {
			return invalid("What is noted is too long", "Make it shorter.")
		}
	}
	return nil
}

func tooLong(s string) bool { return len(s) > mostText || !utf8.ValidString(s) }

// invalid is an error of kind Invalid that says what to do.
func invalid(what, do string) error { return &stash.Error{Kind: stash.Invalid, What: what, Do: do} }
