package match

import (
	"context"
	"fmt"
	"math"
	"sync"

	"tallycloth/planner/nest"
)

// Effort of a search.
const (
	// usualSteps bounds, in steps of the layout engine, the search for a shorter
	// layout where the first does not serve: its other orders of laying and a first
	// attempt to shorten. A shelf is to be answered in seconds. Measured on the demo
	// patterns, 108 questions: forty times the steps changed no grade, and what is
	// missing by 8 mm at most.
	usualSteps = 1
	// worthSearching: a first layout that needs more than this share over what is
	// there is not searched further; so short a search gains less (ours).
	worthSearching = 1.1
	// densest is the share of a cloth's area that a garment's few large pieces never
	// cover (ours; cutters plan 80–90 % for many garments in one lay).
	densest = 0.95
)

// far is the length of a layout that does not exist.
const far = math.MaxInt64 / 4

// shelfLayout is the shortest layout found on one bed of open length: at once, and
// after a bounded search.
type shelfLayout struct {
	mu      sync.Mutex
	tried   int // 0, 1 at once, 2 searched
	least   [2]int64
	layout  [2]nest.Solution
	checked [2]bool // the layout was checked, as it lies and on an open cloth
}

// shelfLayouts are the layouts of a question and of those that differ from it by strips.
type shelfLayouts struct {
	mu sync.Mutex
	of map[layKey]*shelfLayout
}

// layKey is what a layout of open length depends on.
type layKey struct {
	bed   bed
	among *Question // whose strips lie among the pattern pieces; nil where none do
}

// sharedOn is the layout on a bed, which may still have to be worked out.
func (q *Question) sharedOn(b bed) *shelfLayout {
	key := layKey{bed: b}
	if b.strips > 0 {
		key.among = q
	}
	q.lays.mu.Lock()
	defer q.lays.mu.Unlock()
	s := q.lays.of[key]
	if s == nil {
		s = &shelfLayout{}
		q.lays.of[key] = s
	}
	return s
}

// least returns the length the pattern pieces take on a bed, at once or after the
// search, with the layout; far when they do not lie on it. It is the same for every
// cloth with this bed.
func (q *Question) least(ctx context.Context, b bed, searched bool) (int64, nest.Solution, error) {
	s := q.sharedOn(b)
	s.mu.Lock()
	defer s.mu.Unlock()
	want := 0
	if searched {
		want = 1
	}
	for s.tried <= want {
		if err := q.solveShared(ctx, b, s); err != nil {
			return 0, nest.Solution{}, err
		}
	}
	return s.least[want], s.layout[want], nil
}

// solveShared does the next stage. A search never ends worse than the first layout,
// nor than what a stricter bed takes.
func (q *Question) solveShared(ctx context.Context, b bed, s *shelfLayout) error {
	items := q.items(b, scale{})
	if len(items) == 0 { // strips alone
		s.tried++
		return nil
	}
	start, from := int64(far), nest.Solution{}
	if s.tried == 1 {
		var err error
		if start, from, err = q.startOf(ctx, b); err != nil {
			return err
		}
	}
	if len(b.bands()) == 0 || s.tried == 1 && min(s.least[0], start) == far {
		s.least[s.tried] = far
		s.tried++
		return nil
	}
	in := q.instance(b, items, b.fabric(0), nest.LeastLength)
	o := nest.Options{Seed: 1, FirstOnly: true}
	if s.tried == 1 {
		o = nest.Options{Seed: 1, Steps: q.steps()}
		if start < s.least[0] {
			o.Start = &from
		}
	}
	a, err := nest.Solve(ctx, in, o)
	if err != nil {
		return fmt.Errorf("laying the pattern pieces out: %w", err)
	}
	if a.Reason == nest.Cancelled || ctx.Err() != nil {
		return context.Cause(ctx)
	}
	s.least[s.tried], s.layout[s.tried] = far, a.Solution
	if len(a.Solution.Left) == 0 {
		s.least[s.tried] = a.Solution.Used[0]
	}
	if s.tried == 1 && s.least[0] <= s.least[1] {
		s.least[1], s.layout[1] = s.least[0], s.layout[0]
	}
	s.tried++
	return nil
}

func (q *Question) steps() int64 {
	if q.ask.Steps > 0 {
		return q.ask.Steps
	}
	return usualSteps
}

// area is what the pattern pieces and strips of the question cover, in µm².
func (q *Question) area() int64 {
	var sum int64
	for _, p := range q.parts {
		sum += p.whole.Area() * int64(max(p.piece.Cut, 1))
	}
	for _, s := range q.ask.Strips {
		sum += int64(s.Length) * int64(s.Width) * int64(max(s.Count, 1))
	}
	return sum
}
