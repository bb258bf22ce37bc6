package drawn

import (
	"cmp"
	"math"
	"slices"

	"tallycloth/planner/pattern"
	"tallycloth/stash/shape"
)

// nick is a notch or a dot as it was found.
type nick struct {
	at     shape.Point
	why    string
	shapes []int         // that draw it
	cut    []shape.Point // corners of the outline that draw it
	double bool
}

// offRing is how far a point lies off the edge of a ring, in µm.
func offRing(r shape.Ring, p shape.Point) float64 { return apart(p, pattern.Onto(r, p)) }

// span is how large something is.
func span(pts []shape.Point) float64 {
	b := shape.Ring(pts).Bounds()
	return math.Hypot(float64(b.Length()), float64(b.Width()))
}

// strokeNotch is a notch drawn as a short stroke or a small V or triangle that touches the outline.
func strokeNotch(f Found, ring shape.Ring) (n nick, ok bool) {
	pts := f.points()
	if s := span(pts); len(pts) > 8 || s < markLeast || s > notchMost {
		return n, false
	}
	near, far := math.Inf(1), 0.0
	var tip shape.Point
	for _, p := range pts {
		d := offRing(ring, p)
		if d < near {
			near, tip = d, p
		}
		far = max(far, d)
	}
	crossing := f.Ring == nil && ring.Contains(pts[0]) != ring.Contains(pts[len(pts)-1])
	if near > onEdge && !crossing || far < markLeast || far < 0.4*span(pts) {
		return n, false
	}
	switch {
	case len(f.Ring) > 5:
		return n, false
	case f.Ring != nil:
		b := f.Ring.Bounds()
		n.at, n.why = middleOf(b.Min, b.Max), "a small triangle on the outline"
	case len(pts) > 2 && offRing(ring, pts[0]) <= onEdge && offRing(ring, pts[len(pts)-1]) <= onEdge:
		n.at, n.why = middleOf(pts[0], pts[len(pts)-1]), "a small V on the outline"
	case crossing && near > onEdge:
		n.at, n.why = middleOf(pts[0], pts[len(pts)-1]), "a short stroke across the outline"
	default:
		n.at, n.why = tip, "a short stroke on the outline"
	}
	n.at = pattern.Onto(ring, n.at)
	return n, true
}

// roundDot is a dot drawn as a small circle.
func roundDot(f Found) (n nick, ok bool) {
	if len(f.Ring) < 8 {
		return n, false
	}
	b := f.Ring.Bounds()
	l, w := float64(b.Length()), float64(b.Width())
	if l > dotMost || w > dotMost || l > 1.25*w || w > 1.25*l || float64(f.Area) < 0.7*l*w || float64(f.Area) > 0.85*l*w {
		return n, false
	}
	return nick{at: middleOf(b.Min, b.Max), why: "a small circle"}, true
}

// crossDots are dots drawn as two short strokes that cross in their middles.
func (b *builder) crossDots(on []int, taken map[int]bool) (out []nick) {
	var short []int
	for _, i := range on {
		if f := b.drawing.Shapes[i]; !taken[i] && len(f.Open) == 2 && float64(f.Length) >= markLeast && float64(f.Length) <= dotMost {
			short = append(short, i)
		}
	}
	for k, i := range short {
		for _, j := range short[k+1:] {
			p, q := b.drawing.Shapes[i].Open, b.drawing.Shapes[j].Open
			at := middleOf(p[0], p[1])
			_, beside := alongLine(p[0], p[1], q[0])
			if !taken[i] && !taken[j] && apart(at, middleOf(q[0], q[1])) <= 500 && math.Abs(beside) >= markLeast/4 {
				taken[i], taken[j] = true, true
				out = append(out, nick{at: at, why: "two short strokes that cross", shapes: []int{i, j}})
			}
		}
	}
	return out
}

// cutNotches are notches drawn into the outline itself: a V or a short square step out of an otherwise
// smooth edge.
func cutNotches(ring shape.Ring) (out []nick) {
	n := len(ring)
	at := func(i int) shape.Point { return ring[((i%n)+n)%n] }
	for i := range ring {
		for _, corners := range []int{1, 2} {
			if n < corners+5 {
				continue
			}
			a, b := at(i), at(i+corners+1)
			inner := []shape.Point{at(i + 1), at(i + corners)}[:corners]
			if isCut(at(i-1), a, inner, b, at(i+corners+2)) {
				out = append(out, nick{at: middleOf(a, b), why: "a small V in the outline", cut: slices.Clone(inner)})
			}
		}
	}
	return out
}

// isCut says whether the outline leaves the way from a to b at a, and comes back to it at b.
func isCut(before, a shape.Point, inner []shape.Point, b, after shape.Point) bool {
	wide := apart(a, b)
	if wide < markLeast/3 || wide > nickMost {
		return false
	}
	if turning(before, a, b) > 25 || turning(a, b, after) > 25 {
		return false // the edge does not go on
	}
	v, w := inner[0], inner[len(inner)-1]
	left, right := apart(a, v), apart(w, b)
	if left < markLeast || right < markLeast || left > notchMost || right > notchMost || math.Abs(left-right) > 0.3*max(left, right) {
		return false
	}
	if len(inner) == 1 {
		return turning(a, v, b) > 70
	}
	_, y := alongLine(a, b, v)
	_, z := alongLine(a, b, w)
	return y*z > 0 && apart(v, w) <= nickMost && math.Abs(y) > 0.9*left && math.Abs(z) > 0.9*right
}

// turning is by how many degrees the way from a to b turns towards c.
func turning(a, b, c shape.Point) float64 {
	d, e := b.Sub(a), c.Sub(b)
	x := float64(d.X)*float64(e.X) + float64(d.Y)*float64(e.Y)
	y := float64(d.X)*float64(e.Y) - float64(d.Y)*float64(e.X)
	return math.Abs(math.Atan2(y, x)) * 180 / math.Pi
}

// without is a ring without the corners of a notch; false where it could not be cut then.
func without(r shape.Ring, cut []shape.Point) (shape.Ring, bool) {
	out := slices.DeleteFunc(slices.Clone(r), func(p shape.Point) bool { return slices.Contains(cut, p) }).Clean()
	return out, out != nil && out.Validate() == nil
}

// paired makes double notches of two that lie close to each other.
func paired(in []nick) (out []nick) {
	taken := make([]bool, len(in))
	for i, n := range in {
		if taken[i] {
			continue
		}
		best, far := -1, float64(pairNear)
		for k := i + 1; k < len(in); k++ {
			if d := apart(n.at, in[k].at); !taken[k] && d <= far && len(n.cut)+len(in[k].cut) == 0 {
				best, far = k, d
			}
		}
		if best >= 0 {
			taken[best] = true
			n.at, n.double = middleOf(n.at, in[best].at), true
			n.why, n.shapes = "double, "+n.why+" and another beside it", slices.Concat(n.shapes, in[best].shapes)
		}
		out = append(out, n)
	}
	return out
}

// clockwise orders marks clockwise from the top as drawn, about the middle of the outline.
func clockwise(marks []nick, ring shape.Ring) {
	b := ring.Bounds()
	mid := middleOf(b.Min, b.Max)
	angle := func(n nick) float64 {
		d := n.at.Sub(mid)
		return math.Mod(math.Atan2(float64(d.Y), -float64(d.X))+2*math.Pi+1e-9, 2*math.Pi)
	}
	slices.SortStableFunc(marks, func(x, y nick) int { return cmp.Compare(angle(x), angle(y)) })
}
