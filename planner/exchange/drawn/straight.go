package drawn

import (
	"math"

	"tallycloth/stash/shape"
)

// stretch is a straight line found in something drawn.
type stretch struct {
	a, b   shape.Point
	heads  [2]bool // an arrow head at a, at b
	length float64
}

// straightIn is the straight line that a shape is, short arms at its ends taken as an arrow head:
// an open line, or a thin closed outline such as an arrow drawn as an area.
func straightIn(f Found) (s stretch, ok bool) {
	if f.Ring != nil {
		return thin(f.Ring)
	}
	pts := f.Open
	const arms = 4
	for from := range min(arms, len(pts)-1) {
		for to := len(pts) - 1; to > from && to > len(pts)-1-arms; to-- {
			s = stretch{a: pts[from], b: pts[to], length: apart(pts[from], pts[to])}
			if !straight(pts[from:to+1]) || !armsOf(&s, pts[:from+1], pts[to:]) {
				continue
			}
			s.heads[0], s.heads[1] = s.heads[0] || f.Heads[0], s.heads[1] || f.Heads[1]
			return s, true
		}
	}
	return s, false
}

// armsOf says whether what comes before and after a straight line is nothing, or the arms of arrow
// heads: short, and bent back.
func armsOf(s *stretch, before, after []shape.Point) bool {
	for i, arms := range [2][]shape.Point{before, after} {
		if len(arms) == 1 {
			continue
		}
		tip, foot := s.a, s.b
		if i == 1 {
			tip, foot = s.b, s.a
		}
		if !headAt(tip, foot, arms, s.length) {
			return false
		}
		s.heads[i] = true
	}
	return true
}

// headAt says whether points make an arrow head at the tip of a line: not large, none farther on than the
// tip, and more behind it than beside it.
func headAt(tip, foot shape.Point, pts []shape.Point, length float64) bool {
	back, side, reach := 0.0, 0.0, 0.0
	for _, p := range pts {
		x, y := alongLine(tip, foot, p)
		reach = max(reach, math.Hypot(x, y))
		if x < -onEdge {
			return false
		}
		back, side = max(back, x), max(side, math.Abs(y))
	}
	return reach >= markLeast && reach <= headMost && reach < length/2 && back > 0.6*side && side > 0.1*back
}

// alongLine is how far a point lies along a line from its first end, and beside it.
func alongLine(from, to, p shape.Point) (along, beside float64) {
	d, v := to.Sub(from), p.Sub(from)
	l := math.Hypot(float64(d.X), float64(d.Y))
	if l == 0 {
		return 0, math.Hypot(float64(v.X), float64(v.Y))
	}
	ux, uy := float64(d.X)/l, float64(d.Y)/l
	return float64(v.X)*ux + float64(v.Y)*uy, float64(v.X)*uy - float64(v.Y)*ux
}

// straight says whether points run along a straight line, within half a millimetre or half a per cent.
func straight(pts []shape.Point) bool {
	if len(pts) < 2 {
		return false
	}
	a, b := pts[0], pts[len(pts)-1]
	slack := max(500, 0.005*apart(a, b))
	last := 0.0
	for _, p := range pts {
		x, y := alongLine(a, b, p)
		if math.Abs(y) > slack || x < last-slack {
			return false
		}
		last = max(last, x)
	}
	return true
}

// thinMostPoints are looked at: an arrow has few.
const thinMostPoints = 80

// thin is the line along a long and thin outline; an end near which it is widest has a head.
func thin(r shape.Ring) (s stretch, ok bool) {
	if len(r) > thinMostPoints {
		return s, false
	}
	s = spine(r)
	if s.length < grainLeast {
		return s, false
	}
	widest, waist := [2]float64{}, 0.0 // near the ends, and between
	for i, p := range r {
		x, y := alongLine(s.a, s.b, p)
		y = math.Abs(y)
		switch head := min(headMost, s.length/3); {
		case x < head:
			widest[0] = max(widest[0], y)
		case x > s.length-head:
			widest[1] = max(widest[1], y)
		default:
			waist = max(waist, y)
		}
		// a side from end to end has no point between them
		waist = max(waist, math.Abs(besideMiddle(s, p, r[(i+1)%len(r)])))
	}
	all := max(widest[0], widest[1], waist)
	if 2*all > thinMost || 2*all > s.length/4 {
		return s, false
	}
	for i, w := range widest {
		s.heads[i] = w > 1.5*waist && w >= markLeast/2
	}
	return s, true
}

// spine is the line along the middle of an outline, the way its longest side goes.
func spine(r shape.Ring) stretch {
	var a, b shape.Point
	for i, p := range r {
		if q := r[(i+1)%len(r)]; apart(p, q) > apart(a, b) {
			a, b = p, q
		}
	}
	if a == b {
		return stretch{}
	}
	from, to, left, right := math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
	for _, p := range r {
		x, y := alongLine(a, b, p)
		from, to, left, right = min(from, x), max(to, x), min(left, y), max(right, y)
	}
	l, mid := apart(a, b), (left+right)/2
	ux, uy := float64(b.X-a.X)/l, float64(b.Y-a.Y)/l
	at := func(x float64) shape.Point {
		return shape.Point{X: a.X + int64(math.Round(x*ux+mid*uy)), Y: a.Y + int64(math.Round(x*uy-mid*ux))}
	}
	return stretch{a: at(from), b: at(to), length: to - from}
}

// besideMiddle is how far a side lies beside the middle of a line, 0 where it does not pass it.
func besideMiddle(s stretch, p, q shape.Point) float64 {
	x, y := alongLine(s.a, s.b, p)
	u, v := alongLine(s.a, s.b, q)
	if mid := s.length / 2; (x < mid) != (u < mid) {
		return y + (v-y)*(mid-x)/(u-x)
	}
	return 0
}
