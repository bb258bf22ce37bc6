package dxf

import (
	"errors"
	"math"
)

// flat is how far a flattened curve may lie from the true one, in mm.
const flat = 0.01

// errCurve says that the numbers of a curve make none.
var errCurve = errors.New("its numbers make no curve")

// ellipse flattens part of an ellipse given as the map of the unit circle to it: from an
// angle on, by a turn, both in radians. A chord over the angle δ of a circle of radius R lies
// within R(1 − cos δ/2) of it, so δ = 4·asin √(flat/2R); R is the longest half-axis.
func (w *walker) ellipse(m affine, from, turn float64) ([]Vec, error) {
	n := 1.0
	if r := m.stretch(); r > flat {
		n = math.Ceil(math.Abs(turn) / (4 * math.Asin(math.Sqrt(flat/(2*r)))))
	}
	if math.IsNaN(n) {
		return nil, errCurve
	}
	if n = max(n, 3); math.Abs(turn) >= 2*math.Pi-1e-9 {
		n = math.Ceil(n/4) * 4 // then its middle is that of what it spans
	}
	if err := w.more(n); err != nil {
		return nil, err
	}
	out := make([]Vec, 0, int(n)+1)
	for i := 0.0; i <= n; i++ {
		sin, cos := math.Sincos(from + turn*i/n)
		out = append(out, m.apply(Vec{cos, sin}))
	}
	return out, nil
}

// bend is the arc from p to q whose quarter angle has the tangent b, without p.
//
// With chord c the centre lies (1 − b²)/4b·c from its middle, at right angles to the
// left, and the arc turns by 4·atan b (derived from the half-angle formulas).
func (w *walker) bend(m affine, p, q Vec, b float64) ([]Vec, error) {
	c := q.sub(p)
	if math.Abs(b) < 1e-7 || c.len() == 0 {
		return []Vec{m.apply(q)}, w.more(1)
	}
	centre := p.add(c.times(0.5)).add(Vec{-c.Y, c.X}.times((1 - b*b) / (4 * b)))
	arm := p.sub(centre)
	r := arm.len()
	out, err := w.ellipse(m.then(moved(centre)).then(scaled(r, r)), math.Atan2(arm.Y, arm.X), 4*math.Atan(b))
	if err != nil {
		return nil, err
	}
	out[len(out)-1] = m.apply(q)
	return out[1:], nil
}

// spline is a curve of a file made ready: control points with their weights.
type spline struct {
	degree  int
	knots   []float64
	x, y, w []float64 // homogeneous: already times the weight
}

const mostDegree = 10

// newSpline checks the numbers of a spline.
func newSpline(e Entity) (*spline, error) {
	c, n := e.Curve, len(e.Vertices)
	if c.Degree < 1 || c.Degree > mostDegree || n <= c.Degree || len(c.Knots) != n+c.Degree+1 || len(c.Weights) > 0 && len(c.Weights) != n {
		return nil, errCurve
	}
	for i := 1; i < len(c.Knots); i++ {
		if c.Knots[i] < c.Knots[i-1] {
			return nil, errCurve
		}
	}
	s := &spline{degree: c.Degree, knots: c.Knots}
	for i, v := range e.Vertices {
		weight := 1.0
		if len(c.Weights) > 0 {
			weight = c.Weights[i]
		}
		if !(weight > 1e-9) {
			return nil, errCurve
		}
		s.x, s.y, s.w = append(s.x, v.X*weight), append(s.y, v.Y*weight), append(s.w, weight)
	}
	return s, nil
}

// at is the point at t in the span that begins with knot k, by de Boor's algorithm (C. de
// Boor, A Practical Guide to Splines, 1978) on homogeneous points.
func (s *spline) at(k int, t float64) Vec {
	var x, y, w [mostDegree + 1]float64
	p := s.degree
	for j := range p + 1 {
		x[j], y[j], w[j] = s.x[k-p+j], s.y[k-p+j], s.w[k-p+j]
	}
	for r := 1; r <= p; r++ {
		for j := p; j >= r; j-- {
			lo, hi := s.knots[k-p+j], s.knots[k+j-r+1]
			a := 0.0
			if hi > lo {
				a = (t - lo) / (hi - lo)
			}
			x[j], y[j], w[j] = (1-a)*x[j-1]+a*x[j], (1-a)*y[j-1]+a*y[j], (1-a)*w[j-1]+a*w[j]
		}
	}
	return Vec{x[p] / w[p], y[p] / w[p]}
}

// spline flattens a spline by halving each span until what lies between is straight.
func (w *walker) spline(m affine, e Entity) ([]Vec, error) {
	s, err := newSpline(e)
	if err != nil {
		return nil, err
	}
	var out []Vec
	for k := s.degree; k < len(s.x); k++ {
		from, to := s.knots[k], s.knots[k+1]
		if !(to > from) {
			continue
		}
		at := func(t float64) Vec { return m.apply(s.at(k, t)) }
		a := at(from)
		if len(out) == 0 {
			out = append(out, a)
		}
		for i := range 4 { // so that no wave within a span is missed
			t0, t1 := from+(to-from)*float64(i)/4, from+(to-from)*float64(i+1)/4
			b := at(t1)
			if out, err = w.halve(out, at, t0, t1, a, b, 0); err != nil {
				return nil, err
			}
			a = b
		}
	}
	if len(out) < 2 {
		return nil, errCurve
	}
	return out, nil
}

// halve appends the points of a stretch after its first.
func (w *walker) halve(out []Vec, at func(float64) Vec, from, to float64, a, b Vec, depth int) ([]Vec, error) {
	straight := true
	for _, t := range []float64{0.5, 0.25, 0.75} {
		if p := at(from + (to-from)*t); !(offLine(p, a, b) <= flat/2) {
			straight = false
			break
		}
	}
	if straight || depth > 16 {
		if err := w.more(1); err != nil {
			return nil, err
		}
		return append(out, b), nil
	}
	mid := (from + to) / 2
	c := at(mid)
	out, err := w.halve(out, at, from, mid, a, c, depth+1)
	if err != nil {
		return nil, err
	}
	return w.halve(out, at, mid, to, c, b, depth+1)
}

// offLine is how far p lies from the stretch from a to b.
func offLine(p, a, b Vec) float64 {
	d, v := b.sub(a), p.sub(a)
	t := 0.0
	if l := d.dot(d); l > 0 {
		t = min(1, max(0, v.dot(d)/l))
	}
	return v.sub(d.times(t)).len()
}
