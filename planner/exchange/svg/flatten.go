package svg

import (
	"math"

	"tallycloth/planner/exchange/drawn"
)

// flattener turns runs of a path into points in mm.
type flattener struct {
	m    matrix // drawing to mm
	left int    // points that may still come
	out  []vec
}

// flatten returns the points of a run, its first and last included.
func (f *flattener) flatten(s subpath) ([]vec, error) {
	f.out = []vec{f.m.apply(s.from)}
	f.left--
	here := s.from
	for _, g := range s.segments {
		var err error
		switch g.kind {
		case 'C':
			err = f.cubic(here, g)
		case 'A':
			err = f.arc(g)
		default:
			err = f.more(1)
		}
		if err != nil {
			return nil, err
		}
		f.out = append(f.out, f.m.apply(g.to))
		here = g.to
	}
	return f.out, nil
}

// more takes n points from what may still come.
func (f *flattener) more(n int) error {
	if f.left -= n; f.left < 0 {
		return errTooManyPoints
	}
	return nil
}

// cubic flattens in equal steps.
func (f *flattener) cubic(from vec, g segment) error {
	a, b, c, d := f.at(from), f.at(g.b), f.at(g.c), f.at(g.to)
	n := drawn.CubicSteps(a, b, c, d)
	if err := f.more(n); err != nil {
		return err
	}
	for i := 1; i < n; i++ {
		p := drawn.Cubic(a, b, c, d, float64(i)/float64(n))
		f.out = append(f.out, vec{p.X, p.Y})
	}
	return nil
}

// at is a point in mm.
func (f *flattener) at(p vec) drawn.Place {
	q := f.m.apply(p)
	return drawn.Place{X: q.x, Y: q.y}
}

// arc flattens in equal angles: a chord over the angle δ of a circle of radius R lies
// within R(1 − cos δ/2) of it; R is the longest half-axis of the ellipse in mm.
func (f *flattener) arc(g segment) error {
	m := f.m.then(g.arc.shape)
	n := 1
	if r := m.stretch(); r > drawn.Flat {
		n = drawn.Steps(math.Abs(g.arc.turn) / (2 * math.Acos(1-drawn.Flat/r)))
	}
	if err := f.more(n); err != nil {
		return err
	}
	for i := 1; i < n; i++ {
		sin, cos := math.Sincos(g.arc.from + g.arc.turn*float64(i)/float64(n))
		f.out = append(f.out, m.apply(vec{cos, sin}))
	}
	return nil
}
