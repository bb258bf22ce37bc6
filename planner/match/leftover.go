package match

import (
	"context"
	"fmt"
	"slices"

	"tallycloth/planner/nest"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// onLeftover answers for a cloth with an outline: in one layer, whole pattern pieces,
// flaws and reserved areas as obstacles. Unwashed cloth is laid with outlines grown
// by what they will shrink. What would not lie on the leftover without its
// reservations is not looked for with them, so reserving never makes it better.
func (q *Question) onLeftover(ctx context.Context, c stash.ClothState, u usable, turned bool) (quantity, error) {
	whole, err := q.onOutline(ctx, c, u, turned, nil)
	if err != nil || len(c.Reservations) == 0 || whole.grade > EnoughIf {
		return whole, err
	}
	if checkOpen(c, whole.layout.Pieces) == nil && q.clearOf(c, whole.layout.Pieces) {
		return whole.beside(c, u), nil
	}
	part, err := q.onOutline(ctx, c, u, turned, c.Reservations)
	part.grade = max(part.grade, whole.grade)
	return part.beside(c, u), err
}

// beside is an answer for a leftover that counts nothing as spare, nor as there, that is reserved.
func (lie quantity) beside(c stash.ClothState, u usable) quantity {
	if lie.layout == nil {
		return lie
	}
	lie.spare, lie.side = spareOf(append(reservedOn(c), lie.layout.Pieces...), u.box)
	lie.reasons = slices.Clone(lie.reasons)
	for i := range lie.reasons {
		if r := &lie.reasons[i]; r.What == Area {
			r.Has -= int64(reservedArea(c) / 1e6)
		}
	}
	return lie
}

// reservedOn are the reserved outlines of a cloth.
func reservedOn(c stash.ClothState) []PlacedPiece {
	var out []PlacedPiece
	for _, r := range c.Reservations {
		for _, p := range r.Pieces {
			out = append(out, PlacedPiece{Name: p.Name, Outline: p.Outline})
		}
	}
	return out
}

// clearOf says whether pieces keep their clearance from what is reserved.
func (q *Question) clearOf(c stash.ClothState, pieces []PlacedPiece) bool {
	for _, r := range c.Reservations {
		for _, o := range r.Pieces {
			for _, p := range pieces {
				if !shape.Clear(p.Outline, o.Outline, int64(q.ask.Clearance)) {
					return false
				}
			}
		}
	}
	return true
}

// onOutline tries with the limits of "tight" kept free at the end and along one
// side, then without; strips whole, then in two parts.
func (q *Question) onOutline(ctx context.Context, c stash.ClothState, u usable, turned bool, live []stash.Reservation) (quantity, error) {
	state := c
	state.Reservations = live
	b := bedOf(u, c.Fabric)
	b.turned = turned
	free := float64(c.Cloth.Outline.Area()) - reservedArea(state)
	if area := q.area(); float64(area) > free {
		return quantity{grade: NotEnough, proof: ByBound,
			reasons: []Reason{{What: Area, Asked: area / 1e6, Has: int64(free / 1e6), Bad: true}}}, nil
	}
	if float64(q.area()) > densest*free {
		return notFound(nest.Bound{}, q.area(), free), nil
	}
	var why nest.Bound
	for _, strips := range q.stripParts() {
		b.strips = strips
		for _, tight := range []bool{false, true} {
			lie, bound, err := q.layOnOutline(ctx, state, u, b, tight)
			if err != nil || lie.layout != nil {
				return lie, err
			}
			if why.Kind == nest.NoBound || tight {
				why = bound
			}
		}
	}
	if why.Kind == nest.BoundPair && len(q.ask.Strips) > 0 {
		why = nest.Bound{} // it may be two parts of a strip that keep each other out, and other parts do not
	}
	return notFound(why, q.area(), free), nil
}

// stripParts are into how many parts strips may be cut: none when there are none.
func (q *Question) stripParts() []int {
	if len(q.ask.Strips) == 0 {
		return []int{0}
	}
	for _, s := range q.ask.Strips {
		if s.MayJoin {
			return []int{1, 2, 3}
		}
	}
	return []int{1}
}

func (q *Question) layOnOutline(ctx context.Context, c stash.ClothState, u usable, b bed, tight bool) (quantity, nest.Bound, error) {
	items := q.items(b, scale{u.dcLength, u.dcWid})
	f := nest.Fabric{Outline: c.Cloth.Outline, Obstacles: edges(c.Cloth.Outline.Bounds(), u.box)}
	if !tight {
		f.Obstacles = edges(c.Cloth.Outline.Bounds(), lessThan(u.box, q.ask.Tight))
	}
	f.Obstacles = append(f.Obstacles, obstacles(c, b, shape.Point{})...)
	in := q.instance(b, items, f, nest.FitsAll)
	a, err := nest.Solve(ctx, in, nest.Options{Seed: 1, FillOnly: true})
	switch {
	case err != nil:
		return quantity{}, nest.Bound{}, fmt.Errorf("laying out on the leftover: %w", err)
	case ctx.Err() != nil:
		return quantity{}, nest.Bound{}, context.Cause(ctx)
	case len(a.Solution.Left) > 0:
		return quantity{}, a.Why, nil
	}
	box := c.Cloth.Outline.Bounds()
	l := &Layout{Instance: in, Solution: a.Solution, StripParts: b.strips, Frame: Frame{Length: measure.Length(box.Length()), Width: measure.Length(box.Width()), Crosswise: b.turned}}
	l.Pieces = openOut(b, l, items)
	lie := quantity{proof: ByLayout, layout: l, ifs: bedConditions(b, false)}
	lie.spare, lie.side = spareOf(l.Pieces, u.box)
	lie.grade = graded(tight, lie.ifs)
	lie.reasons = []Reason{{What: Area, Asked: q.area() / 1e6, Has: c.Cloth.Outline.Area() / 1e6}}
	return lie, nest.Bound{}, checkOpen(c, l.Pieces)
}

// edges are obstacles along the sides of a box, for what of it lies outside the
// usable part: selvedges, and what is kept free to tell "enough" from "tight".
func edges(all, usable shape.Box) []shape.Polygon {
	var out []shape.Polygon
	add := func(x0, y0, x1, y1 int64) {
		if x1 > x0 && y1 > y0 {
			out = append(out, shape.Polygon{Outer: shape.Box{Min: shape.Point{X: x0, Y: y0}, Max: shape.Point{X: x1, Y: y1}}.Ring()})
		}
	}
	add(all.Min.X, all.Min.Y, all.Max.X, usable.Min.Y)
	add(all.Min.X, usable.Max.Y, all.Max.X, all.Max.Y)
	add(usable.Max.X, all.Min.Y, all.Max.X, all.Max.Y)
	return out
}

func lessThan(b shape.Box, t TightLimits) shape.Box {
	b.Max.X = max(b.Max.X-int64(t.Length), b.Min.X)
	b.Max.Y = max(b.Max.Y-int64(t.Width), b.Min.Y)
	return b
}

// spareOf is what the bounds of a leftover keep beyond everything laid.
func spareOf(pieces []PlacedPiece, b shape.Box) (along, across measure.Length) {
	end := b.Min
	for _, p := range pieces {
		box := p.Outline.Bounds()
		end.X, end.Y = max(end.X, box.Max.X), max(end.Y, box.Max.Y)
	}
	return measure.Length(max(b.Max.X-end.X, 0)), measure.Length(max(b.Max.Y-end.Y, 0))
}

// notFound says why: by a bound that the engine proved, or that the search ended.
func notFound(why nest.Bound, area int64, free float64) quantity {
	lie := quantity{grade: NotEnough, proof: ByBound}
	switch why.Kind {
	case nest.BoundLength:
		lie.short = measure.Length(why.Need - why.Have)
		lie.reasons = []Reason{{What: Length, Grain: lengthwise, Asked: why.Need, Has: why.Have, Bad: true}}
	case nest.BoundWidth:
		lie.reasons = []Reason{{What: Width, Grain: crosswise, Asked: why.Need, Has: why.Have, Bad: true}}
	case nest.BoundPair:
		lie.reasons = []Reason{{What: Outline, Asked: area / 1e6, Has: int64(free / 1e6), Bad: true}}
	default:
		lie.proof = BySearch
		lie.reasons = []Reason{{What: Outline, Asked: area / 1e6, Has: int64(free / 1e6), Bad: true}}
	}
	return lie
}
