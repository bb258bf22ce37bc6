package nesttest

import (
	"math"
	"math/rand/v2"

	"tallycloth/stash/shape"
)

// mm is one millimetre in µm.
const mm = 1000

// Star returns a valid outline of 3 to n corners about its origin, most of it
// not convex: corners at rising angles and random distances from reach/4 to
// reach µm.
func Star(rng *rand.Rand, n int, reach int64) shape.Ring {
	for {
		corners := 3 + rng.IntN(max(n-2, 1))
		var r shape.Ring
		for i := range corners {
			turn := 2 * math.Pi * (float64(i) + 0.8*rng.Float64()) / float64(corners)
			far := float64(reach) * (0.25 + 0.75*rng.Float64())
			r = append(r, shape.Point{X: int64(far * math.Cos(turn)), Y: int64(far * math.Sin(turn))})
		}
		if r = r.Clean(); r.Validate() == nil {
			return r
		}
	}
}

// Half returns a valid outline in y ≥ 0 whose straight edge lies on y = 0: half
// a pattern piece for the fold.
func Half(rng *rand.Rand, n int, reach int64) shape.Ring {
	for {
		corners := 2 + rng.IntN(max(n-2, 1))
		var r shape.Ring
		for i := range corners {
			turn := math.Pi * float64(i) / float64(corners-1)
			far := float64(reach) * (0.25 + 0.75*rng.Float64())
			p := shape.Point{X: int64(far * math.Cos(turn)), Y: int64(far * math.Sin(turn))}
			if i == 0 || i == corners-1 {
				p.Y = 0
			}
			r = append(r, p)
		}
		if r = r.Clean(); r.Validate() == nil {
			return r
		}
	}
}

// outline is a Star or, one time in three, the convex hull of one.
func outline(rng *rand.Rand, n int, reach int64) shape.Ring {
	r := Star(rng, n, reach)
	if rng.IntN(3) == 0 {
		return r.Hull()
	}
	return r
}
