package historyui

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"

	"tallycloth/planner/exchange/sheet"
	"tallycloth/ui/widgets"
)

// wide gives something a width at least, at the text size in force.
func wide(o fyne.CanvasObject, width float32) fyne.CanvasObject {
	room := canvas.NewRectangle(color.Transparent)
	room.SetMinSize(fyne.NewSize(width*theme.TextSize()/13, 1))
	return container.NewStack(room, o)
}

// sentences are lines that wrap.
func sentences(box *fyne.Container, lines []string) {
	box.RemoveAll()
	for i, s := range lines {
		tone := widgets.Plain
		if i > 0 {
			tone = widgets.Quiet
		}
		box.Add(widgets.Remark("", s, tone))
	}
	box.Refresh()
}

// rowsOf are the rows of a table of words as rows of a list, the first column the title.
func rowsOf(t sheet.Table, key func(i int) any) []widgets.Row {
	var out []widgets.Row
	for i, r := range append(t.Rows[:len(t.Rows):len(t.Rows)], t.Totals...) {
		row := widgets.Row{Key: key(i), Title: r[0]}
		for _, text := range r[1:] {
			row.Cells = append(row.Cells, widgets.Cell{Text: text})
		}
		out = append(out, row)
	}
	return out
}

func byIndex(i int) any { return i }
