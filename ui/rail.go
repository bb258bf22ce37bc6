package ui

import (
	"bytes"
	"fmt"
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"tallycloth/assets/icons"
	"tallycloth/ui/looks"
	"tallycloth/ui/widgets"
)

// railTab is one place on the rail: a sign and a word.
type railTab struct {
	widget.BaseWidget
	name, icon string
	tapped     func()
	chosen     bool
	hovered    bool
	focused    bool
	ground     *canvas.Rectangle
	sign       *canvas.Image
	word       *canvas.Text
}

func newRailTab(name, icon string, tapped func()) *railTab {
	t := &railTab{name: name, icon: icon, tapped: tapped}
	t.ground = canvas.NewRectangle(color.Transparent)
	t.ground.CornerRadius = 6
	t.sign = canvas.NewImageFromResource(nil)
	t.sign.FillMode = canvas.ImageFillContain
	t.word = canvas.NewText(name, color.Black)
	t.ExtendBaseWidget(t)
	return t
}

func (t *railTab) set(chosen bool) {
	t.chosen = chosen
	t.Refresh()
}

// Tapped opens the place.
func (t *railTab) Tapped(*fyne.PointEvent) { t.tapped() }

// FocusGained shows the focus.
func (t *railTab) FocusGained() { t.focused = true; t.Refresh() }

// FocusLost takes it away.
func (t *railTab) FocusLost() { t.focused = false; t.Refresh() }

// TypedRune does nothing.
func (t *railTab) TypedRune(rune) {}

// TypedKey opens the place with Space or Enter.
func (t *railTab) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeySpace, fyne.KeyReturn, fyne.KeyEnter:
		t.tapped()
	default:
		if c := widgets.CanvasOf(t); c != nil && c.OnTypedKey() != nil {
			c.OnTypedKey()(e)
		}
	}
}

// MouseIn shows that the pointer is on it.
func (t *railTab) MouseIn(*desktop.MouseEvent) { t.hovered = true; t.Refresh() }

// MouseMoved does nothing.
func (t *railTab) MouseMoved(*desktop.MouseEvent) {}

// MouseOut takes it away.
func (t *railTab) MouseOut() { t.hovered = false; t.Refresh() }

// CreateRenderer draws the tab.
func (t *railTab) CreateRenderer() fyne.WidgetRenderer {
	r := &railRenderer{t}
	r.Refresh()
	return r
}

type railRenderer struct{ t *railTab }

const signSize = 22

func (r *railRenderer) MinSize() fyne.Size {
	w := fyne.MeasureText(r.t.name, theme.TextSize(), fyne.TextStyle{Bold: true}).Width
	return fyne.NewSize(max(w+22, 84), signSize+theme.TextSize()+26)
}

func (r *railRenderer) Layout(s fyne.Size) {
	t := r.t
	t.ground.Resize(s)
	t.sign.Resize(fyne.NewSize(signSize, signSize))
	t.sign.Move(fyne.NewPos((s.Width-signSize)/2, 9))
	m := t.word.MinSize()
	t.word.Move(fyne.NewPos((s.Width-m.Width)/2, signSize+13))
	t.word.Resize(m)
}

func (r *railRenderer) Refresh() {
	t, p := r.t, looks.Now()
	ink := p.Muted
	t.ground.FillColor, t.ground.StrokeWidth = color.Transparent, 0
	if t.chosen {
		ink = p.Accent
		t.ground.FillColor = p.Selected
	} else if t.hovered {
		t.ground.FillColor = p.Hover
	}
	if t.focused {
		t.ground.StrokeColor, t.ground.StrokeWidth = p.Accent, 2
	}
	t.word.Color, t.word.TextSize = ink, theme.TextSize()
	t.word.TextStyle.Bold = t.chosen
	t.sign.Resource = coloured(t.icon, ink)
	t.sign.Refresh()
	t.ground.Refresh()
	t.word.Refresh()
	r.Layout(t.Size())
}

func (r *railRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.t.ground, r.t.sign, r.t.word}
}

func (r *railRenderer) Destroy() {}

// coloured is a sign in a colour: its one fill is replaced.
func coloured(name string, c color.NRGBA) fyne.Resource {
	hex := fmt.Sprintf("#%02x%02x%02x", c.R, c.G, c.B)
	svg := bytes.ReplaceAll(icons.Named(name), []byte("#000000"), []byte(hex))
	svg = bytes.ReplaceAll(svg, []byte("#000"), []byte(hex))
	return fyne.NewStaticResource(name+hex+".svg", svg)
}
