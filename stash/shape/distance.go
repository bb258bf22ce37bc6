package shape

import (
	"math"
	"math/bits"
)

// Clear says whether two simple rings do not overlap and lie at least gap µm
// apart.
//
//  1. With gap 0 or less it is the same as not Overlaps: touching is allowed.
//  2. Exactly gap apart is clear; anything less is not.
//  3. Exact, by the method of nearer.
//  4. A ring without area is clear of everything.
func Clear(a, b Ring, gap int64) bool {
	if a.Area2() == 0 || b.Area2() == 0 {
		return true
	}
	return !Overlaps(a, b) && (gap <= 0 || !boundariesNearer(a, b, gap))
}

// ClearPolygon is Clear for a ring and a polygon: the ring lies outside it or in
// one of its holes, gap away from the boundaries.
func ClearPolygon(a Ring, p Polygon, gap int64) bool {
	return !OverlapsPolygon(a, p) && !nearRings(a, p, gap)
}

// InsideBy says whether the ring lies inside the polygon (see Inside) and at
// least gap µm from its boundaries, exactly.
func InsideBy(in Ring, out Polygon, gap int64) bool {
	return Inside(in, out) && !nearRings(in, out, gap)
}

func nearRings(a Ring, p Polygon, gap int64) bool {
	if gap <= 0 {
		return false
	}
	for _, r := range p.Rings() {
		if boundariesNearer(a, r, gap) {
			return true
		}
	}
	return false
}

// boundariesNearer says whether the two boundaries, which do not cross, come
// nearer than gap. The least distance of two segments that do not cross is taken
// at an end of one of them.
func boundariesNearer(a, b Ring, gap int64) bool {
	found := false
	forPairs(a, b, gap, func(i, j int) bool {
		p, q, s, t := a[i], a.at(i+1), b[j], b.at(j+1)
		found = nearer(p, s, t, gap) || nearer(q, s, t, gap) || nearer(s, p, q, gap) || nearer(t, p, q, gap)
		return !found
	})
	return found
}

// nearer says whether p is less than gap from the segment a b, 0 ≤ gap < 2^30.
// Off the ends it compares whole squares. Beside the segment the distance is
// |cross| / |ab|, so cross² < gap²·|ab|² decides: both sides stay under 2^122
// and are compared in 128 bits.
func nearer(p, a, b Point, gap int64) bool {
	way, off := b.Sub(a), p.Sub(a)
	t, length2 := dot(off, way), dot(way, way)
	switch {
	case t <= 0:
		return dot(off, off) < gap*gap
	case t >= length2:
		off = p.Sub(b)
		return dot(off, off) < gap*gap
	}
	c := cross(a, b, p)
	if c < 0 {
		c = -c
	}
	hi1, lo1 := bits.Mul64(uint64(c), uint64(c))
	hi2, lo2 := bits.Mul64(uint64(gap*gap), uint64(length2))
	return hi1 < hi2 || hi1 == hi2 && lo1 < lo2
}

// Distance returns the least distance in µm between two simple rings for people
// to read: 0 if they overlap or touch, +Inf if one is empty.
func Distance(a, b Ring) float64 {
	if Overlaps(a, b) {
		return 0
	}
	least := math.Inf(1)
	for _, p := range a {
		least = min(least, distanceTo(p, b))
	}
	for _, p := range b {
		least = min(least, distanceTo(p, a))
	}
	return least
}

// distanceTo is the distance from p to the ring's boundary; +Inf if it is empty.
func distanceTo(p Point, r Ring) float64 {
	least := math.Inf(1)
	for i := range r {
		least = min(least, segmentDistance(float64(p.X), float64(p.Y), r[i], r.at(i+1)))
	}
	return least
}

func segmentDistance(x, y float64, a, b Point) float64 {
	ax, ay := float64(a.X), float64(a.Y)
	dx, dy := float64(b.X)-ax, float64(b.Y)-ay
	t := 0.0
	if l := dx*dx + dy*dy; l > 0 {
		t = max(0, min(1, ((x-ax)*dx+(y-ay)*dy)/l))
	}
	return math.Hypot(x-ax-t*dx, y-ay-t*dy)
}

// Depth returns how deep, in µm, two simple rings reach into each other, for
// people to read: the greatest distance from the boundary of one that a point of
// the other's boundary inside it has, among corners and the middles of the
// parts of edges inside.
//
//  1. 0 exactly where Overlaps is false, more than 0 where it is true.
//  2. Symmetric.
func Depth(a, b Ring) float64 {
	if !Overlaps(a, b) {
		return 0
	}
	depth := max(depthIn(a, b), depthIn(b, a))
	if depth == 0 { // the boundaries coincide, or the overlap is thinner than float64 can see
		depth = max(1e-6, 2*OverlapArea(a, b)/(a.Perimeter()+b.Perimeter()))
	}
	return depth
}

// depthIn is the greatest depth of a's boundary in b.
func depthIn(a, b Ring) float64 {
	deepest := 0.0
	for i := range a {
		p, q := a[i], a.at(i+1)
		if b.Locate(p) == Within {
			deepest = max(deepest, distanceTo(p, b))
		}
		for _, t := range middles(p, q, b) {
			m := Point{p.X + int64(math.Round(t*float64(q.X-p.X))), p.Y + int64(math.Round(t*float64(q.Y-p.Y)))}
			if b.Locate(m) == Within {
				deepest = max(deepest, distanceTo(m, b))
			}
		}
	}
	return deepest
}
