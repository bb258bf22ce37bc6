package widgets

import (
	"image"
	"image/color"
	"math"

	"tallycloth/planner/scene"
	"tallycloth/ui/looks"
)

// sceneMap maps a scene (mm, y up) to pixels (y down).
type sceneMap struct{ scale, left, foot float64 }

func (m sceneMap) at(p scene.Point) (x, y float32) {
	return float32(m.left + p.X*m.scale), float32(m.foot - p.Y*m.scale)
}

// stroke says how lines of a style are drawn: colour, width and dash in pixels.
type pen struct {
	line  color.NRGBA
	width float32
	dash  float64
	fill  color.NRGBA // transparent: none
}

// pens are the looks of styles in the palette in force.
func pens(p looks.Palette) map[scene.Style]pen {
	none := color.NRGBA{}
	return map[scene.Style]pen{
		scene.Cloth:     {p.Ink, 1.2, 0, color.NRGBA{0xE6, 0xDF, 0xD3, 0xFF}},
		scene.Edge:      {p.Ink, 1.2, 0, none},
		scene.Selvedge:  {p.Ink, 1.6, 0, none},
		scene.Fold:      {p.Accent, 1.4, 6, none},
		scene.Flaw:      {p.Bad, 1.4, 3, faded(p.Bad, 60)},
		scene.Reserved:  {p.Muted, 1.2, 3, faded(p.Muted, 60)},
		scene.Piece:     {ink, 1.3, 0, tint(0, false, false)},
		scene.Grain:     {ink, 1.1, 0, none},
		scene.Notch:     {p.Ink, 1.1, 0, none},
		scene.Grid:      {faded(ink, 40), 1, 0, none},
		scene.Free:      {none, 0, 0, faded(p.Good, 26)},
		scene.Overlap:   {p.Bad, 1.2, 0, faded(p.Bad, 150)},
		scene.Dimension: {p.Muted, 1, 0, none},
		scene.Label:     {p.Ink, 1, 0, none},
		scene.Garment:   {p.Muted, 2.2, 0, none},
		scene.Strip:     {p.Accent, 2.6, 0, none},
		scene.Stitch:    {p.Bad, 1.4, 3, none},
		scene.Join:      {p.Careful, 2, 0, none},
		scene.Axis:      {p.Ink, 1.2, 0, none},
		scene.Scale:     {p.Line, 1, 0, none},
		scene.Came:      {p.Accent, 1, 0, faded(p.Accent, 120)},
		scene.Went:      {p.Careful, 1, 0, faded(p.Careful, 120)},
		scene.There:     {p.Muted, 1, 0, faded(p.Muted, 90)},
	}
}

// paintScene draws all items in order, on what is there.
func paintScene(img *image.RGBA, s scene.Scene, m sceneMap) {
	styles := pens(looks.Now())
	b := &brush{img: img}
	figures := gridFigures(s.Items, m)
	var cloth []image.Rectangle // boxes of what is drawn in the colour of cloth
	var last scene.Item         // of the words
	for _, it := range s.Items {
		pen := styles[it.Style]
		if it.Text != "" {
			if it.Style == scene.Grid && !figures.next(it) {
				continue // every second or third figure, where the drawing is small
			}
			if it.Style == scene.Label && crowds(it, last, m) {
				continue // where the drawing is small, the first line of words only
			}
			last = it
			c := textColour(it.Style, pen)
			if it.Style == scene.Label && meetsAny(pixelAt(it.At, m), cloth) {
				c = ink // names on cloth are dark on the dark screen too
			}
			paintText(img, it, m, c)
			continue
		}
		if it.Style == scene.Piece || it.Style == scene.Cloth {
			cloth = append(cloth, boxOf(it.Lines, m))
		}
		if it.Tint > 0 {
			pen.fill = tint(it.Tint, false, false)
		}
		b.area(pen, m, it.Lines)
		for _, l := range it.Lines {
			b.path(pen, m, l)
		}
	}
}

// crowds says whether words would lie over those before, of the same thing.
func crowds(it, last scene.Item, m sceneMap) bool {
	if last.Text == "" || it.ID != last.ID || it.Style != last.Style {
		return false
	}
	x, y := m.at(it.At)
	u, v := m.at(last.At)
	return math.Hypot(float64(x-u), float64(y-v)) < 0.8*float64(textHeight(it, m))
}

// pixelAt is the pixel of a place.
func pixelAt(p scene.Point, m sceneMap) image.Rectangle {
	x, y := m.at(p)
	return image.Rect(int(x), int(y), int(x)+1, int(y)+1)
}

// boxOf is the upright rectangle round lines, in pixels.
func boxOf(lines []scene.Line, m sceneMap) (box image.Rectangle) {
	for _, l := range lines {
		for _, p := range l.Points {
			box = box.Union(pixelAt(p, m))
		}
	}
	return box
}

// textColour is the colour of words of a style: on cloth they are ink in the light and
// in the dark, beside it they follow the palette.
func textColour(s scene.Style, p pen) color.NRGBA {
	switch s {
	case scene.Piece, scene.Free:
		return ink
	case scene.Grid:
		return looks.Now().Muted
	}
	return p.line
}

// area fills the closed lines of an item as one area.
func (b *brush) area(p pen, m sceneMap, lines []scene.Line) {
	if p.fill.A == 0 {
		return
	}
	if x0, y0, x1, y1, ok := upright(m, lines); ok {
		b.box(p.fill, x0, y0, x1, y1)
		return
	}
	r, ok := filled(m, lines)
	if r = r.Intersect(b.img.Bounds()); !ok || r.Empty() {
		return
	}
	b.z.Reset(r.Dx(), r.Dy())
	left, top := float32(r.Min.X), float32(r.Min.Y)
	for _, l := range lines {
		if !l.Closed || len(l.Points) < 3 {
			continue
		}
		for i, q := range l.Points {
			if x, y := m.at(q); i == 0 {
				b.z.MoveTo(x-left, y-top)
			} else {
				b.z.LineTo(x-left, y-top)
			}
		}
		b.z.ClosePath()
	}
	b.z.Draw(b.img, r, image.NewUniform(p.fill), image.Point{})
}

// filled is the pixels that closed lines reach over; false where there are none.
func filled(m sceneMap, lines []scene.Line) (image.Rectangle, bool) {
	x0, y0, x1, y1 := math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for _, l := range lines {
		if !l.Closed || len(l.Points) < 3 {
			continue
		}
		for _, q := range l.Points {
			x, y := m.at(q)
			x0, y0, x1, y1 = min(x0, float64(x)), min(y0, float64(y)), max(x1, float64(x)), max(y1, float64(y))
		}
	}
	if x0 > x1 {
		return image.Rectangle{}, false
	}
	return image.Rect(int(math.Floor(x0)), int(math.Floor(y0)), int(math.Ceil(x1)), int(math.Ceil(y1))), true
}

// path strokes one line of an item. A dash runs on round its points, which may lie closer than it.
func (b *brush) path(p pen, m sceneMap, l scene.Line) {
	if p.dash > 0 {
		on := scene.Line{Closed: l.Closed, Points: make([]scene.Point, len(l.Points))}
		for i, q := range l.Points {
			x, y := m.at(q)
			on.Points[i] = scene.Point{X: float64(x), Y: float64(y)}
		}
		b.parts(p.line, p.width, scene.Dashes(on, []float64{p.dash, p.dash}))
		return
	}
	n := len(l.Points)
	if !l.Closed {
		n--
	}
	for i := range max(n, 0) {
		x0, y0 := m.at(l.Points[i])
		x1, y1 := m.at(l.Points[(i+1)%len(l.Points)])
		b.quad(p.line, p.width, x0, y0, x1, y1)
	}
}

// parts strokes lines that are in pixels.
func (b *brush) parts(c color.Color, width float32, lines []scene.Line) {
	for _, l := range lines {
		for i := 1; i < len(l.Points); i++ {
			p, q := l.Points[i-1], l.Points[i]
			b.quad(c, width, float32(p.X), float32(p.Y), float32(q.X), float32(q.Y))
		}
	}
}

func meetsAny(r image.Rectangle, of []image.Rectangle) bool {
	for _, o := range of {
		if r.Overlaps(o) {
			return true
		}
	}
	return false
}
