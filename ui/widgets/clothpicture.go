package widgets

import (
	"image"
	"image/color"
	"image/draw"
	"math"

	"golang.org/x/image/vector"

	"tallycloth/planner/scene"
	"tallycloth/stash/shape"
	"tallycloth/ui/looks"
)

// ClothPicture is a cloth and what lies on it, in the cloth's frame (µm).
type ClothPicture struct {
	Cloth        shape.Polygon // with flaws as holes
	Colour       string
	SelvedgeLow  bool
	SelvedgeHigh bool
	Folds        []int64 // y of fold lines
	Grid         int64   // distance of grid lines, µm; 0 for none
	Pieces       []PicturePiece
	Reserved     []PicturePiece
	// FreeFrom to FreeTo is the stretch in x that is free, both 0 for none; FreeLabel measures it.
	FreeFrom, FreeTo int64
	FreeLabel        string
	Left             []LeftPiece // what stays of the cloth and is worth keeping
	// Over are places where one piece lies over another or over what is reserved.
	Over []Overlap
}

// Overlap is where two outlines lie over each other; only that bit is shaded.
type Overlap struct {
	A, B shape.Ring
	Note string // how deep: "4 mm over"
}

// LeftPiece is a part of the cloth that is left and worth keeping.
type LeftPiece struct {
	Outline  shape.Polygon
	Straight shape.Box // its largest upright rectangle
	Size     string    // of that
}

// PicturePiece is one outline on the cloth.
type PicturePiece struct {
	Name    string
	Note    string // size, count
	Outline shape.Ring
	// Top is the direction of the top end of its grain arrow; zero for none.
	Top   shape.Point
	Tint  int  // pieces of one garment share a tint and the line of scene.MarkOf; 0 for one alone
	Under bool // lies in the under layer: the other half of a pair
	Kept  bool // kept in place: drawn with a pin
	Wrong bool // breaks a rule where it lies: drawn striped
}

// view maps the cloth's frame, which has y up, to pixels, which have it down: what is
// seen is the face of the cloth.
type view struct {
	scale  float64 // pixels for 1 mm
	ox, oy float64 // pixel of the origin
}

func (v view) at(p shape.Point) (float32, float32) {
	return float32(v.ox + float64(p.X)/1000*v.scale), float32(v.oy - float64(p.Y)/1000*v.scale)
}

func (v view) back(x, y float64) shape.Point {
	return shape.Point{X: int64((x - v.ox) / v.scale * 1000), Y: int64((v.oy - y) / v.scale * 1000)}
}

// brush fills and strokes polygons on a picture.
type brush struct {
	img *image.RGBA
	v   view
	z   vector.Rasterizer
}

func (b *brush) fill(c color.Color, rings ...shape.Ring) {
	box := b.pixels(rings, 1)
	if box.Empty() {
		return
	}
	b.z.Reset(box.Dx(), box.Dy())
	for _, r := range rings {
		b.trace(r, box.Min)
	}
	b.z.Draw(b.img, box, image.NewUniform(c), image.Point{})
}

// trace runs the brush round a ring, seen from the corner of the box that is drawn.
func (b *brush) trace(r shape.Ring, corner image.Point) {
	for i, p := range r {
		x, y := b.v.at(p)
		x, y = x-float32(corner.X), y-float32(corner.Y)
		if i == 0 {
			b.z.MoveTo(x, y)
		} else {
			b.z.LineTo(x, y)
		}
	}
	b.z.ClosePath()
}

// pixels is the part of the picture that rings may touch, grown by edge pixels.
func (b *brush) pixels(rings []shape.Ring, edge int) image.Rectangle {
	var out image.Rectangle
	for _, r := range rings {
		out = out.Union(b.reach(r, edge))
	}
	return out.Intersect(b.img.Bounds())
}

// reach is the box of a ring in pixels, grown by edge, also beyond the picture.
func (b *brush) reach(r shape.Ring, edge int) image.Rectangle {
	box := r.Bounds()
	x0, y0 := b.v.at(box.Min)
	x1, y1 := b.v.at(box.Max)
	return image.Rect(int(math.Floor(float64(x0)))-edge, int(math.Floor(float64(y1)))-edge, int(math.Ceil(float64(x1)))+edge, int(math.Ceil(float64(y0)))+edge)
}

// stroke draws a closed outline; dash > 0 breaks it in dashes of that many pixels.
func (b *brush) stroke(c color.Color, width float32, dash float64, r shape.Ring) {
	for i, p := range r {
		b.line(c, width, dash, p, r[(i+1)%len(r)])
	}
}

// line draws one line.
func (b *brush) line(c color.Color, width float32, dash float64, p, q shape.Point) {
	x0, y0 := b.v.at(p)
	x1, y1 := b.v.at(q)
	if dash <= 0 {
		b.quad(c, width, x0, y0, x1, y1)
		return
	}
	l := math.Hypot(float64(x1-x0), float64(y1-y0))
	for s := 0.0; s < l; s += 2 * dash {
		t, u := float32(s/l), float32(math.Min(s+dash, l)/l)
		b.quad(c, width, x0+(x1-x0)*t, y0+(y1-y0)*t, x0+(x1-x0)*u, y0+(y1-y0)*u)
	}
}

func (b *brush) quad(c color.Color, width, x0, y0, x1, y1 float32) {
	dx, dy := x1-x0, y1-y0
	l := float32(math.Hypot(float64(dx), float64(dy)))
	if l == 0 {
		return
	}
	if dx == 0 || dy == 0 { // level or upright: no need to trace its outline
		ex, ey := width/2, width/4
		if dy == 0 {
			ex, ey = ey, ex
		}
		b.box(c, min(x0, x1)-ex, min(y0, y1)-ey, max(x0, x1)+ex, max(y0, y1)+ey)
		return
	}
	nx, ny := -dy/l*width/2, dx/l*width/2
	ex, ey := dx/l*width/4, dy/l*width/4
	box := image.Rect(int(min(x0, x1)-width-1), int(min(y0, y1)-width-1), int(max(x0, x1)+width+2), int(max(y0, y1)+width+2)).Intersect(b.img.Bounds())
	if box.Empty() {
		return
	}
	ax, ay := float32(box.Min.X), float32(box.Min.Y)
	b.z.Reset(box.Dx(), box.Dy())
	b.z.MoveTo(x0+nx-ex-ax, y0+ny-ey-ay)
	b.z.LineTo(x1+nx+ex-ax, y1+ny+ey-ay)
	b.z.LineTo(x1-nx+ex-ax, y1-ny+ey-ay)
	b.z.LineTo(x0-nx-ex-ax, y0-ny-ey-ay)
	b.z.ClosePath()
	b.z.Draw(b.img, box, image.NewUniform(c), image.Point{})
}

// paint draws the whole picture, its words px pixels high.
func (p *ClothPicture) paint(img *image.RGBA, v view, px int) {
	pal := looks.Now()
	draw.Draw(img, img.Bounds(), image.NewUniform(pal.Surface), image.Point{}, draw.Src)
	if len(p.Cloth.Outer) < 3 {
		return
	}
	b := &brush{img: img, v: v}
	b.fill(clothColour(p.Colour), p.Cloth.Rings()...)
	p.paintGrid(b)
	p.paintEdges(b, pal)
	for _, r := range p.Reserved {
		b.fill(faded(pal.Muted, 70), r.Outline)
		b.stroke(ink, 1.2, 4, r.Outline)
		r.write(b, px)
	}
	for _, l := range p.Left {
		l.paint(b, px)
	}
	for _, q := range p.Pieces {
		q.paint(b, px, false)
	}
	p.writeNarrow(b, px)
	for _, o := range p.Over {
		b.overlap(o, pal.Bad, px)
	}
	p.writeEdges(b, pal, px)
}

// paint draws one pattern piece.
func (q PicturePiece) paint(b *brush, px int, hovered bool) {
	b.fill(tint(q.Tint, hovered, q.Under), q.Outline)
	if q.Wrong {
		b.stripes(q.Outline, faded(looks.Light.Bad, 120), px)
		b.stroke(looks.Light.Bad, 2.4, 7, q.Outline)
	} else {
		b.around(q)
	}
	b.arrow(q, px)
	q.write(b, px)
	if q.Kept {
		b.pin(q, px)
	}
}

// alone draws one piece as the pointer is on it, in a picture of its own and where that
// goes; nil where nothing of it is within bounds.
func (q PicturePiece) alone(v view, px int, bounds image.Rectangle) (*image.RGBA, image.Point) {
	whole := brush{img: image.NewRGBA(image.Rectangle{}), v: v}
	box := whole.reach(q.Outline, 2).Intersect(bounds)
	if box.Empty() {
		return nil, image.Point{}
	}
	v.ox, v.oy = v.ox-float64(box.Min.X), v.oy-float64(box.Min.Y)
	img := image.NewRGBA(image.Rect(0, 0, box.Dx(), box.Dy()))
	q.paint(&brush{img: img, v: v}, px, true)
	return img, box.Min
}

// ink is drawn on cloth, which has its own colour in the light and in the dark.
var ink = color.NRGBA{0x22, 0x1E, 0x1A, 0xFF}

// foldInk marks folds and where the free part begins, on cloth in the light and in the dark.
var foldInk = looks.Light.Accent

// clothColour is the fabric's colour, softened so that lines and words show on it, dark
// ones more.
func clothColour(s string) color.Color {
	c := ParseColour(s)
	part := 6
	if int(c.R)*3+int(c.G)*6+int(c.B) < 900 {
		part = 4
	}
	mix := func(v uint8) uint8 { return uint8((int(v)*part + (10-part)*0xE8) / 10) }
	return color.RGBA{mix(c.R), mix(c.G), mix(c.B), 0xFF}
}

func faded(c color.NRGBA, a uint8) color.NRGBA {
	c.A = a
	return c
}

// paper is what a pattern piece is drawn on where it is of no garment among others.
var paper = color.NRGBA{0xFB, 0xF7, 0xEC, 225}

// tint is the paper a pattern piece is drawn on: one for each garment.
func tint(i int, hovered, under bool) color.NRGBA {
	c := paper
	if i > 0 {
		m := scene.MarkOf(i)
		c = color.NRGBA{m.Paper[0], m.Paper[1], m.Paper[2], 235}
	}
	if under {
		c.A = 175
	}
	if hovered {
		c = color.NRGBA{0xFF, 0xE9, 0xA8, 240}
	}
	return c
}

func (p *ClothPicture) paintGrid(b *brush) {
	if p.Grid <= 0 {
		return
	}
	box := p.Cloth.Bounds()
	c := faded(color.NRGBA(ink), 34)
	for x := box.Min.X - box.Min.X%p.Grid; x <= box.Max.X; x += p.Grid {
		b.line(c, 1, 0, shape.Point{X: x, Y: box.Min.Y}, shape.Point{X: x, Y: box.Max.Y})
	}
	for y := box.Min.Y - box.Min.Y%p.Grid; y <= box.Max.Y; y += p.Grid {
		b.line(c, 1, 0, shape.Point{X: box.Min.X, Y: y}, shape.Point{X: box.Max.X, Y: y})
	}
}

func (p *ClothPicture) paintEdges(b *brush, pal looks.Palette) {
	for _, r := range p.Cloth.Rings() {
		b.stroke(pal.Ink, 1.4, 0, r)
	}
	for _, h := range p.Cloth.Holes {
		b.fill(pal.Surface, h)
		b.stroke(pal.Bad, 1.6, 3, h)
	}
	box := p.Cloth.Bounds()
	selvedge := func(y int64) {
		b.line(pal.Ink, 3.2, 0, shape.Point{X: box.Min.X, Y: y}, shape.Point{X: box.Max.X, Y: y})
	}
	if p.SelvedgeLow {
		selvedge(box.Min.Y)
	}
	if p.SelvedgeHigh {
		selvedge(box.Max.Y)
	}
	for _, y := range p.Folds {
		b.line(foldInk, 1.8, 9, shape.Point{X: box.Min.X, Y: y}, shape.Point{X: box.Max.X, Y: y})
	}
	for _, x := range []int64{p.FreeFrom, p.FreeTo} {
		if x > box.Min.X && x < box.Max.X {
			b.line(foldInk, 1.4, 5, shape.Point{X: x, Y: box.Min.Y}, shape.Point{X: x, Y: box.Max.Y})
		}
	}
}

// arrow draws the grain arrow beside the middle of the piece, clear of words px pixels
// high where there is room for that, with its head at the top end.
func (b *brush) arrow(q PicturePiece, px int) {
	if q.Top == (shape.Point{}) {
		return
	}
	box := q.Outline.Bounds()
	l := math.Hypot(float64(q.Top.X), float64(q.Top.Y))
	ux, uy := float64(q.Top.X)/l, float64(q.Top.Y)/l
	reach := 0.3 * (math.Abs(ux)*float64(box.Length()) + math.Abs(uy)*float64(box.Width()))
	// Beside the middle, so that the name has the middle to itself.
	thick := float64(min(box.Length(), box.Width()))
	aside := 0.22 * thick
	if q.Note != "" && b.v.scale > 0 {
		aside = math.Min(math.Max(aside, 1.8*float64(px)/b.v.scale*1000), 0.36*thick)
	}
	mx, my := float64(box.Min.X+box.Max.X)/2, float64(box.Min.Y+box.Max.Y)/2
	at := func(along, across float64) shape.Point {
		return shape.Point{X: int64(mx + uy*aside + ux*along - uy*across), Y: int64(my + ux*aside + uy*along + ux*across)}
	}
	if !q.Outline.Contains(at(reach, 0)) || !q.Outline.Contains(at(-reach, 0)) {
		aside = -aside // on the other side of the middle it may lie within
	}
	head := min(reach*0.25, 22_000)
	b.line(ink, 1.2, 0, at(-reach, 0), at(reach, 0))
	b.line(ink, 1.2, 0, at(reach, 0), at(reach-head, head*0.55))
	b.line(ink, 1.2, 0, at(reach, 0), at(reach-head, -head*0.55))
}
