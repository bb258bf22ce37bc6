package patternui

import (
	"fmt"
	"math"

	"tallycloth/planner/pattern"
	"tallycloth/planner/scene"
	"tallycloth/stash/shape"
	"tallycloth/ui/say"
)

// piecesScene draws the pattern pieces of a size beside each other, grain upright with
// its top end above, a fold dashed. Rows break so that the whole is about twice as wide
// as high. Empty where the pattern has no outlines in that size.
func piecesScene(v say.Voice, q pattern.Pattern, size string) scene.Scene {
	var s scene.Scene
	var drawn []pattern.Piece
	area := 0.0
	for _, piece := range q.Pieces {
		if b := piece.Outlines[size].Cut.Bounds(); len(piece.Outlines[size].Cut) > 2 {
			drawn = append(drawn, piece)
			area += mm(b.Length()) * mm(b.Width())
		}
	}
	if len(drawn) == 0 {
		return s
	}
	row := math.Sqrt(area) * 2
	unit := row / 62
	x, top, low := 0.0, 0.0, 0.0
	wide := 0.0
	for _, piece := range drawn {
		b := piece.Outlines[size].Cut.Bounds()
		w, h := mm(b.Width()), mm(b.Length())
		room := math.Max(w, unit*0.6*float64(len(piece.Name)+3))
		if x > 0 && x+room > row {
			x, top = 0, low-5*unit
		}
		drawPiece(&s, piece, size, x+(room-w)/2, top, unit)
		low = math.Min(low, top-h-3*unit)
		x += room + 2*unit
		wide = math.Max(wide, x)
	}
	s.Bounds = scene.Box{Min: scene.Point{X: -unit, Y: low - unit}, Max: scene.Point{X: wide - unit, Y: unit}}
	s.Hair = row / 1500
	return s
}

func mm(v int64) float64 { return float64(v) / 1000 }

// drawPiece draws one piece with its top left at (x, top): the piece's own x, lengthwise
// from the top, runs down.
func drawPiece(s *scene.Scene, piece pattern.Piece, size string, x, top, unit float64) {
	o := piece.Outlines[size]
	b := o.Cut.Bounds()
	at := func(p shape.Point) scene.Point {
		return scene.Point{X: x + mm(p.Y-b.Min.Y), Y: top - mm(p.X-b.Min.X)}
	}
	line := func(style scene.Style, closed bool, points ...shape.Point) {
		l := scene.Line{Closed: closed}
		for _, p := range points {
			l.Points = append(l.Points, at(p))
		}
		s.Items = append(s.Items, scene.Item{Style: style, ID: piece.Code, Lines: []scene.Line{l}})
	}
	line(scene.Piece, true, o.Cut...)
	if piece.OnFold {
		line(scene.Fold, false, shape.Point{X: b.Min.X}, shape.Point{X: b.Max.X})
	}
	for _, inner := range o.Inner {
		line(scene.Grid, false, inner...)
	}
	for _, n := range o.Notches {
		p := at(n.At)
		s.Items = append(s.Items, scene.Item{Style: scene.Notch, Lines: []scene.Line{{Points: []scene.Point{{X: p.X - unit/3, Y: p.Y}, {X: p.X + unit/3, Y: p.Y}}}}})
	}
	for _, d := range o.Dots {
		p := at(d)
		s.Items = append(s.Items, scene.Item{Style: scene.Grain, Lines: []scene.Line{
			{Points: []scene.Point{{X: p.X - unit/4, Y: p.Y}, {X: p.X + unit/4, Y: p.Y}}}, {Points: []scene.Point{{X: p.X, Y: p.Y - unit/4}, {X: p.X, Y: p.Y + unit/4}}}}})
	}
	arrow(s, at(o.GrainFoot), at(o.GrainTop), unit)
	middle := scene.Point{X: x + mm(b.Width())/2, Y: top - mm(b.Length()) - 1.2*unit}
	words := []string{piece.Code + " " + piece.Name, cutWords(piece)}
	for i, w := range words {
		s.Items = append(s.Items, scene.Item{Style: scene.Label, Text: w, At: scene.Point{X: middle.X, Y: middle.Y - float64(i)*1.3*unit}, Size: unit})
	}
}

func arrow(s *scene.Scene, from, to scene.Point, unit float64) {
	if from == to {
		return
	}
	l := math.Hypot(to.X-from.X, to.Y-from.Y)
	dx, dy := (to.X-from.X)/l*unit*0.8, (to.Y-from.Y)/l*unit*0.8
	s.Items = append(s.Items, scene.Item{Style: scene.Grain, Lines: []scene.Line{
		{Points: []scene.Point{from, to}},
		{Points: []scene.Point{{X: to.X - dx - dy*0.5, Y: to.Y - dy + dx*0.5}, to, {X: to.X - dx + dy*0.5, Y: to.Y - dy - dx*0.5}}},
	}})
}

// cutWords say how often a piece is cut: "cut 1 on the fold", "cut 2, a pair".
func cutWords(p pattern.Piece) string {
	n := max(p.Cut, 1)
	switch {
	case p.OnFold:
		return fmt.Sprintf("cut %d on the fold", n)
	case p.Pairs && n == 2:
		return "cut 2, a pair"
	case p.Pairs:
		return fmt.Sprintf("cut %d, in pairs", n)
	}
	return fmt.Sprintf("cut %d", n)
}
