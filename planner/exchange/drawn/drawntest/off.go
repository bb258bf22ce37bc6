package drawntest

import (
	"math"

	"tallycloth/stash/shape"
)

// Off is how far a point lies from the edge of a ring, in µm.
func Off(r shape.Ring, p shape.Point) float64 {
	best := math.Inf(1)
	for i, a := range r {
		ab, ap := r[(i+1)%len(r)].Sub(a), p.Sub(a)
		x, y := float64(ab.X), float64(ab.Y)
		k := 0.0
		if l := x*x + y*y; l > 0 {
			k = math.Max(0, math.Min(1, (float64(ap.X)*x+float64(ap.Y)*y)/l))
		}
		best = math.Min(best, math.Hypot(float64(ap.X)-k*x, float64(ap.Y)-k*y))
	}
	return best
}
