package stashui

import (
	"testing"

	"tallycloth/planner/plannertest"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/stashtest"
	"tallycloth/ui/say"
)

// largeShelf is a shelf of 30 000 cloths of 10 000 fabrics, as the page keeps it.
func largeShelf() *shelfIndex {
	s := plannertest.LargeShelf(stashtest.IDs())
	fabrics := make([]stash.Fabric, s.Fabrics)
	for i := range fabrics {
		fabrics[i] = s.Fabric(i)
	}
	cloths := make([]stash.ClothState, s.Cloths)
	for i := range cloths {
		c := s.Cloth(i, fabrics[i%len(fabrics)])
		cloths[i] = stash.StateOf(c, fabrics[i%len(fabrics)], nil, c.Area())
	}
	stash.SortCloths(cloths)
	return indexOf(cloths, stash.StretchClasses{})
}

// BenchmarkFilter10k does what one sign typed into the filter of a large shelf asks for: the
// line is read, the cloth looked through, and the twenty rows in sight made.
func BenchmarkFilter10k(b *testing.B) {
	x := largeShelf()
	for _, text := range []string{"j", "jersey", "moss jersey hall cupboard", "knits, at least 1 m, stretch over 30 %, attic", "nothing is called so"} {
		b.Run(text, func(b *testing.B) {
			for b.Loop() {
				found := x.answer(readFilter(text, measure.Metre))
				for _, i := range found[:min(20, len(found))] {
					rowOf(say.Voice{}, x.cloths[i], x.longest)
				}
			}
		})
	}
}

// BenchmarkIndex10k is what a worker adds to reading a large shelf.
func BenchmarkIndex10k(b *testing.B) {
	cloths := largeShelf().cloths
	for b.Loop() {
		indexOf(cloths, stash.StretchClasses{})
	}
}
