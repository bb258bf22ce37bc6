package batch

import (
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
	if v.proofs > v.bound.proofs+v.bound.proofs/4 || v.idle && v.proofs > v.bound.proofs {
		v.lower()
	}
}
