package geometry

import (
	"math"

	"tallycloth/stash/shape"
)

// Simplify returns a ring with fewer corners that contains the given one: it only
// ever grows. A reflex corner is left out, or an edge between two convex corners
// is replaced by the point where its neighbours meet; always the change that adds
// least area and lets no edges meet. It goes on while there are more than most
// corners, and beyond while a change adds less than free of the area.
//
// It stops early where no change is possible. The ring must be counter-clockwise
// and simple, and comes back so. After Gardeyn, Vanden Berghe, Wauters, 2025,
// who simplify outlines in the same direction.
func Simplify(r shape.Ring, most int, free float64) shape.Ring {
	s := &simplifier{ring: append(shape.Ring(nil), r...)}
	limit := free * math.Abs(float64(r.Area2())) / 2
	s.changes = make([]change, len(s.ring))
	for i := range s.ring {
		s.changes[i] = s.best(i)
	}
	for len(s.ring) > 3 {
		k := -1
		for i, c := range s.changes {
			if c.possible && (k < 0 || c.cost < s.changes[k].cost) {
				k = i
			}
		}
		if k < 0 || len(s.ring) <= most && s.changes[k].cost > limit {
			break
		}
		if s.blocked(k) {
			s.changes[k].possible = false
			continue
		}
		s.apply(k)
	}
	return s.ring
}

type simplifier struct {
	ring    shape.Ring
	changes []change // of each corner
}

// change leaves out corner i, or replaces it and the next by the point to.
type change struct {
	possible bool
	cost     float64
	both     bool
	to       shape.Point
}

// at is corner i, counted round the ring once at most beyond either end.
func (s *simplifier) at(i int) shape.Point {
	switch n := len(s.ring); {
	case i < 0:
		return s.ring[i+n]
	case i >= n:
		return s.ring[i-n]
	}
	return s.ring[i]
}

// best is the cheapest change at corner i, without regard to other edges.
func (s *simplifier) best(i int) change {
	a, b, c, d := s.at(i-1), s.at(i), s.at(i+1), s.at(i+2)
	turn := vcross(sub(b, a), sub(c, b))
	if turn <= 0 {
		return change{possible: true, cost: float64(-turn) / 2}
	}
	if vcross(sub(c, b), sub(d, c)) <= 0 || vcross(sub(b, a), sub(d, c)) <= 0 {
		return change{}
	}
	to, ok := meet(a, b, c, d)
	if !ok {
		return change{}
	}
	return change{true, float64(vcross(sub(to, b), sub(c, to))) / 2, true, to}
}

// meet is a whole point at or just beyond where the lines ab and dc meet, so that
// b and c lie on or inside the edges from a over it to d.
func meet(a, b, c, d shape.Point) (shape.Point, bool) {
	u, v := sub(b, a), sub(d, c)
	t := float64(vcross(sub(c, b), v)) / float64(vcross(u, v))
	x, y := float64(b.X)+t*float64(u.X), float64(b.Y)+t*float64(u.Y)
	// Outwards from the middle of the edge bc.
	ox, oy := x-float64(b.X+c.X)/2, y-float64(b.Y+c.Y)/2
	l := math.Hypot(ox, oy)
	if l == 0 || math.Abs(x) > shape.MaxCoordinate || math.Abs(y) > shape.MaxCoordinate {
		return shape.Point{}, false
	}
	for k := 0.0; k <= 6; k++ {
		p := shape.Point{X: int64(math.Round(x + k*ox/l)), Y: int64(math.Round(y + k*oy/l))}
		if vcross(sub(p, a), sub(b, a)) >= 0 && vcross(sub(d, p), sub(c, p)) >= 0 && p != a && p != d {
			return p, true
		}
	}
	return shape.Point{}, false
}

// blocked says whether the change at corner i would let edges meet or take a
// corner of the ring in.
func (s *simplifier) blocked(i int) bool {
	c := s.changes[i]
	n := len(s.ring)
	a, end, last := s.at(i-1), s.at(i+1), 1
	path := []shape.Point{a, end}
	if c.both {
		end, last = s.at(i+2), 2
		path = []shape.Point{a, c.to, end}
	}
	for k := 0; k+1 < len(path); k++ {
		p, q := path[k], path[k+1]
		if vcross(sub(p, a), sub(q, a)) == 0 && k == 1 {
			return true
		}
		x0, x1, y0, y1 := min(p.X, q.X), max(p.X, q.X), min(p.Y, q.Y), max(p.Y, q.Y)
		f := s.at(i + last)
		for m := last; m < n-1; m++ { // the edges from i+last round to i−1
			e := f
			f = s.at(i + m + 1)
			if e.X < x0 && f.X < x0 || e.X > x1 && f.X > x1 || e.Y < y0 && f.Y < y0 || e.Y > y1 && f.Y > y1 ||
				!edgesMeet(p, q, e, f) {
				continue
			}
			if (e == end && q == end || f == a && p == a) && !overlapping(p, q, e, f) {
				continue
			}
			return true
		}
	}
	return false
}

// edgesMeet says whether two closed segments have a point in common.
func edgesMeet(a, b, c, d shape.Point) bool {
	if max(a.X, b.X) < min(c.X, d.X) || max(c.X, d.X) < min(a.X, b.X) ||
		max(a.Y, b.Y) < min(c.Y, d.Y) || max(c.Y, d.Y) < min(a.Y, b.Y) {
		return false
	}
	return sign(vcross(sub(b, a), sub(c, a)))*sign(vcross(sub(b, a), sub(d, a))) <= 0 &&
		sign(vcross(sub(d, c), sub(a, c)))*sign(vcross(sub(d, c), sub(b, c))) <= 0
}

// overlapping says whether two segments that share an end run along each other.
func overlapping(p, q, e, f shape.Point) bool {
	if vcross(sub(q, p), sub(f, e)) != 0 {
		return false
	}
	if q == e {
		return vdot(sub(q, p), sub(f, e)) < 0
	}
	return vdot(sub(q, p), sub(f, e)) < 0 || p != f
}

func (s *simplifier) apply(i int) {
	n := len(s.ring)
	c := s.changes[i]
	gone := i
	if c.both {
		s.ring[i] = c.to
		gone = (i + 1) % n
	}
	s.ring = append(s.ring[:gone], s.ring[gone+1:]...)
	s.changes = append(s.changes[:gone], s.changes[gone+1:]...)
	if gone < i {
		i--
	}
	for k := i - 3; k <= i+2; k++ {
		m := len(s.ring)
		s.changes[((k%m)+m)%m] = s.best(((k % m) + m) % m)
	}
}
