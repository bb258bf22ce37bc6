package paper

import (
	"fmt"
	"strings"

	"tallycloth/planner"
	"tallycloth/planner/exchange/sheet"
	"tallycloth/planner/match"
	"tallycloth/planner/pattern"
	"tallycloth/planner/scene"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// nickLength is how deep a notch is drawn: 6 mm, the usual allowance for it (common practice).
const nickLength = 6 * measure.Millimetre

// Marked puts on a placed outline what is drawn on its pattern piece in a size: count, grain
// arrow, notches, dots, inner lines.
func Marked(out scene.Placed, piece pattern.Piece, size string, lie match.Lie) scene.Placed {
	o, drawn := piece.Outlines[size]
	if !drawn {
		return out
	}
	out.Size, out.Count = "size "+size, CutCount(piece)
	if o.GrainFoot != o.GrainTop {
		out.GrainFrom, out.GrainTo = lie.At(o.GrainFoot), lie.At(o.GrainTop)
	}
	for _, side := range halves(piece.OnFold) {
		for _, n := range o.Notches {
			out.Notches = append(out.Notches, nick(o.Cut, n.At, lie, side))
		}
		for _, d := range o.Dots {
			out.Dots = append(out.Dots, lie.At(side(d)))
		}
		for _, line := range o.Inner {
			laid := make([]shape.Point, len(line))
			for i, q := range line {
				laid[i] = lie.At(side(q))
			}
			out.Inner = append(out.Inner, laid)
		}
	}
	return out
}

// CutCount says how often a pattern piece is cut.
func CutCount(p pattern.Piece) string {
	s := fmt.Sprintf("cut %d", max(p.Cut, 1))
	switch {
	case p.OnFold:
		s += " on the fold"
	case p.Pairs && p.Cut == 2:
		s += ", a mirrored pair"
	case p.Pairs:
		s += ", in mirrored pairs"
	}
	return s
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

// nick draws a notch from the cutting line towards the middle of the outline.
func nick(cut shape.Ring, at shape.Point, lie match.Lie, side func(shape.Point) shape.Point) scene.Nick {
	b := cut.Bounds()
	in := shape.Point{X: (b.Min.X+b.Max.X)/2 - at.X, Y: (b.Min.Y+b.Max.Y)/2 - at.Y}
	long := max(abs(in.X), abs(in.Y), 1)
	tip := shape.Point{X: at.X + in.X*int64(nickLength)/long, Y: at.Y + in.Y*int64(nickLength)/long}
	return scene.Nick{At: lie.At(side(at)), Tip: lie.At(side(tip))}
}

func abs(v int64) int64 { return max(v, -v) }

// Drawing is a cloth of a cutting sheet as the one scene of layouts draws it.
func Drawing(units measure.System, sheet planner.CuttingSheet, c planner.SheetCloth) scene.Scene {
	return layoutOf(units, sheet, c).Scene()
}

// rowLength is how much of a cloth stands in one row on paper: names of pattern pieces can be read then.
const rowLength = 3 * int64(measure.Metre)

// draw puts the drawing of a cloth into a part: a long one in rows.
func draw(part *sheet.Part, units measure.System, s planner.CuttingSheet, c planner.SheetCloth) {
	rows := layoutOf(units, s, c).Rows(rowLength)
	if len(rows) == 1 {
		part.Scene = rows[0]
		return
	}
	part.Rows = rows
	part.Lines = append(part.Lines, fmt.Sprintf("Drawn in %d rows, from its beginning on; what a broken edge cuts through is whole in another row.", len(rows)))
}

func layoutOf(units measure.System, sheet planner.CuttingSheet, c planner.SheetCloth) scene.Layout {
	cloth := c.State.Cloth
	l := scene.Layout{Cloth: cloth.Polygon(), Selvedges: scene.Sides{Low: cloth.SelvedgeLow, High: cloth.SelvedgeHigh}, Folds: c.Folds, Units: units}
	for _, o := range c.Others {
		l.Reserved = append(l.Reserved, scene.Kept{Outline: shape.Polygon{Outer: o.Outline}, Name: o.Garment})
	}
	for _, p := range c.Pieces {
		if p.Spoiled {
			l.Spoiled = append(l.Spoiled, scene.Kept{Outline: shape.Polygon{Outer: p.Outline}, Name: p.Name})
			continue
		}
		l.Pieces = append(l.Pieces, placed(sheet, p))
	}
	for _, k := range c.Left {
		l.Free = append(l.Free, k.Outline)
	}
	return l
}

// placed is one pattern piece of a sheet with its number before its name.
func placed(sheet planner.CuttingSheet, p planner.SheetPiece) scene.Placed {
	out := scene.Placed{ID: fmt.Sprint(p.Number), Name: fmt.Sprintf("%d  %s", p.Number, p.Name), Outline: p.Outline, Tint: p.Garment + 1}
	if p.Known {
		out = Marked(out, p.Piece, p.Size, p.Lie)
	}
	out.GrainFrom, out.GrainTo = p.GrainFoot, p.GrainTop
	if len(sheet.Garments) > 1 {
		out.Size = strings.TrimSuffix(garmentNumber(p.Garment)+", "+out.Size, ", ")
	}
	return out
}
