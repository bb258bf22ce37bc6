package shape

import (
	"cmp"
	"slices"
)

// Overlaps says whether the interiors of two simple rings meet, whichever way
// round they run.
//
//  1. Touching at points or along edges is not overlapping.
//  2. One inside the other overlaps it; a ring overlaps itself.
//  3. A common part of any width, however thin, overlaps: the test is exact.
//  4. Overlaps(a, b) = Overlaps(b, a).
//  5. A ring without area overlaps nothing.
//
// Method (derived here). If two edges cross, the interiors meet. Otherwise cut
// the boundary of a at the corners of b that lie on it: every section then lies
// wholly inside b, outside b or on b's boundary, and its half-way point, a whole
// number of half µm, tells which. The interiors meet if a section lies inside,
// or on b's boundary with both interiors on the same side; or the same with a
// and b exchanged. If neither boundary enters the other's interior and the
// interiors still met, each would contain the other, so the rings would be one
// and their boundaries coincide with the same side.
func Overlaps(a, b Ring) bool {
	if !a.Bounds().Meets(b.Bounds()) || a.Area2() == 0 || b.Area2() == 0 {
		return false
	}
	if crosses(a, b) {
		return true
	}
	return entersInterior(a, b) || entersInterior(b, a)
}

// crosses says whether an edge of a properly crosses one of b.
func crosses(a, b Ring) bool {
	found := false
	forPairs(a, b, 0, func(i, j int) bool {
		found = Meet(a[i], a.at(i+1), b[j], b.at(j+1)) == Crossing
		return !found
	})
	return found
}

// forPairs calls visit with every pair of edges of a and b whose boxes come
// within reach µm of each other, until it returns false.
func forPairs(a, b Ring, reach int64, visit func(i, j int) bool) {
	bounds := a.Bounds()
	bounds = bounds.Grown(reach)
	near := make([]int, 0, len(b))
	boxes := make([]Box, 0, len(b))
	for j := range b {
		box := (Ring{b[j], b.at(j + 1)}).Bounds().Grown(reach)
		if box.Meets(bounds) {
			near = append(near, j)
			boxes = append(boxes, box)
		}
	}
	for i := range a {
		box := Ring{a[i], a.at(i + 1)}.Bounds()
		for k, j := range near {
			if box.Meets(boxes[k]) && !visit(i, j) {
				return
			}
		}
	}
}

// side says where a section of one boundary lies to another ring.
type side int

const (
	outer   side = iota // outside
	inner               // strictly inside
	same                // on its boundary, both interiors on the same side
	against             // on its boundary, the interiors on different sides
)

// entersInterior says whether a section of a's boundary lies inside b or on b's
// boundary with both interiors on the same side. No edges may cross.
func entersInterior(a, b Ring) bool {
	found := false
	sections(a, b, func(s side) bool {
		found = s == inner || s == same
		return !found
	})
	return found
}

// sections calls visit with the side of every section of a's boundary, until it
// returns false. No edges may cross.
func sections(a, b Ring, visit func(side) bool) {
	alike := (a.Area2() > 0) == (b.Area2() > 0)
	bounds := b.Bounds()
	for i := range a {
		if p, q := a[i], a.at(i+1); max(p.X, q.X) < bounds.Min.X || min(p.X, q.X) > bounds.Max.X ||
			max(p.Y, q.Y) < bounds.Min.Y || min(p.Y, q.Y) > bounds.Max.Y {
			if !visit(outer) {
				return
			}
			continue
		}
		cuts := cutsOn(a[i], a.at(i+1), b)
		for k := 1; k < len(cuts); k++ {
			if !visit(sideOf(cuts[k-1], cuts[k], b, alike)) {
				return
			}
		}
	}
}

// cutsOn returns p, the corners of b strictly between p and q on their segment
// in order, and q.
func cutsOn(p, q Point, b Ring) []Point {
	cuts := []Point{p}
	for _, c := range b {
		if c != p && c != q && OnSegment(c, p, q) {
			cuts = append(cuts, c)
		}
	}
	way := q.Sub(p)
	slices.SortFunc(cuts[1:], func(c, d Point) int {
		return cmp.Compare(dot(c.Sub(p), way), dot(d.Sub(p), way))
	})
	return append(slices.Compact(cuts), q)
}

func dot(a, b Point) int64 { return a.X*b.X + a.Y*b.Y }

// sideOf says where the section p q lies to b; alike if both rings run the same
// way round.
func sideOf(p, q Point, b Ring, alike bool) side {
	half := p.Add(q) // the half-way point at scale 2
	switch b.locate(half, 2) {
	case Outside:
		return outer
	case Within:
		return inner
	}
	for j := range b {
		c, d := b[j], b.at(j+1)
		if c != d && OnSegment(half, c.times(2), d.times(2)) {
			if (dot(q.Sub(p), d.Sub(c)) > 0) == alike {
				return same
			}
			return against
		}
	}
	return outer
}

// Inside says whether the ring in lies in the polygon out, both valid.
//
//  1. Touching edges of out, also of its holes, is allowed.
//  2. Exact: false if in reaches out by 1 µm or by any overlap with a hole.
//  3. A polygon's outer ring lies inside the polygon without its holes.
//  4. A ring without area is inside nothing.
func Inside(in Ring, out Polygon) bool {
	if !insideRing(in, out.Outer) {
		return false
	}
	for _, h := range out.Holes {
		if Overlaps(in, h) {
			return false
		}
	}
	return true
}

// insideRing is Inside for an outline without holes, whichever way round the
// rings run: no edges cross, no section of in lies outside or back to back on
// the boundary, and out's boundary does not enter in.
func insideRing(in, out Ring) bool {
	if in.Area2() == 0 || out.Area2() == 0 || crosses(in, out) {
		return false
	}
	ok := true
	sections(in, out, func(s side) bool {
		ok = s == inner || s == same
		return ok
	})
	if !ok {
		return false
	}
	sections(out, in, func(s side) bool {
		ok = s != inner
		return ok
	})
	return ok
}

// OverlapsPolygon says whether the interior of the simple ring a meets that of a
// valid polygon: lying within one of its holes is not overlapping it.
//
//  1. Without holes the same as Overlaps with the outer ring.
//  2. Exact; touching is allowed.
//
// As holes meet the other boundaries only in points, the part of a inside the
// outer ring is covered by holes only where a lies within a single one.
func OverlapsPolygon(a Ring, p Polygon) bool {
	if !Overlaps(a, p.Outer) {
		return false
	}
	for _, h := range p.Holes {
		if insideRing(a, h) {
			return false
		}
	}
	return true
}
