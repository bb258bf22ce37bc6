package planner

import (
	"context"
	"fmt"
	"slices"
	"time"

	"tallycloth/planner/batch"
	"tallycloth/planner/leftover"
	"tallycloth/planner/match"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// BatchPlan says which garments of a batch are made from which cloth, each by a checked
// layout, and how far from the best that can be.
type BatchPlan struct {
	Cuts    []PlannedCut
	Made    []PlannedGarment // by row, in its order
	Missing []MissingGarment // rows of which not all can be made
	// Classes are the priorities in order; AtMost is how many garments of each and all before
	// it can be made whatever the layouts, by the areas and the proofs of what does not fit.
	Classes, AtMost []int
	Score           batch.Score
	Best            bool // nothing better exists: the bound is met, or everything was decided
	Complete        bool // all was tried that is worth it
	Tried, Waiting  int  // layouts tried so far, and those that may still be
}

// PlannedCut is one cloth with what is laid on it.
type PlannedCut struct {
	Cloth stash.ClothState // as it was planned on
	Parts []PlannedPart
	Left  []leftover.Leftover // worth keeping, the largest first
	Waste measure.Area
	Whole bool           // a whole length is cut into
	Used  measure.Length // how far the layouts reach
}

// PlannedPart is one use of fabric of one garment on a cloth.
type PlannedPart struct {
	Garment int // index into Made
	Role    string
	Layout  match.Layout
	Keep    shape.Ring `json:",omitempty"` // by the yardage table
	Ifs     []match.If `json:",omitempty"`
}

// PlannedGarment is one garment that the plan makes.
type PlannedGarment struct {
	Row    int
	Number int        // 1 … of its row
	Cloths []stash.ID // of each use, main first
}

// MissingGarment is a row of which some garments find no cloth.
type MissingGarment struct {
	Row, Count int
}

// AtMostMore is how many more garments than planned could be made at most, whatever the layouts.
func (p BatchPlan) AtMostMore() int {
	if len(p.AtMost) == 0 {
		return 0
	}
	return max(p.AtMost[len(p.AtMost)-1]-len(p.Made), 0)
}

// BatchEffort bounds the planning of a batch; the zero value is the usual minute.
type BatchEffort struct {
	Time   time.Duration
	Rounds int // the same work on any machine, for tests
	// From is a batch with its plan to go on from: what it cuts is tried first, and where it
	// still answers the question nothing worse is returned.
	From *Batch
}

// usualPlanning is how long a batch is planned before it ends by itself (ours).
const usualPlanning = time.Minute

// PlanBatch looks which garments of a batch the shelf can give. Better plans are reported as
// they come, from one goroutine (report may be nil). When the effort is spent, or the context
// ends with something planned already, the best so far is returned without an error.
func (s *Studio) PlanBatch(ctx context.Context, b Batch, e BatchEffort, report func(BatchPlan)) (BatchPlan, error) {
	w, err := s.bench(ctx, b)
	if err != nil {
		return BatchPlan{}, err
	}
	o := batch.Options{Workers: s.workers, Rounds: e.Rounds, Time: e.Time, MostEffort: len(layingSteps) - 1}
	if e.Time == 0 && e.Rounds == 0 {
		o.Time = usualPlanning
	}
	o.Start = w.start(e.From)
	if o.Time > 0 {
		o.Clock = s.now
	}
	if report != nil {
		o.Report = func(p batch.Plan) { report(w.plan(p)) }
	}
	if len(w.cloths) == 0 {
		return w.plan(batch.Plan{Best: true, Complete: true}), nil
	}
	p, err := batch.Solve(ctx, w.problem(), w, o)
	if err != nil {
		return BatchPlan{}, fmt.Errorf("planning %s: %w", b.title(), err)
	}
	return w.better(w.plan(p), e.From), nil
}

// better is a plan, or the one made before if that still stands and is better. A bound that
// was found before still holds then.
func (w *bench) better(p BatchPlan, from *Batch) BatchPlan {
	if !w.stands(from) {
		return p
	}
	old := *from.Plan
	for k := range p.AtMost {
		if k < len(old.AtMost) {
			p.AtMost[k] = min(p.AtMost[k], old.AtMost[k])
		}
	}
	if old.Score.Compare(p.Score, w.ask.order()) <= 0 {
		return p
	}
	old.AtMost, old.Tried, old.Waiting, old.Complete = p.AtMost, p.Tried, p.Waiting, p.Complete
	return old
}

// bench loads what a batch is planned from.
func (s *Studio) bench(ctx context.Context, b Batch) (*bench, error) {
	fail := func(err error) (*bench, error) { return nil, fmt.Errorf("planning %s: %w", b.title(), err) }
	all, err := s.Patterns(ctx)
	if err != nil {
		return fail(err)
	}
	patterns := map[stash.ID]pattern.Pattern{}
	for _, p := range all {
		patterns[p.ID] = p
	}
	cloths, err := s.Cloths(ctx)
	if err != nil {
		return fail(err)
	}
	set, err := s.Settings(ctx)
	if err != nil {
		return fail(err)
	}
	return newBench(b, patterns, cloths, set)
}

// plan turns what the solver found into what is cut from what.
func (w *bench) plan(p batch.Plan) BatchPlan {
	out := BatchPlan{Classes: p.Classes, AtMost: p.AtMost, Score: p.Score, Best: p.Best, Complete: p.Complete, Tried: p.Tried, Waiting: p.Candidates}
	made := make([]int, len(w.ask.Rows))
	for _, m := range p.Made {
		made[m.Row]++
		g := PlannedGarment{Row: m.Row, Number: made[m.Row]}
		for _, c := range m.Cloths {
			g.Cloths = append(g.Cloths, w.cloths[c].Cloth.ID)
		}
		out.Made = append(out.Made, g)
	}
	for i, row := range w.ask.Rows {
		if n := row.count() - made[i]; n > 0 {
			out.Missing = append(out.Missing, MissingGarment{Row: i, Count: n})
		}
	}
	for _, c := range p.Cuts {
		out.Cuts = append(out.Cuts, w.cut(c, p.Made))
	}
	return out
}

// cut is what one cloth is cut into: the parts of the garments that the plan makes from it.
func (w *bench) cut(c batch.Cut, made []batch.Made) PlannedCut {
	w.mu.Lock()
	lie := w.laid[c.Ref]
	w.mu.Unlock()
	lie.once.Do(func() { lie.left, lie.waste = remains(w.cloths[c.Cloth], lie.lie.Pieces(), w.keep) })
	out := PlannedCut{Cloth: w.cloths[c.Cloth], Left: lie.left, Waste: lie.waste, Whole: WholeLength(w.cloths[c.Cloth]), Used: lie.lie.Used}
	at := 0
	for k, share := range lie.load {
		var takers []int
		for g, m := range made {
			if m.Row == share.Row && m.Cloths[share.Role] == c.Cloth {
				takers = append(takers, g)
			}
		}
		for n, g := range takers[:min(len(takers), share.N)] {
			part := PlannedPart{Garment: g, Role: w.uses[share.Row][share.Role].role, Layout: lie.lie.Layouts[at+n]}
			if len(lie.lie.Keep) > 0 {
				part.Keep = lie.lie.Keep[at+n]
			}
			part.Ifs = append(slices.Clone(w.suits[c.Cloth][share.Row][share.Role].ifs), lie.lie.Ifs[k]...)
			out.Parts = append(out.Parts, part)
		}
		at += share.N
	}
	if len(out.outlines()) < len(lie.lie.Pieces()) { // a part of the load: less is cut
		out.Left, out.Waste = remains(out.Cloth, out.outlines(), w.keep)
	}
	return out
}

// outlines are what is cut from the cloth, or kept of it.
func (c PlannedCut) outlines() []shape.Ring {
	var out []shape.Ring
	for _, p := range c.Parts {
		if len(p.Keep) > 0 {
			out = append(out, p.Keep)
		}
		for _, q := range p.Layout.Pieces {
			out = append(out, q.Outline)
		}
	}
	return out
}
