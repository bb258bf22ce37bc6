package match

import (
	"fmt"
	"slices"

	"tallycloth/planner/nest"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// replay is a layout put back to the layout engine as a question, with what lies where.
type replay struct {
	in    nest.Instance
	start nest.Solution
	items []item
	bed   bed
	base  Layout        // its frame
	loose []PlacedPiece // strips row by row: they stay as they lie to each other
	still bool          // one of them is kept in place
	stop  int64         // how far back along the cloth they may be drawn
}

// unit is one laid outline: a pattern piece, a pair on folded cloth, or a strip.
type unit struct {
	item int
	at   shape.Placement // in the laid frame
	keep bool
}

// replay reads a layout on a cloth as a question to the engine on a length of cloth, 0
// for no end. What is to be kept is pinned. It is refused where the layout does not hold
// what the question asks, or where layers of a pair lie apart.
func (q *Question) replay(c stash.ClothState, l Layout, keep []bool, length int64, ask nest.Ask) (replay, error) {
	o := q.onOpen(c, l)
	r := replay{bed: o.b, items: q.items(o.b, o.scale), base: Layout{Frame: o.frame(), StripParts: l.StripParts}}
	units, err := r.read(o, keep)
	if err != nil {
		return replay{}, err
	}
	if at, ok := o.repeatAt(); ok {
		for i := range r.items {
			if it := &r.items[i]; it.item.Repeat > 0 {
				it.item.Phase = floorMod(it.item.Phase+at-o.origin.X, it.item.Repeat)
			}
		}
	}
	r.stop = o.stop(r.loose)
	r.in = q.instance(o.b, r.items, o.fabric(length, r.loose), ask)
	r.lay(units)
	return r, nil
}

// frame is the frame over all that can be cut.
func (o *opened) frame() Frame {
	if o.c.Cloth.Plain() {
		return frameOf(o.b, measure.Length(o.u.length), o.u.box.Min)
	}
	box := o.c.Cloth.Outline.Bounds()
	return Frame{Length: measure.Length(box.Length()), Width: measure.Length(box.Width()), Crosswise: o.b.turned}
}

// fabric is the cloth with what is reserved, and what stays, in the way. Along what
// cannot be cut of a leftover no clearance is asked, so what keeps it out lies further off.
func (o *opened) fabric(length int64, stays []PlacedPiece) nest.Fabric {
	with := o.c
	if len(stays) > 0 {
		var kept stash.Reservation
		for _, p := range stays {
			kept.Pieces = append(kept.Pieces, stash.ReservedPiece{Outline: p.Outline})
		}
		with.Reservations = append(slices.Clone(o.c.Reservations), kept)
	}
	if o.c.Cloth.Plain() {
		f := o.b.fabric(length)
		f.Obstacles = obstacles(with, o.b, o.u.box.Min)
		return f
	}
	all := o.c.Cloth.Outline.Bounds()
	f := nest.Fabric{Outline: o.c.Cloth.Outline, Obstacles: edges(all, o.u.box.Grown(o.gap))}
	f.Obstacles = append(f.Obstacles, obstacles(with, o.b, shape.Point{})...)
	return f
}

// read turns the pieces of a layout into laid outlines.
func (r *replay) read(o *opened, keep []bool) ([]unit, error) {
	var out []unit
	next := make([]int, len(r.items))
	kept := func(i int) bool { return i < len(keep) && keep[i] }
	for i, p := range o.pieces {
		if o.parts[i] == nil && o.b.strips == 0 {
			r.loose, r.still = append(r.loose, p), r.still || kept(i)
			continue
		}
		if o.pair[i] >= 0 && p.Layer == 0 {
			continue // with its lower layer
		}
		u := unit{item: r.itemOf(o, i, next), at: o.laid(p), keep: kept(i) || o.pair[i] >= 0 && kept(o.pair[i])}
		if u.item < 0 {
			return nil, fmt.Errorf("%s does not belong to the layout as it lies", p.Name)
		}
		switch it := &r.items[u.item]; {
		case it.item.OnFold:
			u.at = o.againstFold(u.at)
		case it.part != nil && it.part.twin && u.at.Mirror && it.item.Mirror == nest.AsDrawn:
			u.at = unmirrored(u.at, it.item.Outline)
		}
		next[u.item]++
		out = append(out, u)
	}
	return out, nil
}

// itemOf finds the item that piece i is the next copy of, or −1.
func (r *replay) itemOf(o *opened, i int, next []int) int {
	for k, it := range r.items {
		if next[k] < max(it.item.Count, 1) && it.serves(o, i) {
			return k
		}
	}
	return -1
}

// serves says whether piece i of a layout is a copy of an item.
func (it item) serves(o *opened, i int) bool {
	switch p := o.pieces[i]; {
	case o.parts[i] == nil:
		return it.strip != nil && it.strip.Name == p.Piece
	case it.part != o.parts[i] || it.double != (o.pair[i] >= 0):
		return false
	case it.item.OnFold || it.double || it.part.twin || it.item.Mirror == nest.EitherFace:
		return true
	default:
		return (it.item.Mirror == nest.Mirrored) == p.Place.Mirror
	}
}

// againstFold is how the half of a piece on the fold lies: at the nearer fold, turned as
// the whole is. At a fold on the high side it lies mirrored.
func (o *opened) againstFold(p shape.Placement) shape.Placement {
	high := int64(0)
	if o.b.second > 0 {
		high = o.b.laidWidth()
	}
	atHigh := high > 0 && p.At.Y > high/2
	p.At.Y = 0
	if atHigh {
		p.At.Y = high
	}
	p.Angle = p.Angle.Norm()
	p.Mirror = (p.Angle == shape.Turn180) != atHigh
	return p
}

// lay makes the engine's solution of the units: those kept are the first copies of
// their items, pinned.
func (r *replay) lay(units []unit) {
	slices.SortStableFunc(units, func(a, b unit) int {
		switch {
		case a.keep == b.keep:
			return a.item - b.item
		case a.keep:
			return -1
		}
		return 1
	})
	next := make([]int, len(r.items))
	r.start.Used = []int64{0}
	from := int64(0)
	if len(r.in.Fabrics[0].Outline.Outer) > 0 {
		from = r.in.Fabrics[0].Outline.Bounds().Min.X
	}
	for _, u := range units {
		it := &r.in.Items[u.item]
		if u.keep {
			it.Pinned = append(it.Pinned, nest.Pin{Place: u.at})
		}
		r.start.Laid = append(r.start.Laid, nest.Laid{Item: u.item, Copy: next[u.item], Place: u.at})
		r.start.Used[0] = max(r.start.Used[0], u.at.Apply(it.Outline).Bounds().Max.X-from)
		next[u.item]++
	}
	for i := range r.in.Items {
		for k := next[i]; k < max(r.in.Items[i].Count, 1); k++ {
			r.start.Left = append(r.start.Left, nest.Copy{Item: i, Copy: k})
		}
	}
}

// layout is a solution of the question as it lies on the open cloth, with which of its
// pieces are kept in place.
func (r *replay) layout(sol nest.Solution) (Layout, []bool) {
	l := r.base
	l.Instance, l.Solution = r.in, sol
	var keep []bool
	strips := map[*StripAsk]int{}
	for _, laid := range sol.Laid {
		it := r.items[laid.Item]
		var some []PlacedPiece
		if it.strip != nil {
			some = []PlacedPiece{placedStrip(it, laid, l.Frame.Origin, strips[it.strip], r.bed.strips)}
			strips[it.strip]++
		} else {
			some = placedPart(r.bed, it, laid, &l)
		}
		for range some {
			keep = append(keep, laid.Copy < len(r.in.Items[laid.Item].Pinned))
		}
		l.Pieces = append(l.Pieces, some...)
	}
	l.Pieces = append(l.Pieces, r.follow(l.Pieces)...)
	return l, append(keep, make([]bool, len(r.loose))...)
}

// stop is where strips that lie row by row are to keep to when they are drawn back: the usable
// start, or the end of what is reserved before them.
func (o *opened) stop(strips []PlacedPiece) int64 {
	at, from := o.u.box.Min.X, startOf(strips)
	for _, r := range o.reserved {
		if b := r.Bounds(); b.Min.X < from {
			at = max(at, b.Max.X+o.gap)
		}
	}
	return at
}

// startOf is where the first of some pieces begins along the cloth.
func startOf(pieces []PlacedPiece) int64 {
	from := int64(far)
	for _, p := range pieces {
		from = min(from, p.Outline.Bounds().Min.X)
	}
	return from
}

// follow draws strips that lie row by row back to the pattern pieces before them, so that what is
// left of the cloth is one stretch. Strips of which one is kept in place stay.
func (r *replay) follow(pieces []PlacedPiece) []PlacedPiece {
	end := r.stop
	for _, p := range pieces {
		end = max(end, p.Outline.Bounds().Max.X+r.in.Clearance)
	}
	by := end - startOf(r.loose)
	if r.still || len(pieces) == 0 || len(r.loose) == 0 || by >= 0 {
		return r.loose
	}
	out := slices.Clone(r.loose)
	for i := range out {
		out[i].Place.At.X += by
		out[i].Outline = out[i].Outline.Move(shape.Point{X: by})
	}
	return out
}
