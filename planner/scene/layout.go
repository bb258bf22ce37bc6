package scene

import (
	"math"
	"slices"

	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// Layout is what a cutting layout shows, all outlines in the cloth's frame.
type Layout struct {
	Cloth     shape.Polygon // holes are not there to be used
	Selvedges Sides
	Folds     []int64 // y of each fold
	Flaws     []shape.Polygon
	Reserved  []Kept
	Spoiled   []Kept // cut and of no use
	Pieces    []Placed
	// Free are the areas left that are worth showing, each measured; where it is empty
	// and the cloth is a rectangle, what lies beyond the last piece is shown.
	Free     []shape.Polygon
	Overlaps []Clash
	Units    measure.System
}

// Sides says which sides of the cloth are selvedges: the one at its least y, the one at its greatest.
type Sides struct{ Low, High bool }

// Kept is an area reserved for a garment.
type Kept struct {
	Outline shape.Polygon
	Name    string // the garment's
}

// Placed is a pattern piece in its place.
type Placed struct {
	ID      string
	Name    string
	Size    string
	Count   string // "cut 2", "1 on the fold"
	Outline shape.Ring
	// Grain runs from the bottom to the top end; both equal for none.
	GrainFrom, GrainTo shape.Point
	Notches            []Nick
	Dots               []shape.Point
	Inner              [][]shape.Point // inner lines
	Tint               int
}

// Nick is a notch: from the edge to its tip.
type Nick struct{ At, Tip shape.Point }

// Clash is where two pattern pieces overlap, and how deep.
type Clash struct {
	Area  shape.Polygon
	Depth int64 // µm
}

// Scene draws the layout. What lies under comes first: cloth, grid, what is free and reserved,
// flaws, pattern pieces, edges, words.
func (l Layout) Scene() Scene {
	if len(l.Cloth.Outer) < 3 {
		return Scene{}
	}
	b := l.Cloth.Bounds()
	return l.drawn(mm(max(b.Length(), b.Width())) / 60)
}

// drawn draws the layout with comfortable lines of text of a height in mm.
func (l Layout) drawn(unit float64) Scene {
	var s Scene
	s.add(Cloth, "", area(l.Cloth)...)
	l.grid(&s, unit)
	l.free(&s, unit)
	for _, k := range l.Reserved {
		s.add(Reserved, "", area(k.Outline)...)
		s.label(Reserved, k.Outline, nil, unit, "reserved", k.Name)
	}
	for _, f := range l.Flaws {
		s.add(Flaw, "", area(f)...)
		s.label(Flaw, f, nil, unit, "flaw")
	}
	for _, k := range l.Spoiled {
		s.add(Flaw, "", area(k.Outline)...)
		s.label(Flaw, k.Outline, nil, unit, "spoiled", k.Name)
	}
	var folds []Line
	for _, y := range l.Folds {
		for _, c := range across(l.Cloth, float64(y), true) {
			folds = append(folds, stroke(Point{c[0] / 1000, mm(y)}, Point{c[1] / 1000, mm(y)}))
		}
	}
	for _, p := range l.Pieces {
		p.draw(&s, unit, folds)
	}
	for _, c := range l.Overlaps {
		s.add(Overlap, "", area(c.Area)...)
		o := c.Area.Bounds()
		s.write(Overlap, say(c.Depth, l.Units, measure.PieceLength)+" over", Point{mm(o.Min.X+o.Max.X) / 2, mm(o.Max.Y) + unit}, unit, Middle)
	}
	l.edges(&s, unit)
	l.measures(&s, unit)
	s.frame()
	return s
}

// draw adds one pattern piece with its words, clear of its grain arrow and of folds.
func (p Placed) draw(s *Scene, unit float64, folds []Line) {
	it := s.add(Piece, p.ID, ring(p.Outline))
	it.Tint = p.Tint
	for _, line := range p.Inner {
		var l Line
		for _, q := range line {
			l.Points = append(l.Points, point(q))
		}
		s.add(Notch, p.ID, l)
	}
	for _, d := range p.Dots {
		s.dot(p.ID, point(d), unit/4)
	}
	for _, n := range p.Notches {
		s.add(Notch, p.ID, stroke(point(n.At), point(n.Tip)))
	}
	clear := folds
	if p.GrainFrom != p.GrainTo {
		clear = append(slices.Clip(folds), stroke(point(p.GrainFrom), point(p.GrainTo)))
		s.arrow(Grain, p.ID, point(p.GrainFrom), point(p.GrainTo), unit/2)
	}
	second := p.Size
	if p.Count != "" && second != "" {
		second += " · "
	}
	second += p.Count
	for i := range s.label(Label, shape.Polygon{Outer: p.Outline}, clear, unit, p.Name, second) {
		s.Items[len(s.Items)-1-i].ID = p.ID
	}
}

// dot marks a place with a small cross, whose middle is the place.
func (s *Scene) dot(id string, at Point, r float64) {
	s.add(Notch, id, stroke(Point{at.X - r, at.Y}, Point{at.X + r, at.Y}), stroke(Point{at.X, at.Y - r}, Point{at.X, at.Y + r}))
}

// arrow draws a line with a head at its far end only: the top.
func (s *Scene) arrow(style Style, id string, from, to Point, head float64) {
	dx, dy := to.X-from.X, to.Y-from.Y
	l := math.Hypot(dx, dy)
	if l == 0 {
		return
	}
	head = min(head, l/3)
	dx, dy = dx/l*head, dy/l*head
	s.add(style, id, stroke(from, to), stroke(
		Point{to.X - dx - dy*0.4, to.Y - dy + dx*0.4}, to, Point{to.X - dx + dy*0.4, to.Y - dy - dx*0.4}))
}

// label writes lines of words within an outline, clear of some lines, as large as fits
// up to the given height. Where even half of that does not fit, the lines after the first are left out;
// the first is always written, as small as it must be. It returns how many lines were written.
func (s *Scene) label(style Style, p shape.Polygon, clear []Line, most float64, lines ...string) int {
	const spacing = 1.15
	for len(lines) > 0 && lines[len(lines)-1] == "" {
		lines = lines[:len(lines)-1]
	}
	for n := len(lines); n > 0; n-- {
		widest := 1.0
		for _, l := range lines[:n] {
			widest = max(widest, TextWidth(l))
		}
		high := spacing * float64(n)
		f := fitOf(p, clear, widest/high, most*high)
		size := f.size / high
		if size < most/2 && n > 1 {
			continue
		}
		if size <= 0 {
			return 0
		}
		sin, cos := math.Sincos(f.turn * math.Pi / 180)
		for i, l := range lines[:n] {
			up := (float64(n-1)/2 - float64(i)) * size * spacing
			s.write(style, l, Point{f.at.X - up*sin, f.at.Y + up*cos}, size, Middle).Turn = f.turn
		}
		return n
	}
	return 0
}
