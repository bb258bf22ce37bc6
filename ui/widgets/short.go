package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// Short is one line of text that never widens what it is in: it shortens itself with
// an ellipsis.
type Short struct {
	widget.BaseWidget
	text *fitted
	size fyne.ThemeSizeName
}

// NewShort returns one line of text of a size and a tone.
func NewShort(s string, size fyne.ThemeSizeName, tone Tone, bold bool) *Short {
	w := &Short{text: newFitted(size, fyne.TextStyle{Bold: bold}), size: size}
	w.text.set(s, tone, false)
	w.ExtendBaseWidget(w)
	return w
}

// ShortLine is a line of ordinary size.
func ShortLine(s string, tone Tone) *Short { return NewShort(s, theme.SizeNameText, tone, false) }

// Set changes what is written.
func (w *Short) Set(s string, tone Tone) {
	w.text.set(s, tone, false)
	w.Refresh()
}

// Text is the whole text.
func (w *Short) Text() string { return w.text.full }

// CreateRenderer draws the line.
func (w *Short) CreateRenderer() fyne.WidgetRenderer { return &shortRenderer{w} }

type shortRenderer struct{ w *Short }

func (r *shortRenderer) MinSize() fyne.Size {
	return fyne.NewSize(40, fyne.MeasureText("Ay", theme.Size(r.w.size), r.w.text.text.TextStyle).Height)
}
func (r *shortRenderer) Layout(s fyne.Size) { r.w.text.place(0, 0, s.Width, false) }
func (r *shortRenderer) Refresh() {
	f := r.w.text
	f.text.TextSize = theme.Size(r.w.size)
	f.text.Color = f.tone.colour()
	f.shorten()
	r.Layout(r.w.Size())
}
func (r *shortRenderer) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.w.text.text} }
func (r *shortRenderer) Destroy()                     {}
