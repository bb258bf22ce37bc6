package scene

import (
	"math"

	"tallycloth/stash/shape"
)

// Style says what an item means; how that looks is the renderer's.
type Style string

// The meanings.
const (
	Cloth     Style = "cloth"     // the cloth's area
	Edge      Style = "edge"      // a cut or raw edge of the cloth
	Selvedge  Style = "selvedge"  // drawn double by its own second line
	Fold      Style = "fold"      // a fold of the cloth or the strip
	Flaw      Style = "flaw"      // an area not to be used
	Reserved  Style = "reserved"  // kept for a garment: dotted outline
	Piece     Style = "piece"     // a pattern piece or a strip: area and line
	Grain     Style = "grain"     // grain arrow
	Notch     Style = "notch"     // notch or mark
	Grid      Style = "grid"      // grid in the user's unit
	Free      Style = "free"      // what is left
	Overlap   Style = "overlap"   // where two pattern pieces overlap
	Dimension Style = "dimension" // dimension line and its words
	Label     Style = "label"     // names
	Garment   Style = "garment"   // the garment's layer in a section
	Strip     Style = "strip"     // the strip in a section
	Stitch    Style = "stitch"    // a row of stitching
	Join      Style = "join"      // a join of two lengths
	Axis      Style = "axis"      // the line of a chart that is nothing
	Scale     Style = "scale"     // a line of a chart's scale
	Came      Style = "came"      // what came in
	Went      Style = "went"      // what went out
	There     Style = "there"     // what is there
)

// Point is a place in mm.
type Point struct{ X, Y float64 }

// Line is a run of points.
type Line struct {
	Points []Point
	Closed bool
}

// Align says which part of a text stands at its place, sideways; upright it is always the middle.
type Align int

// The alignments.
const (
	Middle Align = iota
	Start
	End
)

// Item is a shape, or a text where Text is set.
type Item struct {
	Style Style
	// Lines of a shape; closed lines of one item bound one area, holes run the other way.
	Lines []Line
	Text  string
	At    Point
	Size  float64 // height of the text's line in mm
	Turn  float64 // degrees counter-clockwise
	Align Align
	// Tint tells garments apart: 0 none, then 1, 2, …
	Tint int
	// ID is what the item stands for, as given to the builder; "" for nothing.
	ID string
}

// Box is an upright rectangle in mm.
type Box struct{ Min, Max Point }

// Width returns the extent in x.
func (b Box) Width() float64 { return b.Max.X - b.Min.X }

// Height returns the extent in y.
func (b Box) Height() float64 { return b.Max.Y - b.Min.Y }

// Scene is a drawing.
type Scene struct {
	Bounds Box
	// Hair is the width of a thin line in mm that suits the drawing seen as a whole.
	Hair  float64
	Items []Item
	// Cut says that items reach beyond the bounds sideways, and are not seen there.
	Cut bool
}

// mm returns a length in µm as mm.
func mm(v int64) float64 { return float64(v) / 1000 }

func point(p shape.Point) Point { return Point{mm(p.X), mm(p.Y)} }

// ring returns a ring as a closed line.
func ring(r shape.Ring) Line {
	l := Line{Points: make([]Point, len(r)), Closed: true}
	for i, p := range r {
		l.Points[i] = point(p)
	}
	return l
}

// area returns the rings of a polygon as closed lines.
func area(p shape.Polygon) []Line {
	out := []Line{ring(p.Outer)}
	for _, h := range p.Holes {
		out = append(out, ring(h))
	}
	return out
}

// add appends a shape.
func (s *Scene) add(style Style, id string, lines ...Line) *Item {
	s.Items = append(s.Items, Item{Style: style, ID: id, Lines: lines})
	return &s.Items[len(s.Items)-1]
}

// write appends a text.
func (s *Scene) write(style Style, text string, at Point, size float64, align Align) *Item {
	s.Items = append(s.Items, Item{Style: style, Text: text, At: at, Size: size, Align: align})
	return &s.Items[len(s.Items)-1]
}

// stroke returns an open line through points.
func stroke(points ...Point) Line { return Line{Points: points} }

// frame sets the bounds to what is drawn and a margin of a hundredth, and the hair to
// 1/1500 of the longer side, at least 0.1 mm. An empty scene keeps zero bounds.
func (s *Scene) frame() {
	var all []Point
	for _, it := range s.Items {
		all = append(all, it.corners()...)
	}
	b := boxOf(all)
	if b.Min.X > b.Max.X {
		return
	}
	long := max(b.Width(), b.Height())
	margin := long / 100
	s.Bounds = Box{Point{b.Min.X - margin, b.Min.Y - margin}, Point{b.Max.X + margin, b.Max.Y + margin}}
	s.Hair = max(0.1, long/1500)
}

// Box returns the least box that an item lies in, the width of lines aside.
func (it Item) Box() Box {
	return boxOf(it.corners())
}

// Box returns the least box of a line's points.
func (l Line) Box() Box { return boxOf(l.Points) }

func boxOf(points []Point) Box {
	b := Box{Point{math.Inf(1), math.Inf(1)}, Point{math.Inf(-1), math.Inf(-1)}}
	for _, p := range points {
		b.Min = Point{min(b.Min.X, p.X), min(b.Min.Y, p.Y)}
		b.Max = Point{max(b.Max.X, p.X), max(b.Max.Y, p.Y)}
	}
	return b
}

// Meets says whether two boxes have a point in common.
func (b Box) Meets(c Box) bool {
	return b.Min.X <= c.Max.X && c.Min.X <= b.Max.X && b.Min.Y <= c.Max.Y && c.Min.Y <= b.Max.Y
}

// corners returns points that bound an item: of a text the corners of its line.
func (it Item) corners() []Point {
	if it.Text == "" {
		var out []Point
		for _, l := range it.Lines {
			out = append(out, l.Points...)
		}
		return out
	}
	w, h := TextWidth(it.Text)*it.Size, it.Size
	left := map[Align]float64{Middle: -w / 2, Start: 0, End: -w}[it.Align]
	sin, cos := math.Sincos(it.Turn * math.Pi / 180)
	var out []Point
	for _, c := range []Point{{left, -h / 2}, {left + w, -h / 2}, {left + w, h / 2}, {left, h / 2}} {
		out = append(out, Point{it.At.X + c.X*cos - c.Y*sin, it.At.Y + c.X*sin + c.Y*cos})
	}
	return out
}
