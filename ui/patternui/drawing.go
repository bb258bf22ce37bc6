package patternui

import (
	"fmt"
	"math"
	"slices"

	"tallycloth/planner/match"
	"tallycloth/planner/pattern"
	"tallycloth/planner/scene"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
	"tallycloth/ui/say"
)

// piecesScene draws the pattern pieces of a size beside each other, grain upright with
// its top end above, a fold dashed, under each how large it is, and a bar to compare with below. Rows break
// so that the whole is about twice as wide as high. Empty where the pattern has no outlines in that size.
func piecesScene(v say.Voice, q pattern.Pattern, size string) scene.Scene {
	var s scene.Scene
	var drawn []pattern.Piece
	area, tall := 0.0, 0.0
	for _, piece := range q.Pieces {
		if b := cutOf(q, piece, size).Bounds(); len(piece.Outlines[size].Cut) > 2 {
			drawn = append(drawn, piece)
			area += mm(b.Length()) * mm(b.Width())
			tall = math.Max(tall, mm(b.Length()))
		}
	}
	if len(drawn) == 0 {
		return s
	}
	row := math.Sqrt(area) * 2
	unit := math.Max(row/62, tall/17) // words can be read where a few long pieces fill the height
	x, top, low := 0.0, 0.0, 0.0
	wide := 0.0
	for _, piece := range drawn {
		b := cutOf(q, piece, size).Bounds()
		w, h := mm(b.Width()), mm(b.Length())
		words := pieceWords(v, q, piece, size)
		room := w
		for _, text := range words {
			room = math.Max(room, unit*scene.TextWidth(text))
		}
		if x > 0 && x+room > row {
			x, top = 0, low-3*unit
		}
		drawPiece(&s, q, piece, size, x+(room-w)/2, top, unit)
		writeUnder(&s, words, scene.Point{X: x + room/2, Y: top - h}, unit)
		low = math.Min(low, top-h-(1+1.3*float64(len(words)))*unit)
		x += room + 2*unit
		wide = math.Max(wide, x)
	}
	low = addBar(&s, v.Units, -unit/2, low-unit, row, unit)
	s.Bounds = scene.Box{Min: scene.Point{X: -unit, Y: low - unit}, Max: scene.Point{X: wide - unit, Y: unit}}
	s.Hair = row / 1500
	return s
}

// cutOf is the line that a piece is cut along: its outline, with the seam allowance it lacks.
func cutOf(q pattern.Pattern, piece pattern.Piece, size string) shape.Ring {
	cut, err := match.CutLine(q, piece, size)
	if err != nil {
		return piece.Outlines[size].Cut
	}
	return cut
}

// pieceWords stand under a piece: its name, how often it is cut, how large it is where it is cut.
func pieceWords(v say.Voice, q pattern.Pattern, piece pattern.Piece, size string) []string {
	b := cutOf(q, piece, size).Bounds()
	wide := v.Fine(measure.Length(b.Width())) + " wide"
	if piece.OnFold {
		wide = "half " + wide
	}
	return []string{piece.Code + " " + piece.Name, cutWords(piece), wide, v.Fine(measure.Length(b.Length())) + " long"}
}

// writeUnder writes lines below a place, each centred.
func writeUnder(s *scene.Scene, words []string, at scene.Point, unit float64) {
	for i, w := range words {
		s.Items = append(s.Items, scene.Item{Style: scene.Label, Text: w, At: scene.Point{X: at.X, Y: at.Y - (1.2+float64(i)*1.3)*unit}, Size: unit})
	}
}

// bars are lengths that a bar to compare with may have, the longest first.
var bars = map[measure.System][]measure.Length{
	measure.Metric:   {50 * measure.Centimetre, 20 * measure.Centimetre, 10 * measure.Centimetre, 5 * measure.Centimetre, measure.Centimetre},
	measure.Imperial: {20 * measure.Inch, 10 * measure.Inch, 4 * measure.Inch, 2 * measure.Inch, measure.Inch},
}

// addBar draws a bar of a round length, at most a third as long as the drawing is wide, with its left end at
// (x, y), and returns how low it reaches.
func addBar(s *scene.Scene, units measure.System, x, y, wide, unit float64) float64 {
	all := bars[units]
	long := all[len(all)-1]
	for _, l := range all {
		if l.Millimetres() <= wide/3 {
			long = l
			break
		}
	}
	end, tick := x+long.Millimetres(), unit/3
	s.Items = append(s.Items,
		scene.Item{Style: scene.Dimension, ID: "bar", Lines: []scene.Line{
			{Points: []scene.Point{{X: x, Y: y}, {X: end, Y: y}}},
			{Points: []scene.Point{{X: x, Y: y - tick}, {X: x, Y: y + tick}}},
			{Points: []scene.Point{{X: end, Y: y - tick}, {X: end, Y: y + tick}}},
		}},
		scene.Item{Style: scene.Dimension, Text: say.Voice{Units: units}.Width(long), At: scene.Point{X: end + unit/2, Y: y}, Size: unit, Align: scene.Start})
	return y - tick
}

func mm(v int64) float64 { return float64(v) / 1000 }

// drawPiece draws one piece with its top left at (x, top): the piece's own x, lengthwise
// from the top, runs down. Where it lacks its seam allowance it is cut along the line outside, and stitched
// along the one that was drawn.
func drawPiece(s *scene.Scene, q pattern.Pattern, piece pattern.Piece, size string, x, top, unit float64) {
	o, cut := piece.Outlines[size], cutOf(q, piece, size)
	b := cut.Bounds()
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
	line(scene.Piece, true, cut...)
	if !slices.Equal(cut, o.Cut) {
		line(scene.Stitch, true, o.Cut...)
	}
	if piece.OnFold {
		line(scene.Fold, false, foldOf(cut)...)
	}
	for _, inner := range o.Inner {
		line(scene.Dimension, false, inner...)
	}
	for _, n := range o.Notches {
		p := at(n.At)
		across := inward(o.Cut, n.At, at)
		along := scene.Point{X: across.Y, Y: -across.X}
		beside := []float64{0}
		if n.Kind == "double" {
			beside = []float64{-0.2 * unit, 0.2 * unit}
		}
		for _, d := range beside {
			from := scene.Point{X: p.X + d*along.X, Y: p.Y + d*along.Y}
			s.Items = append(s.Items, scene.Item{Style: scene.Grain, Lines: []scene.Line{{Points: []scene.Point{from, {X: from.X + 0.7*unit*across.X, Y: from.Y + 0.7*unit*across.Y}}}}})
		}
	}
	for _, d := range o.Dots {
		p := at(d)
		s.Items = append(s.Items, scene.Item{Style: scene.Grain, Lines: []scene.Line{
			{Points: []scene.Point{{X: p.X - unit/4, Y: p.Y}, {X: p.X + unit/4, Y: p.Y}}}, {Points: []scene.Point{{X: p.X, Y: p.Y - unit/4}, {X: p.X, Y: p.Y + unit/4}}}}})
	}
	arrow(s, at(o.GrainFoot), at(o.GrainTop), unit)
}

// foldOf are the ends of the stretch of a ring that lies on the fold.
func foldOf(r shape.Ring) []shape.Point {
	var ends []shape.Point
	for _, p := range r {
		if p.Y != 0 {
			continue
		}
		if ends == nil {
			ends = []shape.Point{p, p}
		}
		ends[0].X, ends[1].X = min(ends[0].X, p.X), max(ends[1].X, p.X)
	}
	return ends
}

// inward is which way the inside of a ring lies from a place on it, in the picture.
func inward(r shape.Ring, from shape.Point, at func(shape.Point) scene.Point) scene.Point {
	side, _, _ := pattern.NearestSide(r, from)
	p, q := at(r[side]), at(r[(side+1)%len(r)])
	l := far(p, q)
	if l == 0 {
		return scene.Point{}
	}
	return scene.Point{X: -(q.Y - p.Y) / l, Y: (q.X - p.X) / l}
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
