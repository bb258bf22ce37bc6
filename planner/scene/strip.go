package scene

import (
	"cmp"
	"slices"

	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// pairs sorts cuts and takes them two by two.
func pairs(cuts []float64) [][2]float64 {
	slices.Sort(cuts)
	var out [][2]float64
	for i := 0; i+1 < len(cuts); i += 2 {
		out = append(out, [2]float64{cuts[i], cuts[i+1]})
	}
	return out
}

// StripDrawing is a strip as cut, to scale: lengths from its first end, in µm.
type StripDrawing struct {
	Name          string
	Length, Width int64 // as cut
	Folds         []int64
	Joins         []int64
	Marks         []StripMark
	Parts         []StripSpan
	// FreeStart and FreeEnd say which ends are trimmed after trying on.
	FreeStart, FreeEnd bool
	// Line is how high a line of words is as a share of the length: larger where the drawing is shown so small
	// that words are not drawn in proportion. Zero suits paper.
	Line  float64
	Units measure.System
}

// StripMark is a mark across the strip.
type StripMark struct {
	Name string
	At   int64
}

// StripSpan is what is sewn to one part of the edge.
type StripSpan struct {
	Name     string // "front neck", with its share: "front neck 88 %"
	From, To int64
}

// Scene draws the strip lying, its folds along it, joins and marks across, the words
// of marks above on as many levels as they need, the parts below. Empty for a strip without size.
func (d StripDrawing) Scene() Scene {
	var s Scene
	if d.Length <= 0 || d.Width <= 0 {
		return s
	}
	l, w := mm(d.Length), mm(d.Width)
	unit := min(max(l/70, 2.5), max(w/2, 2.5))
	if d.Line > 0 {
		unit = l * d.Line
	}
	s.add(Piece, "", ring(shape.Box{Max: shape.Point{X: d.Length, Y: d.Width}}.Ring()))
	for _, f := range d.Folds {
		s.add(Fold, "", stroke(Point{0, mm(f)}, Point{l, mm(f)}))
	}
	for _, j := range d.Joins {
		s.add(Join, "", stroke(Point{mm(j), -unit / 2}, Point{mm(j), w + unit/2}))
	}
	d.parts(&s, unit)
	d.marks(&s, unit, w)
	s.dimension(Point{0, -5.2 * unit}, Point{l, -5.2 * unit}, unit, say(d.Length, d.Units, measure.StripLength)+" cut")
	s.dimension(Point{l + unit, 0}, Point{l + unit, w}, unit, say(d.Width, d.Units, measure.StripLength))
	if d.Name != "" {
		s.write(Label, d.Name, Point{0, -6.7 * unit}, unit*1.3, Start)
	}
	s.frame()
	return s
}

// parts names the parts under the strip, and the free ends.
func (d StripDrawing) parts(s *Scene, unit float64) {
	for _, p := range d.Parts {
		a, b := mm(p.From), mm(p.To)
		s.add(Dimension, "", stroke(Point{a, -0.5 * unit}, Point{a, -1.2 * unit}, Point{b, -1.2 * unit}, Point{b, -0.5 * unit}))
		size := min(unit, (b-a)/max(1, TextWidth(p.Name)))
		s.write(Dimension, p.Name, Point{(a + b) / 2, -1.2*unit - size*0.8}, size, Middle)
	}
	if d.FreeStart {
		s.write(Dimension, "trim after trying on", Point{0, -2.8 * unit}, unit*0.7, Start)
	}
	if d.FreeEnd {
		s.write(Dimension, "trim after trying on", Point{mm(d.Length), -2.8 * unit}, unit*0.7, End)
	}
}

// marks draws marks and joins, each with its words to the right of its pole like a flag,
// on the lowest level where no flag or pole to its right is in the way.
func (d StripDrawing) marks(s *Scene, unit, w float64) {
	all := slices.Clone(d.Marks)
	for _, j := range d.Joins {
		all = append(all, StripMark{"join", j})
	}
	slices.SortStableFunc(all, func(a, b StripMark) int { return cmp.Compare(b.At, a.At) })
	level := make([]int, len(all))
	for i, m := range all {
		x := mm(m.At)
		text := m.Name + " " + say(m.At, d.Units, measure.StripMark)
		until := x + TextWidth(text)*unit + unit/2
		for k := range i { // marks to the right
			if mm(all[k].At) <= until {
				level[i] = max(level[i], level[k]+1)
			}
		}
		y := w + (1.2+1.3*float64(level[i]))*unit
		s.add(Notch, "", stroke(Point{x, w / 2}, Point{x, y + unit/2}))
		s.write(Notch, text, Point{x + unit/4, y}, unit, Start)
	}
}

// SectionDrawing is a finish cut through; see binding.Section for its lines.
type SectionDrawing struct {
	Garment, Strip []shape.Point
	Stitches       []int64 // x of each row
	Finished, Seam int64
	CutWidth       int64
	Inwards        bool // the finish is turned to the inside: its width lies at negative x
	Units          measure.System
}

// Scene draws the section: garment, strip, stitching, finished width and seam measured.
// Empty without a strip.
func (d SectionDrawing) Scene() Scene {
	var s Scene
	if len(d.Strip) < 2 {
		return s
	}
	lines := func(ps []shape.Point) Line {
		var l Line
		for _, p := range ps {
			l.Points = append(l.Points, point(p))
		}
		return l
	}
	garment, strip := lines(d.Garment), lines(d.Strip)
	b := bounds([]Line{garment, strip})
	unit := max(b.Width()/16, 0.5)
	s.add(Garment, "", garment)
	s.add(Strip, "", strip)
	for _, x := range d.Stitches {
		s.add(Stitch, "", stroke(Point{mm(x), b.Min.Y - unit/2}, Point{mm(x), b.Max.Y + unit/2}))
	}
	from, to := 0.0, mm(d.Finished)
	if d.Inwards {
		from, to = -to, 0
	}
	s.dimension(Point{from, b.Max.Y + unit}, Point{to, b.Max.Y + unit}, unit, say(d.Finished, d.Units, measure.StripLength))
	s.write(Label, "garment", Point{b.Min.X, unit * 0.8}, unit*0.8, Start)
	s.write(Label, "strip cut "+say(d.CutWidth, d.Units, measure.StripLength)+", seam "+say(d.Seam, d.Units, measure.StripLength), Point{b.Min.X, b.Min.Y - 1.5*unit}, unit, Start)
	s.frame()
	return s
}

// CutDrawing is strips cut across one source.
type CutDrawing struct {
	Name   string
	Across int64 // usable length of a strip: in y
	Along  int64 // usable length of the cloth: in x
	// Cloth is the outline that the strips lie on, Reserved what is kept on it for garments; without
	// an outline the cloth is a rectangle.
	Cloth    shape.Polygon
	Reserved []Kept
	Pieces   []CutPiece
	Units    measure.System
}

// CutPiece is one length of a strip across the source.
type CutPiece struct {
	Name     string // of the strip: "neck", "armhole 2"
	From, To int64  // along the strip: in y
	At       int64  // where it begins lengthwise: in x
	Width    int64
	// JoinFrom and JoinTo say which of its ends is joined to another length.
	JoinFrom, JoinTo bool
	Tint             int
	// Outline is where it lies, its first two corners those of the end it is counted from; nil
	// where At, From and Width say so in a rectangle.
	Outline shape.Ring
}

// outline is where the piece lies.
func (p CutPiece) outline() shape.Ring {
	if len(p.Outline) == 4 {
		return p.Outline
	}
	return shape.Ring{{X: p.At, Y: p.From}, {X: p.At + p.Width, Y: p.From}, {X: p.At + p.Width, Y: p.To}, {X: p.At, Y: p.To}}
}

// Taken returns the length of the source that the strips take.
func (d CutDrawing) Taken() int64 {
	taken := int64(0)
	for _, p := range d.Pieces {
		taken = max(taken, p.outline().Bounds().Max.X)
	}
	return taken
}

// Scene draws the strips in their places across the source, as a layout: joins, names, how far from the
// end they reach, and the rest of the source as free. Empty for a source without size.
func (d CutDrawing) Scene() Scene {
	if d.Across <= 0 || d.Along <= 0 {
		return Scene{}
	}
	l := Layout{Cloth: d.Cloth, Reserved: d.Reserved, Units: d.Units}
	if l.Cloth.Outer == nil {
		l.Cloth.Outer = shape.Box{Max: shape.Point{X: d.Along, Y: d.Across}}.Ring()
	}
	for _, p := range d.Pieces {
		l.Pieces = append(l.Pieces, Placed{Name: p.Name, Count: say(p.To-p.From, d.Units, measure.StripLength), Outline: p.outline(), Tint: p.Tint})
	}
	s := l.Scene()
	unit := mm(max(d.Along, d.Across)) / 60
	for _, p := range d.Pieces {
		r := p.outline()
		if p.JoinFrom {
			s.add(Join, "", stroke(point(r[0]), point(r[1])))
		}
		if p.JoinTo {
			s.add(Join, "", stroke(point(r[3]), point(r[2])))
		}
	}
	if taken := d.Taken(); taken > 0 {
		s.dimension(Point{0, mm(d.Across) + 4*unit}, Point{mm(taken), mm(d.Across) + 4*unit}, unit, "to "+say(taken, d.Units, measure.Width))
	}
	if d.Name != "" {
		s.write(Label, d.Name, Point{0, -2.5 * unit}, unit*1.2, Start)
	}
	s.frame()
	return s
}
