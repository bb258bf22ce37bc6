package batch

import (
	"cmp"
	"slices"
)

// mostOpen bounds the candidates kept, and so the memory; mostGrown the loads of one cloth that
// are grown from in every way.
const (
	mostOpen  = 150_000
	mostGrown = 400
)

// sow makes a candidate of every task on every cloth.
func (b *book) sow() {
	for c := range b.Cloths {
		for _, t := range b.tasks {
			b.propose(b.about(c, Load{{t, 1}}))
		}
	}
}

// grow proposes the loads of one task more than one that fits.
func (b *book) grow(f *fact) {
	if len(b.fits[f.cloth]) > mostGrown || b.waiting > mostOpen {
		b.crowded = true
		return
	}
	for _, t := range b.tasks {
		if f.load.Of(t) < b.Rows[t.Row].Count && f.area+b.area(t) <= b.Cloths[f.cloth].Area {
			b.propose(b.about(f.cloth, f.load.With(t, 1)))
		}
	}
}

// propose puts a load among the candidates.
func (b *book) propose(f *fact) {
	if f.verdict == Unknown && !f.open && f.efforts <= b.mostEffort && !f.dead {
		f.open = true
		b.open[f.cloth] = append(b.open[f.cloth], f)
		b.waiting++
	}
}

// sweep forgets candidates that are decided or cannot be tried harder.
func (b *book) sweep() {
	b.waiting = 0
	for c := range b.open {
		b.open[c] = slices.DeleteFunc(b.open[c], func(f *fact) bool {
			f.open = f.verdict == Unknown && f.efforts <= b.mostEffort && !f.dead
			return !f.open
		})
		b.waiting += len(b.open[c])
	}
}

// decided says that nothing about a cloth is unknown: every load fits or cannot.
func (b *book) decided(cloth int) bool {
	if b.crowded || len(b.open[cloth]) > 0 {
		return false
	}
	for _, f := range b.facts[cloth] {
		if f.verdict == Unknown {
			return false
		}
	}
	return true
}

// ready says whether a candidate is worth trying now: nothing of it failed, and if it is small all
// parts of it are known to fit.
func (b *book) ready(f *fact) bool {
	if f.verdict != Unknown {
		return false
	}
	if f.size == 1 {
		return true
	}
	for _, s := range f.load {
		part := b.about(f.cloth, f.load.With(s.Task, -1))
		switch {
		case part.verdict == Fits:
		case part.verdict == Impossible:
			f.verdict = Impossible
			return false
		case part.dead || part.efforts > b.mostEffort:
			f.dead = true // what could not be laid is not laid with more beside it
			return false
		case part.efforts > 0:
			return false
		case f.size <= sureSize:
			b.propose(part)
			return false
		}
	}
	return true
}

// sureSize is up to which size all parts of a load must be known before it is tried.
const sureSize = 3

// ranked is a candidate with its rank: the highest first.
type ranked struct {
	f    *fact
	rank float64
}

// pick returns the n best candidates by a rank, of those that are ready and not picked yet.
func (b *book) pick(n int, picked map[*fact]bool, rank func(*fact) float64) []*fact {
	var all []ranked
	for _, open := range b.open {
		for _, f := range open {
			if !picked[f] && f.verdict == Unknown {
				all = append(all, ranked{f, rank(f)})
			}
		}
	}
	slices.SortStableFunc(all, func(x, y ranked) int { return cmp.Compare(y.rank, x.rank) })
	var out []*fact
	for _, r := range all {
		if len(out) == n {
			break
		}
		if b.ready(r.f) {
			picked[r.f] = true
			out = append(out, r.f)
		}
	}
	return out
}
