package nest

import (
	"context"
	"sync/atomic"
	"testing"

	"tallycloth/stash/shape"
)

// endlessQuestions do not answer themselves in few steps: each has every phase of a search.
func endlessQuestions() map[string]Instance {
	flaw := shape.Polygon{Outer: shape.Box{Min: shape.Point{X: 300_000, Y: 400_000}, Max: shape.Point{X: 380_000, Y: 500_000}}.Ring()}
	least, fits, subset := heap(15, 2000), heap(15, 2000), heap(15, 2000)
	least.Fabrics[0].Obstacles = []shape.Polygon{flaw}
	fits.Ask, fits.Fabrics[0].Length = FitsAll, 1_050_000
	subset.Ask, subset.Fabrics[0].Length = BestSubset, 1_000_000
	subset.Fabrics[0].Obstacles = []shape.Polygon{flaw}
	for i := range subset.Items {
		subset.Items[i].Value = subset.Items[i].Outline.Area() / 1_000_000
	}
	return map[string]Instance{"least length": least, "fits all": fits, "best subset": subset}
}

// TestEndsWhereverItLooks: a search looks at its context all along, within the first fill,
// within the drawing of regions and within the exact end. Wherever it is cancelled, it
// looks only some times more on its way out, and what it has by then passes Check.
func TestEndsWhereverItLooks(t *testing.T) {
	for name, in := range endlessQuestions() {
		filled := 0
		for _, at := range []int64{1, 2, 3, 10, 50, 100, 500, 1000, 2000, 5000, 20_000} {
			s := newSearch(context.Background(), in, Options{Steps: 40})
			var looks atomic.Int64
			s.p.ended = func() bool {
				if looks.Add(1) == at {
					s.stop()
				}
				return s.ctx.Err() != nil
			}
			s.run()
			s.tidy()
			s.stop()
			if more := looks.Load() - at; more > 2000 {
				t.Errorf("%s, cancelled at look %d: %d more", name, at, more)
			}
			if err := Check(in, s.best); err != nil {
				t.Errorf("%s, cancelled at look %d: %v", name, at, err)
			}
			if s.have {
				filled++
			}
		}
		if filled == 0 || filled == 11 {
			t.Errorf("%s: had a layout in %d of 11 cancels; both before and after the first should be tried", name, filled)
		}
	}
}
