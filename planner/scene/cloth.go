package scene

import (
	"math"

	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

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
		text := say(b.Length(), l.Units, measure.Width) + " × " + say(b.Width(), l.Units, measure.Width)
		if a := f.Area(); a != b.Length()*b.Width() { // its box would promise too much
			text = measure.FormatArea(measure.Area(a), l.Units)
		}
		s.label(Free, f, nil, unit*1.4, "free "+text)
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
	for _, k := range l.Spoiled {
		grow(k.Outline.Outer)
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
