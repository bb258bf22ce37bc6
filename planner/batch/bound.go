package batch

import (
	"cmp"
	"math"
	"slices"
)

// bound is how many garments of each class and all before it can be made at most, whatever
// the layouts: what all earn at the best prices known. Loads nobody looked at
// count as possible, so it is a proof.
type bound struct {
	atMost []int
	price  [][]float64 // by class
	proofs int         // known at the last time
	rests  []*fact     // loads that it rests on and that nobody had looked at
}

func newBound(s *shape) bound {
	b := bound{atMost: make([]int, len(s.classes)), price: make([][]float64, len(s.classes))}
	for r, row := range s.Rows {
		b.atMost[s.class[r]] += row.Count
	}
	b.atMost = upTo(b.atMost)
	return b
}

const boundSteps = 60

// lower brings the bound down by what was proved since.
func (v *solver) lower() {
	reach := upTo(v.plan.Score.Made)
	unit := make([]float64, len(v.Rows))
	v.bound.proofs = v.proofs
	for k := range v.classes {
		for r := range v.Rows {
			if v.class[r] == k {
				unit[r] = 1
			}
		}
		if v.bound.atMost[k] > reach[k] && !v.ended() {
			m := market{shape: v.shape, unit: unit, earn: v.earn}
			start := v.bound.price[k]
			if start == nil {
				start = m.start()
			}
			p := m.settle(start, float64(reach[k]), float64(reach[k])+1-1e-6, boundSteps)
			v.bound.price[k] = slices.Clone(p.slot)
			v.bound.atMost[k] = max(reach[k], min(v.bound.atMost[k], int(math.Floor(p.total()+1e-6))))
		}
		if k > 0 { // a class adds no more than is wanted of it
			v.bound.atMost[k] = min(v.bound.atMost[k], v.bound.atMost[k-1]+v.wantedOf(k))
		}
	}
	for k := len(v.classes) - 2; k >= 0; k-- {
		v.bound.atMost[k] = min(v.bound.atMost[k], v.bound.atMost[k+1])
	}
	v.doubt(reach)
}

// doubt has the loads looked at that the bound rests on: either they fit, and promise a better
// plan, or a proof that they do not brings the bound down.
func (v *solver) doubt(reach []int) {
	v.bound.rests = nil
	k := len(v.classes) - 1
	price := v.bound.price[k]
	if price == nil || v.bound.atMost[k] == reach[k] {
		return
	}
	type load struct {
		f      *fact
		excess float64 // above what is known to fit
	}
	var all []load
	for c := range v.Cloths {
		l, worth := v.dearest(c, price)
		if len(l) == 0 {
			continue
		}
		if f := v.about(c, l); f.verdict == Unknown && f.efforts == 0 {
			all = append(all, load{f, worth - v.known(c, price)})
		}
	}
	slices.SortStableFunc(all, func(a, b load) int { return cmp.Compare(b.excess, a.excess) })
	for _, l := range all[:min(len(all), mostDoubts+len(v.Cloths)/8)] {
		v.propose(l.f)
		v.wishes = append(v.wishes, l.f)
		v.bound.rests = append(v.bound.rests, l.f)
	}
}

// mostDoubts bounds the loads of one bound that are looked at, beside some for many cloths.
const mostDoubts = 8

// known is what the best load known to fit on a cloth is worth at prices.
func (v *solver) known(cloth int, price []float64) float64 {
	best := 0.0
	for _, f := range v.fits[cloth] {
		sum := 0.0
		for _, s := range f.load {
			sum += float64(s.N) * price[v.slotAt[v.index(s.Task)][cloth]]
		}
		best = max(best, sum)
	}
	return best
}

// shaken says that a good part of the loads that the bound rests on were proved impossible.
func (b bound) shaken() bool {
	n := 0
	for _, f := range b.rests {
		if f.verdict == Impossible {
			n++
		}
	}
	return n > 0 && 4*n >= len(b.rests)
}

func (s *shape) wantedOf(class int) int {
	n := 0
	for r, row := range s.Rows {
		if s.class[r] == class {
			n += row.Count
		}
	}
	return n
}

// lowerAtTimes does so when enough is new.
func (v *solver) lowerAtTimes() {
	if v.proofs > v.bound.proofs+v.bound.proofs/4 || v.bound.shaken() || v.idle && v.proofs > v.bound.proofs {
		v.lower()
	}
}
