package garment

import (
	"fmt"
	"slices"
	"strings"

	"tallycloth/planner/adjust"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// What the stops of an order of work ask for.
const (
	AsksTakeIn = "take-in"
	AsksStrap  = "strap length"
	AsksHem    = "hem"
)

// Work returns the order of work of a pattern; where it says none the usual one: cut, seams,
// try on and note the take-in, then edges, try on and set the strap length, then the hem.
// Strips are cut to width with the rest, to length only after the first stop (common practice).
func Work(p pattern.Pattern) []pattern.Step {
	if len(p.Work) > 0 {
		return p.Work
	}
	strips := ""
	if len(p.Edges) > 0 {
		strips = " Cut the strips to width, longer than needed."
	}
	out := []pattern.Step{
		{Text: "Cut the pattern pieces." + strips},
		{Text: "Sew the seams."},
		{Text: "Try on. Note how much to take in, and take it in.", TryOn: true, Asks: AsksTakeIn},
	}
	if len(p.Edges) > 0 {
		out = append(out, pattern.Step{Text: "Cut the strips to length and finish the edges."})
	}
	if hasStrap(p) {
		out = append(out, pattern.Step{Text: "Try on. Pin the straps and note their length.", TryOn: true, Asks: AsksStrap},
			pattern.Step{Text: "Trim the straps and sew them on."})
	}
	return append(out, pattern.Step{Text: "Try on again and mark the hem.", TryOn: true, Asks: AsksHem}, pattern.Step{Text: "Sew the hem."})
}

// hasStrap says whether an edge runs on as a free length.
func hasStrap(p pattern.Pattern) bool {
	return slices.ContainsFunc(p.Edges, func(e pattern.Edge) bool {
		return slices.ContainsFunc(e.Segments, func(s pattern.EdgeSegment) bool { return s.Piece == "" })
	})
}

// StepState is a step of the order of work of one garment.
type StepState struct {
	pattern.Step
	Noted *Done // what was noted of it; nil while it is not done
}

// Done says whether the step is done.
func (s StepState) Done() bool { return s.Noted != nil }

// Steps returns the order of work with what is done of it. What was marked cut needs no note that it
// is: a first step of cutting is done then, on no day that was noted.
func (g Garment) Steps(p pattern.Pattern) []StepState {
	var out []StepState
	for n, s := range Work(p) {
		st := StepState{Step: s}
		switch i := g.doneAt(s.Text); {
		case i >= 0:
			st.Noted = &g.Record.Done[i]
		case n == 0 && g.State.Step() >= Cut.Step() && strings.HasPrefix(s.Text, "Cut "):
			st.Noted = &Done{Step: s.Text}
		}
		out = append(out, st)
	}
	return out
}

func (g Garment) doneAt(text string) int {
	return slices.IndexFunc(g.Record.Done, func(d Done) bool { return d.Step == text })
}

// StepDone returns the garment with a step done, counted from 1; noted again, the new note
// counts. A step behind a stop waits for it: what was tried on decides how it goes on. The
// first step done after cutting begins the sewing, and with the last stop it is fitted.
func (g Garment) StepDone(p pattern.Pattern, n int, d Done) (Garment, error) {
	steps := g.Steps(p)
	switch {
	case n < 1 || n > len(steps):
		return g, invalid(fmt.Sprintf("The order of work has %d steps, and no step %d", len(steps), n), "Choose one of them.")
	case g.State.Step() < Cut.Step():
		return g, &stash.Error{Kind: stash.Conflict, What: g.Name + " is not cut yet", Do: "Mark it cut first."}
	case !d.On.Valid() || d.On == "":
		return g, invalid("“"+string(d.On)+"” is not a day", "Write it as 2026-03-02.")
	case d.Value < 0:
		return g, invalid("A length cannot be negative", "Leave it empty if there is nothing to note.")
	case d.Value > mostNoted(g, p, steps[n-1].Asks):
		return g, invalid("So much would leave nothing of the garment", "Is it in the unit that is meant? Measure again, at one seam.")
	case tooLong(d.Note):
		return g, invalid("The note is too long", "Make it shorter.")
	}
	for i, s := range steps[:n-1] {
		if s.TryOn && !s.Done() {
			return g, &stash.Error{Kind: stash.Conflict, What: fmt.Sprintf("Step %d is a stop, and it is not noted yet: %s", i+1, s.Text),
				Do: "Note it first; leave its length empty if there is nothing to change."}
		}
	}
	d.Step, d.Asked, d.Note = steps[n-1].Text, steps[n-1].Asks, strings.TrimSpace(d.Note)
	done := slices.DeleteFunc(slices.Clone(g.Record.Done), func(o Done) bool { return o.Step == d.Step })
	g.Record.Done = append(done, d)
	return g, nil
}

// Nothing that is worn has a longer strap, or a hem that moves further (ours).
const longestNoted = 150 * measure.Centimetre

// mostNoted is the most that a stop may ask for. What is taken in comes off two edges at each of two side seams,
// and half of the smallest girth at least stays (ours).
func mostNoted(g Garment, p pattern.Pattern, asks string) measure.Length {
	if asks != AsksTakeIn {
		return longestNoted
	}
	least := 2 * longestNoted
	size, _ := p.Size(g.Size)
	for _, l := range p.Levels {
		if f := size.Finished[l.Name]; l.Girth && f > 0 {
			least = min(least, f)
		}
	}
	return least / 8
}

// StepUndone returns the garment with a step not done, counted from 1.
func (g Garment) StepUndone(p pattern.Pattern, n int) (Garment, error) {
	steps := Work(p)
	if n < 1 || n > len(steps) || g.doneAt(steps[n-1].Text) < 0 {
		return g, invalid("That step is not noted as done", "Choose one that is.")
	}
	g.Record.Done = slices.DeleteFunc(slices.Clone(g.Record.Done), func(o Done) bool { return o.Step == steps[n-1].Text })
	return g, nil
}

// StateByWork is the state that the work done leads to: sewing once anything after the
// cutting is done, fitted once the last stop is noted. It never leads back.
func (g Garment) StateByWork(p pattern.Pattern) State {
	if g.State != Cut && g.State != Sewing {
		return g.State
	}
	to, stops, noted := g.State, 0, 0
	for i, s := range g.Steps(p) {
		if s.TryOn {
			stops++
		}
		if s.Done() && s.TryOn {
			noted++
		}
		if s.Done() && i > 0 {
			to = Sewing
		}
	}
	if stops > 0 && noted == stops {
		return Fitted
	}
	return to
}

// StripsToLength says whether strips may be cut to length: the first stop of the order of
// work is noted, or it has none.
func (g Garment) StripsToLength(p pattern.Pattern) bool {
	for _, s := range g.Steps(p) {
		if s.TryOn {
			return s.Done()
		}
	}
	return true
}

// Noted is what was noted at the stop that asks for something; false where it is not noted,
// or nothing was to be changed.
func (g Garment) Noted(asks string) (measure.Length, bool) {
	for _, d := range slices.Backward(g.Record.Done) {
		if d.Asked == asks {
			return d.Value, d.Value > 0
		}
	}
	return 0, false
}

// TakenIn says whether a take-in that reaches the underarm, found after the cloth was cut, is among the
// adjustments: edges and strips follow it then.
func (g Garment) TakenIn() bool {
	return slices.ContainsFunc(g.Adjustments, func(s adjust.Step) bool {
		return s.AfterCut && s.Kind == adjust.TakeIn && (!s.At.Said() || s.At.Level == adjust.Underarm)
	})
}

// Strap is the length of its straps as they were fitted, and that which its strips were worked out
// with; 0 where one is not known.
func (g Garment) Strap() (fitted, planned measure.Length) {
	fitted, _ = g.Noted(AsksStrap)
	for _, r := range g.Strips {
		for _, s := range r.Strip.Job.Segments {
			if s.Free && planned == 0 {
				planned = s.Length
			}
		}
	}
	return fitted, planned
}

// Shorter is by how much a strip round an armhole is shorter after the side seams were taken
// in by p at the underarm: p at the underarm shortens each armhole edge by 2p, a strip of
// ratio r by 2p·r, and a strip round both by twice that.
func Shorter(p measure.Length, ratio float64, armholes int) measure.Length {
	return measure.Length(float64(2*p)*ratio) * measure.Length(armholes)
}
