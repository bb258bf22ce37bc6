package pattern

import (
	"math"

	"tallycloth/stash/shape"
)

// spike is how far a corner may reach out when it is moved outwards, in times of the distance: a
// sharper one is cut off there.
const spike = 3

// side is an edge of a ring, moved outwards: a point on it and its direction.
type side struct{ x, y, dx, dy float64 }

// Offset moves every edge of a ring outwards by a distance in µm, inwards where it is less than zero,
// and lets neighbours meet; edges for which still says so stay. Edges that vanish in a hollow or at
// a corner are left out. nil where nothing is left, or the outline would cross itself.
//
// With d on the outside of a convex ring of area A and perimeter P the area is
// A + P·d + d²·Σtan(θ/2) over its turnings θ.
func Offset(r shape.Ring, d int64, still func(a, b shape.Point) bool) shape.Ring {
	var sides []side
	for i, a := range r {
		b := r[(i+1)%len(r)]
		dx, dy := float64(b.X-a.X), float64(b.Y-a.Y)
		l := math.Hypot(dx, dy)
		if l == 0 {
			continue
		}
		by := float64(d)
		if still != nil && still(a, b) {
			by = 0
		}
		dx, dy = dx/l, dy/l
		sides = append(sides, side{float64(a.X) + dy*by, float64(a.Y) - dx*by, dx, dy})
	}
	for len(sides) > 2 {
		if k := vanished(sides); k >= 0 {
			sides = append(sides[:k:k], sides[k+1:]...)
			continue
		}
		out := corners(sides, r, d)
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

// corners are the points where sides meet, sharp ones cut off.
func corners(sides []side, r shape.Ring, d int64) shape.Ring {
	var out shape.Ring
	far := spike * math.Abs(float64(d))
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
		if d > 0 && turn > 0 && far > 0 && 1/math.Cos(half) > spike {
			cut := far - math.Abs(float64(d)) // along the sides, from where they were
			add(x-before.dx*(math.Tan(half)*float64(d)-cut/2), y-before.dy*(math.Tan(half)*float64(d)-cut/2))
			add(x+s.dx*(math.Tan(half)*float64(d)-cut/2), y+s.dy*(math.Tan(half)*float64(d)-cut/2))
			continue
		}
		add(x, y)
	}
	return out.Clean()
}
