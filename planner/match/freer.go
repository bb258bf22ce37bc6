package match

import (
	"context"

	"tallycloth/planner/nest"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// stricter lists the beds whose layouts also serve a bed: all pieces one way where
// each garment may choose, each garment one way where each piece may; folded cloth
// where one layer is asked. A freer question that starts from a stricter one's
// answer never ends longer.
func (q *Question) stricter(b bed) []bed {
	var out []bed
	one := b
	switch b.direction {
	case stash.EitherWay:
		one.direction = stash.SameWayInGarment
		out = append(out, one)
	case stash.SameWayInGarment:
		one.direction = stash.SameWayForAll
		out = append(out, one)
	}
	if b.fold == 0 && !b.turned && b.strips == 0 && len(q.parts) > 0 {
		out = append(out, q.folded(b)...)
	}
	return out
}

// startOf is the shortest layout of the stricter beds, searched as far as they are, as
// it lies on a bed, with its length; far when there is none.
func (q *Question) startOf(ctx context.Context, b bed) (int64, nest.Solution, error) {
	best, start := int64(far), nest.Solution{}
	for _, s := range q.stricter(b) {
		n, sol, err := q.least(ctx, s, true)
		if err != nil {
			return 0, nest.Solution{}, err
		}
		if n >= best {
			continue
		}
		ok := true
		if s.fold != b.fold {
			sol, ok = q.unfolded(s, b, sol)
		}
		if ok && nest.Check(q.instance(b, q.items(b, scale{}), b.fabric(0), nest.LeastLength), sol) == nil {
			best, start = n, sol
		}
	}
	return best, start, nil
}

// leastOfStricter is the length of the shortest first layout of the stricter beds.
func (q *Question) leastOfStricter(ctx context.Context, b bed) (int64, error) {
	best := int64(far)
	for _, s := range q.stricter(b) {
		n, _, err := q.least(ctx, s, false)
		if err != nil {
			return 0, err
		}
		more, err := q.leastOfStricter(ctx, s)
		if err != nil {
			return 0, err
		}
		best = min(best, n, more)
	}
	return best, nil
}

// unfolded opens a layout on folded cloth out into one layer: what lies double becomes
// two, halves on the fold become whole. The two of a pair may touch along the fold,
// where one layer keeps the clearance; so ways to move either half of the pairs off it
// are tried, those near the fold alone before all. It is false where none of them
// keeps every rule of the open bed.
func (q *Question) unfolded(from, to bed, sol nest.Solution) (nest.Solution, bool) {
	items := q.items(from, scale{})
	l := &Layout{Instance: nest.Instance{Items: make([]nest.Item, len(items))}, Solution: sol, Frame: frameOf(from, measure.Length(0), shape.Point{})}
	open := q.items(to, scale{})
	in := q.instance(to, open, to.fabric(0), nest.LeastLength)
	gap := int64(q.ask.Clearance)
	for _, all := range []bool{false, true} {
		for _, by := range [][2]int64{{0, 0}, {-gap, 0}, {0, gap}, {-gap / 2, gap - gap/2}} {
			var pieces []PlacedPiece
			for _, laid := range sol.Laid {
				two := placedPart(from, items[laid.Item], laid, l)
				if len(two) == 2 && (all || nearFold(from, laid, items[laid.Item], gap)) {
					two[0].Place.At.Y += by[0]
					two[1].Place.At.Y += by[1]
				}
				pieces = append(pieces, two...)
			}
			if out, ok := asItems(open, pieces); ok && nest.Check(in, out) == nil {
				return out, true
			}
		}
	}
	return nest.Solution{}, false
}

// nearFold says whether what lies double lies nearer to a fold than half the gap.
func nearFold(b bed, laid nest.Laid, it item, gap int64) bool {
	box := laid.Place.Apply(it.item.Outline).Bounds()
	return 2*box.Min.Y < gap || b.second > 0 && 2*(b.laidWidth()-box.Max.Y) < gap
}

// asItems lists pieces as copies of the items of an open bed, the lowest on its edge. It
// is false where the items ask for something else.
func asItems(items []item, pieces []PlacedPiece) (nest.Solution, bool) {
	sol := nest.Solution{Used: []int64{0}}
	next := make([]int, len(items))
	low := int64(far)
	for _, p := range pieces {
		i := itemFor(items, next, p)
		if i < 0 {
			return sol, false
		}
		place := p.Place
		if items[i].part.twin && place.Mirror {
			place = unmirrored(place, items[i].item.Outline)
		}
		box := place.Apply(items[i].item.Outline).Bounds()
		low, sol.Used[0] = min(low, box.Min.Y), max(sol.Used[0], box.Max.X)
		sol.Laid = append(sol.Laid, nest.Laid{Item: i, Copy: next[i], Place: place})
		sol.Value += items[i].item.Value
		next[i]++
	}
	for k := range sol.Laid {
		sol.Laid[k].Place.At.Y -= low
	}
	return sol, true
}

// itemFor finds the item that a piece is the next copy of: the same part, laid with the
// face it has.
func itemFor(items []item, next []int, p PlacedPiece) int {
	for i, it := range items {
		if it.part == nil || it.part.piece.Code != p.Piece || next[i] >= max(it.item.Count, 1) {
			continue
		}
		if it.part.twin || it.item.Mirror == nest.EitherFace || (it.item.Mirror == nest.Mirrored) == p.Place.Mirror {
			return i
		}
	}
	return -1
}

// unmirrored lays an outline that is its own mirror image without mirroring it, where it
// lay mirrored.
func unmirrored(p shape.Placement, r shape.Ring) shape.Placement {
	want := p.Apply(r).Bounds().Min
	p.Mirror = false
	p.At = p.At.Add(want.Sub(p.Apply(r).Bounds().Min))
	return p
}
