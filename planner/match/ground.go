package match

import (
	"math"
	"slices"

	"tallycloth/planner/binding"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// Ground is a cloth as strips of one grain see it: u runs over the lanes, v along the strips.
// Crosswise strips lie along y, so u is x; for lengthwise ones it is turned about, for bias by 45°.
type Ground struct {
	grain     binding.Grain
	box       shape.Box // of the cloth, as far as it counts, in its own frame
	bounds    []edgeRun // what strips must lie within: the outline, and the box
	within    []shape.Ring
	holes     []shape.Ring
	kept      []shape.Ring // what is reserved
	holeBoxes []shape.Box  // of each hole, and of what is reserved
	keptBoxes []shape.Box
	clearance float64
	margin    float64 // what rounding may cost, see to
	u0, v0    float64 // the ground's corner
	u1, v1    float64
	whole     bool // a plain length with nothing reserved, cut straight
}

// edgeRun is an edge of an outline, u0 ≤ u1; kept says that the clearance is kept from it.
type edgeRun struct {
	u0, v0, u1, v1 float64
	kept           bool
}

// GroundOf returns a cloth for strips of a grain: a plain length without raw ends and selvedges, an odd
// leftover by its outline without holes; as large as it will be after washing, around what is
// reserved with the clearance. False where nothing of it is left.
func GroundOf(c stash.ClothState, endLoss, clearance measure.Length, grain binding.Grain) (*Ground, bool) {
	u := usableOf(c, endLoss)
	if c.Cloth.Gone || u.length <= 0 || u.width <= 0 {
		return nil, false
	}
	g := &Ground{grain: grain, clearance: float64(clearance), box: shape.Box{Min: u.box.Min, Max: u.box.Min.Add(shape.Point{X: u.length, Y: u.width})}}
	if grain == binding.Bias {
		g.margin = 3
	}
	g.within = []shape.Ring{g.box.Ring()}
	if !c.Cloth.Plain() {
		g.within = append(g.within, c.Cloth.Outline.Outer)
		g.holes = c.Cloth.Outline.Holes
		for _, h := range g.holes {
			g.holeBoxes = append(g.holeBoxes, h.Bounds())
		}
	}
	for _, r := range c.Reservations {
		for _, p := range r.Pieces {
			g.keep(p.Outline)
		}
	}
	g.whole = c.Cloth.Plain() && len(g.kept) == 0 && grain != binding.Bias
	g.measure()
	return g, true
}

// keep adds what is reserved.
func (g *Ground) keep(r shape.Ring) {
	g.kept, g.keptBoxes = append(g.kept, r), append(g.keptBoxes, r.Bounds())
}

// measure finds the ground's edges and bounds.
func (g *Ground) measure() {
	g.u0, g.v0, g.u1, g.v1 = math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	add := func(r shape.Ring, kept bool) {
		for i, a := range r {
			g.bounds = append(g.bounds, g.run(a, r[(i+1)%len(r)], kept))
		}
	}
	for _, r := range g.within {
		add(r, false)
	}
	for _, r := range g.holes {
		add(r, false)
	}
	for _, r := range g.kept {
		add(r, true)
	}
	for _, p := range g.box.Ring() {
		u, v := g.to(p)
		g.u0, g.v0, g.u1, g.v1 = min(g.u0, u), min(g.v0, v), max(g.u1, u), max(g.v1, v)
	}
	g.u0, g.v0 = math.Floor(g.u0), math.Floor(g.v0)
}

func (g *Ground) run(a, b shape.Point, kept bool) edgeRun {
	e := edgeRun{kept: kept}
	e.u0, e.v0 = g.to(a)
	e.u1, e.v1 = g.to(b)
	if e.u0 > e.u1 {
		e.u0, e.v0, e.u1, e.v1 = e.u1, e.v1, e.u0, e.v0
	}
	return e
}

// to brings a point of the cloth into the ground's frame.
func (g *Ground) to(p shape.Point) (u, v float64) {
	x, y := float64(p.X), float64(p.Y)
	switch g.grain {
	case binding.Lengthwise:
		return y, x
	case binding.Bias:
		return (x - y) * math.Sqrt2 / 2, (x + y) * math.Sqrt2 / 2
	}
	return x, y
}

// from brings a point back, rounded to whole µm.
func (g *Ground) from(u, v float64) shape.Point {
	switch g.grain {
	case binding.Lengthwise:
		return shape.Point{X: int64(math.Round(v)), Y: int64(math.Round(u))}
	case binding.Bias:
		return shape.Point{X: int64(math.Round((u + v) * math.Sqrt2 / 2)), Y: int64(math.Round((v - u) * math.Sqrt2 / 2))}
	}
	return shape.Point{X: int64(math.Round(u)), Y: int64(math.Round(v))}
}

// Outline returns a piece of strip in the cloth's frame, counter-clockwise; its first two
// corners are those of the end it is counted from.
func (g *Ground) Outline(p binding.Piece) shape.Ring {
	u, v := g.u0+float64(p.At), g.v0+float64(p.From)
	w, l := float64(p.Width), float64(p.To-p.From)
	r := shape.Ring{g.from(u, v), g.from(u+w, v), g.from(u+w, v+l), g.from(u, v+l)}
	if r.Area2() < 0 {
		return shape.Ring{r[1], r[0], r[3], r[2]}
	}
	return r
}

// Sheet returns the ground as binding plans strips on it: a rectangle where it is one, else
// by its lanes.
func (g *Ground) Sheet(name string) binding.Sheet {
	s := binding.Sheet{Source: binding.Source{Name: name, Across: measure.Length(g.v1 - g.v0), Along: measure.Length(g.u1 - g.u0)}}
	if !g.whole {
		s.Lanes = g.lanes
	}
	return s
}

// blocked returns what of the lane from u to u+width is not free, along it.
func (g *Ground) blocked(u, width float64) []span {
	var out []span
	for _, e := range g.bounds {
		c := g.margin
		if e.kept {
			c += g.clearance
		}
		lo, hi := u-c, u+width+c
		if e.u1 <= lo || e.u0 >= hi {
			continue
		}
		a, b := e.at(max(lo, e.u0)), e.at(min(hi, e.u1))
		if e.u0 == e.u1 {
			a, b = e.v0, e.v1
		}
		out = append(out, span{math.Floor(min(a, b) - c), math.Ceil(max(a, b) + c)})
	}
	slices.SortFunc(out, func(a, b span) int {
		switch {
		case a.from < b.from:
			return -1
		case a.from > b.from:
			return 1
		}
		return 0
	})
	return out
}

// span is a range along a lane.
type span struct{ from, to float64 }

// at is the edge's v at u.
func (e edgeRun) at(u float64) float64 {
	if e.u1 == e.u0 {
		return e.v0
	}
	return e.v0 + (u-e.u0)*(e.v1-e.v0)/(e.u1-e.u0)
}

// free returns what is free of the lane from u to u+width over its whole width: what no
// edge reaches into is either all cloth or none.
func (g *Ground) free(u, width float64) []binding.Reach {
	var out []binding.Reach
	at := math.Inf(-1)
	for _, s := range g.blocked(u, width) {
		if s.from-at > 2 && !math.IsInf(at, -1) && g.isCloth(u+width/2, (at+s.from)/2) {
			out = append(out, binding.Reach{From: measure.Length(at - g.v0), To: measure.Length(s.from - g.v0)})
		}
		at = max(at, s.to)
	}
	return out
}

// isCloth says whether a point off all edges is cloth that is free.
func (g *Ground) isCloth(u, v float64) bool {
	p := g.from(u, v)
	if !holds(g.box, p) {
		return false
	}
	for _, r := range g.within[1:] { // the first is the box
		if !r.Contains(p) {
			return false
		}
	}
	for i, r := range g.holes {
		if holds(g.holeBoxes[i], p) && r.Contains(p) {
			return false
		}
	}
	for i, r := range g.kept {
		if holds(g.keptBoxes[i], p) && r.Contains(p) {
			return false
		}
	}
	return true
}

func holds(b shape.Box, p shape.Point) bool {
	return p.X >= b.Min.X && p.X <= b.Max.X && p.Y >= b.Min.Y && p.Y <= b.Max.Y
}
