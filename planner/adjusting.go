package planner

import (
	"context"
	"fmt"
	"reflect"
	"slices"
	"strings"

	"tallycloth/planner/adjust"
	"tallycloth/planner/garment"
	"tallycloth/planner/match"
	"tallycloth/planner/pattern"
	"tallycloth/planner/sizing"
	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// AdjustForm is an adjustment of a garment as a person says it.
type AdjustForm struct {
	GarmentID stash.ID
	At        int // which of its adjustments is changed, from 1; 0 adds one
	Step      adjust.Step
}

// Adjusted is a garment with its pattern, as drawn and as it is adjusted.
type Adjusted struct {
	Garment garment.Garment
	Plain   pattern.Pattern // in the garment's size alone
	Cut     pattern.Pattern // with what was found before the cloth was cut
	Sewn    pattern.Pattern // with all adjustments
	Notes   []string        // what must be seen to by hand
	Offers  []Offer         // what may be taken over
	Person  sizing.Person   // whom it is for; without an ID where nobody of that name is known
}

// Offer is an adjustment that was kept, or found on an earlier garment for the same person.
type Offer struct {
	Step adjust.Step
	From string // "kept for Ines", "found on Blue tank"
}

// Keeps says whether an adjustment is kept for the person already.
func (a Adjusted) Keeps(s adjust.Step) bool {
	return has(a.Person.Steps(), adjust.NextTime([]adjust.Step{s})[0])
}

// Adjustment says what became of a garment whose adjustments changed.
type Adjustment struct {
	Garment garment.Garment
	Resized Resized  // what became of its reserved cloth
	Notes   []string // what must be seen to by hand, and strips that changed
}

// Words says in sentences what became of cloth and strips.
func (a Adjustment) Words() string {
	out := a.Notes
	if w := a.Resized.Words(); w != "" {
		out = append([]string{w}, out...)
	}
	return strings.Join(out, " ")
}

// adjusted is a pattern as a garment adjusts it: as it is cut, or else as it is sewn. One
// without adjustments is the pattern itself.
func adjusted(p pattern.Pattern, size string, steps []adjust.Step) (pattern.Pattern, error) {
	if len(steps) == 0 {
		return p, nil
	}
	r, err := adjust.Apply(p, size, steps)
	return r.Pattern, err
}

// asCut is the pattern of a garment as its cloth is cut.
func asCut(p pattern.Pattern, g garment.Garment) (pattern.Pattern, error) {
	return adjusted(p, g.Size, adjust.BeforeCut(g.Adjustments))
}

// AdjustedGarment reads a garment with its pattern as it is adjusted, and what may be taken over.
func (s *Studio) AdjustedGarment(ctx context.Context, id stash.ID) (Adjusted, error) {
	fail := func(err error) (Adjusted, error) { return Adjusted{}, fmt.Errorf("adjusting a garment: %w", err) }
	g, err := s.Garment(ctx, id)
	if err != nil {
		return fail(err)
	}
	p, err := s.Pattern(ctx, g.PatternID)
	if err != nil {
		return fail(err)
	}
	a, err := adjustedAs(p, g)
	if err != nil {
		return a, err
	}
	if err := s.offers(ctx, p, &a); err != nil {
		return fail(err)
	}
	return a, nil
}

// adjustedAs works the patterns of a garment out.
func adjustedAs(p pattern.Pattern, g garment.Garment) (Adjusted, error) {
	a := Adjusted{Garment: g}
	for _, of := range []struct {
		into  *pattern.Pattern
		steps []adjust.Step
	}{{&a.Plain, nil}, {&a.Cut, adjust.BeforeCut(g.Adjustments)}, {&a.Sewn, g.Adjustments}} {
		r, err := adjust.Apply(p, g.Size, of.steps)
		if err != nil {
			return a, err
		}
		*of.into, a.Notes = r.Pattern, r.Notes
	}
	return a, nil
}

// TryAdjustments shows what steps would make of a garment, writing nothing. Those found after
// its cloth was cut are marked so.
func (s *Studio) TryAdjustments(ctx context.Context, id stash.ID, steps []adjust.Step) (Adjusted, error) {
	g, err := s.Garment(ctx, id)
	if err != nil {
		return Adjusted{}, fmt.Errorf("adjusting a garment: %w", err)
	}
	p, err := s.Pattern(ctx, g.PatternID)
	if err != nil {
		return Adjusted{}, fmt.Errorf("adjusting a garment: %w", err)
	}
	g.Adjustments = steps
	return adjustedAs(p, g)
}

// WithStep puts a step among the adjustments of a garment, in place at counted from 1, or at
// the end for 0, as Adjust would. It refuses what cannot be.
func WithStep(g garment.Garment, p pattern.Pattern, at int, step adjust.Step) ([]adjust.Step, error) {
	step.AfterCut = isCut(g.State)
	if err := step.Validate(); err != nil {
		return nil, err
	}
	if step.AfterCut {
		if err := step.MayAfterCut(p); err != nil {
			return nil, err
		}
	}
	if err := mayChange(g, at); err != nil {
		return nil, err
	}
	out := slices.Clone(g.Adjustments)
	if at == 0 {
		out = append(out, step)
	} else {
		out[at-1] = step
	}
	if len(out) > mostAdjustments {
		return nil, invalid("Take one away first", "%s has %d adjustments already", g.Name, mostAdjustments)
	}
	return out, nil
}

// mostAdjustments is how many a garment may have (ours).
const mostAdjustments = 50

// isCut says whether cloth of a garment in a state is cut already.
func isCut(st garment.State) bool { return st.Step() >= garment.Cut.Step() }

// mayChange refuses to touch what the cloth was cut by.
func mayChange(g garment.Garment, at int) error {
	switch {
	case g.State == garment.GivenUp:
		return refused("Want it again first", "%s is given up", g.Name)
	case at < 0 || at > len(g.Adjustments):
		return invalid("Choose one of them", "%s has no adjustment %d", g.Name, at)
	case at > 0 && isCut(g.State) && !g.Adjustments[at-1].AfterCut:
		return refused("Add another one for what you found since", "%s is cut by it already", g.Name)
	}
	return nil
}

// Adjust adds an adjustment to a garment or changes one. Before its cloth is cut the outlines
// change: what is reserved is laid out again, or released where it finds no room. Its strips
// are worked out again. All of it is one act.
func (s *Studio) Adjust(ctx context.Context, f AdjustForm) (Adjustment, error) {
	verb := "Adjusted %s: %s"
	if f.At > 0 {
		verb = "Changed an adjustment of %s: %s"
	}
	words := f.Step.Words(s.style(ctx, measure.PieceLength).Exact)
	return s.readjust(ctx, f.GarmentID, func(name string) string { return fmt.Sprintf(verb, name, words) },
		func(g garment.Garment, p pattern.Pattern) ([]adjust.Step, error) { return WithStep(g, p, f.At, f.Step) })
}

// TakeOver adds several adjustments to a garment, as they were offered.
func (s *Studio) TakeOver(ctx context.Context, id stash.ID, steps []adjust.Step) (Adjustment, error) {
	if len(steps) == 0 {
		return Adjustment{}, invalid("Choose one at least", "Nothing is taken over")
	}
	write := s.style(ctx, measure.PieceLength).Exact
	return s.readjust(ctx, id, func(name string) string {
		var said []string
		for _, st := range steps {
			said = append(said, st.Words(write))
		}
		return fmt.Sprintf("Took over for %s: %s", name, strings.Join(said, "; "))
	}, func(g garment.Garment, p pattern.Pattern) (out []adjust.Step, err error) {
		for _, st := range steps {
			if out, err = WithStep(g, p, 0, st); err != nil {
				return nil, err
			}
			g.Adjustments = out
		}
		return out, nil
	})
}

// DropAdjustment takes an adjustment of a garment away, counted from 1. Cloth and strips follow
// as in Adjust.
func (s *Studio) DropAdjustment(ctx context.Context, id stash.ID, at int) (Adjustment, error) {
	return s.readjust(ctx, id, func(name string) string { return "Took an adjustment of " + name + " away" },
		func(g garment.Garment, _ pattern.Pattern) ([]adjust.Step, error) {
			if at < 1 {
				return nil, invalid("Choose one of them", "%s has no adjustment %d", g.Name, at)
			}
			if err := mayChange(g, at); err != nil {
				return nil, err
			}
			return slices.Delete(slices.Clone(g.Adjustments), at-1, at), nil
		})
}

// readjust gives a garment other adjustments, with all that follows, in one act.
func (s *Studio) readjust(ctx context.Context, id stash.ID, sentence func(name string) string, change func(garment.Garment, pattern.Pattern) ([]adjust.Step, error)) (Adjustment, error) {
	fail := func(err error) (Adjustment, error) {
		return Adjustment{}, fmt.Errorf("adjusting a garment: %w", err)
	}
	was, err := s.Garment(ctx, id)
	if err != nil {
		return fail(err)
	}
	p, err := s.Pattern(ctx, was.PatternID)
	if err != nil {
		return fail(err)
	}
	g := was
	if g.Adjustments, err = change(was, p); err != nil {
		return Adjustment{}, err
	}
	a, err := adjustedAs(p, g)
	if err != nil {
		return Adjustment{}, err
	}
	out := Adjustment{Garment: g, Notes: a.Notes}
	if err := s.followStrips(ctx, p, was, &out); err != nil {
		return fail(err)
	}
	plan, err := s.relay(ctx, p, was, out.Garment, a.Cut)
	if err != nil {
		return fail(err)
	}
	err = s.act(ctx, sentence(g.Name), func(tx Tx) error {
		now, err := tx.Garment(ctx, id)
		if err != nil {
			return err
		}
		if !reflect.DeepEqual(now.Adjustments, was.Adjustments) || now.State != was.State {
			return refused("Look at it again", "%s changed meanwhile", g.Name)
		}
		now.Adjustments, now.Strips = out.Garment.Adjustments, out.Garment.Strips
		now.Changed = s.today()
		if err := tx.PutGarment(ctx, now); err != nil {
			return err
		}
		return s.putRelaid(ctx, tx, plan)
	})
	if err != nil {
		return Adjustment{}, err
	}
	if out.Resized.Again, err = s.shares(ctx, plan.replaced); err != nil {
		return fail(err)
	}
	if out.Resized.Lost, err = s.shares(ctx, plan.lost); err != nil {
		return fail(err)
	}
	out.Garment, err = s.Garment(ctx, id)
	return out, err
}

// relaid is what of a garment's cloth is laid out again: what was seen of the cloths, and
// what becomes of what was reserved.
type relaid struct {
	seen []stash.ClothState
	laidAgain
}

// relay lays out again what is reserved for a garment whose outlines changed: where they lay if they
// still hold there, else wherever there is room. Strips stay.
func (s *Studio) relay(ctx context.Context, p pattern.Pattern, was, g garment.Garment, cut pattern.Pattern) (relaid, error) {
	var plan relaid
	if g.State != garment.Reserved {
		return plan, nil
	}
	before, err := asCut(p, was)
	if err != nil {
		return plan, err
	}
	if sameCut(before, cut, g.Size) {
		return plan, nil
	}
	set, err := s.Settings(ctx)
	if err != nil {
		return plan, err
	}
	cloths, err := cutPlan(ctx, s.Store, g.ID)
	if err != nil {
		return plan, err
	}
	for _, c := range cloths {
		plan.seen = append(plan.seen, c.Cloth)
		live := slices.Clone(c.Others)
		var off []stash.Reservation
		for _, r := range c.Cut {
			if r.UsedFor == pattern.Binding {
				live = append(live, r)
			} else {
				off = append(off, r)
			}
		}
		for _, r := range off {
			state := stash.StateOf(c.Cloth.Cloth, c.Cloth.Fabric, live, c.Cloth.Area)
			made, ok, err := s.whereItLay(state, before, cut, r, g.Size, set)
			if err != nil {
				return plan, err
			}
			if !ok {
				if made, ok, err = s.roomFor(ctx, state, g, r, set); err != nil {
					return plan, err
				}
			}
			live = plan.note(live, r, made, ok)
		}
	}
	return plan, nil
}

// whereItLay lays changed outlines where those of the pattern before lie; false where they do not hold there.
func (s *Studio) whereItLay(c stash.ClothState, before, cut pattern.Pattern, r stash.Reservation, size string, set Settings) (stash.Reservation, bool, error) {
	ask := func(p pattern.Pattern) (*match.Question, error) {
		return questionOf(p, Search{PatternID: p.ID, Size: size, Role: r.UsedFor}, set)
	}
	was, err := ask(before)
	if err != nil {
		return r, false, nil // the pattern asks for nothing of this use any more
	}
	now, err := ask(cut)
	if err != nil {
		return r, false, err
	}
	v, ok := now.InPlace(was, c, r.Pieces)
	if !ok || v.Grade > match.EnoughIf {
		return r, false, nil
	}
	made := s.reservations(r.GarmentID, Finding{Cloth: c, Verdict: v}, r.UsedFor)
	return made[0], len(made) == 1, nil
}

// sameCut says whether two patterns are cut alike in a size.
func sameCut(a, b pattern.Pattern, size string) bool {
	cuts := func(p pattern.Pattern) map[string]any {
		out := map[string]any{}
		for _, q := range p.Pieces {
			if o, ok := q.Outlines[size]; ok {
				out[q.Code] = []any{o.Cut, q.Cut, q.OnFold, q.Pairs}
			}
		}
		return out
	}
	return reflect.DeepEqual(cuts(a), cuts(b))
}

// putRelaid keeps what was laid out again inside an act, if the cloth is still as it was seen.
func (s *Studio) putRelaid(ctx context.Context, tx Tx, plan relaid) error {
	for _, c := range plan.seen {
		if err := reservedAsSeen(ctx, tx, c); err != nil {
			return err
		}
	}
	if err := s.releaseFor(ctx, tx, append(slices.Clone(plan.lost), plan.replaced...), "the garment was adjusted"); err != nil {
		return err
	}
	for _, r := range plan.made {
		if err := keep(ctx, tx, r); err != nil {
			return err
		}
	}
	return s.wantedAgain(ctx, tx, plan.lost)
}
