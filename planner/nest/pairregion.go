package nest

import (
	"math"
	"slices"

	"tallycloth/planner/geometry"
	"tallycloth/stash/shape"
)

// cornersFree says whether two stances are clear of each other as far apart as a box
// of places lets them be, towards any of its corners.
func cornersFree(s, t *stance, d shape.Box, gap int64) bool {
	for _, c := range d.Ring() {
		if shape.Clear(s.ring, t.ring.Move(c), gap) {
			return true
		}
	}
	return false
}

// keyOf names how two stances are turned to each other, and says whether the first of
// them is turned by 180° or more: a region drawn for half a turn less is theirs with
// every place negated.
func keyOf(s, t *stance) (key pairTurns, negated bool) {
	a, b := s.turn, t.turn
	negated = a.Angle >= shape.Turn180
	key = pairTurns{[2]int{s.item, t.item}, [2]shape.Placement{a, b}, negated != (b.Angle >= shape.Turn180)}
	for k := range key.turn {
		key.turn[k].Angle %= shape.Turn180
	}
	return key, negated
}

// region is a part of where two stances overlap or come too near, its rim 1 µm within
// that at least, or nil when it is not drawn. The margin takes up what rounding does
// in drawing it, and rules out that two outlines just touch all along: a place on the
// rim or between two parts of the region is one where they overlap.
func (p *pairs) region(key pairTurns, s, t *stance, negated bool) *geometry.Region {
	if r, known := p.regions[key]; known || p.left == 0 {
		return r
	}
	p.left--
	fixed, moving := p.shrunk(s), p.shrunk(t)
	if negated {
		fixed, moving = half(fixed), half(moving)
	}
	r := draw(fixed, moving, p.in.Clearance)
	p.regions[key] = r
	return r
}

// shrunk is an outline of few corners within that of a stance.
func (p *pairs) shrunk(s *stance) shape.Ring {
	if p.cut[s] == nil {
		p.cut[s] = shrunk(s.ring, pairCorners)
	}
	return p.cut[s]
}

// half is a ring after half a turn.
func half(r shape.Ring) shape.Ring { return shape.Placement{Angle: shape.Turn180}.Apply(r) }

// draw returns the region of two rings, or nil where it cannot be had with its margin.
func draw(fixed, moving shape.Ring, clearance int64) *geometry.Region {
	g := within(fixed, moving, clearance)
	if g == nil {
		g = inset(fixed)
	}
	if g == nil {
		return nil
	}
	return geometry.NoFit(g, moving)
}

// within returns a ring that reaches at most the clearance less 2 µm from a first
// ring, for a second one to be laid against, or nil if there is none. Grown outlines
// are up to 2 % and 5 µm larger than asked for, and their hollows are filled; that
// takes no room from a second ring with more area than all hollows have.
func within(r, other shape.Ring, clearance int64) shape.Ring {
	hull := r.Hull()
	if clearance < leastClearance || other.Area2() <= hull.Area2()-r.Area2() {
		return nil
	}
	by := clearance*98/100 - 8
	g := geometry.Grow(r, by)
	if hull.Area2() > r.Area2() && g.Area2() >= hull.Area2() && slices.Equal(g, geometry.Grow(hull, by)) {
		return nil // the hull was grown instead
	}
	return g
}

// inset returns the ring drawn in by some µm, or nil if that is no ring within it.
func inset(r shape.Ring) shape.Ring {
	out := make(shape.Ring, 0, len(r))
	for i, p := range r {
		u, v := p.Sub(r[(i+len(r)-1)%len(r)]), r[(i+1)%len(r)].Sub(p)
		ul, vl := math.Hypot(float64(u.X), float64(u.Y)), math.Hypot(float64(v.X), float64(v.Y))
		nx, ny := -float64(u.Y)/ul-float64(v.Y)/vl, float64(u.X)/ul+float64(v.X)/vl
		k := insetBy * 2 / (nx*nx + ny*ny) // both normals' sum n: n·k moves each edge by insetBy
		if math.IsInf(k, 1) || math.IsNaN(k) {
			return nil
		}
		out = append(out, shape.Point{X: p.X + int64(math.Round(k*nx)), Y: p.Y + int64(math.Round(k*ny))})
	}
	out = out.Clean()
	if out.Validate() != nil || !shape.InsideBy(out, shape.Polygon{Outer: r}, insetLeast) {
		return nil
	}
	return out
}

// covers says whether a box lies in a region, no part of whose rim comes into it.
func covers(r *geometry.Region, d shape.Box) bool {
	x0, y0, x1, y1 := float64(d.Min.X), float64(d.Min.Y), float64(d.Max.X), float64(d.Max.Y)
	if r.Empty() || !r.Contains((x0+x1)/2, (y0+y1)/2) {
		return false
	}
	in := true
	r.Sides(func(s geometry.Segment) { in = in && !meets(s, x0, y0, x1, y1) })
	return in
}

// meets says whether a segment meets a box: clipped by each side in turn (Liang,
// Barsky, "A new concept and method for line clipping", 1984).
func meets(s geometry.Segment, x0, y0, x1, y1 float64) bool {
	from, to := 0.0, 1.0
	dx, dy := s.B.X-s.A.X, s.B.Y-s.A.Y
	for _, c := range [4][2]float64{{-dx, s.A.X - x0}, {dx, x1 - s.A.X}, {-dy, s.A.Y - y0}, {dy, y1 - s.A.Y}} {
		switch {
		case c[0] == 0 && c[1] < 0:
			return false
		case c[0] < 0:
			from = max(from, c[1]/c[0])
		case c[0] > 0:
			to = min(to, c[1]/c[0])
		}
	}
	return from <= to
}
