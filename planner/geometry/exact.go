package geometry

import (
	"errors"
	"fmt"

	"tallycloth/stash/shape"
)

// MaxCoord is the greatest size of a coordinate, in µm (268 m). Differences stay
// under 2^30, sums of two rings' differences too, and products under 2^61.
const MaxCoord = 1 << 28

// MaxVertices is the greatest number of points of one outline.
const MaxVertices = 20_000

// The reasons why Clean refuses a ring.
var (
	ErrTooFew    = errors.New("the outline has fewer than three corners")
	ErrFlat      = errors.New("the outline encloses no area")
	ErrCrossing  = errors.New("the outline crosses itself")
	ErrTooLarge  = errors.New("the outline lies too far out")
	ErrTooManyPt = errors.New("the outline has too many points")
)

// cross is twice the signed area of the triangle o, a, b: positive when b lies
// left of the line from o to a. Exact.
func cross(o, a, b shape.Point) int64 {
	return (a.X-o.X)*(b.Y-o.Y) - (a.Y-o.Y)*(b.X-o.X)
}

// vcross is the cross product of two directions, vdot their scalar product.
func vcross(u, v shape.Point) int64 { return u.X*v.Y - u.Y*v.X }
func vdot(u, v shape.Point) int64   { return u.X*v.X + u.Y*v.Y }

func sub(a, b shape.Point) shape.Point { return shape.Point{X: a.X - b.X, Y: a.Y - b.Y} }
func add(a, b shape.Point) shape.Point { return shape.Point{X: a.X + b.X, Y: a.Y + b.Y} }

// TwiceArea is twice the signed area of the ring in µm²: positive when it is
// counter-clockwise, zero when it is empty or flat.
func TwiceArea(r shape.Ring) int64 {
	if len(r) < 3 {
		return 0
	}
	var sum int64
	for i := 1; i+1 < len(r); i++ {
		sum += cross(r[0], r[i], r[i+1])
	}
	return sum
}

// Bounds is the upright box of the ring; the zero box when it is empty.
func Bounds(r shape.Ring) shape.Box {
	if len(r) == 0 {
		return shape.Box{}
	}
	b := shape.Box{Min: r[0], Max: r[0]}
	for _, p := range r[1:] {
		b.Min.X, b.Max.X = min(b.Min.X, p.X), max(b.Max.X, p.X)
		b.Min.Y, b.Max.Y = min(b.Min.Y, p.Y), max(b.Max.Y, p.Y)
	}
	return b
}

// Reverse is the ring the other way round, a new slice.
func Reverse(r shape.Ring) shape.Ring {
	out := make(shape.Ring, len(r))
	for i, p := range r {
		out[len(r)-1-i] = p
	}
	return out
}

// Clean returns the ring without repeated points, points on a straight line and
// zero-width spikes, counter-clockwise. It refuses what encloses no area,
// crosses itself, or is too large to be computed with exactly. Empty and
// degenerate rings give an error, never a panic.
func Clean(r shape.Ring) (shape.Ring, error) {
	if len(r) > MaxVertices {
		return nil, fmt.Errorf("%w: %d, at most %d", ErrTooManyPt, len(r), MaxVertices)
	}
	for _, p := range r {
		if p.X > MaxCoord || p.X < -MaxCoord || p.Y > MaxCoord || p.Y < -MaxCoord {
			return nil, ErrTooLarge
		}
	}
	out := straighten(r)
	if len(out) < 3 {
		if len(r) < 3 {
			return nil, ErrTooFew
		}
		return nil, ErrFlat
	}
	if i, j, bad := crossing(out); bad {
		return nil, fmt.Errorf("%w near (%d, %d) and (%d, %d) µm", ErrCrossing,
			out[i].X, out[i].Y, out[j].X, out[j].Y)
	}
	switch a := TwiceArea(out); {
	case a == 0:
		return nil, ErrFlat
	case a < 0:
		out = Reverse(out)
	}
	return out, nil
}

// straighten drops every point whose neighbours lie in line with it, until none
// is left; that removes duplicates and zero-width spikes as well.
func straighten(r shape.Ring) shape.Ring {
	out := make(shape.Ring, 0, len(r))
	for _, p := range r {
		for len(out) > 0 && out[len(out)-1] == p {
			out = out[:len(out)-1]
		}
		for len(out) > 1 && cross(out[len(out)-2], out[len(out)-1], p) == 0 {
			out = out[:len(out)-1]
			if out[len(out)-1] == p {
				out = out[:len(out)-1]
				break
			}
		}
		out = append(out, p)
	}
	for len(out) >= 3 {
		n := len(out)
		switch {
		case out[n-1] == out[0] || cross(out[n-2], out[n-1], out[0]) == 0:
			out = out[:n-1]
		case cross(out[n-1], out[0], out[1]) == 0:
			out = out[1:]
		default:
			return out
		}
	}
	return out
}

// crossing finds two edges of the ring that cross or overlap. Edges may touch.
func crossing(r shape.Ring) (int, int, bool) {
	order := byMinX(r)
	n := len(r)
	for k, i := range order {
		a, b := r[i], r[(i+1)%n]
		hi := max(a.X, b.X)
		for _, j := range order[k+1:] {
			c, d := r[j], r[(j+1)%n]
			if min(c.X, d.X) > hi {
				break
			}
			if edgesCross(a, b, c, d) {
				return i, j, true
			}
		}
	}
	return 0, 0, false
}

// edgesCross says whether two edges have inner points in common: they cross
// properly, or lie on one line and overlap.
func edgesCross(a, b, c, d shape.Point) bool {
	if max(a.Y, b.Y) < min(c.Y, d.Y) || max(c.Y, d.Y) < min(a.Y, b.Y) {
		return false
	}
	s1, s2 := sign(cross(a, b, c)), sign(cross(a, b, d))
	s3, s4 := sign(cross(c, d, a)), sign(cross(c, d, b))
	if s1 == 0 && s2 == 0 {
		u := sub(b, a)
		lo, hi := vdot(u, sub(c, a)), vdot(u, sub(d, a))
		return max(min(lo, hi), 0) < min(max(lo, hi), vdot(u, u))
	}
	return s1*s2 < 0 && s3*s4 < 0
}

func sign(v int64) int {
	switch {
	case v > 0:
		return 1
	case v < 0:
		return -1
	}
	return 0
}
