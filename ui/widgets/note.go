package widgets

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// note is a text beneath a field or beside the buttons of a form: a reading on one line, or what is
// wrong on several. Room that it took once it keeps, so that a form does not jump.
type note struct {
	widget.BaseWidget
	text  string
	tone  Tone
	size  fyne.ThemeSizeName
	rows  int // the lines there is room for
	most  int // the lines it may take
	lines []*canvas.Text
}

func newNote(size fyne.ThemeSizeName, rows, most int) *note {
	n := &note{size: size, rows: rows, most: most}
	n.ExtendBaseWidget(n)
	return n
}

// set changes the text and says whether it wants more room than before.
func (n *note) set(s string, tone Tone, mayGrow bool) (grown bool) {
	same := n.text == s && n.tone == tone
	if same && !mayGrow {
		return false
	}
	n.text, n.tone = s, tone
	if wants := min(len(n.wrapped()), n.most); tone == Bad && mayGrow && wants > n.rows {
		n.rows, grown = wants, true
	}
	if !same || grown {
		n.Refresh()
	}
	return grown
}

func (n *note) wrapped() []string {
	if n.text == "" {
		return nil
	}
	return wrapWords(n.text, max(n.Size().Width, 100), theme.Size(n.size), fyne.TextStyle{})
}

// shown are the lines there is room for, the last shortened.
func (n *note) shown() []string {
	all, most := n.wrapped(), n.rows
	if n.tone != Bad {
		most = 1
	}
	if len(all) > most {
		all = append(all[:most-1:most-1], strings.Join(all[most-1:], " "))
	}
	for i := range all {
		all[i] = Shorten(all[i], n.Size().Width, theme.Size(n.size), fyne.TextStyle{})
	}
	return all
}

// CreateRenderer draws the lines.
func (n *note) CreateRenderer() fyne.WidgetRenderer { return &noteRenderer{n} }

type noteRenderer struct{ n *note }

func (r *noteRenderer) rowHeight() float32 {
	return fyne.MeasureText("Ay", theme.Size(r.n.size), fyne.TextStyle{}).Height
}

func (r *noteRenderer) MinSize() fyne.Size {
	return fyne.NewSize(40, r.rowHeight()*float32(r.n.rows))
}

func (r *noteRenderer) Objects() []fyne.CanvasObject {
	out := make([]fyne.CanvasObject, len(r.n.lines))
	for i, l := range r.n.lines {
		out[i] = l
	}
	return out
}

func (r *noteRenderer) Destroy() {}

func (r *noteRenderer) Layout(fyne.Size) { r.draw() }

func (r *noteRenderer) Refresh() {
	r.draw()
	canvas.Refresh(r.n)
}

func (r *noteRenderer) draw() {
	r.n.lines = nil
	for i, s := range r.n.shown() {
		t := canvas.NewText(s, r.n.tone.colour())
		t.TextSize = theme.Size(r.n.size)
		t.Move(fyne.NewPos(0, r.rowHeight()*float32(i)))
		t.Resize(t.MinSize())
		r.n.lines = append(r.n.lines, t)
	}
}
