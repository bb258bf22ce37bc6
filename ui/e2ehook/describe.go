//go:build e2e

package e2ehook

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"tallycloth/ui/widgets"
)

// describe fills in what a widget shows.
func (w *Widget) describe(o fyne.CanvasObject) {
	switch o := o.(type) {
	case *widgets.Entry:
		w.Text = o.Text
	case *widgets.Choice:
		w.Text, w.Chosen, w.Rows = o.Selected, o.SelectedIndex(), o.Options
	case *widgets.Check:
		w.Text, w.Checked = o.Text, o.Checked
	case *widgets.RowList:
		w.rows(o)
	case *widgets.Button:
		w.Text = o.Text
	case *widget.Label:
		w.Text = o.Text
	case *canvas.Text:
		w.Text = o.Text
	case interface{ Said() string }:
		w.Text = o.Said()
	}
}

// rows lists what the lines of a list say: title, what is under it, columns.
func (w *Widget) rows(l *widgets.RowList) {
	chosen, ok := l.ChosenRow()
	for i, r := range l.Rows() {
		text := r.Title + " | " + r.Sub
		for _, c := range r.Cells {
			text += " | " + c.Text
		}
		w.Rows = append(w.Rows, text)
		if ok && chosen.Key == r.Key {
			w.Chosen = i
		}
	}
}
