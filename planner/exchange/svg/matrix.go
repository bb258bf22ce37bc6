package svg

import (
	"fmt"
	"math"
	"strings"
)

// vec is a point in units of the drawing, or in mm.
type vec struct{ x, y float64 }

func (a vec) add(b vec) vec                { return vec{a.x + b.x, a.y + b.y} }
func (a vec) sub(b vec) vec                { return vec{a.x - b.x, a.y - b.y} }
func (a vec) times(k float64) vec          { return vec{a.x * k, a.y * k} }
func (a vec) between(b vec, k float64) vec { return a.add(b.sub(a).times(k)) }

// matrix is the affine map (x, y) → (a·x + c·y + e, b·x + d·y + f), SVG 1.1 section 7.4.
type matrix struct{ a, b, c, d, e, f float64 }

var identity = matrix{a: 1, d: 1}

func (m matrix) apply(p vec) vec { return vec{m.a*p.x + m.c*p.y + m.e, m.b*p.x + m.d*p.y + m.f} }

// then returns the map that does n first and m after it.
func (m matrix) then(n matrix) matrix {
	o := m.apply(vec{n.e, n.f})
	return matrix{
		m.a*n.a + m.c*n.b, m.b*n.a + m.d*n.b,
		m.a*n.c + m.c*n.d, m.b*n.c + m.d*n.d, o.x, o.y,
	}
}

// stretch is the greatest factor by which m lengthens anything: its larger singular value.
func (m matrix) stretch() float64 {
	p, q := m.a*m.a+m.b*m.b+m.c*m.c+m.d*m.d, m.a*m.d-m.b*m.c
	return math.Sqrt((p + math.Sqrt(math.Max(0, p*p-4*q*q))) / 2)
}

func (m matrix) finite() bool {
	sum := m.a + m.b + m.c + m.d + m.e + m.f
	return !math.IsNaN(sum) && !math.IsInf(sum, 0)
}

func shift(x, y float64) matrix { return matrix{1, 0, 0, 1, x, y} }

func turn(degrees float64) matrix {
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	return matrix{cos, sin, -sin, cos, 0, 0}
}

// transform reads a transform list, SVG 1.1 section 7.6; an empty one is the identity.
func transform(text string) (matrix, error) {
	m := identity
	s := scanner{text: text}
	for s.space(); !s.done(); s.comma() {
		name, args, err := s.call()
		if err != nil {
			return m, err
		}
		n, ok := oneTransform(name, args)
		if !ok {
			return m, fmt.Errorf("%s with %d numbers is no transform", name, len(args))
		}
		m = m.then(n)
	}
	if !m.finite() {
		return m, fmt.Errorf("%q reaches too far", text)
	}
	return m, nil
}

func oneTransform(name string, v []float64) (matrix, bool) {
	switch {
	case name == "matrix" && len(v) == 6:
		return matrix{v[0], v[1], v[2], v[3], v[4], v[5]}, true
	case name == "translate" && len(v) == 1:
		return shift(v[0], 0), true
	case name == "translate" && len(v) == 2:
		return shift(v[0], v[1]), true
	case name == "scale" && len(v) == 1:
		return matrix{a: v[0], d: v[0]}, true
	case name == "scale" && len(v) == 2:
		return matrix{a: v[0], d: v[1]}, true
	case name == "rotate" && len(v) == 1:
		return turn(v[0]), true
	case name == "rotate" && len(v) == 3:
		return shift(v[1], v[2]).then(turn(v[0])).then(shift(-v[1], -v[2])), true
	case name == "skewX" && len(v) == 1:
		return matrix{1, 0, math.Tan(v[0] * math.Pi / 180), 1, 0, 0}, true
	case name == "skewY" && len(v) == 1:
		return matrix{1, math.Tan(v[0] * math.Pi / 180), 0, 1, 0, 0}, true
	}
	return matrix{}, false
}

// call reads one name(number, …).
func (s *scanner) call() (name string, args []float64, err error) {
	open := strings.IndexByte(s.text[s.at:], '(')
	if open < 0 {
		return "", nil, fmt.Errorf("%q is no transform", shorten(s.text[s.at:]))
	}
	name = strings.TrimSpace(s.text[s.at : s.at+open])
	s.at += open + 1
	for s.space(); !s.take(')'); s.comma() {
		v, ok := s.number()
		if !ok || len(args) == 6 {
			return "", nil, fmt.Errorf("the numbers of %s are not understood", shorten(name))
		}
		args = append(args, v)
	}
	return name, args, nil
}
