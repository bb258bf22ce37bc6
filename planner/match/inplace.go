package match

import (
	"slices"

	"tallycloth/stash"
	"tallycloth/stash/shape"
)

// InPlace lays pattern pieces whose outlines changed where those of the question as it was lie on a cloth: each
// with its top where it was, or else each with its foot there. It is false where an outline is not one of the
// question as it was, or where the changed ones would break a rule; then they are to be looked room for.
// The cloth is without the outlines that are laid anew.
func (q *Question) InPlace(was *Question, c stash.ClothState, lie []stash.ReservedPiece) (Verdict, bool) {
	q, was = q.For(c.Fabric), was.For(c.Fabric)
	for _, crosswise := range []bool{false, true} {
		for _, foot := range []bool{false, true} {
			l, ok := q.moved(was, c, lie, crosswise, foot)
			if ok && len(q.Faults(c, l)) == 0 {
				return q.Proved(c, l), true
			}
		}
	}
	return Verdict{}, false
}

// moved is a layout in one layer with the outlines of q where those of was lie; foot keeps the lower ends in
// place rather than the upper ones.
func (q *Question) moved(was *Question, c stash.ClothState, lie []stash.ReservedPiece, crosswise, foot bool) (Layout, bool) {
	l := Layout{Frame: Frame{Crosswise: crosswise}}
	now, before := q.onOpen(c, l), was.onOpen(c, l)
	l.Frame = now.frame()
	copies := map[string]int{}
	for _, r := range lie {
		from, place, ok := before.whereLaid(r)
		if !ok {
			return l, false
		}
		at := slices.IndexFunc(q.parts, func(p part) bool { return p.piece.Code == from.piece.Code && p.piece.Name == from.piece.Name })
		if at < 0 {
			return l, false
		}
		to := &q.parts[at]
		ring := now.ring(to)
		if foot {
			down := before.ring(from).Bounds().Max.X - ring.Bounds().Max.X
			place.At = place.ApplyPoint(shape.Point{X: down})
		}
		l.Pieces = append(l.Pieces, PlacedPiece{Piece: to.piece.Code, Name: to.piece.Name, Role: to.piece.Role,
			Copy: copies[to.piece.Code], Place: place, Outline: place.Apply(ring)})
		copies[to.piece.Code]++
	}
	return l, true
}

// whereLaid finds of which pattern piece a reserved outline is a copy, and how it lies.
func (o *opened) whereLaid(r stash.ReservedPiece) (*part, shape.Placement, bool) {
	for i := range o.q.parts {
		p := &o.q.parts[i]
		ring := o.ring(p)
		if p.piece.Name != r.Name || len(ring) != len(r.Outline) {
			continue
		}
		for _, turn := range []shape.Angle{shape.Turn0, shape.Turn180, shape.Turn90, shape.Turn270} {
			for _, mirror := range []bool{false, true} {
				place := shape.Placement{Angle: turn, Mirror: mirror}
				place.At = r.Outline.Bounds().Min.Sub(place.Apply(ring).Bounds().Min)
				if slices.Equal(place.Apply(ring), r.Outline) {
					return p, place, true
				}
			}
		}
	}
	return nil, shape.Placement{}, false
}
