package nest

import (
	"context"
	"math"
	"math/rand/v2"
	"sync"
	"sync/atomic"
	"time"
)

// crew is a number of workers that search the same game, each with its own board
// and random numbers. They share the best layout: whoever finds a shorter one,
// the others go on from it.
type crew struct {
	ctx    context.Context
	g      *game
	o      Options
	start  time.Time
	length atomic.Uint64 // bits of the least length so far
	moves  atomic.Int64
	over   atomic.Bool // nothing more is wanted
	mu     sync.Mutex
	best   *board
	found  chan Solution
}

func newCrew(ctx context.Context, g *game, o Options, start time.Time, first *board) *crew {
	c := &crew{ctx: ctx, g: g, o: o, start: start, best: newBoard(g), found: make(chan Solution, 1)}
	c.best.copyFrom(first)
	c.setLength(first.used())
	return c
}

func (c *crew) setLength(v float64)  { c.length.Store(math.Float64bits(v)) }
func (c *crew) leastLength() float64 { return math.Float64frombits(c.length.Load()) }

// spent is the share of the budget used so far, 1 or more when it is all gone.
func (c *crew) spent() float64 {
	share := 0.0
	if c.o.Steps > 0 {
		share = float64(c.moves.Load()) / movesPerStep / float64(c.o.Steps)
	}
	if c.o.Time > 0 && c.o.Clock != nil {
		share = max(share, float64(c.o.Clock().Sub(c.start))/float64(c.o.Time))
	}
	if c.over.Load() || c.ctx.Err() != nil {
		return math.Inf(1)
	}
	return share
}

// steps is the work done so far in steps, begun ones included.
func (c *crew) steps() int64 { return (c.moves.Load() + movesPerStep - 1) / movesPerStep }

// run lets the workers do a job and hands every better layout to keep, from this
// goroutine; it returns when the budget is spent.
func (c *crew) run(job func(*worker), keep func(Solution)) {
	var wg sync.WaitGroup
	for k := range max(c.o.Workers, 1) {
		w := &worker{crew: c, separator: newSeparator(c.g, rand.New(rand.NewPCG(c.o.Seed, uint64(k)+1)))}
		wg.Go(func() { job(w) })
	}
	go func() {
		wg.Wait()
		close(c.found)
	}()
	for sol := range c.found {
		keep(sol)
	}
}

// offer settles a worker's board and makes it the best if it is shorter. It says
// whether the board could be settled.
func (c *crew) offer(b *board) bool {
	sol, ok := c.g.settle(b)
	if !ok {
		return false
	}
	c.mu.Lock()
	defer c.mu.Unlock()
	for i, l := range sol.index(c.g.copies) {
		b.put(i, place{b.at[i].site, float64(l.Place.At.X), float64(l.Place.At.Y)})
	}
	used := b.used()
	if used < c.leastLength() {
		c.best.copyFrom(b)
		c.setLength(used)
		c.found <- sol
	}
	return true
}

// adopt puts the best layout on a worker's board.
func (c *crew) adopt(b *board) {
	c.mu.Lock()
	defer c.mu.Unlock()
	b.copyFrom(c.best)
}

// index lists where each of the copies is laid.
func (sol Solution) index(set []Copy) []Laid {
	at := make(map[Copy]Laid, len(sol.Laid))
	for _, l := range sol.Laid {
		at[Copy{l.Item, l.Copy}] = l
	}
	out := make([]Laid, len(set))
	for i, c := range set {
		out[i] = at[c]
	}
	return out
}
