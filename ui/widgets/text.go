package widgets

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"

	"tallycloth/ui/looks"
)

// Tone is the meaning a text is coloured by.
type Tone int

// The tones.
const (
	Plain Tone = iota
	Quiet
	Good
	Careful
	Bad
	Accent
)

// colour is the colour of a tone now.
func (t Tone) colour() color.Color { return t.nrgba() }

func (t Tone) nrgba() color.NRGBA {
	p := looks.Now()
	return [...]color.NRGBA{p.Ink, p.Muted, p.Good, p.Careful, p.Bad, p.Accent}[t]
}

// fitted is a text that shortens itself with an ellipsis to the width it is given.
type fitted struct {
	text  *canvas.Text
	full  string
	tone  Tone
	width float32
}

func newFitted(size fyne.ThemeSizeName, style fyne.TextStyle) *fitted {
	t := canvas.NewText("", color.Transparent)
	t.TextSize = theme.Size(size)
	t.TextStyle = style
	return &fitted{text: t}
}

// set changes what is written; nothing is redrawn when nothing changed.
func (f *fitted) set(s string, tone Tone, italic bool) {
	c := tone.colour()
	if f.full == s && f.tone == tone && f.text.Color == c && f.text.TextStyle.Italic == italic {
		return
	}
	f.full, f.tone = s, tone
	f.text.Color, f.text.TextStyle.Italic = c, italic
	f.shorten()
}

// place moves the text into a box of that width, against its right edge if right.
func (f *fitted) place(x, y, width float32, right bool) {
	if width != f.width {
		f.width = width
		f.shorten()
	}
	size := f.text.MinSize()
	if right {
		x += width - size.Width
	}
	f.text.Move(fyne.NewPos(x, y))
	f.text.Resize(size)
}

func (f *fitted) shorten() {
	f.text.Text = Shorten(f.full, f.width, f.text.TextSize, f.text.TextStyle)
	f.text.Refresh()
}

// Shorten cuts a text at its end so that it is no wider than width, with an ellipsis.
func Shorten(s string, width, size float32, style fyne.TextStyle) string {
	if width <= 0 || fyne.MeasureText(s, size, style).Width <= width {
		return s
	}
	r := []rune(s)
	lo, hi := 0, len(r)
	for lo < hi {
		mid := (lo + hi + 1) / 2
		if fyne.MeasureText(string(r[:mid])+"…", size, style).Width <= width {
			lo = mid
		} else {
			hi = mid - 1
		}
	}
	return string(r[:lo]) + "…"
}
