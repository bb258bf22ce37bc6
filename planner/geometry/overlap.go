package geometry

import (
	"math/bits"
	"sort"

	"tallycloth/stash/shape"
)

// Overlap says exactly whether the interiors of two counter-clockwise simple
// rings have a point in common. Touching rings don't.
//
// Derived here: interiors meet exactly when two edges cross properly, or a
// stretch of one boundary between two contacts lies inside the other ring, or
// two stretches coincide in the same direction. Without a proper crossing every
// contact is a vertex of one of the rings, so the middle of a stretch is a whole
// number of half µm.
func Overlap(a, b shape.Ring) bool {
	ba, bb := Bounds(a), Bounds(b)
	if ba.Min.X >= bb.Max.X || bb.Min.X >= ba.Max.X || ba.Min.Y >= bb.Max.Y || bb.Min.Y >= ba.Max.Y {
		return false
	}
	for i := range a {
		p, q := a[i], a[(i+1)%len(a)]
		for j := range b {
			if properCross(p, q, b[j], b[(j+1)%len(b)]) {
				return true
			}
		}
	}
	return runsInside(a, b) || runsInside(b, a)
}

func properCross(a, b, c, d shape.Point) bool {
	if max(a.Y, b.Y) <= min(c.Y, d.Y) || max(c.Y, d.Y) <= min(a.Y, b.Y) ||
		max(a.X, b.X) <= min(c.X, d.X) || max(c.X, d.X) <= min(a.X, b.X) {
		if a.X != b.X && a.Y != b.Y && c.X != d.X && c.Y != d.Y {
			return false
		}
	}
	s1, s2 := sign(cross(a, b, c)), sign(cross(a, b, d))
	if s1*s2 >= 0 {
		return false
	}
	return sign(cross(c, d, a))*sign(cross(c, d, b)) < 0
}

// runsInside says whether a stretch of a's boundary lies in the interior of b or
// coincides with an edge of b in the same direction.
func runsInside(a, b shape.Ring) bool {
	var stops []shape.Point
	for i := range a {
		p, q := a[i], a[(i+1)%len(a)]
		stops = append(stops[:0], p, q)
		for j := range b {
			if v := b[j]; cross(p, q, v) == 0 && strictlyBetween(p, q, v) {
				stops = append(stops, v)
			}
		}
		u := sub(q, p)
		sort.Slice(stops, func(i, j int) bool { return vdot(u, sub(stops[i], p)) < vdot(u, sub(stops[j], p)) })
		for k := 0; k+1 < len(stops); k++ {
			mid2 := add(stops[k], stops[k+1])
			if stops[k] != stops[k+1] && middleInside(mid2, u, b) {
				return true
			}
		}
	}
	return false
}

func strictlyBetween(p, q, v shape.Point) bool {
	d := vdot(sub(q, p), sub(v, p))
	return d > 0 && d < vdot(sub(q, p), sub(q, p))
}

// middleInside says whether the point m/2 on a stretch of direction u lies inside
// b, or on an edge of b that runs the same way.
func middleInside(m2, u shape.Point, b shape.Ring) bool {
	wind := 0
	for j := range b {
		p, q := b[j], b[(j+1)%len(b)]
		up := 2*p.Y <= m2.Y && 2*q.Y > m2.Y
		down := 2*p.Y > m2.Y && 2*q.Y <= m2.Y
		inY := m2.Y >= 2*min(p.Y, q.Y) && m2.Y <= 2*max(p.Y, q.Y)
		inX := m2.X >= 2*min(p.X, q.X) && m2.X <= 2*max(p.X, q.X)
		if !up && !down && (!inY || !inX) {
			continue
		}
		side := productDiff(q.X-p.X, m2.Y-2*p.Y, q.Y-p.Y, m2.X-2*p.X)
		if side == 0 && inX && inY {
			return vdot(u, sub(q, p)) > 0
		}
		if up && side > 0 {
			wind++
		} else if down && side < 0 {
			wind--
		}
	}
	return wind > 0
}

// productDiff is the sign of a·b − c·d, exact for any int64.
func productDiff(a, b, c, d int64) int {
	h1, l1 := mul128(a, b)
	h2, l2 := mul128(c, d)
	switch {
	case h1 > h2 || h1 == h2 && l1 > l2:
		return 1
	case h1 < h2 || l1 < l2:
		return -1
	}
	return 0
}

// mul128 is the signed product as a high and a low word.
func mul128(a, b int64) (int64, uint64) {
	hi, lo := bits.Mul64(uint64(a), uint64(b))
	h := int64(hi)
	if a < 0 {
		h -= b
	}
	if b < 0 {
		h -= a
	}
	return h, lo
}
