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

// Tab to a line, a choice or a button beneath brings it into sight.
func TestTabBringsIntoSight(t *testing.T) {
	app := test.NewTempApp(t)
	w := app.NewWindow("")
	page := container.NewVBox()
	for range 20 {
		page.Add(widgets.NewField("Width", "150 cm", nil).Object())
		page.Add(widgets.NewChoice("Colour", []string{"moss", "brick"}, nil).Object())
		page.Add(widgets.NewButton("Add", func() {}))
		page.Add(widgets.NewCheck("Washed", nil))
	}
	scroll := container.NewVScroll(page)
	w.SetContent(scroll)
	w.Resize(fyne.NewSize(300, 240))
	for i := range 80 {
		w.Canvas().FocusNext()
		o := w.Canvas().Focused().(fyne.CanvasObject)
		y := app.Driver().AbsolutePositionForObject(o).Y - app.Driver().AbsolutePositionForObject(scroll).Y
		if y < 0 || y+o.Size().Height > scroll.Size().Height {
			t.Fatalf("number %d, a %T, lies at %v of %v", i, o, y, scroll.Size().Height)
		}
	}
	w.Canvas().FocusNext() // the first again
	if scroll.Offset.Y > 30 {
		t.Errorf("the page stays at %v", scroll.Offset.Y)
	}
}
