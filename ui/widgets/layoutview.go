package widgets

import (
	"image"
	"image/color"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"tallycloth/stash/shape"
)

// LayoutView is the drawing of a cloth with what lies on it. The wheel zooms at the
// pointer, dragging moves the picture, and with the focus on it + − 0 and the arrows
// do the same. The name of the piece under the pointer is told through Hovered.
type LayoutView struct {
	widget.BaseWidget
	Hovered func(name string)
	// Escape is called for keys it has no use for.
	Key func(fyne.KeyName)

	picture ClothPicture
	zoom    float64 // 1 shows the whole cloth
	dx, dy  float64 // moved by, in mm
	hover   int
	focused bool
	img     *canvas.Image
	frame   *canvas.Rectangle
	labels  []*canvas.Text
	small   fyne.Size
}

// NewLayoutView returns a view that is at least so large.
func NewLayoutView(least fyne.Size) *LayoutView {
	v := &LayoutView{zoom: 1, hover: -1, small: least}
	v.img = &canvas.Image{FillMode: canvas.ImageFillStretch, ScaleMode: canvas.ImageScaleFastest}
	v.frame = canvas.NewRectangle(color.Transparent)
	v.frame.StrokeWidth = 1
	v.frame.CornerRadius = 4
	v.ExtendBaseWidget(v)
	return v
}

// Draw draws another picture, whole.
func (v *LayoutView) Draw(p ClothPicture) {
	v.picture = p
	v.zoom, v.dx, v.dy, v.hover = 1, 0, 0, -1
	v.Refresh()
}

// Picture is what is drawn.
func (v *LayoutView) Picture() ClothPicture { return v.picture }

const margin = 14 // canvas units round the cloth

// density is pixels per canvas unit.
func (v *LayoutView) density() float64 {
	if c := fyne.CurrentApp().Driver().CanvasForObject(v); c != nil {
		x, _ := c.PixelCoordinateForPosition(fyne.NewPos(1000, 0))
		if x > 0 {
			return float64(x) / 1000
		}
	}
	return 1
}

// view maps the cloth to canvas units times density.
func (v *LayoutView) view(density float64) view {
	box := v.picture.Cloth.Bounds()
	l, w := float64(box.Length())/1000, float64(box.Width())/1000
	size := v.Size()
	if l <= 0 || w <= 0 || size.Width < 2*margin+8 || size.Height < 2*margin+8 {
		return view{scale: 1}
	}
	fit := math.Min((float64(size.Width)-2*margin)/l, (float64(size.Height)-2*margin)/w)
	s := fit * v.zoom
	cx, cy := float64(size.Width)/2, float64(size.Height)/2
	mx, my := float64(box.Min.X+box.Max.X)/2000, float64(box.Min.Y+box.Max.Y)/2000
	return view{scale: s * density, ox: (cx - (mx-v.dx)*s) * density, oy: (cy - (my-v.dy)*s) * density}
}

// render draws the picture at the size the widget has.
func (v *LayoutView) render() {
	d := v.density()
	size := v.Size()
	w, h := int(float64(size.Width)*d), int(float64(size.Height)*d)
	if w < 4 || h < 4 {
		return
	}
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	v.picture.paint(img, v.view(d), v.hover)
	v.img.Image = img
	v.img.Resize(size)
	v.img.Refresh()
	v.write()
}

// write places the names, each where it fits into its piece.
func (v *LayoutView) write() {
	n := 0
	put := func(s string, x, y, width float32, on bool) {
		if n == len(v.labels) {
			v.labels = append(v.labels, canvas.NewText("", ink))
		}
		t := v.labels[n]
		t.TextSize = theme.CaptionTextSize()
		t.Color = ink
		if !on {
			t.Color = Quiet.colour()
		}
		t.Text = Shorten(s, width, t.TextSize, t.TextStyle)
		size := t.MinSize()
		t.Hidden = len([]rune(t.Text)) < 2 || x < 0 || y < 0 || x+size.Width/2 > v.Size().Width || y+size.Height > v.Size().Height
		t.Move(fyne.NewPos(x-size.Width/2, y-size.Height/2))
		t.Resize(size)
		t.Refresh()
		n++
	}
	m := v.view(1)
	for _, list := range [][]PicturePiece{v.picture.Reserved, v.picture.Pieces} {
		for _, p := range list {
			box := p.Outline.Bounds()
			x0, y0 := m.at(box.Min)
			x1, y1 := m.at(box.Max)
			if y1-y0 < theme.CaptionTextSize() {
				continue
			}
			put(p.Name, (x0+x1)/2, (y0+y1)/2-4, (x1-x0)*0.8, true)
			if p.Note != "" && y1-y0 > 3*theme.CaptionTextSize() {
				put(p.Note, (x0+x1)/2, (y0+y1)/2+theme.CaptionTextSize(), (x1-x0)*0.8, true)
			}
		}
	}
	if p := v.picture; p.FreeLabel != "" && p.FreeFrom > 0 {
		box := p.Cloth.Bounds()
		x0, _ := m.at(shape.Point{X: p.FreeFrom})
		x1, y1 := m.at(box.Max)
		put(p.FreeLabel, (x0+x1)/2, y1-12, max(x1-x0-4, 0), true)
	}
	for ; n < len(v.labels); n++ {
		v.labels[n].Hide()
	}
}

// Scrolled zooms at the pointer.
func (v *LayoutView) Scrolled(e *fyne.ScrollEvent) {
	v.zoomAt(math.Pow(1.0015, float64(e.Scrolled.DY)*3), float64(e.Position.X), float64(e.Position.Y))
}

func (v *LayoutView) zoomAt(by, x, y float64) {
	before := v.view(1).back(x, y)
	v.zoom = math.Min(math.Max(v.zoom*by, 0.5), 40)
	after := v.view(1).back(x, y)
	v.dx += float64(after.X-before.X) / 1000
	v.dy += float64(after.Y-before.Y) / 1000
	v.render()
}

// Dragged moves the picture.
func (v *LayoutView) Dragged(e *fyne.DragEvent) { v.pan(float64(e.Dragged.DX), float64(e.Dragged.DY)) }

// DragEnd ends a drag.
func (v *LayoutView) DragEnd() {}

func (v *LayoutView) pan(x, y float64) {
	s := v.view(1).scale
	v.dx += x / s
	v.dy += y / s
	v.render()
}

// MouseIn, MouseMoved and MouseOut tell which piece the pointer is on.
func (v *LayoutView) MouseIn(e *desktop.MouseEvent) { v.MouseMoved(e) }

// MouseMoved tells which piece the pointer is on.
func (v *LayoutView) MouseMoved(e *desktop.MouseEvent) {
	p := v.view(1).back(float64(e.Position.X), float64(e.Position.Y))
	at := -1
	for i, q := range v.picture.Pieces {
		if q.Outline.Contains(p) {
			at = i
		}
	}
	if at == v.hover {
		return
	}
	v.hover = at
	v.render()
	if v.Hovered != nil {
		v.Hovered(v.nameAt(at))
	}
}

func (v *LayoutView) nameAt(i int) string {
	if i < 0 {
		return ""
	}
	q := v.picture.Pieces[i]
	if q.Note == "" {
		return q.Name
	}
	return q.Name + ", " + q.Note
}

// MouseOut forgets the piece.
func (v *LayoutView) MouseOut() {
	if v.hover >= 0 {
		v.hover = -1
		v.render()
		if v.Hovered != nil {
			v.Hovered("")
		}
	}
}

// FocusGained shows the focus.
func (v *LayoutView) FocusGained() { v.focused = true; v.Refresh() }

// FocusLost takes it away.
func (v *LayoutView) FocusLost() { v.focused = false; v.Refresh() }

// TypedRune zooms with + and − and shows the whole cloth with 0.
func (v *LayoutView) TypedRune(r rune) {
	c := v.Size()
	switch r {
	case '+', '=':
		v.zoomAt(1.25, float64(c.Width)/2, float64(c.Height)/2)
	case '-':
		v.zoomAt(0.8, float64(c.Width)/2, float64(c.Height)/2)
	case '0':
		v.zoom, v.dx, v.dy = 1, 0, 0
		v.render()
	}
}

// TypedKey moves the picture with the arrows.
func (v *LayoutView) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeyLeft:
		v.pan(40, 0)
	case fyne.KeyRight:
		v.pan(-40, 0)
	case fyne.KeyUp:
		v.pan(0, 40)
	case fyne.KeyDown:
		v.pan(0, -40)
	default:
		if v.Key != nil {
			v.Key(e.Name)
		}
	}
}

// CreateRenderer draws the picture, a frame and the names.
func (v *LayoutView) CreateRenderer() fyne.WidgetRenderer { return &layoutRenderer{v} }

type layoutRenderer struct{ v *LayoutView }

func (r *layoutRenderer) MinSize() fyne.Size { return r.v.small }
func (r *layoutRenderer) Destroy()           {}
func (r *layoutRenderer) Objects() []fyne.CanvasObject {
	out := []fyne.CanvasObject{r.v.img, r.v.frame}
	for _, t := range r.v.labels {
		out = append(out, t)
	}
	return out
}

func (r *layoutRenderer) Layout(s fyne.Size) {
	r.v.frame.Resize(s)
	r.v.render()
}

func (r *layoutRenderer) Refresh() {
	r.v.frame.FillColor = color.Transparent
	r.v.frame.StrokeColor = theme.Color(theme.ColorNameSeparator)
	r.v.frame.StrokeWidth = 1
	if r.v.focused {
		r.v.frame.StrokeColor, r.v.frame.StrokeWidth = theme.Color(theme.ColorNamePrimary), 2
	}
	r.v.frame.Refresh()
	r.v.render()
}
