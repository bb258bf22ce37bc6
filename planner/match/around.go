package match

import (
	"context"
	"fmt"

	"tallycloth/planner/nest"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// around lays everything among the reserved areas of a plain length: folded as at
// home where those areas are seen in both layers, then in one layer.
func (q *Question) around(ctx context.Context, c stash.ClothState, u usable, b bed) (quantity, error) {
	free := float64(u.length)*float64(u.width) - reservedArea(c)
	if float64(q.area()) > densest*free {
		return quantity{grade: NotEnough, proof: BySearch}, nil
	}
	for _, try := range q.aroundBeds(b) {
		for _, tight := range []bool{false, true} {
			lie, ok, err := q.layAround(ctx, c, u, try, tight)
			if err != nil || ok {
				return lie, err
			}
		}
	}
	return quantity{grade: NotEnough, proof: BySearch}, nil
}

// aroundBeds are home's own fold and one layer, strips among the pattern pieces.
func (q *Question) aroundBeds(b bed) []bed {
	var out []bed
	if len(q.ask.Strips) == 0 {
		out = append(out, q.home(b)[0])
		if out[0].fold == 0 {
			return out
		}
		return append(out, b)
	}
	whole, joined := b, b
	whole.strips, joined.strips = 1, 2
	return append(out, whole, joined)
}

func (q *Question) layAround(ctx context.Context, c stash.ClothState, u usable, b bed, tight bool) (quantity, bool, error) {
	long := u.length
	if !tight {
		b.margin = int64(q.ask.Tight.Width)
		long -= int64(q.ask.Tight.Length)
	}
	if long <= 0 || len(b.bands()) == 0 {
		return quantity{}, false, nil
	}
	items := q.items(b, scale{})
	f := b.fabric(long)
	f.Obstacles = obstacles(c, b, shape.Point{X: u.box.Min.X, Y: u.box.Min.Y})
	in := q.instance(b, items, f, nest.FitsAll)
	a, err := nest.Solve(ctx, in, nest.Options{Seed: 1, FillOnly: true})
	switch {
	case err != nil:
		return quantity{}, false, fmt.Errorf("laying out around what is reserved: %w", err)
	case ctx.Err() != nil:
		return quantity{}, false, context.Cause(ctx)
	case len(a.Solution.Left) > 0:
		return quantity{}, false, nil
	}
	l := &Layout{Instance: in, Solution: a.Solution, StripParts: b.strips,
		Frame: frameOf(b, measure.Length(u.length), u.box.Min)}
	l.Pieces = openOut(b, l, items)
	lie := quantity{grade: Enough, proof: ByLayout, layout: l, ifs: bedConditions(b, q.ask.Fold && !b.turned),
		spare: measure.Length(u.length - max(a.Solution.Used[0], reservedEnd(c)-u.box.Min.X))}
	_, lie.side = q.across(u, l.Pieces)
	lie.spare = max(lie.spare, 0)
	lie.grade = graded(tight, lie.ifs)
	lie.reasons = []Reason{u.along(a.Solution.Used[0], u.length)}
	return lie, true, checkOpen(c, l.Pieces)
}

func graded(tight bool, ifs []If) Grade {
	switch {
	case len(ifs) > 0:
		return EnoughIf
	case tight:
		return Tight
	}
	return Enough
}

// bedConditions are what a bed asks of the person: one layer where cloth is usually
// folded, strips joined.
func bedConditions(b bed, usuallyFolded bool) []If {
	var out []If
	if usuallyFolded && b.fold == 0 {
		out = append(out, If{Condition: OneLayer})
	}
	if b.strips > 1 {
		out = append(out, If{Condition: StripsJoined})
	}
	return out
}

// obstacles are the reserved areas as they lie: in the lower layer as they are, and
// where the cloth is double once more as the upper layer turns them over. What falls
// outside the laid cloth is in nobody's way.
func obstacles(c stash.ClothState, b bed, origin shape.Point) []shape.Polygon {
	var out []shape.Polygon
	for _, r := range c.Reservations {
		for _, p := range r.Pieces {
			lower := p.Outline.Move(shape.Point{X: -origin.X, Y: -origin.Y - b.fold})
			out = append(out, shape.Polygon{Outer: lower})
			if b.fold == 0 {
				continue
			}
			upper := shape.Placement{Mirror: true}.Apply(lower) // counter-clockwise again
			out = append(out, shape.Polygon{Outer: upper})
			if b.second > 0 {
				out = append(out, shape.Polygon{Outer: upper.Move(shape.Point{Y: 2 * b.laidWidth()})})
			}
		}
	}
	return out
}

func reservedArea(c stash.ClothState) float64 {
	var sum float64
	for _, r := range c.Reservations {
		sum += float64(r.Area())
	}
	return sum
}

// reservedEnd is how far what is reserved reaches, in the cloth's frame.
func reservedEnd(c stash.ClothState) int64 {
	var end int64
	for _, r := range c.Reservations {
		for _, p := range r.Pieces {
			end = max(end, p.Outline.Bounds().Max.X)
		}
	}
	return end
}
