package widgets

import (
	"image"
	"image/color"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"

	"tallycloth/ui/looks"
)

// glassSide is how many units of the canvas the glass is wide, and how many pixels of the
// picture it shows, at a picture shown pixel for pixel.
const glassSide, glassShows = 168, 28

// shortSide is how long a side must be on the board for words beside it.
const shortSide = 64

// look fills the glass with what lies round a spot.
func (b *PhotoBoard) look(s Spot) {
	_, _, k := b.frame()
	n := int(math.Round(glassShows / min(max(k, 0.15), 1)))
	out := image.NewRGBA(image.Rect(0, 0, 2*n+1, 2*n+1))
	cx, cy := int(math.Floor(s.X)), int(math.Floor(s.Y))
	for y := range out.Rect.Dy() {
		for x := range out.Rect.Dx() {
			c := color.RGBA{128, 128, 128, 255}
			if p := image.Pt(cx+x-n, cy+y-n); p.In(b.full.Rect) {
				c = b.full.RGBAAt(p.X, p.Y)
			}
			out.SetRGBA(x, y, c)
		}
	}
	b.glass.Image = out
}

// draw makes the lines and points anew.
func (b *PhotoBoard) draw() {
	b.layer.Objects = nil
	pal := looks.Now()
	for t, tr := range b.trails {
		b.drawTrail(pal, t, tr)
	}
	s, ok := b.held()
	if !ok || b.full == nil || b.Grid > 0 || !b.dragging && !b.focused {
		return
	}
	b.look(*s)
	b.glass.Resize(fyne.NewSquareSize(glassSide))
	at := fyne.NewPos(6, 6)
	if p := b.At(*s); p.X < glassSide+40 && p.Y < glassSide+40 { // never over the point itself
		at.X = b.Size().Width - glassSide - 6
	}
	b.glass.Move(at)
	frame := canvas.NewRectangle(color.Transparent)
	frame.StrokeColor, frame.StrokeWidth = pal.Accent, 2
	frame.Resize(fyne.NewSquareSize(glassSide))
	frame.Move(at)
	b.layer.Objects = append(b.layer.Objects, b.glass, frame)
	mid := fyne.NewPos(at.X+glassSide/2, at.Y+glassSide/2)
	for _, d := range [][4]float32{{-60, 0, -8, 0}, {8, 0, 60, 0}, {0, -60, 0, -8}, {0, 8, 0, 60}} {
		b.stroke(pal.Accent, 1.5, mid.AddXY(d[0], d[1]), mid.AddXY(d[2], d[3]))
	}
}

// drawTrail draws a line twice, dark on light, so that it is seen on any cloth.
func (b *PhotoBoard) drawTrail(pal looks.Palette, t int, tr Trail) {
	n := len(tr.Points)
	for i := range max(len(tr.Curve)-1, 0) {
		b.stroke(pal.Accent, 2, b.At(tr.Curve[i]), b.At(tr.Curve[i+1]))
	}
	for i := range tr.sides() {
		if len(tr.Curve) > 0 {
			break
		}
		p, q := b.At(tr.Points[i]), b.At(tr.Points[(i+1)%n])
		b.stroke(color.White, 4, p, q)
		b.stroke(pal.Accent, 2, p, q)
		if tr.Arrow {
			b.head(pal, p, q)
		}
	}
	for i, s := range tr.Points {
		r := float32(4.5)
		fill := color.Color(color.White)
		if tr.Fixed {
			r = 7
		}
		if t == b.trail && i == b.point {
			r, fill = r+2.5, pal.Accent
		}
		c := canvas.NewCircle(fill)
		c.StrokeColor, c.StrokeWidth = color.Black, 1.5
		at := b.At(s)
		c.Resize(fyne.NewSquareSize(2 * r))
		c.Move(at.SubtractXY(r, r))
		b.layer.Objects = append(b.layer.Objects, c)
	}
	if b.Sides != nil && !tr.Fixed && n > 1 {
		for i := range tr.sides() {
			s, to := tr.Points[i], tr.Points[(i+1)%n]
			p, q := b.At(s), b.At(to)
			if (i < n-1 || n > 2) && math.Hypot(float64(p.X-q.X), float64(p.Y-q.Y)) > shortSide {
				b.words(b.Sides(t, s, to), b.At(Spot{(s.X + to.X) / 2, (s.Y + to.Y) / 2}).AddXY(0, 18))
			}
		}
	}
	if tr.Words != "" && n > 0 {
		at := tr.Points[0]
		if tr.Arrow {
			at = tr.Points[n-1]
		}
		b.words(tr.Words, b.At(at))
	}
}

func (b *PhotoBoard) head(pal looks.Palette, p, q fyne.Position) {
	l := float32(math.Hypot(float64(q.X-p.X), float64(q.Y-p.Y)))
	if l < 1 {
		return
	}
	dx, dy := (q.X-p.X)/l*14, (q.Y-p.Y)/l*14
	for _, side := range []float32{0.5, -0.5} {
		b.stroke(pal.Accent, 3, q, fyne.NewPos(q.X-dx-dy*side, q.Y-dy+dx*side))
	}
}

func (b *PhotoBoard) words(words string, at fyne.Position) {
	text := canvas.NewText(words, color.Black)
	text.TextSize = 13
	ground := canvas.NewRectangle(color.NRGBA{255, 255, 255, 220})
	ground.CornerRadius = 3
	size := text.MinSize()
	at.X = min(max(at.X-size.Width/2, 4), max(b.Size().Width-size.Width-8, 4))
	at.Y = max(at.Y-size.Height-12, 2)
	ground.Resize(size.AddWidthHeight(8, 2))
	ground.Move(at.SubtractXY(4, 1))
	text.Move(at)
	text.Resize(size)
	b.layer.Objects = append(b.layer.Objects, ground, text)
}

func (b *PhotoBoard) stroke(c color.Color, width float32, p, q fyne.Position) {
	l := canvas.NewLine(c)
	l.StrokeWidth, l.Position1, l.Position2 = width, p, q
	b.layer.Objects = append(b.layer.Objects, l)
}

// CreateRenderer makes the parts.
func (b *PhotoBoard) CreateRenderer() fyne.WidgetRenderer {
	ground := canvas.NewRectangle(looks.Now().Raised)
	ground.CornerRadius = 4
	return &boardRenderer{b, ground, container.NewClip(container.NewWithoutLayout(b.picture, b.layer))}
}

type boardRenderer struct {
	b      *PhotoBoard
	ground *canvas.Rectangle
	clip   *container.Clip
}

// Layout places picture and lines.
func (r *boardRenderer) Layout(s fyne.Size) {
	r.ground.Resize(s)
	r.clip.Resize(s)
	r.place()
}

func (r *boardRenderer) place() {
	b := r.b
	x, y, k := b.frame()
	if b.full != nil {
		b.picture.Move(fyne.NewPos(float32(x), float32(y)))
		b.picture.Resize(fyne.NewSize(float32(float64(b.full.Rect.Dx())*k), float32(float64(b.full.Rect.Dy())*k)))
	}
	b.layer.Resize(b.Size())
	b.draw()
}

// MinSize is the least size the board was made with.
func (r *boardRenderer) MinSize() fyne.Size { return r.b.small }

// Refresh draws all anew.
func (r *boardRenderer) Refresh() {
	pal := looks.Now()
	r.ground.FillColor, r.ground.StrokeColor, r.ground.StrokeWidth = pal.Raised, pal.Line, 1
	if r.b.focused {
		r.ground.StrokeColor, r.ground.StrokeWidth = pal.Accent, 2
	}
	r.ground.Refresh()
	r.place()
	r.clip.Refresh()
	r.b.layer.Refresh()
}

// Objects are the parts.
func (r *boardRenderer) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.ground, r.clip} }

// Destroy does nothing.
func (r *boardRenderer) Destroy() {}
