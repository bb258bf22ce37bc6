package match

import (
	"fmt"

	"tallycloth/planner/nest"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// layOnLength makes the layout of a fit on a plain length: the shared layout moved
// to where it lies, opened out, with the strips next to it, so that all that is left is
// one stretch; checked as it lies and again on the open cloth.
func (q *Question) layOnLength(c stash.ClothState, u usable, s stretchOf, f fit) (*Layout, error) {
	_, sol, err := q.leastKnown(f)
	if err != nil {
		return nil, err
	}
	b := f.bed
	b.margin = 0 // what was kept free for "tight" may show as free
	items := q.items(b, scale{})
	next := s.from + f.total - f.block.length
	l := &Layout{
		Instance:   q.instance(b, items, b.fabric(s.to-s.from-f.block.length), nest.FitsAll),
		Solution:   sol,
		Frame:      frameOf(b, measure.Length(s.to-s.from), shape.Point{X: u.box.Min.X + s.from, Y: u.box.Min.Y}),
		StripParts: b.strips,
	}
	l.Pieces = append(openOut(b, l, items), blockPieces(f.block, shape.Point{X: u.box.Min.X + next, Y: u.box.Min.Y})...)
	if len(items) == 0 {
		return l, checkOpen(c, l.Pieces)
	}
	return l, q.checkShared(c, f, l)
}

// leastKnown returns a shared layout that was worked out before.
func (q *Question) leastKnown(f fit) (*shelfLayout, nest.Solution, error) {
	s := q.sharedOn(f.bed)
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.tried <= f.index {
		return nil, nest.Solution{}, fmt.Errorf("the layout was not worked out")
	}
	return s, s.layout[f.index], nil
}

// checkShared checks a layout as it lies and on the open cloth. What does not depend
// on the single cloth is checked once for all of them: a shared layout is only ever
// moved as a whole. For each cloth remains that it is long enough, that strips lie
// beyond the pattern pieces, and what checkPlaces looks at.
func (q *Question) checkShared(c stash.ClothState, f fit, l *Layout) error {
	s, _, err := q.leastKnown(f)
	if err != nil {
		return err
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	if !s.checked[f.index] {
		if err := nest.Check(l.Instance, l.Solution); err != nil {
			return fmt.Errorf("checking the layout: %w", err)
		}
		if err := checkOpen(c, l.Pieces); err != nil {
			return err
		}
		s.checked[f.index] = true
		return nil
	}
	if used, has := l.Solution.Used[0], l.Instance.Fabrics[0].Length; used > has {
		return fmt.Errorf("checking the layout: it takes %.1f mm and there are %.1f mm", float64(used)/1000, float64(has)/1000)
	}
	strips := len(l.Pieces) - len(f.block.cuts)
	for _, p := range l.Pieces[:strips] {
		for _, s := range l.Pieces[strips:] {
			if shape.Overlaps(p.Outline, s.Outline) {
				return fmt.Errorf("checking the layout on the open cloth: %s and %s overlap", p.Name, s.Name)
			}
		}
	}
	return checkPlaces(c, l.Pieces)
}

// checkPlaces checks that each piece lies on a plain length and off what is reserved.
func checkPlaces(c stash.ClothState, pieces []PlacedPiece) error {
	for _, p := range pieces {
		b := p.Outline.Bounds()
		if b.Min.X < 0 || b.Min.Y < 0 || b.Max.X > int64(c.Cloth.Length) || b.Max.Y > int64(c.Cloth.Width) {
			return fmt.Errorf("checking the layout on the open cloth: %s reaches over its edge", p.Name)
		}
		for _, r := range c.Reservations {
			for _, o := range r.Pieces {
				if shape.Overlaps(p.Outline, o.Outline) {
					return fmt.Errorf("checking the layout on the open cloth: %s lies on what is reserved", p.Name)
				}
			}
		}
	}
	return nil
}

func frameOf(b bed, length measure.Length, origin shape.Point) Frame {
	origin.Y += b.fold
	return Frame{Length: length, Width: measure.Length(b.laidWidth()), Origin: origin, Folds: b.folds(), Crosswise: b.turned}
}

// openOut says where everything lies on the open cloth: half pieces whole, what
// lies double twice. The lower layer keeps its place from the fold on; the upper
// one is its mirror image about the fold.
func openOut(b bed, l *Layout, items []item) []PlacedPiece {
	var out []PlacedPiece
	strips := map[*StripAsk]int{}
	for _, laid := range l.Solution.Laid {
		it := items[laid.Item]
		if it.strip != nil {
			n := strips[it.strip]
			strips[it.strip]++
			out = append(out, placedStrip(it, laid, l.Frame.Origin, n, b.strips))
			continue
		}
		out = append(out, placedPart(b, it, laid, l)...)
	}
	return out
}

func placedPart(b bed, it item, laid nest.Laid, l *Layout) []PlacedPiece {
	p := PlacedPiece{Piece: it.part.piece.Code, Name: it.part.piece.Name, Role: it.part.piece.Role, Copy: laid.Copy}
	ring := it.item.Outline
	if it.item.OnFold {
		ring = it.part.whole
	}
	p.Place = laid.Place
	p.Place.At = laid.Place.At.Add(l.Frame.Origin)
	p.Outline = p.Place.Apply(ring)
	if b.fold > 0 && !it.item.OnFold {
		p.Layer = 1
	}
	if !it.double {
		return []PlacedPiece{p}
	}
	up := p
	up.Layer, up.Copy = 0, laid.Copy*2
	p.Copy = laid.Copy*2 + 1
	up.Place = aboutFold(laid.Place, b, laid.Place.Apply(ring).Bounds(), l.Frame.Origin)
	up.Outline = up.Place.Apply(ring)
	return []PlacedPiece{up, p}
}

// aboutFold is where the upper layer of an outline lies on the open cloth. A point at
// height y above the first fold lies at −y from it; above the second fold of a bed,
// which is at the laid width w, at 2w − y. Reflecting R(a)·M·p + t about y = 0 gives
// R(−a)·M′·p with the mirror changed over (derived here).
func aboutFold(p shape.Placement, b bed, box shape.Box, origin shape.Point) shape.Placement {
	axis := int64(0)
	if b.second > 0 && box.Min.Y >= b.fold {
		axis = 2 * b.laidWidth()
	}
	return shape.Placement{Angle: (-p.Angle).Norm(), Mirror: !p.Mirror,
		At: shape.Point{X: p.At.X + origin.X, Y: axis - p.At.Y + origin.Y}}
}

func placedStrip(it item, laid nest.Laid, origin shape.Point, n, parts int) PlacedPiece {
	if !it.strip.MayJoin {
		parts = 1
	}
	place := laid.Place
	place.At = place.At.Add(origin)
	return PlacedPiece{Piece: it.strip.Name, Name: it.strip.Name, Role: pattern.Binding, Copy: n / parts, Part: n % parts,
		Place: place, Outline: place.Apply(it.item.Outline)}
}

func blockPieces(b block, origin shape.Point) []PlacedPiece {
	var out []PlacedPiece
	for _, c := range b.cuts {
		box := shape.Box{Max: shape.Point{X: int64(c.strip.Width), Y: c.length}}
		place := shape.Placement{At: origin.Add(shape.Point{X: c.x, Y: c.from})}
		out = append(out, PlacedPiece{Piece: c.strip.Name, Name: c.strip.Name, Role: pattern.Binding,
			Copy: c.copy, Part: c.part, Place: place, Outline: place.Apply(box.Ring())})
	}
	return out
}

// checkOpen checks the pieces where they will be cut: in one layer, within the
// cloth, clear of each other and of what is reserved. Only here are the two layers
// of folded cloth side by side, so pieces may touch at a fold.
func checkOpen(c stash.ClothState, pieces []PlacedPiece) error {
	in := nest.Instance{Fabrics: []nest.Fabric{openFabric(c)}, Ask: nest.FitsAll}
	sol := nest.Solution{Used: []int64{0}}
	start := int64(0)
	if !c.Cloth.Plain() {
		start = c.Cloth.Outline.Bounds().Min.X
	}
	for i, p := range pieces {
		in.Items = append(in.Items, nest.Item{Outline: p.Outline, Group: nest.NoGroup})
		sol.Laid = append(sol.Laid, nest.Laid{Item: i})
		sol.Used[0] = max(sol.Used[0], p.Outline.Bounds().Max.X-start)
	}
	if err := nest.Check(in, sol); err != nil {
		return fmt.Errorf("checking the layout on the open cloth: %w", err)
	}
	return nil
}

// openFabric is the whole cloth in one layer with what is reserved on it.
func openFabric(c stash.ClothState) nest.Fabric {
	f := nest.Fabric{Width: int64(c.Cloth.Width), Length: int64(c.Cloth.Length), Outline: c.Cloth.Outline}
	for _, r := range c.Reservations {
		for _, p := range r.Pieces {
			f.Obstacles = append(f.Obstacles, shape.Polygon{Outer: p.Outline})
		}
	}
	return f
}
