package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
)

// formRim is left free round a form.
const formRim = 40

// formLayout stands a form's title and buttons above and beneath its rows. Rows that are more than the
// window has room for are scrolled, so that the buttons can always be reached.
type formLayout struct {
	canvas fyne.Canvas
	wide   float32 // wanted
}

func formBox(c fyne.Canvas, wide float32, head, rows, foot fyne.CanvasObject) *fyne.Container {
	return container.New(formLayout{c, wide}, head, container.NewScroll(rows), foot)
}

// MinSize is what all of it takes, but no more than the window has.
func (l formLayout) MinSize(o []fyne.CanvasObject) fyne.Size {
	head, rows, foot := o[0].MinSize(), o[1].(*container.Scroll).Content.MinSize(), o[2].MinSize()
	most := l.canvas.Size().SubtractWidthHeight(2*formRim, 2*formRim)
	return fyne.NewSize(
		min(max(l.wide, head.Width, rows.Width, foot.Width), max(most.Width, foot.Width)),
		min(head.Height+rows.Height+foot.Height, max(most.Height, head.Height+foot.Height+rows.Height/4)))
}

// Layout gives the rows what title and buttons leave.
func (l formLayout) Layout(o []fyne.CanvasObject, s fyne.Size) {
	head, foot := o[0].MinSize().Height, o[2].MinSize().Height
	place(o[0], 0, 0, s.Width, head)
	place(o[1], 0, head, s.Width, s.Height-head-foot)
	place(o[2], 0, s.Height-foot, s.Width, foot)
}

// lastFirst stands buttons in a row from the right: what sends a form stands last, as people expect, and is
// the next that Tab comes to after its fields.
type lastFirst struct{}

// MinSize is the row's.
func (lastFirst) MinSize(o []fyne.CanvasObject) fyne.Size {
	var out fyne.Size
	for i, c := range o {
		if !c.Visible() {
			continue
		}
		m := c.MinSize()
		out.Width, out.Height = out.Width+m.Width, max(out.Height, m.Height)
		if i > 0 {
			out.Width += theme.Padding()
		}
	}
	return out
}

// Layout places the buttons.
func (lastFirst) Layout(o []fyne.CanvasObject, s fyne.Size) {
	x := s.Width
	for _, c := range o {
		w := c.MinSize().Width
		x -= w
		place(c, x, 0, w, s.Height)
		x -= theme.Padding()
	}
}
