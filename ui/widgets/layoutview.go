package widgets

import (
	"image"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// LayoutView is the drawing of a cloth with what lies on it. The wheel zooms at the
// pointer, dragging moves the picture, and with the focus on it + − 0 and the arrows
// do the same. The name of the piece under the pointer is told through Hovered.
//
// The picture is drawn away from the window's thread when Away is set: zooming and
// moving shift the old one at once, and the crisp one follows. Only the piece under
// the pointer is drawn anew while the pointer moves.
type LayoutView struct {
	widget.BaseWidget
	Hovered func(name string)
	// Key is called for keys it has no use for.
	Key func(fyne.KeyName)
	// Away runs work off the window's thread and then done on it, unless newer work
	// has come meanwhile. Nil does both at once.
	Away func(work, done func())
	// Mover lets pieces be moved by hand: dragged, or chosen with n and moved with the
	// arrows, turned with r, and kept in place with k. Nil leaves them where they are.
	Mover Mover

	picture ClothPicture
	zoom    float64 // 1 shows the whole cloth
	dx, dy  float64 // moved by, in mm of the cloth
	hover   int
	grip    grip
	panning bool // a drag that began beside the pieces
	focused bool
	small   fyne.Size
	page    fyne.Scrollable // on which the drawing lies

	base, top *canvas.Image
	crisp     *image.RGBA // as last drawn, nil for not yet
	drawn     view        // the view crisp was drawn for, in pixels
	asked     int         // how often a picture was asked for
	frame     *canvas.Rectangle
	clip      *container.Clip
}

// NewLayoutView returns a view that is at least so large.
func NewLayoutView(least fyne.Size) *LayoutView {
	v := &LayoutView{zoom: 1, hover: -1, grip: grip{piece: -1}, small: least}
	picture := func() *canvas.Image {
		return &canvas.Image{FillMode: canvas.ImageFillStretch, ScaleMode: canvas.ImageScaleFastest}
	}
	v.base, v.top = picture(), picture()
	v.top.Hide()
	v.frame = canvas.NewRectangle(nil)
	v.frame.CornerRadius = 4
	v.clip = container.NewClip(container.NewWithoutLayout(v.base, v.top))
	v.ExtendBaseWidget(v)
	return v
}

// Draw draws another picture, whole.
func (v *LayoutView) Draw(p ClothPicture) {
	v.picture = p
	v.zoom, v.dx, v.dy = 1, 0, 0
	v.grip = grip{piece: -1}
	v.point(-1)
	v.crisp = nil
	v.Refresh()
}

// Picture is what is drawn.
func (v *LayoutView) Picture() ClothPicture { return v.picture }

// rim is the frame that is seen round the picture.
const rim = 1.5

// margin is the room round the cloth for the words at its edges.
const margin = 20

// density is pixels per canvas unit.
func (v *LayoutView) density() float64 { return densityOf(v) }

// densityOf is how many pixels a unit of the canvas has that an object is on.
func densityOf(o fyne.CanvasObject) float64 {
	if c := fyne.CurrentApp().Driver().CanvasForObject(o); c != nil {
		if x, _ := c.PixelCoordinateForPosition(fyne.NewPos(1000, 0)); x > 0 {
			return float64(x) / 1000
		}
	}
	return 1
}

// view maps the cloth to units of the canvas, times density.
func (v *LayoutView) view(density float64) view {
	box := v.picture.Cloth.Bounds()
	l, w := float64(box.Length())/1000, float64(box.Width())/1000
	size := v.Size()
	if l <= 0 || w <= 0 || size.Width < 2*margin+8 || size.Height < 2*margin+8 {
		return view{scale: 1}
	}
	fit := math.Min((float64(size.Width)-2*margin)/l, (float64(size.Height)-2*margin)/w)
	s := fit * v.zoom
	mx, my := float64(box.Min.X+box.Max.X)/2000-v.dx, float64(box.Min.Y+box.Max.Y)/2000-v.dy
	return view{scale: s * density, ox: (float64(size.Width)/2 - mx*s) * density, oy: (float64(size.Height)/2 + my*s) * density}
}

// render has the picture drawn for the view there is now. What is shown meanwhile is
// the old one, shifted.
func (v *LayoutView) render() {
	d := v.density()
	size := v.Size()
	w, h := int(float64(size.Width)*d), int(float64(size.Height)*d)
	if w < 4 || h < 4 {
		return
	}
	p, at := v.picture, v.view(d)
	px := int(math.Round(float64(theme.CaptionTextSize()) * d))
	v.asked++
	turn := v.asked
	var img *image.RGBA
	work := func() {
		img = image.NewRGBA(image.Rect(0, 0, w, h))
		p.paint(img, at, px)
	}
	done := func() {
		if turn != v.asked {
			return // a newer picture is shown or on its way
		}
		v.crisp, v.drawn = img, at
		v.base.Image = img
		v.shift()
		v.base.Refresh()
	}
	if v.Away == nil || v.crisp == nil {
		work()
		done()
		return
	}
	v.shift()
	v.Away(work, done)
}

// shift puts the drawn picture where the view there is now has it.
func (v *LayoutView) shift() {
	now, size, d := v.view(1), v.Size(), v.density()
	if v.crisp != nil && v.drawn.scale > 0 {
		k := now.scale * d / v.drawn.scale
		v.base.Resize(fyne.NewSize(size.Width*float32(k), size.Height*float32(k)))
		v.base.Move(fyne.NewPos(float32(now.ox-v.drawn.ox/d*k)-rim, float32(now.oy-v.drawn.oy/d*k)-rim))
	}
	v.showTop()
}

// point notes which piece the pointer is on, −1 for none, and draws that one alone.
func (v *LayoutView) point(at int) {
	if at == v.hover {
		return
	}
	v.hover = at
	v.showTop()
	if v.Hovered != nil {
		v.Hovered(v.nameAt(at))
	}
}

func (v *LayoutView) nameAt(i int) string {
	if i < 0 || i >= len(v.picture.Pieces) {
		return ""
	}
	q := v.picture.Pieces[i]
	if q.Note == "" {
		return q.Name
	}
	return q.Name + ", " + q.Note
}

// showTop draws the piece under the pointer into a picture of its own size.
func (v *LayoutView) showTop() {
	shown := v.hover
	if shown < 0 {
		shown = v.grip.piece // chosen for the keys, though the pointer is elsewhere
	}
	if shown < 0 || shown >= len(v.picture.Pieces) {
		v.top.Hide()
		return
	}
	d := v.density()
	q := v.picture.Pieces[shown]
	at1 := v.view(d)
	if v.grip.held && v.grip.piece == shown {
		at1.ox, at1.oy = at1.ox+float64(v.grip.dx)*d, at1.oy+float64(v.grip.dy)*d
	}
	img, at := q.alone(at1, int(math.Round(float64(theme.CaptionTextSize())*d)), image.Rect(0, 0, int(float64(v.Size().Width)*d), int(float64(v.Size().Height)*d)))
	if img == nil {
		v.top.Hide()
		return
	}
	v.top.Image = img
	v.top.Move(fyne.NewPos(float32(float64(at.X)/d)-rim, float32(float64(at.Y)/d)-rim))
	v.top.Resize(fyne.NewSize(float32(float64(img.Rect.Dx())/d), float32(float64(img.Rect.Dy())/d)))
	v.top.Show()
	v.top.Refresh()
}

// CreateRenderer draws the picture and a frame.
func (v *LayoutView) CreateRenderer() fyne.WidgetRenderer { return &layoutRenderer{v} }

type layoutRenderer struct{ v *LayoutView }

func (r *layoutRenderer) MinSize() fyne.Size { return r.v.small }
func (r *layoutRenderer) Destroy()           {}
func (r *layoutRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.v.frame, r.v.clip}
}

func (r *layoutRenderer) Layout(s fyne.Size) {
	r.v.clip.Resize(s.SubtractWidthHeight(2*rim, 2*rim))
	r.v.frame.Resize(s)
	r.v.clip.Move(fyne.NewPos(rim, rim))
	r.v.crisp = nil // drawn anew for the new size, at once
	r.v.render()
}

func (r *layoutRenderer) Refresh() {
	r.v.frame.FillColor = theme.Color(theme.ColorNameSeparator)
	if r.v.focused {
		r.v.frame.FillColor = theme.Color(theme.ColorNamePrimary)
	}
	r.v.frame.Refresh()
	r.v.render()
}
