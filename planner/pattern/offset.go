package pattern

import (
	"math"

	"tallycloth/stash/shape"
)

// spike is how far a corner may reach out when it is moved outwards, in times of the distance: a
// sharper one is cut off there.
const spike = 3

// side is an edge of a ring, moved outwards: a point on it and its direction, where it began, and how far
// it was moved.
type side struct{ x, y, dx, dy, x0, y0, by float64 }

// Offset moves every edge of a ring outwards by a distance in µm, inwards where it is less than zero,
// and lets neighbours meet; edges for which still says so stay. Edges that vanish in a hollow or at
// a corner are left out. nil where nothing is left, or the outline would cross itself.
//
// With d on the outside of a convex ring of area A and perimeter P the area is
// A + P·d + d²·Σtan(θ/2) over its turnings θ.
func Offset(r shape.Ring, d int64, still func(a, b shape.Point) bool) shape.Ring {
	return offsetSides(r, func(i int) int64 {
		if still != nil && still(r[i], r[(i+1)%len(r)]) {
			return 0
		}
		return d
	})
}

// offsetSides is Offset with a distance for each side, by the index of its first point.
func offsetSides(r shape.Ring, by func(i int) int64) shape.Ring {
	var sides []side
	for i, a := range r {
		b := r[(i+1)%len(r)]
		dx, dy := float64(b.X-a.X), float64(b.Y-a.Y)
		l := math.Hypot(dx, dy)
		if l == 0 {
			continue
		}
		d := float64(by(i))
		dx, dy = dx/l, dy/l
		sides = append(sides, side{float64(a.X) + dy*d, float64(a.Y) - dx*d, dx, dy, float64(a.X), float64(a.Y), d})
	}
	for len(sides) > 2 {
		if k := vanished(sides); k >= 0 {
			sides = append(sides[:k:k], sides[k+1:]...)
			continue
		}
		out := corners(sides)
		if out == nil || out.Validate() != nil || out.Area2() <= 0 {
			return nil
		}
		return out
	}
	return nil
}

// meet is where two sides meet; for nearly parallel ones the start of the second.
func meet(a, b side) (x, y float64) {
	cross := a.dx*b.dy - a.dy*b.dx
	if math.Abs(cross) < 1e-4 {
		return b.x, b.y
	}
	t := ((b.x-a.x)*b.dy - (b.y-a.y)*b.dx) / cross
	return a.x + t*a.dx, a.y + t*a.dy
}

// vanished is a side whose ends have changed places, the one that did so most; -1 for none.
func vanished(sides []side) int {
	worst, at := -0.5, -1
	n := len(sides)
	for i, s := range sides {
		x0, y0 := meet(sides[(i+n-1)%n], s)
		x1, y1 := meet(s, sides[(i+1)%n])
		if along := (x1-x0)*s.dx + (y1-y0)*s.dy; along < worst {
			worst, at = along, i
		}
	}
	return at
}

// corners are the points where sides meet, sharp ones cut off. Where two that run on straight were moved by
// different distances there is a step.
func corners(sides []side) shape.Ring {
	var out shape.Ring
	add := func(x, y float64) {
		if !(math.Abs(x) < shape.MaxCoordinate && math.Abs(y) < shape.MaxCoordinate) {
			return
		}
		out = append(out, shape.Point{X: int64(math.Round(x)), Y: int64(math.Round(y))})
	}
	for i, s := range sides {
		before := sides[(i+len(sides)-1)%len(sides)]
		x, y := meet(before, s)
		turn := before.dx*s.dy - before.dy*s.dx
		straight := before.dx*s.dx + before.dy*s.dy
		half := math.Atan2(math.Abs(turn), straight) / 2
		d := s.by
		switch most := max(math.Abs(before.by), math.Abs(s.by)); {
		case before.by != s.by && (math.Abs(turn) < 1e-4 || math.Hypot(x-s.x0, y-s.y0) > spike*most):
			add(s.x0+before.dy*before.by, s.y0-before.dx*before.by)
			add(s.x, s.y)
		case before.by == s.by && d > 0 && turn > 0 && 1/math.Cos(half) > spike:
			cut := (spike - 1) * d // along the sides, from where they were
			add(x-before.dx*(math.Tan(half)*d-cut/2), y-before.dy*(math.Tan(half)*d-cut/2))
			add(x+s.dx*(math.Tan(half)*d-cut/2), y+s.dy*(math.Tan(half)*d-cut/2))
		default:
			add(x, y)
		}
	}
	return out.Clean()
}
