package match

import (
	"context"
	"fmt"
	"slices"
	"time"

	"tallycloth/planner/nest"
	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// fits asks the engine for any layout of everything.
const fits = nest.FitsAll

// Trying says how a search goes on from a layout.
type Trying struct {
	Keep    []bool // by piece of the layout: stays where it lies
	Seed    uint64
	Steps   int64         // a budget in steps of the engine, deterministic with one worker; 0 for none
	Time    time.Duration // a budget in time; needs Clock
	Clock   func() time.Time
	Workers int
	// Report, if not nil, is called at each improvement from one goroutine of the
	// search, which waits for it: it is to take the trial and return at once.
	Report func(Trial)
}

// Trial is what a search has so far. Making a Layout of it is left to who wants to see it.
type Trial struct {
	Laid, Of int            // outlines that found a place, of how many
	Length   measure.Length // that they take
	Steps    int64

	from *replay
	sol  nest.Solution
}

// Layout is the trial as it lies on the open cloth, and which of its pieces are kept in place.
func (t Trial) Layout() (Layout, []bool) { return t.from.layout(t.sol) }

// Tried is what came of a search that went on.
type Tried struct {
	Layout Layout
	Keep   []bool
	// Better says that the layout is another than the one to begin with, and better:
	// shorter, or without the faults that had.
	Better bool
	// Left is how many outlines found no place; the layout holds the others only.
	Left int
	// Proved says that no shorter layout exists with what is kept where it is.
	Proved bool
	// No bound says that no layout can exist with what is kept where it is.
	Impossible bool
}

// KeptWrong says that pieces which are to stay where they lie break a rule there.
type KeptWrong struct{ Faults []Fault }

func (k *KeptWrong) Error() string {
	return fmt.Sprintf("%s is kept in place and does not lie right there", k.Faults[0].Name)
}

// KeepTrying goes on searching from a layout on a cloth, as the cloth lies for it: folded
// or open. What is kept stays exactly where it is. A layout that breaks rules is set
// right first; then it is drawn together towards the start as long as the budget
// lasts. A layout without pieces begins from nothing, in one layer. When the context
// ends what it has is returned, without an error. The result breaks no rule and is
// never longer than the layout given, where that broke none.
func (q *Question) KeepTrying(ctx context.Context, c stash.ClothState, l Layout, t Trying) (Tried, error) {
	faults := q.Faults(c, l)
	if wrong := amongKept(faults, t.Keep); len(wrong) > 0 {
		return Tried{}, &KeptWrong{wrong}
	}
	s := &trying{q: q, c: c, t: t, out: Tried{Layout: l, Keep: t.Keep}}
	if len(l.Pieces) == 0 {
		s.out.Layout.StripParts = q.stripsAmong(c)
	}
	if t.Clock != nil {
		s.begun = t.Clock()
	}
	if len(faults) > 0 {
		if err := s.setRight(ctx); err != nil || s.out.Left > 0 || s.out.Impossible {
			return s.out, err
		}
	}
	s.goOn, s.length = true, q.LengthOf(c, s.out.Layout)
	for round := 0; s.goOn && ctx.Err() == nil; round++ {
		if err := s.drawTogether(ctx, round); err != nil {
			return s.out, err
		}
	}
	return s.out, nil
}

// amongKept are the faults that only pieces which stay are part of.
func amongKept(faults []Fault, keep []bool) []Fault {
	kept := func(i int) bool { return i >= 0 && i < len(keep) && keep[i] }
	return slices.DeleteFunc(slices.Clone(faults), func(f Fault) bool {
		return !kept(f.Piece) || f.Other >= 0 && !kept(f.Other) || f.Kind == OffRepeat || f.Kind == NotMirrored
	})
}

// trying is a search that goes on in rounds.
type trying struct {
	q      *Question
	c      stash.ClothState
	t      Trying
	out    Tried
	begun  time.Time
	steps  int64
	length measure.Length
	goOn   bool
}

// options are those of one round with a share of what is left of the budget.
func (s *trying) options(r *replay, share int, seed uint64) nest.Options {
	o := nest.Options{Seed: s.t.Seed + seed, Workers: s.t.Workers, Clock: s.t.Clock}
	if s.t.Steps > 0 {
		o.Steps = max((s.t.Steps-s.steps)/int64(share), 1)
	}
	if s.t.Time > 0 && s.t.Clock != nil {
		o.Time = max((s.t.Time-s.t.Clock().Sub(s.begun))/time.Duration(share), time.Millisecond)
	}
	if report := s.t.Report; report != nil {
		of := len(r.start.Laid) + len(r.start.Left)
		o.Report = func(p nest.Progress) {
			report(Trial{Laid: len(p.Best.Laid), Of: of, Length: measure.Length(p.Best.Used[0]), Steps: s.steps + p.Steps, from: r, sol: p.Best})
		}
	}
	return o
}

// setRight looks for a layout of everything on the cloth as it is.
func (s *trying) setRight(ctx context.Context) error {
	r, err := s.replay(fits)
	if err != nil {
		return err
	}
	o := s.options(r, 1, 0)
	if len(r.start.Laid) > 0 {
		o.Start = &r.start
	}
	a, err := nest.Solve(ctx, r.in, o)
	switch {
	case err != nil:
		return fmt.Errorf("setting the layout right: %w", err)
	case a.Reason == nest.Impossible:
		s.out.Impossible, s.out.Left = true, len(a.Solution.Left)
		return nil
	}
	s.out.Left = len(a.Solution.Left)
	s.steps += o.Steps / 2
	return s.take(r, a.Solution)
}

// roundsOf is how the budget in time is shared: an eighth, an eighth, a quarter, a half. Each
// round starts again from the best; within a round the engine first explores, then
// compresses, so a long one at once would show its best late.
var roundsOf = []int{8, 7, 3, 1}

// drawTogether goes on from the best layout for a round.
func (s *trying) drawTogether(ctx context.Context, round int) error {
	share := 1
	if s.t.Time > 0 {
		share = roundsOf[min(round, len(roundsOf)-1)]
	}
	s.goOn = share > 1
	r, err := s.replay(nest.LeastLength)
	if err != nil {
		return err
	}
	o := s.options(r, share, uint64(round))
	o.Start = &r.start
	a, err := nest.Solve(ctx, r.in, o)
	if err != nil {
		return fmt.Errorf("going on from the layout: %w", err)
	}
	if a.Reason == nest.Proved {
		s.out.Proved, s.goOn = true, false
	}
	if len(a.Solution.Left) > 0 || a.Solution.Used[0] >= r.start.Used[0] {
		return nil
	}
	return s.take(r, a.Solution)
}

func (s *trying) replay(ask nest.Ask) (*replay, error) {
	length := int64(0)
	if ask == fits {
		length = usableOf(s.c, s.q.ask.EndLoss).length
	}
	r, err := s.q.replay(s.c, s.out.Layout, s.out.Keep, length, ask)
	if err != nil {
		return nil, fmt.Errorf("going on from the layout: %w", err)
	}
	return &r, nil
}

// take takes a solution over as the layout, once it passed every rule.
func (s *trying) take(r *replay, sol nest.Solution) error {
	l, keep := r.layout(sol)
	if s.out.Left == 0 {
		if f := s.q.Faults(s.c, l); len(f) > 0 {
			return fmt.Errorf("the layout found breaks a rule (%d at %s)", f[0].Kind, f[0].Name)
		}
		s.out.Better = true
	}
	s.out.Layout, s.out.Keep = l, keep
	return nil
}

// stripsAmong is into how many parts strips are cut where a layout begins from nothing:
// whole, or in two where one of them is longer than the cloth is wide.
func (q *Question) stripsAmong(c stash.ClothState) int {
	if len(q.ask.Strips) == 0 {
		return 0
	}
	u := usableOf(c, q.ask.EndLoss)
	for _, s := range q.ask.Strips {
		if s.MayJoin && int64(s.Length) > u.width {
			return 2
		}
	}
	return 1
}

// Proved is the verdict that a layout without faults proves on a cloth: how good it is is
// measured anew from where its pieces lie.
func (q *Question) Proved(c stash.ClothState, l Layout) Verdict {
	u := usableOf(c, q.ask.EndLoss)
	o := q.onOpen(c, l)
	lie := quantity{proof: ByLayout, layout: &l, ifs: bedConditions(o.b, q.ask.Fold && !o.b.turned && c.Cloth.Plain())}
	used := int64(q.LengthOf(c, l))
	end := max(used, reservedEnd(c)-u.box.Min.X)
	lie.spare = measure.Length(max(u.length-end, 0))
	if !c.Cloth.Plain() {
		lie.spare = measure.Length(max(u.box.Length()-end, 0))
	}
	lie.grade = graded(lie.spare < q.ask.Tight.Length, lie.ifs)
	lie.reasons = []Reason{u.along(used, u.length)}
	if c.Cloth.Plain() && len(l.Pieces) > 0 {
		var wide measure.Length
		wide, lie.side = q.across(u, l.Pieces)
		lie.reasons = append(lie.reasons, u.across(int64(wide)))
	}
	if u.washing() {
		lie.ifs = append(lie.ifs, If{Condition: WashFirst, Percent: u.dcLength, Assumed: u.assumed})
	}
	return merged(c.Cloth.ID, suits(q.role, c.Fabric, o.b.turned), q.noted(c, lie), o.b.turned)
}
