package geometry

import (
	"math"

	"tallycloth/stash/shape"
)

// Grow returns a ring that contains everything within d µm of the given one: its
// Minkowski sum with a regular polygon about a circle of that radius, so that it
// is a little too large at corners, by under 2 % of d. Hollows that close are
// filled. For d ≤ 0 it is the ring itself.
//
// Rounding to whole µm is made up for by two µm more of radius.
func Grow(r shape.Ring, d int64) shape.Ring {
	if d <= 0 {
		return r
	}
	var best shape.Ring
	for _, loop := range loops(boundary(convolve(r, disc(float64(d)+2)), 0), rightmost) {
		if loop = loop.Clean(); loop.Area2() > best.Area2() {
			best = loop
		}
	}
	if best.Validate() != nil || best.Area2() < r.Area2() {
		return Grow(r.Hull(), d)
	}
	return best
}

// discSides is the number of corners of a disc: its edges lie within 2 % of the radius.
const discSides = 16

func disc(radius float64) shape.Ring {
	outer := radius / math.Cos(math.Pi/discSides)
	var out shape.Ring
	for k := range discSides {
		t := 2 * math.Pi * (float64(k) + 0.5) / discSides
		out = append(out, shape.Point{X: away(outer * math.Cos(t)), Y: away(outer * math.Sin(t))})
	}
	return out
}

// away rounds away from zero.
func away(v float64) int64 {
	if v < 0 {
		return int64(math.Floor(v))
	}
	return int64(math.Ceil(v))
}

// loops follows boundary pieces to rings, rounded to whole µm. Where several go on from
// one place pick chooses among them, −1 for none.
func loops(pieces []Segment, pick func(pieces []Segment, next []int, used []bool, p Segment) int) []shape.Ring {
	from := make(map[Vec][]int, len(pieces))
	for i, p := range pieces {
		from[p.A] = append(from[p.A], i)
	}
	used := make([]bool, len(pieces))
	var out []shape.Ring
	for i := range pieces {
		var ring shape.Ring
		for k := i; k >= 0 && !used[k]; {
			used[k] = true
			p := pieces[k]
			ring = append(ring, shape.Point{X: int64(math.Round(p.A.X)), Y: int64(math.Round(p.A.Y))})
			k = pick(pieces, from[p.B], used, p)
		}
		if len(ring) >= 3 {
			out = append(out, ring)
		}
	}
	return out
}

// rightmost takes the sharpest turn to the right, which keeps outer loops that touch
// themselves in one.
func rightmost(pieces []Segment, next []int, used []bool, p Segment) int {
	best, least := -1, math.Inf(1)
	for _, k := range next {
		if used[k] {
			continue
		}
		q := pieces[k]
		ux, uy, vx, vy := p.B.X-p.A.X, p.B.Y-p.A.Y, q.B.X-q.A.X, q.B.Y-q.A.Y
		if turn := math.Atan2(ux*vy-uy*vx, ux*vx+uy*vy); turn < least {
			best, least = k, turn
		}
	}
	return best
}
