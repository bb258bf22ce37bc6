package verb

import (
	"tallycloth/planner/match"
	"tallycloth/planner/pattern"
	"tallycloth/planner/scene"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
	"tallycloth/ui/paper"
)

// drawing is what the picture of a layout is made from.
type drawing struct {
	cloth    stash.ClothState
	pattern  pattern.Pattern
	size     string
	layout   match.Layout
	garments map[stash.ID]string
	units    measure.System
}

// scene puts the layout together as it lies on the open cloth: what is reserved
// already, the folds, and every pattern piece with its grain and notches.
func (d drawing) scene() scene.Scene {
	c := d.cloth.Cloth
	l := scene.Layout{
		Cloth: c.Polygon(), Selvedges: scene.Sides{Low: c.SelvedgeLow, High: c.SelvedgeHigh}, Folds: d.folds(), Units: d.units,
	}
	for _, r := range d.cloth.Reservations {
		for _, p := range r.Pieces {
			l.Reserved = append(l.Reserved, scene.Kept{Outline: shape.Polygon{Outer: p.Outline}, Name: d.garments[r.GarmentID]})
		}
	}
	for _, p := range d.layout.Pieces {
		l.Pieces = append(l.Pieces, d.placed(p))
	}
	return l.Scene()
}

// folds returns where the folds lie on the open cloth: the first is the origin of the
// laid frame, a second the laid width away from it.
func (d drawing) folds() []int64 {
	f := d.layout.Frame
	switch len(f.Folds) {
	case 0:
		return nil
	case 1:
		return []int64{f.Origin.Y}
	}
	return []int64{f.Origin.Y, f.Origin.Y + int64(f.Width)}
}

// placed is one pattern piece or strip in its place, with what is drawn on it.
func (d drawing) placed(p match.PlacedPiece) scene.Placed {
	out := scene.Placed{ID: p.Piece, Name: p.Name, Outline: p.Outline, Tint: 1}
	piece, known := d.pattern.Piece(p.Piece)
	if !known {
		return out
	}
	return paper.Marked(out, piece, d.size, match.Drawn(p.Place))
}
