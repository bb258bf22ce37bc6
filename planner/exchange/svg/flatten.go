package svg

import "math"

// flat is how far a flattened curve may lie from the true one, in mm.
const flat = 0.01

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

// steps turns a count into a whole one of at least 1, far too many for any limit
// when it is not a number.
func steps(n float64) int {
	if !(n < 1e9) {
		return 1e9
	}
	return max(1, int(math.Ceil(n)))
}

// cubic flattens in equal steps: with n of them each chord lies within 6·M/(8n²) of
// the curve, M the greatest second difference of its four points (derived from
// chord error ≤ max|B″|/8n² and |B″| ≤ 6·M).
func (f *flattener) cubic(from vec, g segment) error {
	a, b, c, d := f.m.apply(from), f.m.apply(g.b), f.m.apply(g.c), f.m.apply(g.to)
	bend := math.Max(a.sub(b.times(2)).add(c).len(), b.sub(c.times(2)).add(d).len())
	n := steps(math.Sqrt(6 * bend / (8 * flat)))
	if err := f.more(n); err != nil {
		return err
	}
	for i := 1; i < n; i++ {
		t := float64(i) / float64(n)
		ab, bc, cd := a.between(b, t), b.between(c, t), c.between(d, t)
		f.out = append(f.out, ab.between(bc, t).between(bc.between(cd, t), t))
	}
	return nil
}

// arc flattens in equal angles: a chord over the angle δ of a circle of radius R lies
// within R(1 − cos δ/2) of it; R is the longest half-axis of the ellipse in mm.
func (f *flattener) arc(g segment) error {
	m := f.m.then(g.arc.shape)
	n := 1
	if r := m.stretch(); r > flat {
		n = steps(math.Abs(g.arc.turn) / (2 * math.Acos(1-flat/r)))
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
