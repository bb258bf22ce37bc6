package shape

import (
	"math"
	"slices"
)

// middles returns the shares along p q half-way between its meetings with b.
func middles(p, q Point, b Ring) []float64 {
	at := []float64{0, 1}
	for j := range b {
		if c, d := b[j], b.at(j+1); Meet(p, q, c, d) == Crossing {
			at = append(at, share(p, q, c, d))
		}
	}
	slices.Sort(at)
	out := make([]float64, 0, len(at))
	for k := 1; k < len(at); k++ {
		out = append(out, (at[k-1]+at[k])/2)
	}
	return out
}

// vec is a point in floating-point µm.
type vec struct{ x, y float64 }

// OverlapArea returns the area in µm² that two simple rings have in common, in
// floating point: for people and tests, never for decisions.
//
//  1. Symmetric up to rounding; never negative.
//  2. OverlapArea(a, a) is the area of a.
//
// Method (derived here): a ring is the signed sum of the triangles from one
// point to its edges, so the common area is the signed sum over pairs of
// triangles, each pair clipped as convex outlines (Sutherland & Hodgman, 1974).
func OverlapArea(a, b Ring) float64 {
	if len(a) < 3 || len(b) < 3 || !a.Bounds().Meets(b.Bounds()) {
		return 0
	}
	ta, tb := fan(a, a[0]), fan(b, a[0])
	sum := 0.0
	for _, s := range ta {
		for _, t := range tb {
			sum += s.sign * t.sign * clippedArea(s.corners, t.corners)
		}
	}
	return math.Abs(sum)
}

// triangle is counter-clockwise; sign tells which way it ran in its ring.
type triangle struct {
	corners [3]vec
	sign    float64
}

// fan splits r, seen from origin, into triangles from its first point.
func fan(r Ring, origin Point) []triangle {
	v := func(p Point) vec { return vec{float64(p.X - origin.X), float64(p.Y - origin.Y)} }
	var out []triangle
	for i := 1; i+1 < len(r); i++ {
		switch p, q, s := v(r[0]), v(r[i]), v(r[i+1]); Orientation(r[0], r[i], r[i+1]) {
		case 1:
			out = append(out, triangle{[3]vec{p, q, s}, 1})
		case -1:
			out = append(out, triangle{[3]vec{p, s, q}, -1})
		}
	}
	return out
}

// clippedArea is the area common to two counter-clockwise triangles.
func clippedArea(s, t [3]vec) float64 {
	poly := s[:]
	for i := range t {
		poly = clip(poly, t[i], t[(i+1)%3])
	}
	sum := 0.0
	for i := 1; i+1 < len(poly); i++ {
		sum += crossVec(poly[0], poly[i], poly[i+1])
	}
	return sum / 2
}

// clip keeps what lies to the left of a → b.
func clip(poly []vec, a, b vec) []vec {
	out := make([]vec, 0, len(poly)+1)
	for i, p := range poly {
		q := poly[(i+1)%len(poly)]
		dp, dq := crossVec(a, b, p), crossVec(a, b, q)
		if dp >= 0 {
			out = append(out, p)
		}
		if dp*dq < 0 {
			t := dp / (dp - dq)
			out = append(out, vec{p.x + t*(q.x-p.x), p.y + t*(q.y-p.y)})
		}
	}
	return out
}

func crossVec(a, b, c vec) float64 { return (b.x-a.x)*(c.y-a.y) - (b.y-a.y)*(c.x-a.x) }
