package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// figures is a small table to read: titles above, the first column names, the others
// against their right edges. Columns keep their widths whatever stands in them.
type figures struct {
	widget.BaseWidget
	rows  [][]string
	texts []*canvas.Text
	as    drawnAs // what they were drawn as
}

const figureWidth = 92

// Figures returns a small table; its first row are the titles.
func Figures(rows [][]string) fyne.CanvasObject {
	f := &figures{rows: rows}
	f.ExtendBaseWidget(f)
	return f
}

// CreateRenderer draws the table.
func (f *figures) CreateRenderer() fyne.WidgetRenderer {
	r := &figuresRenderer{f}
	r.Refresh()
	return r
}

type figuresRenderer struct{ f *figures }

func (r *figuresRenderer) Destroy() {}

func (r *figuresRenderer) lineHeight() float32 { return theme.TextSize() * 1.5 }

func (r *figuresRenderer) MinSize() fyne.Size {
	columns := 0
	if len(r.f.rows) > 0 {
		columns = len(r.f.rows[0])
	}
	return fyne.NewSize(r.first()+Scaled(figureWidth)*float32(max(columns-1, 0)), r.lineHeight()*float32(len(r.f.rows)))
}

// first is the width of the first column: the usual one, or what its longest name takes.
func (r *figuresRenderer) first() float32 {
	w := Scaled(figureWidth)
	for _, row := range r.f.rows {
		if len(row) > 0 {
			w = max(w, Line(row[0], Quiet).MinSize().Width+10)
		}
	}
	return w
}

func (r *figuresRenderer) Objects() []fyne.CanvasObject {
	var out []fyne.CanvasObject
	for _, t := range r.f.texts {
		out = append(out, t)
	}
	return out
}

func (r *figuresRenderer) Layout(fyne.Size) {}

func (r *figuresRenderer) Refresh() {
	as := drawnAs{Scaled(figureWidth), theme.TextSize(), theme.CaptionTextSize(), Plain.colour()}
	if r.f.texts != nil && as == r.f.as {
		return
	}
	r.f.as = as
	r.f.texts = nil
	first := r.first()
	for y, row := range r.f.rows {
		for x, s := range row {
			tone := Plain
			if y == 0 || x == 0 {
				tone = Quiet
			}
			t := Line(s, tone)
			if y == 0 {
				t.TextSize = theme.CaptionTextSize()
			}
			size := t.MinSize()
			at := fyne.NewPos(0, float32(y)*r.lineHeight())
			if x > 0 {
				at.X = first + float32(x)*Scaled(figureWidth) - size.Width - 12
			}
			t.Move(at)
			t.Resize(size)
			r.f.texts = append(r.f.texts, t)
		}
	}
}
