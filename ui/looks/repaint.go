package looks

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
)

// Repaint gives what stands alone in a tree of objects (words, grounds, lines, which do not
// follow a theme by themselves) the colours of another palette, and words another size.
func Repaint(o fyne.CanvasObject, from, to Palette, grow float32) {
	switch w := o.(type) {
	case *fyne.Container:
		for _, in := range w.Objects {
			Repaint(in, from, to, grow)
		}
	case *container.Scroll:
		Repaint(w.Content, from, to, grow)
	case *container.Clip:
		Repaint(w.Content, from, to, grow)
	case *container.Split:
		Repaint(w.Leading, from, to, grow)
		Repaint(w.Trailing, from, to, grow)
	case *widget.PopUp:
		Repaint(w.Content, from, to, grow)
	case *canvas.Text:
		w.Color, w.TextSize = from.in(to, w.Color), w.TextSize*grow
		w.Refresh()
	case *canvas.Rectangle:
		w.FillColor, w.StrokeColor = from.in(to, w.FillColor), from.in(to, w.StrokeColor)
		w.Refresh()
	case *canvas.Line:
		w.StrokeColor = from.in(to, w.StrokeColor)
		w.Refresh()
	case fyne.Disableable:
		redraw(w)
	}
}

// redraw has the arrow of a choice and the box of a tick drawn again. The toolkit keeps such a picture
// until another one takes its place, and forgets it at a new theme only in what is in sight.
func redraw(w fyne.Disableable) {
	_, choice := w.(interface{ SetSelectedIndex(int) })
	_, tick := w.(interface{ SetChecked(bool) })
	switch {
	case !choice && !tick:
	case w.Disabled():
		w.Enable()
		w.Disable()
	default:
		w.Disable()
		w.Enable()
	}
}

// in is the colour of another palette that stands for c of this one; one that is none of it stays.
func (p Palette) in(to Palette, c color.Color) color.Color {
	n, ok := c.(color.NRGBA)
	if !ok {
		return c
	}
	a, b := p.all(), to.all()
	for i := range a {
		if a[i] == n {
			return b[i]
		}
	}
	for i := range a { // the same with some of it showing through
		if m := a[i]; m.R == n.R && m.G == n.G && m.B == n.B && n.A != 0 {
			return withAlpha(b[i], n.A)
		}
	}
	return c
}

func (p Palette) all() []color.NRGBA {
	return []color.NRGBA{p.Ink, p.Muted, p.Accent, p.Good, p.Careful, p.Bad, p.Line, p.Paper, p.Surface, p.Raised, p.Hover, p.Selected, p.OnAccent, p.Shade}
}
