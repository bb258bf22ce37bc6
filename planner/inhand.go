package planner

import (
	"context"
	"fmt"
	"time"

	"tallycloth/planner/garment"
	"tallycloth/planner/match"
	"tallycloth/planner/pattern"
	"tallycloth/stash/measure"
)

// usualTrying is how long a search goes on from a layout before it ends by itself (ours):
// most of what can be gained on a garment's pieces is gained in it.
const usualTrying = 2 * time.Minute

// Effort bounds a search that goes on from a layout; the zero value is the usual two minutes.
type Effort struct {
	Time  time.Duration
	Steps int64 // of the layout engine: the same work on any machine, for tests
}

// TakeInHand takes the layout of a finding in hand. Where the finding has none, its cloth
// is in hand with nothing laid on it yet.
func (s *Studio) TakeInHand(ctx context.Context, f Finding, q Search) (*match.Hand, error) {
	question, err := s.question(ctx, q)
	if err != nil {
		return nil, fmt.Errorf("taking a layout in hand: %w", err)
	}
	if question.ByYardage() {
		return nil, refused("Bring in its outlines", "The pattern has no outlines to lay out")
	}
	var l match.Layout
	if f.Verdict.Layout != nil {
		l = *f.Verdict.Layout
	}
	return question.For(f.Cloth.Fabric).NewHand(f.Cloth, l), nil
}

// KeepTrying goes on searching from a layout in hand, with all workers, until the effort
// is spent, nothing shorter can exist or the context ends; what it has then is returned,
// without an error. Trials are reported from one goroutine of the search, which waits:
// take them and return at once.
func (s *Studio) KeepTrying(ctx context.Context, from match.Start, e Effort, report func(match.Trial)) (match.Tried, error) {
	t := match.Trying{Seed: uint64(from.Step()), Steps: e.Steps, Time: e.Time, Workers: s.workers, Report: report}
	if e == (Effort{}) {
		t.Time = usualTrying
	}
	if t.Time > 0 {
		t.Clock = s.now
	}
	return from.KeepTrying(ctx, t)
}

// holds refuses a layout that breaks a rule of cutting on the cloth as it is now, with
// what is wrong.
func holds(ctx context.Context, tx Tx, set Settings, f Finding, g garment.Garment, usedFor string) error {
	if f.Verdict.Layout == nil {
		return nil
	}
	l := *f.Verdict.Layout
	p, err := tx.Pattern(ctx, g.PatternID)
	if err != nil {
		return err
	}
	if p, err = asCut(p, g); err != nil {
		return err
	}
	q := Search{Size: g.Size, Role: usedFor}
	for _, piece := range l.Pieces {
		q.Strips = q.Strips || piece.Role == pattern.Binding && usedFor != pattern.Binding
	}
	question, err := questionOf(p, q, set)
	if err != nil {
		return err
	}
	now, err := tx.Cloth(ctx, f.Cloth.Cloth.ID)
	if err != nil {
		return err
	}
	faults := match.Gravest(question.For(now.Fabric).Faults(now, l))
	if len(faults) == 0 {
		return nil
	}
	style := measure.Style{System: set.Units, Kind: measure.StripLength}
	return refused("Set it right in the layout, or search again", "%s", FaultWords(faults[0], style.Format))
}

// FaultWords says in one plain sentence, without its full stop, what does not hold;
// lengths are written by write.
func FaultWords(f match.Fault, write func(measure.Length) string) string {
	other := f.With
	if other == f.Name && other != "" {
		other = "another " + other
	}
	deep := ""
	if f.By > 0 {
		deep = write(f.By) + " "
	}
	switch f.Kind {
	case match.Missing:
		if f.Has == 0 {
			return f.Name + " is not laid"
		}
		return fmt.Sprintf("%s: only %d of %d laid", f.Name, f.Has, f.Asked)
	case match.TooMany:
		return fmt.Sprintf("%s: %d laid, and %d asked for", f.Name, f.Has, f.Asked)
	case match.OtherOutline:
		return f.Name + " does not have its outline of this size"
	case match.OffCloth:
		return f.Name + " reaches beyond what can be cut"
	case match.OverFlaw:
		return f.Name + " lies " + deep + "over a flaw"
	case match.OverPiece:
		return f.Name + " lies " + deep + "over " + other
	case match.OverReserved:
		return f.Name + " lies " + deep + "over what is reserved"
	case match.TooNear:
		if other == "" {
			other = "what must be kept clear"
		}
		return f.Name + " is nearer than " + write(f.By) + " to " + other
	}
	return ruleWords(f, write)
}

func ruleWords(f match.Fault, write func(measure.Length) string) string {
	switch f.Kind {
	case match.OffGrain:
		return f.Name + " is off its grain line"
	case match.WrongWay:
		return f.Name + " points the other way than the direction of the fabric allows"
	case match.OffFold:
		return "The fold edge of " + f.Name + " does not lie on the fold"
	case match.NotDouble:
		return f.Name + " is cut double and reaches beyond the double cloth"
	case match.NotPaired:
		return "The two layers of " + f.Name + " do not lie on each other"
	case match.NotMirrored:
		return f.Name + " is cut as a mirrored pair, and this one shows the wrong face"
	case match.OffRepeat:
		return "The match mark of " + f.Name + " does not meet the print repeat of " + write(f.By)
	}
	return "The layout did not pass the last check on the open cloth"
}
