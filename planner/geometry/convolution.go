package geometry

import (
	"tallycloth/stash/shape"
)

// edge is a directed edge of a convolution, exact.
type edge struct{ from, to shape.Point }

// convolve returns the convolution of two rings: every edge of one moved to every
// vertex of the other whose turn passes the edge's direction. An edge at a reflex
// vertex runs backwards. The winding number of the result about a point t is the
// number of parts in which a and −c moved to t overlap (Guibas, Ramshaw, Stolfi,
// "A kinetic framework for computational geometry", 1983; used for no-fit polygons
// by Milenkovic and by Wein, "Exact and efficient construction of planar Minkowski
// sums using the convolution method", 2006).
//
// Parallel edges are taken as if c were turned by a positive ε, so each tie is
// decided the same way for both rings.
func convolve(a, c shape.Ring) []edge {
	out := make([]edge, 0, 4*(len(a)+len(c)))
	out = convolveHalf(out, a, c, true)
	return convolveHalf(out, c, a, false)
}

// convolveHalf adds the edges of a at the vertices of c. With vertexTurned, the
// ring c counts as turned by ε; otherwise a does.
func convolveHalf(out []edge, a, c shape.Ring, vertexTurned bool) []edge {
	n, m := len(a), len(c)
	for j := range c {
		u, v := sub(c[j], c[(j+m-1)%m]), sub(c[(j+1)%m], c[j])
		left := vcross(u, v) > 0
		for i := range a {
			d := sub(a[(i+1)%n], a[i])
			if !passes(u, v, d, left, vertexTurned) {
				continue
			}
			e := edge{add(a[i], c[j]), add(a[(i+1)%n], c[j])}
			if !left {
				e.from, e.to = e.to, e.from
			}
			out = append(out, e)
		}
	}
	return out
}

// passes says whether the turn from u to v, to the left or to the right, passes
// the direction d. If uv is the ring turned by ε, d = u lies before a left turn
// and d = v within it; the other way about if d is turned.
func passes(u, v, d shape.Point, left, uvTurned bool) bool {
	su, sv := vcross(u, d), vcross(d, v)
	if !left {
		su, sv = -su, -sv
	}
	// A left turn of a turned ring, or a right turn of an unturned one, leaves
	// its start out and takes its end in.
	if left == uvTurned {
		return su > 0 && sv >= 0 && (sv > 0 || vdot(d, v) > 0)
	}
	return su >= 0 && sv > 0 && (su > 0 || vdot(u, d) > 0)
}

// negate is the ring mirrored through the origin; its orientation stays.
func negate(r shape.Ring) shape.Ring {
	out := make(shape.Ring, len(r))
	for i, p := range r {
		out[i] = shape.Point{X: -p.X, Y: -p.Y}
	}
	return out
}
