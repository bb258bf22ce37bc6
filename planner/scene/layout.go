package scene

import (
	"math"

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
	var s Scene
	if len(l.Cloth.Outer) < 3 {
		return s
	}
	b := l.Cloth.Bounds()
	unit := mm(max(b.Length(), b.Width())) / 60 // a comfortable line of text
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
	for _, p := range l.Pieces {
		p.draw(&s, unit)
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

// draw adds one pattern piece with its words.
func (p Placed) draw(s *Scene, unit float64) {
	it := s.add(Piece, p.ID, ring(p.Outline))
	it.Tint = p.Tint
	for _, line := range p.Inner {
		var l Line
		for _, q := range line {
			l.Points = append(l.Points, point(q))
		}
		s.add(Notch, p.ID, l)
	}
	for _, n := range p.Notches {
		s.add(Notch, p.ID, stroke(point(n.At), point(n.Tip)))
	}
	var grain []Line
	if p.GrainFrom != p.GrainTo {
		grain = []Line{stroke(point(p.GrainFrom), point(p.GrainTo))}
		s.arrow(Grain, p.ID, point(p.GrainFrom), point(p.GrainTo), unit/2)
	}
	second := p.Size
	if p.Count != "" && second != "" {
		second += " · "
	}
	second += p.Count
	for i := range s.label(Label, shape.Polygon{Outer: p.Outline}, grain, unit, p.Name, second) {
		s.Items[len(s.Items)-1-i].ID = p.ID
	}
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
		f := fitText(p, clear, widest/high, most*high)
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

// edges draws selvedges, raw edges and folds. The sides of a rectangle that run along it are
// selvedges where the cloth has them; on a free outline those parts that lie on its least or greatest y.
func (l Layout) edges(s *Scene, unit float64) {
	b := l.Cloth.Bounds()
	for _, r := range l.Cloth.Rings() {
		for i, p := range r {
			q := r[(i+1)%len(r)]
			low := p.Y == q.Y && p.Y == b.Min.Y && l.Selvedges.Low
			high := p.Y == q.Y && p.Y == b.Max.Y && l.Selvedges.High
			if !low && !high {
				s.add(Edge, "", stroke(point(p), point(q)))
				continue
			}
			in := unit / 4
			if high {
				in = -in
			}
			s.add(Selvedge, "", stroke(point(p), point(q)), stroke(Point{mm(p.X), mm(p.Y) + in}, Point{mm(q.X), mm(q.Y) + in}))
		}
	}
	for _, y := range l.Folds {
		for _, c := range across(l.Cloth, float64(y), true) {
			s.add(Fold, "", stroke(Point{c[0] / 1000, mm(y)}, Point{c[1] / 1000, mm(y)}))
			s.write(Fold, "fold", Point{c[0]/1000 + unit/2, mm(y) + unit*0.6}, unit*0.8, Start)
		}
	}
}

// grid draws a grid in the user's unit, and its figures along two sides.
func (l Layout) grid(s *Scene, unit float64) {
	b := l.Cloth.Bounds()
	step := gridStep(max(b.Length(), b.Width()), l.Units)
	figures := func(v int64, at Point) {
		s.write(Grid, say(v, l.Units, measure.Width), at, unit*0.7, Middle)
	}
	var lines []Line
	for v := step; v < b.Length(); v += step {
		for _, c := range across(l.Cloth, float64(b.Min.X+v), false) {
			lines = append(lines, stroke(Point{mm(b.Min.X + v), c[0] / 1000}, Point{mm(b.Min.X + v), c[1] / 1000}))
		}
		figures(v, Point{mm(b.Min.X + v), mm(b.Min.Y) - unit*0.7})
	}
	for v := step; v < b.Width(); v += step {
		for _, c := range across(l.Cloth, float64(b.Min.Y+v), true) {
			lines = append(lines, stroke(Point{c[0] / 1000, mm(b.Min.Y + v)}, Point{c[1] / 1000, mm(b.Min.Y + v)}))
		}
		it := s.write(Grid, say(v, l.Units, measure.Width), Point{mm(b.Min.X) - unit*0.5, mm(b.Min.Y + v)}, unit*0.7, End)
		it.Turn = 0
	}
	if len(lines) > 0 {
		s.add(Grid, "", lines...)
	}
}

// free draws what is left, measured.
func (l Layout) free(s *Scene, unit float64) {
	for _, f := range l.left() {
		b := f.Bounds()
		if b.Length() < 10_000 || b.Width() < 10_000 {
			continue
		}
		s.add(Free, "", area(f)...)
		s.label(Free, f, nil, unit*1.4, "free "+say(b.Length(), l.Units, measure.Width)+" × "+say(b.Width(), l.Units, measure.Width))
	}
}

// left returns the areas to show as free.
func (l Layout) left() []shape.Polygon {
	b := l.Cloth.Bounds()
	if len(l.Free) > 0 || len(l.Cloth.Holes) > 0 || l.Cloth.Outer.Area() != b.Ring().Area() {
		return l.Free
	}
	from := b.Min.X
	grow := func(r shape.Ring) { from = max(from, r.Bounds().Max.X) }
	for _, p := range l.Pieces {
		grow(p.Outline)
	}
	for _, k := range l.Reserved {
		grow(k.Outline.Outer)
	}
	for _, f := range l.Flaws {
		grow(f.Outer)
	}
	if from >= b.Max.X {
		return nil
	}
	return []shape.Polygon{{Outer: shape.Box{Min: shape.Point{X: from, Y: b.Min.Y}, Max: b.Max}.Ring()}}
}

// measures writes the cloth's own size, and the length that is used.
func (l Layout) measures(s *Scene, unit float64) {
	b := l.Cloth.Bounds()
	s.dimension(Point{mm(b.Min.X), mm(b.Max.Y) + 2*unit}, Point{mm(b.Max.X), mm(b.Max.Y) + 2*unit}, unit, say(b.Length(), l.Units, measure.FabricLength))
	s.dimension(Point{mm(b.Max.X) + 2*unit, mm(b.Min.Y)}, Point{mm(b.Max.X) + 2*unit, mm(b.Max.Y)}, unit, say(b.Width(), l.Units, measure.Width)+" wide")
}

// dimension draws a line from a to b with ticks, and words at its middle on its left.
func (s *Scene) dimension(a, b Point, size float64, text string) {
	dx, dy := b.X-a.X, b.Y-a.Y
	l := math.Hypot(dx, dy)
	if l == 0 {
		return
	}
	nx, ny := -dy/l*size*0.3, dx/l*size*0.3
	tick := func(p Point) Line {
		return stroke(Point{p.X - nx, p.Y - ny}, Point{p.X + nx, p.Y + ny})
	}
	s.add(Dimension, "", stroke(a, b), tick(a), tick(b))
	turn := math.Atan2(dy, dx) * 180 / math.Pi
	at := Point{(a.X+b.X)/2 + nx*3, (a.Y+b.Y)/2 + ny*3}
	if turn > 90 || turn <= -90 { // never upside down
		turn += 180
	}
	if turn == 90 { // beside, away from what is measured
		at = Point{(a.X+b.X)/2 - nx*3, (a.Y+b.Y)/2 - ny*3}
	}
	s.write(Dimension, text, at, size, Middle).Turn = turn
}

// across returns where a line of constant y (or, lying false, of constant x) lies in an
// area, as pairs of the other coordinate in µm.
func across(p shape.Polygon, v float64, lying bool) [][2]float64 {
	var cuts []float64
	for _, r := range p.Rings() {
		for i, a := range r {
			b := r[(i+1)%len(r)]
			au, av, bu, bv := float64(a.X), float64(a.Y), float64(b.X), float64(b.Y)
			if !lying {
				au, av, bu, bv = av, au, bv, bu
			}
			if (av > v) != (bv > v) {
				cuts = append(cuts, au+(bu-au)*(v-av)/(bv-av))
			}
		}
	}
	return pairs(cuts)
}
