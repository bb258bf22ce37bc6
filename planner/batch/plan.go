package batch

import (
	"cmp"
	"slices"
)

// Cut is what one cloth is cut into.
type Cut struct {
	Cloth int
	Load  Load
	Waste int64 // µm²
	Ref   int   // what the Layer named the layout
}

// Made is one garment: the cloth of each role.
type Made struct {
	Row    int
	Cloths []int
}

// Plan says what is made from what.
type Plan struct {
	Cuts  []Cut  // by cloth
	Made  []Made // by row
	Score Score
	// Classes are the priorities in order.
	Classes []int
	// AtMost is how many garments of each priority class, that class and all before it
	// together, can be made whatever the layouts: a proof.
	AtMost []int
	// Best says that no better choice exists among the layouts found and that every load was
	// decided, or that no layouts whatever make more garments (the bound is met in full).
	Best bool
	// Exact says that the choice among the layouts found is proved; otherwise states had
	// to be dropped and a better choice may exist.
	Exact bool
	// Decided says that every load is known to fit or proved impossible.
	Decided bool
	// Complete says that every candidate was tried up to the most effort.
	Complete bool
	// Tried counts the questions to the Layer, Candidates the loads that wait to be tried or
	// to be tried with more effort.
	Tried, Candidates int
	// Round is the round that ended last.
	Round int
}

// Score is what a plan comes to.
type Score struct {
	Pins   int   // pinned copies of tasks that lie where they are pinned
	Made   []int // garments by class
	First  int   // cloths marked First that are cut into
	Whole  int   // whole lengths cut into
	Cloths int   // cloths cut into
	Waste  int64 // µm²
}

// Compare is positive where s is better than t in an order of criteria: pins, then
// garments by class, then the criteria.
func (s Score) Compare(t Score, order []Criterion) int {
	if c := cmp.Or(cmp.Compare(s.Pins, t.Pins), slices.Compare(s.Made, t.Made)); c != 0 {
		return c
	}
	return s.compareRest(t, order)
}

func (s Score) compareRest(t Score, order []Criterion) int {
	for _, c := range order {
		d := 0
		switch c {
		case UseFirst:
			d = cmp.Compare(s.First, t.First)
		case FewestWhole:
			d = cmp.Compare(t.Whole, s.Whole)
		case LeastWaste:
			d = cmp.Compare(t.Waste, s.Waste)
		case FewestCloths:
			d = cmp.Compare(t.Cloths, s.Cloths)
		}
		if d != 0 {
			return d
		}
	}
	return 0
}

// cutInto adds a cut of a cloth.
func (s *Score) cutInto(c Cloth, waste int64) {
	s.Cloths++
	s.Waste += waste
	if c.First {
		s.First++
	}
	if c.Whole {
		s.Whole++
	}
}

// upTo returns garments of each class together with all before it.
func upTo(made []int) []int {
	out := slices.Clone(made)
	for i := 1; i < len(out); i++ {
		out[i] += out[i-1]
	}
	return out
}
