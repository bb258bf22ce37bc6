package adjust

import (
	"math"

	"tallycloth/stash/shape"
)

// Corners of outlines: where the line turns by 25° or more within 2 mm either way; curves of
// pattern pieces turn less (ours).
const (
	cornerTurn  = 25 * math.Pi / 180
	cornerReach = 2000.0
)

// Corners are the places of the corners of a ring, in order.
func Corners(r shape.Ring) []int {
	var out []int
	n := len(r)
	for i := range r {
		in, on := r[i].Sub(away(r, i, n-1)), away(r, i, 1).Sub(r[i])
		cross := float64(in.X)*float64(on.Y) - float64(in.Y)*float64(on.X)
		dot := float64(in.X)*float64(on.X) + float64(in.Y)*float64(on.Y)
		if math.Abs(math.Atan2(cross, dot)) >= cornerTurn {
			if k := len(out); k > 0 && Gap(r[out[k-1]], r[i]) < cornerReach {
				continue // the other points of one corner that was clipped
			}
			out = append(out, i)
		}
	}
	return out
}

// away is the first point at least cornerReach from r[i], going on by steps of by.
func away(r shape.Ring, i, by int) shape.Point {
	n := len(r)
	for k := 1; k < n; k++ {
		if p := r[(i+k*by)%n]; Gap(p, r[i]) >= cornerReach {
			return p
		}
	}
	return r[(i+by)%n]
}

// Gap is the distance of two points in µm.
func Gap(p, q shape.Point) float64 { return math.Hypot(float64(p.X-q.X), float64(p.Y-q.Y)) }

// Crossings are the y at which the boundary crosses a level, the lowest first.
func Crossings(r shape.Ring, x int64) []int64 {
	var out []int64
	for i, p := range r {
		q := r[(i+1)%len(r)]
		if (p.X <= x) != (q.X <= x) {
			out = append(out, between(p, q, x))
		}
	}
	sortInts(out)
	return out
}

// between is the y at depth x on the segment p q, which passes it.
func between(p, q shape.Point, x int64) int64 {
	return p.Y + int64(math.Round(float64(q.Y-p.Y)*float64(x-p.X)/float64(q.X-p.X)))
}
