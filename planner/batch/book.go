package batch

import (
	"context"
	"fmt"
	"slices"
	"sync"
	"sync/atomic"
)

// fact is what is known about a load on a cloth.
type fact struct {
	cloth   int
	load    Load
	key     string
	area    int64
	size    int
	verdict Verdict
	efforts int // tried so far: 0, 1 … efforts-1
	waste   int64
	ref     int
	open    bool // waits among the candidates
	dead    bool // a part of it was tried with most effort in vain
}

// failed says that the load was looked at and not found.
func (f *fact) failed() bool { return f.verdict == Impossible || f.verdict == Unknown && f.efforts > 0 }

// book keeps what the Layer answered, by cloth.
type book struct {
	*shape
	layer      Layer
	workers    int
	mostEffort int
	ended      func() bool // by the caller or the clock
	facts      []map[string]*fact
	fits       [][]*fact
	never      [][]*fact // loads proved impossible that hold no smaller such load
	open       [][]*fact // candidates
	odds       odds
	tried      int
	proofs     int  // how many loads are in never
	crowded    bool // candidates had to be left out
	waiting    int
}

func newBook(s *shape, lay Layer, o Options, ended func() bool) *book {
	n := len(s.Cloths)
	b := &book{shape: s, layer: lay, workers: o.workers(), mostEffort: max(0, o.MostEffort), ended: ended,
		facts: make([]map[string]*fact, n), fits: make([][]*fact, n), never: make([][]*fact, n), open: make([][]*fact, n)}
	for c := range b.facts {
		b.facts[c] = map[string]*fact{}
	}
	return b
}

// about returns what is known about a load, which may be nothing yet.
func (b *book) about(cloth int, l Load) *fact {
	key := l.key()
	f := b.facts[cloth][key]
	if f == nil {
		f = &fact{cloth: cloth, load: l, key: key, area: b.loadArea(l), size: l.Size()}
		if !b.worth(cloth, l) || b.hopeless(cloth, l) {
			f.verdict = Impossible
		}
		b.facts[cloth][key] = f
	}
	return f
}

// hopeless says that a load holds one that was proved impossible.
func (b *book) hopeless(cloth int, l Load) bool {
	for _, f := range b.never[cloth] {
		if f.load.Within(l) {
			return true
		}
	}
	return false
}

// trial is one question to the Layer and its answer.
type trial struct {
	f       *fact
	verdict Verdict
	waste   int64
	ref     int
	err     error
	done    bool
}

// try asks the Layer about loads, each with one effort more than before, on all workers; what
// is already decided is not asked. Answers are noted in the order of the loads.
func (b *book) try(ctx context.Context, facts []*fact) error {
	trials := make([]trial, 0, len(facts))
	for _, f := range facts {
		if f.verdict == Unknown && f.efforts <= b.mostEffort {
			trials = append(trials, trial{f: f})
		}
	}
	b.share(len(trials), func(i int) {
		if t := &trials[i]; !b.ended() {
			t.verdict, t.waste, t.ref, t.err = b.layer.Lay(ctx, t.f.cloth, slices.Clone(t.f.load), t.f.efforts)
			t.done = true
		}
	})
	for _, t := range trials {
		if !t.done || t.err != nil && ctx.Err() != nil {
			continue
		}
		if t.err != nil {
			return fmt.Errorf("lay a load on cloth %d: %w", t.f.cloth, t.err)
		}
		b.note(t)
	}
	return nil
}

// share does n things on all workers.
func (b *book) share(n int, do func(int)) {
	var next atomic.Int64
	var group sync.WaitGroup
	for range min(b.workers, n) {
		group.Go(func() {
			for i := int(next.Add(1)) - 1; i < n; i = int(next.Add(1)) - 1 {
				do(i)
			}
		})
	}
	group.Wait()
}

// note takes an answer in.
func (b *book) note(t trial) {
	f := t.f
	if f.verdict != Unknown {
		return // an answer noted just before decides it
	}
	b.tried++
	b.odds.note(b.fullness(f), f.efforts, t.verdict == Fits)
	f.efforts++
	f.verdict = t.verdict
	switch t.verdict {
	case Fits:
		f.waste, f.ref = max(0, t.waste), t.ref
		b.fits[f.cloth] = append(b.fits[f.cloth], f)
		b.grow(f)
	case Impossible:
		b.refuse(f)
	}
}

// refuse notes a proof; loads that hold this one are impossible as well.
func (b *book) refuse(f *fact) {
	b.proofs++
	never := slices.DeleteFunc(b.never[f.cloth], func(g *fact) bool { return f.load.Within(g.load) })
	b.never[f.cloth] = append(never, f)
	for _, g := range b.open[f.cloth] {
		if g.verdict == Unknown && f.load.Within(g.load) {
			g.verdict = Impossible
		}
	}
}

func (b *book) fullness(f *fact) float64 {
	if b.Cloths[f.cloth].Area == 0 {
		return 1
	}
	return float64(f.area) / float64(b.Cloths[f.cloth].Area)
}

// endedBy returns the test for the end of the time given.
func endedBy(ctx context.Context, o Options) func() bool {
	if o.Clock == nil || o.Time <= 0 {
		return func() bool { return ctx.Err() != nil }
	}
	var late atomic.Bool
	end := o.Clock().Add(o.Time)
	var mu sync.Mutex // a clock for tests need not be safe
	return func() bool {
		if ctx.Err() != nil || late.Load() {
			return true
		}
		mu.Lock()
		defer mu.Unlock()
		if o.Clock().Before(end) {
			return false
		}
		late.Store(true)
		return true
	}
}
