package svg

import "math"

// arc is part of an ellipse in centre form: the point at angle t is
// shape.apply(cos t, sin t).
type arc struct {
	shape      matrix // unit circle to ellipse
	from, turn float64
}

// arcThrough finds the arc between two points with the radii, the turn of its x axis
// in degrees and the two flags of path data; radii too small for it are enlarged.
//
// Source: SVG 1.1 second edition, appendix F.6.5 and F.6.6.
func arcThrough(p, q vec, rx, ry, axis float64, large, sweep bool) *arc {
	sin, cos := math.Sincos(axis * math.Pi / 180)
	h := p.sub(q).times(0.5)
	x, y := cos*h.x+sin*h.y, cos*h.y-sin*h.x
	if k := math.Hypot(x/rx, y/ry); k > 1 {
		rx, ry = rx*k, ry*k
	}
	u, v := x/rx, y/ry
	d := u*u + v*v
	k := math.Sqrt(math.Max(0, 1-d) / d)
	if large == sweep {
		k = -k
	}
	cu, cv := k*v, -k*u // centre, in radii
	m := p.add(q).times(0.5)
	a := &arc{shape: matrix{cos * rx, sin * rx, -sin * ry, cos * ry, 0, 0}}
	c := a.shape.apply(vec{cu, cv})
	a.shape.e, a.shape.f = m.x+c.x, m.y+c.y
	a.from = math.Atan2(v-cv, u-cu)
	a.turn = math.Atan2(-v-cv, -u-cu) - a.from
	if sweep && a.turn < 0 {
		a.turn += 2 * math.Pi
	} else if !sweep && a.turn > 0 {
		a.turn -= 2 * math.Pi
	}
	return a
}
