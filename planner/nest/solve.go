package nest

import (
	"context"
	"fmt"
	"math/rand/v2"
	"slices"
	"time"
)

// Solve answers one question. It refuses a bad instance with a reason, and
// never returns a layout that did not pass Check. When the context ends it
// returns what it has, within some milliseconds.
func Solve(ctx context.Context, in Instance, o Options) (Answer, error) {
	if err := in.Validate(); err != nil {
		return Answer{}, fmt.Errorf("laying out: %w", err)
	}
	if in.Ask != BestSubset {
		if b := bounds(in); b.Kind != NoBound {
			return Answer{Reason: Impossible, Why: b, Solution: nothingLaid(in)}, nil
		}
	}
	s := newSearch(ctx, in, o)
	defer s.stop()
	whole := s.o
	s.o = s.keepBack()
	reason := s.run()
	s.o = whole
	if s.done() { // also where the search was stopped for it
		reason = s.reason()
	}
	s.tidy()
	if !s.have { // else it passed when it was kept
		if err := Check(in, s.best); err != nil {
			return Answer{}, fmt.Errorf("checking the layout found: %w", err)
		}
	}
	return Answer{Solution: s.best, Reason: reason}, nil
}

// search keeps the best layout so far and how much of the budget is spent.
type search struct {
	ctx   context.Context
	p     *problem
	o     Options
	rng   *rand.Rand
	start time.Time
	steps int64
	best  Solution
	score score
	have  bool
	floor int64              // LeastLength: no layout is shorter
	stop  context.CancelFunc // ends the search when nothing better can be wanted

	searched bool // the best layout may come from more than a fill
}

// score compares solutions: what is left over first, then value, then length.
type score struct {
	left   int
	value  int64
	fabric int
	used   int64
}

func (a score) better(b score) bool {
	switch {
	case a.value != b.value:
		return a.value > b.value
	case a.left != b.left:
		return a.left < b.left
	case a.fabric != b.fabric:
		return a.fabric < b.fabric
	}
	return a.used < b.used
}

func newSearch(ctx context.Context, in Instance, o Options) *search {
	var given []Laid
	if o.Start != nil {
		given = o.Start.Laid
	}
	s := &search{o: o, rng: rand.New(rand.NewPCG(o.Seed, 0x7a11)), best: nothingLaid(in)}
	s.ctx, s.stop = context.WithCancel(ctx)
	s.p = newProblemFor(in, given, func() bool { return s.ctx.Err() != nil })
	if in.Ask == LeastLength && !o.FirstOnly {
		s.floor = leastLength(in)
	}
	if o.Clock != nil {
		s.start = o.Clock()
	}
	if o.Steps == 0 && o.Time == 0 {
		s.o.Steps = defaultSteps
	}
	return s
}

func (s *search) spent() bool {
	if s.o.Steps > 0 && s.steps >= s.o.Steps {
		return true
	}
	return s.o.Time > 0 && s.o.Clock != nil && s.o.Clock().Sub(s.start) >= s.o.Time
}

// run tries the fixed orders, then disturbs the best of them until the budget
// is spent: local search over the order of a bottom-left fill (Gomes, Oliveira,
// "A 2-exchange heuristic for nesting problems", 2002).
func (s *search) run() StopReason {
	s.takeStart()
	if s.done() || s.first() {
		return s.reason()
	}
	var top genome
	for i, g := range s.genomes() {
		sc, ok := s.try(g)
		if !ok {
			return Cancelled
		}
		if i == 0 || sc.better(top.score) {
			top = g
			top.score = sc
		}
		if s.done() {
			return s.reason()
		}
		if s.first() {
			return s.reason()
		}
	}
	if s.o.FillOnly {
		return s.reason()
	}
	s.searched = true
	clear(s.p.pairs) // of the fills; the search has its own, and both together take much room
	if s.raise() {
		if s.ctx.Err() != nil {
			return Cancelled
		}
		return s.reason()
	}
	for idle := 0; idle < stepsWithoutGain; idle++ {
		if s.ctx.Err() != nil {
			return Cancelled
		}
		if s.spent() {
			return s.reason()
		}
		g := top.disturbed(s.rng, s.p)
		sc, ok := s.try(g)
		if !ok {
			return Cancelled
		}
		if sc.better(top.score) {
			idle = 0
		}
		if !top.score.better(sc) {
			top = g
			top.score = sc
		}
		if s.done() || s.first() {
			return s.reason()
		}
	}
	return s.reason()
}

// first says whether the first layout that answers the question is all that is
// wanted, and there: FitsAll is not answered by a part of the items.
func (s *search) first() bool {
	return s.o.FirstOnly && s.have && (len(s.best.Left) == 0 || s.p.in.Ask == BestSubset)
}

// genomes are the first orders to try: none where a layout to go on from was given.
func (s *search) genomes() []genome {
	if s.o.Start != nil && s.have {
		return nil
	}
	return firstGenomes(s.p)
}

// done says whether nothing better can be wanted.
func (s *search) done() bool {
	return s.have && len(s.best.Left) == 0 && (s.p.in.Ask != LeastLength || s.score.used <= s.floor)
}

func (s *search) reason() StopReason {
	switch {
	case !s.done():
		return BudgetSpent
	case s.p.in.Ask == LeastLength:
		return Proved
	}
	return Found
}

// try fills by one genome and keeps the result if it is the best so far; false
// when the context ended on the way.
func (s *search) try(g genome) (score, bool) {
	sol, ok := s.fill(g)
	if !ok {
		return score{}, false
	}
	s.steps++
	sc := s.rate(sol)
	if !s.keep(sol) {
		return score{value: -1, left: len(sol.Left) + 1}, true
	}
	return sc, true
}

// keep makes a solution the best if it is, once it passed Check; it returns false
// when it didn't pass.
func (s *search) keep(sol Solution) bool {
	sc := s.rate(sol)
	if s.have && !sc.better(s.score) || !s.have && !s.acceptable(sol) {
		return true
	}
	if Check(s.p.in, sol) != nil {
		return false
	}
	s.best, s.score, s.have = sol, sc, true
	if s.o.Report != nil {
		s.o.Report(Progress{Best: sol, Steps: s.steps})
	}
	if in := s.p.in; in.Ask == LeastLength && s.done() {
		s.stop()
	}
	return true
}

// acceptable says whether a solution answers the question at all.
func (s *search) acceptable(sol Solution) bool {
	return len(sol.Left) == 0 || s.p.in.Ask == BestSubset || s.p.in.Ask == FitsAll
}

func (s *search) rate(sol Solution) score {
	sc := score{left: len(sol.Left), value: sol.Value}
	for _, u := range sol.Used {
		if u > 0 {
			sc.fabric++
			sc.used += u
		}
	}
	return sc
}

// fill lays the copies in the genome's order.
func (s *search) fill(g genome) (Solution, bool) {
	l := newLayout(s.p)
	copy(l.turn, g.turn)
	l.pins()
	var left []Copy
	dropped := make([]bool, len(s.p.in.Groups))
	for _, c := range g.order {
		if s.ctx.Err() != nil {
			return Solution{}, false
		}
		it := s.p.in.Items[c.Item]
		if c.Copy < len(it.Pinned) {
			continue
		}
		together := s.p.in.Ask == BestSubset && it.Group != NoGroup
		if together && dropped[it.Group] {
			left = append(left, c)
			continue
		}
		if !l.lay(c.Item, c.Copy) {
			if s.ctx.Err() != nil {
				return Solution{}, false
			}
			left = append(left, c)
			if together {
				dropped[it.Group] = true
				left = append(left, l.drop(it.Group)...)
			}
		}
	}
	return l.solution(left), true
}

// drop takes a whole group off again, when one of its items found no room.
func (l *layout) drop(group int) []Copy {
	var out []Copy
	for f, on := range l.placed {
		l.placed[f] = slices.DeleteFunc(on, func(b laidPose) bool {
			if l.p.in.Items[b.item].Group != group {
				return false
			}
			out = append(out, Copy{b.item, b.copy})
			return true
		})
	}
	return out
}

func (l *layout) solution(left []Copy) Solution {
	sol := Solution{Left: left, Used: make([]int64, len(l.p.cloths))}
	for f, on := range l.placed {
		start := l.p.cloths[f].start
		for _, b := range on {
			q := l.p.poses[b.pose]
			sol.Laid = append(sol.Laid, Laid{b.item, b.copy, f, q.placement(b.at)})
			sol.Used[f] = max(sol.Used[f], b.at.X+q.box.Max.X-start)
			sol.Value += l.p.in.Items[b.item].Value
		}
	}
	slices.SortFunc(sol.Laid, func(a, b Laid) int {
		if a.Item != b.Item {
			return a.Item - b.Item
		}
		return a.Copy - b.Copy
	})
	return sol
}

func nothingLaid(in Instance) Solution {
	return Solution{Used: make([]int64, len(in.Fabrics)), Left: copies(in)}
}

// copies lists every copy of every item.
func copies(in Instance) []Copy {
	var out []Copy
	for i, it := range in.Items {
		for k := range max(it.Count, 1) {
			out = append(out, Copy{i, k})
		}
	}
	return out
}
