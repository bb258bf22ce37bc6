package widgets_test

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"

	"tallycloth/ui/widgets"
)

// The wheel over a line of a page moves the page, however the line is nested, and never the text in it.
func TestWheelOverALineMovesThePage(t *testing.T) {
	app := test.NewTempApp(t)
	w := app.NewWindow("")
	page := container.NewVBox()
	var line *widgets.Entry
	for range 40 {
		line = widgets.NewEntry("a text that is longer than the line is wide")
		page.Add(container.NewGridWithColumns(2, line, container.NewStack(widgets.NewEntry("name"))))
	}
	scroll := container.NewVScroll(widgets.Inset(page))
	w.SetContent(container.NewBorder(nil, nil, nil, nil, scroll))
	w.Resize(fyne.NewSize(300, 200))
	var over fyne.Scrollable
	for _, o := range test.TempWidgetRenderer(t, line).Objects() {
		if s, ok := o.(fyne.Scrollable); ok {
			over = s // the last lies on top
		}
	}
	if over == nil {
		t.Fatal("nothing takes the wheel")
	}
	over.Scrolled(&fyne.ScrollEvent{Scrolled: fyne.NewDelta(0, -30)})
	if scroll.Offset.Y != 30 {
		t.Errorf("the page moved by %v", scroll.Offset.Y)
	}
}
