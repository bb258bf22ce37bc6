package geometry

import (
	"math"
	"slices"

	"tallycloth/stash/shape"
)

// Span is an open range of x in µm.
type Span struct{ From, To int64 }

// Forbidden is where a moving ring would overlap a fixed one, kept as the edges
// of their convolution (see convolve) sorted by their lower end.
type Forbidden struct {
	edges []upEdge
	box   shape.Box
}

// upEdge is a convolution edge turned to point upwards; dir is +1 if it ran
// upwards already. Level edges cross no line and are kept with dir 0.
type upEdge struct {
	x0, y0, x1, y1 int64
	dir            int8
}

// NewForbidden returns the places t for which moving + t overlaps fixed. Both
// rings are counter-clockwise and simple. Its size grows with the edges of both
// rings and with their reflex corners.
func NewForbidden(fixed, moving shape.Ring) *Forbidden {
	raw := convolve(fixed, negate(moving))
	f := &Forbidden{edges: make([]upEdge, 0, len(raw))}
	for _, e := range raw {
		u := upEdge{e.from.X, e.from.Y, e.to.X, e.to.Y, 1}
		switch {
		case e.from.Y > e.to.Y:
			u = upEdge{e.to.X, e.to.Y, e.from.X, e.from.Y, -1}
		case e.from.Y == e.to.Y:
			u.dir = 0
		}
		f.edges = append(f.edges, u)
	}
	slices.SortFunc(f.edges, func(a, b upEdge) int { return cmp64(a.y0, b.y0) })
	f.box = boxOf(raw)
	return f
}

func cmp64(a, b int64) int {
	switch {
	case a < b:
		return -1
	case a > b:
		return 1
	}
	return 0
}

func boxOf(edges []edge) shape.Box {
	if len(edges) == 0 {
		return shape.Box{}
	}
	b := shape.Box{Min: edges[0].from, Max: edges[0].from}
	for _, e := range edges {
		b.Min.X, b.Max.X = min(b.Min.X, e.from.X, e.to.X), max(b.Max.X, e.from.X, e.to.X)
		b.Min.Y, b.Max.Y = min(b.Min.Y, e.from.Y, e.to.Y), max(b.Max.Y, e.from.Y, e.to.Y)
	}
	return b
}

// Box is the bounds of the forbidden region.
func (f *Forbidden) Box() shape.Box { return f.box }

// Heights calls visit with the y of every corner of the region's outline.
func (f *Forbidden) Heights(visit func(y int64)) {
	last := int64(math.MinInt64)
	for _, e := range f.edges {
		if e.y0 != last {
			last = e.y0
			visit(e.y0)
		}
	}
	visit(f.box.Max.Y)
}

// Scan is room for Spans to work in, reused from call to call.
type Scan struct {
	cross []crossing2
	up    []Span
	down  []Span
}

type crossing2 struct {
	lo, hi int64 // the x of the crossing, rounded down and up
	dir    int8
}

// Spans appends to out the ranges of x forbidden at height y for a clearance of
// gap µm: gap is kept along and across, so that corner to corner the distance is
// up to √2·gap. Ranges are in order, apart, and rounded outwards to whole µm.
//
// Derived here. The line just above y and the line just below cut the open
// region in ranges of winding number > 0; without clearance a place is forbidden
// if both are. With clearance the forbidden x are those of the region within the
// band y ± gap: the ranges on its two ends and the shadow of every edge in it.
func (f *Forbidden) Spans(y, gap int64, s *Scan, out []Span) []Span {
	if y+gap <= f.box.Min.Y || y-gap >= f.box.Max.Y {
		return out
	}
	if gap == 0 {
		s.up = f.line(y, true, s, s.up[:0])
		s.down = f.line(y, false, s, s.down[:0])
		return intersect(s.up, s.down, out)
	}
	s.up = f.line(y+gap, false, s, s.up[:0])
	s.up = f.line(y-gap, true, s, s.up)
	s.up = f.shadows(y-gap, y+gap, s.up)
	start := len(out)
	for _, p := range s.up {
		out = append(out, Span{p.From - gap, p.To + gap})
	}
	return append(out[:start], Merge(out[start:])...)
}

// line returns the ranges of winding number > 0 on the line just above y, or
// just below.
func (f *Forbidden) line(y int64, above bool, s *Scan, out []Span) []Span {
	s.cross = s.cross[:0]
	for i := range f.edges {
		e := &f.edges[i]
		if e.y0 > y {
			break
		}
		if e.dir == 0 || above && e.y1 <= y || !above && (e.y1 < y || e.y0 >= y) {
			continue
		}
		lo, hi := e.at(y)
		s.cross = append(s.cross, crossing2{lo, hi, e.dir})
	}
	slices.SortFunc(s.cross, func(a, b crossing2) int {
		if c := cmp64(a.lo+a.hi, b.lo+b.hi); c != 0 {
			return c
		}
		return int(a.dir) - int(b.dir)
	})
	wind := 0
	var from int64
	for _, c := range s.cross {
		before := wind
		wind -= int(c.dir) // the region lies left of its edges: an edge that runs down opens it
		if before <= 0 && wind > 0 {
			from = c.lo
		}
		if before > 0 && wind <= 0 && c.hi > from {
			out = append(out, Span{from, c.hi})
		}
	}
	return out
}

// at is the x of the edge at height y, rounded down and up.
func (e *upEdge) at(y int64) (lo, hi int64) {
	dx, dy := e.x1-e.x0, e.y1-e.y0
	if dx == 0 || y == e.y0 {
		return e.x0, e.x0
	}
	if y == e.y1 {
		return e.x1, e.x1
	}
	t := (y - e.y0)
	q, r := mulDiv(t, dx, dy)
	if r == 0 {
		return e.x0 + q, e.x0 + q
	}
	return e.x0 + q, e.x0 + q + 1
}

// mulDiv is floor(a·b/c) and whether there is a remainder, for c > 0 and
// |a·b| < 2^62.
func mulDiv(a, b, c int64) (q, r int64) {
	p := a * b
	q, r = p/c, p%c
	if r < 0 {
		q--
		r += c
	}
	return q, r
}

// shadows appends the x-ranges of the edges within lo < y < hi.
func (f *Forbidden) shadows(lo, hi int64, out []Span) []Span {
	for i := range f.edges {
		e := &f.edges[i]
		if e.y0 >= hi {
			break
		}
		if e.y1 <= lo {
			continue
		}
		a, b := e.clipX(max(lo, e.y0), min(hi, e.y1))
		out = append(out, Span{a, b})
	}
	return out
}

// clipX is the range of x of the edge between two heights on it.
func (e *upEdge) clipX(lo, hi int64) (int64, int64) {
	if e.dir == 0 {
		return min(e.x0, e.x1), max(e.x0, e.x1)
	}
	a0, a1 := e.at(lo)
	b0, b1 := e.at(hi)
	return min(a0, b0), max(a1, b1)
}

// intersect appends what two ordered lists of ranges have in common.
func intersect(a, b, out []Span) []Span {
	for i, j := 0, 0; i < len(a) && j < len(b); {
		lo, hi := max(a[i].From, b[j].From), min(a[i].To, b[j].To)
		if lo < hi {
			out = append(out, Span{lo, hi})
		}
		if a[i].To < b[j].To {
			i++
		} else {
			j++
		}
	}
	return out
}

// Merge sorts ranges and joins those that overlap, in place. Open ranges that
// only meet in a point stay apart: that point is free.
func Merge(spans []Span) []Span {
	slices.SortFunc(spans, func(a, b Span) int { return cmp64(a.From, b.From) })
	out := spans[:0]
	for _, p := range spans {
		if n := len(out); n > 0 && p.From < out[n-1].To {
			out[n-1].To = max(out[n-1].To, p.To)
			continue
		}
		out = append(out, p)
	}
	return out
}
