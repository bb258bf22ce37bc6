package verb

import (
	"fmt"

	"tallycloth/planner/match"
	"tallycloth/planner/pattern"
	"tallycloth/planner/scene"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
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
	o, drawn := piece.Outlines[d.size]
	if !known || !drawn {
		return out
	}
	out.Size, out.Count = d.size, fmt.Sprintf("cut %d", piece.Cut)
	if piece.OnFold {
		out.Count += " on the fold"
	}
	out.GrainFrom, out.GrainTo = p.Place.ApplyPoint(o.GrainFoot), p.Place.ApplyPoint(o.GrainTop)
	for _, side := range halves(piece.OnFold) {
		for _, n := range o.Notches {
			out.Notches = append(out.Notches, nick(o.Cut, n.At, p.Place, side))
		}
		for _, line := range o.Inner {
			laid := make([]shape.Point, len(line))
			for i, q := range line {
				laid[i] = p.Place.ApplyPoint(side(q))
			}
			out.Inner = append(out.Inner, laid)
		}
	}
	return out
}

// halves returns how a point of an outline comes to lie on the whole piece: once, or for
// a half drawn on the fold as it is and mirrored about the fold, y = 0.
func halves(onFold bool) []func(shape.Point) shape.Point {
	same := func(p shape.Point) shape.Point { return p }
	if !onFold {
		return []func(shape.Point) shape.Point{same}
	}
	return []func(shape.Point) shape.Point{same, func(p shape.Point) shape.Point { return shape.Point{X: p.X, Y: -p.Y} }}
}

// nickLength is how deep a notch is drawn: 6 mm, the usual allowance for it (common practice).
const nickLength = 6 * measure.Millimetre

// nick draws a notch from the cutting line towards the middle of the outline.
func nick(cut shape.Ring, at shape.Point, place shape.Placement, side func(shape.Point) shape.Point) scene.Nick {
	b := cut.Bounds()
	in := shape.Point{X: (b.Min.X+b.Max.X)/2 - at.X, Y: (b.Min.Y+b.Max.Y)/2 - at.Y}
	long := max(abs(in.X), abs(in.Y), 1)
	tip := shape.Point{X: at.X + in.X*int64(nickLength)/long, Y: at.Y + in.Y*int64(nickLength)/long}
	return scene.Nick{At: place.ApplyPoint(side(at)), Tip: place.ApplyPoint(side(tip))}
}

func abs(v int64) int64 { return max(v, -v) }
