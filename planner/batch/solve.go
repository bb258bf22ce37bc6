package batch

import (
	"context"
	"runtime"
	"slices"
	"time"
)

// Options say how long to go on.
type Options struct {
	// Workers lay at the same time; 0 takes as many as there are processors.
	Workers int
	// Rounds is a budget that gives the same answer every time with any number of workers; 0: none.
	Rounds int
	// Time is a budget by the Clock; without a clock it is not looked at.
	Time  time.Duration
	Clock func() time.Time
	// MostEffort is the longest search that is asked of the Layer.
	MostEffort int
	// Report is told each better plan or bound and the end of each round, from the goroutine that
	// called Solve.
	Report func(Plan)
	// Start is a plan to go on from: its loads are tried first.
	Start *Plan
}

func (o Options) workers() int {
	if o.Workers > 0 {
		return o.Workers
	}
	return runtime.GOMAXPROCS(0)
}

// solver is one call of Solve.
type solver struct {
	*book
	o             Options
	facts         []*fact // the best choice so far, by cloth
	plan          Plan
	bound         bound
	chosen        int       // how many loads were known to fit at the last choice
	idle          bool      // nothing is left to try
	price, earned []float64 // at the last choice, by slot and by cloth
	guide         weights
	looked        int     // windows so far
	barren        int     // choices since one found something
	wishes        []*fact // loads to be tried next
}

// Solve plans a batch. It returns the best plan found when everything was tried, the budget is used
// up or the context ends; an error of a cancelled context only where there is no plan at
// all. An error of the Layer comes with the best plan so far.
func Solve(ctx context.Context, p Problem, lay Layer, o Options) (Plan, error) {
	if err := p.Validate(); err != nil {
		return Plan{}, err
	}
	s := newShape(p)
	v := &solver{book: newBook(s, lay, o, endedBy(ctx, o)), o: o, facts: make([]*fact, len(p.Cloths))}
	v.plan, _ = s.plan(v.facts)
	v.bound = newBound(s)
	v.plan.AtMost = slices.Clone(v.bound.atMost)
	err := v.work(ctx)
	if err == nil && ctx.Err() != nil && len(v.plan.Made) == 0 {
		err = context.Cause(ctx)
	}
	return v.plan, err
}

// work makes first plans, then goes round by round.
func (v *solver) work(ctx context.Context) error {
	if err := v.begin(ctx); err != nil {
		return err
	}
	for !v.ended() && !v.idle && (v.o.Rounds == 0 || v.plan.Round < v.o.Rounds) {
		if err := v.round(ctx); err != nil {
			return err
		}
	}
	return nil
}

// adopt takes a choice if it is better than the one there is.
func (v *solver) adopt(facts []*fact) bool {
	p, ok := v.shape.plan(facts)
	if !ok || p.Score.Compare(v.plan.Score, v.order()) <= 0 {
		return false
	}
	v.facts = slices.Clone(facts)
	v.plan.Cuts, v.plan.Made, v.plan.Score = p.Cuts, p.Made, p.Score
	return true
}

// report tells the caller what there is now.
func (v *solver) report() {
	v.plan.Tried, v.plan.Candidates = v.tried, v.waiting
	v.plan.AtMost = slices.Clone(v.bound.atMost)
	v.plan.Best = v.plan.Exact && v.plan.Decided || slices.Equal(upTo(v.plan.Score.Made), v.plan.AtMost)
	if v.o.Report != nil {
		v.o.Report(v.plan)
	}
}
