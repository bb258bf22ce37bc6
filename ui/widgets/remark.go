package widgets

import (
	"image/color"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"tallycloth/stash/measure"
)

// remark is a sentence that wraps, with a mark before it, in a tone. It takes no more
// room than its lines.
type remark struct {
	widget.BaseWidget
	mark, text string
	tone       Tone
	size       fyne.ThemeSizeName
	bold       bool
	width      float32 // as last laid out
	lines      []*canvas.Text
	cut        []string // the text in lines, as for
	cutFor     drawnAs
	drawnFor   drawnAs
}

// drawnAs is what the lines of a remark hang on.
type drawnAs struct {
	width, size, indent float32
	colour              color.Color
}

func (r *remark) drawnAs() drawnAs {
	return drawnAs{r.width, theme.Size(r.size), r.indent(), r.tone.colour()}
}

// Remark returns a sentence that wraps, its lines flush beside the mark.
func Remark(mark, text string, tone Tone) fyne.CanvasObject {
	r := &remark{mark: mark, text: text, tone: tone, size: theme.SizeNameText, width: 360}
	r.ExtendBaseWidget(r)
	return r
}

// Verdict is Remark in the size of a heading.
func Verdict(mark, text string, tone Tone) fyne.CanvasObject {
	r := &remark{mark: mark, text: text, tone: tone, size: theme.SizeNameSubHeadingText, bold: true, width: 360}
	r.ExtendBaseWidget(r)
	return r
}

// Title is the title of a detail, which wraps where it is long.
func Title(text string) fyne.CanvasObject {
	r := &remark{text: text, size: theme.SizeNameHeadingText, bold: true, width: 360}
	r.ExtendBaseWidget(r)
	return r
}

// Inset puts the room round a detail that lets it breathe.
func Inset(o fyne.CanvasObject) fyne.CanvasObject {
	return container.New(layout.NewCustomPaddedLayout(8, 8, 14, 10), o)
}

// Said is the whole text.
func (r *remark) Said() string { return r.mark + r.text }

// indent is the room for the mark.
func (r *remark) indent() float32 {
	if r.mark == "" {
		return 0
	}
	return theme.Size(r.size) * 1.3
}

// wrap cuts the text into lines for the width in force.
func (r *remark) wrap() []string {
	if as := r.drawnAs(); r.cut == nil || r.cutFor != as {
		r.cut = wrapWords(r.text, r.width-r.indent(), as.size, fyne.TextStyle{Bold: r.bold})
		r.cutFor = as
	}
	return r.cut
}

// wrapWords cuts a text at its blanks into lines no wider than width; a word that is
// wider has a line of its own. A number keeps its unit.
func wrapWords(text string, width, size float32, style fyne.TextStyle) []string {
	var out []string
	blank := fyne.MeasureText(" ", size, style).Width
	for _, part := range strings.Split(text, "\n") {
		line, wide := "", float32(0) // the line so far, and how wide it is: words are measured one by one, as most come again
		for _, word := range measure.Words(part) {
			w := fyne.MeasureText(word, size, style).Width
			switch {
			case line == "":
				line, wide = word, w
			case wide+blank+w > width:
				out = append(out, line)
				line, wide = word, w
			default:
				line, wide = line+" "+word, wide+blank+w
			}
		}
		out = append(out, line)
	}
	return out
}

// CreateRenderer draws the lines.
func (r *remark) CreateRenderer() fyne.WidgetRenderer { return &remarkRenderer{r} }

type remarkRenderer struct{ r *remark }

func (d *remarkRenderer) Destroy() {}

func (d *remarkRenderer) lineHeight() float32 { return theme.Size(d.r.size) * 1.42 }

func (d *remarkRenderer) MinSize() fyne.Size {
	return fyne.NewSize(80, d.lineHeight()*float32(len(d.r.wrap())))
}

func (d *remarkRenderer) Objects() []fyne.CanvasObject {
	var out []fyne.CanvasObject
	for _, l := range d.r.lines {
		out = append(out, l)
	}
	return out
}

func (d *remarkRenderer) Layout(s fyne.Size) {
	d.r.width = s.Width
	d.Refresh()
}

func (d *remarkRenderer) Refresh() {
	r := d.r
	as := r.drawnAs()
	if r.lines != nil && r.drawnFor == as {
		return // a container refreshes what is in it whatever happened
	}
	r.drawnFor = as
	c := as.colour
	line := func(s string, x, y float32) {
		t := canvas.NewText(s, c)
		t.TextSize, t.TextStyle = theme.Size(r.size), fyne.TextStyle{Bold: r.bold}
		t.Move(fyne.NewPos(x, y))
		t.Resize(t.MinSize())
		r.lines = append(r.lines, t)
	}
	r.lines = nil
	if r.mark != "" {
		line(r.mark, 0, 0)
	}
	for i, s := range r.wrap() {
		line(s, r.indent(), float32(i)*d.lineHeight())
	}
}
