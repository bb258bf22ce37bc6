package widgets

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
)

// FocusGained chooses the first row when none is, and shows that the list has the focus, an empty one too.
func (l *RowList) FocusGained() {
	if l.chosen < 0 && l.count > 0 {
		l.goTo(0)
	}
	l.ring.show(true)
}

// FocusLost leaves the choice as it is.
func (l *RowList) FocusLost() { l.ring.show(false) }

// CreateRenderer draws the list, with a line round it while it has the focus.
func (l *RowList) CreateRenderer() fyne.WidgetRenderer {
	r := &ringed{WidgetRenderer: l.List.CreateRenderer(), ring: l.ring}
	r.objects = append(append(r.objects, r.WidgetRenderer.Objects()...), l.ring.line)
	return r
}

// ring is the line round what has the focus.
type ring struct{ line *canvas.Rectangle }

func newRing() *ring {
	r := &ring{canvas.NewRectangle(color.Transparent)}
	r.line.StrokeWidth, r.line.CornerRadius = 1, theme.InputRadiusSize()
	r.line.Hide()
	return r
}

func (r *ring) show(on bool) {
	r.line.StrokeColor = theme.Color(theme.ColorNamePrimary)
	r.line.Hidden = !on
	r.line.Refresh()
}

// ringed draws a widget with the line over it.
type ringed struct {
	fyne.WidgetRenderer
	ring    *ring
	objects []fyne.CanvasObject
}

func (r *ringed) Objects() []fyne.CanvasObject { return r.objects }

func (r *ringed) Layout(s fyne.Size) {
	r.WidgetRenderer.Layout(s)
	r.ring.line.Resize(s)
}

func (r *ringed) Refresh() {
	r.WidgetRenderer.Refresh()
	r.ring.show(r.ring.line.Visible())
}
