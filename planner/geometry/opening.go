package geometry

import (
	"cmp"
	"math"
	"slices"

	"tallycloth/stash/shape"
)

// Probe is an upright rectangle, Length along x and Width along y, in µm.
type Probe struct{ Length, Width int64 }

// Opening returns the parts of a cloth, less what is cut from it, that one of the
// probes can cover without reaching over an edge: the union of all its places, which
// is the morphological opening (Matheron, "Random Sets and Integral Geometry", 1975)
// for one probe, and for several the union of their openings. Narrower slivers fall
// away, and what hangs together by a narrow neck only comes apart.
//
//  1. Every part is a valid polygon, exactly inside the cloth and clear of every cut
//     ring; two parts do not overlap.
//  2. Straight upright edges of the cloth and of what is cut stay exact; slanted ones
//     may lose up to some µm.
//  3. The largest part comes first.
//
// The rings in cut must be simple, counter-clockwise, inside the cloth and clear of
// each other; they may touch.
func Opening(cloth shape.Polygon, cut []shape.Ring, probes []Probe) []shape.Polygon {
	var out []shape.Polygon
	taken := slices.Clone(cut)
	for _, q := range byArea(assemble(opened(cloth, cut, probes))) {
		if p, ok := fitted(q, cloth, taken, len(probes)); ok {
			out, taken = append(out, p), append(taken, p.Outer)
		}
	}
	return byArea(out)
}

// OpeningArea returns about the area of all parts that Opening returns, much sooner: parts
// keep some µm from every edge here.
func OpeningArea(cloth shape.Polygon, cut []shape.Ring, probes []Probe) int64 {
	var sum int64
	for _, r := range opened(cloth, cut, probes) {
		sum += r.Area2() / 2 // holes run clockwise
	}
	return sum
}

// opened returns the rings of an opening, some µm within every edge.
func opened(cloth shape.Polygon, cut []shape.Ring, probes []Probe) []shape.Ring {
	rest := cloth.Rings()
	for _, r := range cut {
		rest = append(rest, r.Reverse())
	}
	var cover []edge
	for k, p := range probes {
		d := int64(leastOff + moreOff*k)
		rings := places(rest, Probe{p.Length + 2*d, p.Width + 2*d})
		for i, r := range rings {
			rings[i] = r.Move(shape.Point{X: d, Y: d})
		}
		cover = append(cover, covered(rings, p)...)
	}
	return traced(boundary(cover, 0))
}

const (
	// leastOff is how far, in µm, a part keeps from every edge at first, so that no
	// rounding brings it over one; upright edges are then moved out again. For each
	// further probe it is moreOff more: where two find the same slanted edge, their
	// lines lie apart and do not cross again and again.
	leastOff, moreOff = 4, 5
	// spoilt is how far, in µm, rounding may have brought the edges of a spoilt part.
	spoilt = 10
	// thinnest is the width, in µm, up to which a region is nothing.
	thinnest = 4
)

// byArea sorts parts, the largest first.
func byArea(out []shape.Polygon) []shape.Polygon {
	slices.SortStableFunc(out, func(a, b shape.Polygon) int { return cmp.Compare(b.Area(), a.Area()) })
	return out
}

func edgesOf(r shape.Ring) []edge {
	out := make([]edge, len(r))
	for i := range r {
		out[i] = edge{r[i], r[(i+1)%len(r)]}
	}
	return out
}

// places returns the rings around all places of a probe's lower left corner at which it
// lies in the rest, whose rings have it to their left. As in Within and NoFit, the sum of
// the convolutions with all rings turned round is −1 exactly there.
func places(rest []shape.Ring, p Probe) []shape.Ring {
	back := p.ring(-1)
	var all []edge
	for _, r := range rest {
		all = append(all, convolve(r.Reverse(), back)...)
	}
	pieces := boundary(all, -1)
	for i, s := range pieces {
		pieces[i] = Segment{s.B, s.A} // the places lie to the left then
	}
	return traced(pieces)
}

// covered are edges around which exactly what the probe covers from the places in some
// rings has a winding number over zero: an outer ring counts the parts of it within the
// probe's reach; a hole takes one off where all of the reach lies in it.
func covered(rings []shape.Ring, p Probe) []edge {
	var out []edge
	for _, r := range rings {
		out = append(out, convolve(r, p.ring(1))...)
	}
	return out
}

// ring is the probe's outline, to one side of its corner or to the other.
func (p Probe) ring(sign int64) shape.Ring {
	a, b := shape.Point{}, shape.Point{X: sign * p.Length, Y: sign * p.Width}
	low, high := shape.Point{X: min(a.X, b.X), Y: min(a.Y, b.Y)}, shape.Point{X: max(a.X, b.X), Y: max(a.Y, b.Y)}
	return shape.Box{Min: low, Max: high}.Ring()
}

// traced follows boundary pieces, the region to their left, to rings in whole µm: outer
// ones counter-clockwise, holes clockwise. Where several go on from one place it takes
// the first on the region's side, so that what only touches itself comes apart. Rings
// around next to nothing are left out.
func traced(pieces []Segment) []shape.Ring {
	var out []shape.Ring
	for _, r := range loops(pieces, onwards) {
		if r = r.Clean(); len(r) > 2 && float64(r.Area()) > thinnest*r.Perimeter() {
			out = append(out, r)
		}
	}
	return out
}

// onwards picks, of the pieces that start where s ends, the first clockwise from the
// way back; −1 if there is none.
func onwards(pieces []Segment, next []int, used []bool, s Segment) int {
	back := math.Atan2(s.A.Y-s.B.Y, s.A.X-s.B.X)
	best, least := -1, math.Inf(1)
	for _, k := range next {
		if used[k] {
			continue
		}
		p := pieces[k]
		turn := math.Mod(back-math.Atan2(p.B.Y-p.A.Y, p.B.X-p.A.X)+4*math.Pi, 2*math.Pi)
		if turn < least {
			best, least = k, turn
		}
	}
	return best
}

// assemble puts holes into the outer rings that contain them.
func assemble(rings []shape.Ring) []shape.Polygon {
	var out []shape.Polygon
	for _, r := range rings {
		if r.Area2() > 0 {
			out = append(out, shape.Polygon{Outer: r})
		}
	}
	slices.SortStableFunc(out, func(a, b shape.Polygon) int { return cmp.Compare(a.Outer.Area2(), b.Outer.Area2()) })
	for _, r := range rings {
		if r.Area2() >= 0 {
			continue
		}
		for k := range out { // the smallest that contains it
			if -r.Area2() < out[k].Outer.Area2() && shape.Inside(r.Reverse(), shape.Polygon{Outer: out[k].Outer}) {
				out[k].Holes = append(out[k].Holes, r)
				break
			}
		}
	}
	return out
}

// fitted moves the upright edges of a part out to the edges they keep off. A part that
// rounding has spoilt gives way to the largest upright rectangle in it that holds.
func fitted(q, cloth shape.Polygon, cut []shape.Ring, probes int) (shape.Polygon, bool) {
	if !holds(q, cloth, cut) {
		b, ok := ruledBox(q)
		if b = b.Grown(-spoilt); !ok || b.Length() <= 0 || b.Width() <= 0 {
			return shape.Polygon{}, false
		}
		p := shape.Polygon{Outer: b.Ring()}
		return p, holds(p, cloth, cut)
	}
	steps := outward(probes)
	for k := range q.Rings() {
		for i := range q.Rings()[k] {
			for _, d := range steps {
				p := edgeMoved(q, k, i, d)
				if p.Outer == nil {
					break
				}
				if holds(p, cloth, near(cut, q, p, k, i)) {
					q = p
					break
				}
			}
		}
	}
	return q, true
}

// near picks of the outlines those that a part, which is clear of all of them, can have come
// to overlap as its edge i moved: only corners about that edge did.
func near(cut []shape.Ring, before, after shape.Polygon, ring, i int) []shape.Ring {
	a, b := before.Rings()[ring], after.Rings()[ring]
	var moved shape.Ring
	for k := range min(4, len(a)) {
		at := (i + len(a) - 1 + k) % len(a)
		moved = append(moved, a[at], b[at])
	}
	reach := moved.Bounds()
	var out []shape.Ring
	for _, c := range cut {
		if c.Bounds().Meets(reach) {
			out = append(out, c)
		}
	}
	return out
}

// outward lists by how much to try to move an edge out: by what some probe kept off
// first, then less, as rounding may have it.
func outward(probes int) []int64 {
	var out []int64
	for k := probes - 1; k >= 0; k-- {
		out = append(out, leastOff+moreOff*int64(k))
	}
	return append(out, leastOff-1, leastOff-2)
}

// edgeMoved is a part with an upright edge of one of its rings moved outwards; without
// an outer ring when the edge is slanted.
func edgeMoved(q shape.Polygon, ring, i int, d int64) shape.Polygon {
	r := slices.Clone(q.Rings()[ring])
	a, b := &r[i], &r[(i+1)%len(r)]
	var out shape.Point
	switch {
	case a.X == b.X && a.Y < b.Y:
		out.X = d
	case a.X == b.X:
		out.X = -d
	case a.Y == b.Y && a.X < b.X:
		out.Y = -d
	case a.Y == b.Y:
		out.Y = d
	default:
		return shape.Polygon{}
	}
	*a, *b = a.Add(out), b.Add(out)
	if ring == 0 {
		return shape.Polygon{Outer: r, Holes: q.Holes}
	}
	holes := slices.Clone(q.Holes)
	holes[ring-1] = r
	return shape.Polygon{Outer: q.Outer, Holes: holes}
}

func holds(q shape.Polygon, cloth shape.Polygon, cut []shape.Ring) bool {
	if q.Validate() != nil || !shape.Inside(q.Outer, shape.Polygon{Outer: cloth.Outer}) {
		return false
	}
	for _, h := range cloth.Holes {
		if shape.OverlapsPolygon(h.Reverse(), q) {
			return false
		}
	}
	for _, c := range cut {
		if shape.OverlapsPolygon(c, q) {
			return false
		}
	}
	return true
}
