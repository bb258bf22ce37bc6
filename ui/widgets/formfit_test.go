package widgets_test

import (
	"errors"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"

	"tallycloth/ui/looks"
	"tallycloth/ui/widgets"
)

// A form with more rows than the window has room for keeps its buttons in the window.
func TestFormFitsTheWindow(t *testing.T) {
	app := test.NewTempApp(t)
	w := app.NewWindow("")
	w.SetContent(canvas.NewRectangle(theme.Color(theme.ColorNameBackground)))
	w.Resize(fyne.NewSize(700, 400))
	f := &widgets.Form{Title: "Much", Send: "Keep"}
	for range 20 {
		field := widgets.NewField("Width", "150 cm", nil)
		f.Fields, f.Rows = append(f.Fields, field), append(f.Rows, []fyne.CanvasObject{field.Object()})
	}
	f.Show(w.Canvas())
	at := app.Driver().AbsolutePositionForObject(f.SendButton())
	if low := at.Y + f.SendButton().Size().Height; low > w.Canvas().Size().Height || at.X+f.SendButton().Size().Width > w.Canvas().Size().Width {
		t.Errorf("the button ends at %v of %v", low, w.Canvas().Size().Height)
	}
}

// A form that was closed while the look changed shows the new one when it opens.
func TestFormWearsTheNewLook(t *testing.T) {
	app := test.NewTempApp(t)
	app.Settings().SetTheme(&looks.Theme{Percent: 100, Fixed: true, Variant: theme.VariantDark})
	field := widgets.NewField("Width", "150 cm", nil)
	f := &widgets.Form{Title: "Cloth", Send: "Keep", Fields: []*widgets.Field{field}, Rows: [][]fyne.CanvasObject{{field.Object()}}}
	name := field.Object().(*fyne.Container).Objects[0].(*canvas.Text)
	before := name.TextSize
	app.Settings().SetTheme(&looks.Theme{Percent: 140, Strong: true})
	w := app.NewWindow("")
	w.SetContent(canvas.NewRectangle(theme.Color(theme.ColorNameBackground)))
	w.Resize(fyne.NewSize(700, 400))
	for range 2 { // and stays as it is when it is opened again
		f.Show(w.Canvas())
		if name.Color != looks.Contrast.Muted || name.TextSize < 1.39*before || name.TextSize > 1.41*before {
			t.Errorf("its name is %v high in %v, was %v", name.TextSize, name.Color, before)
		}
		f.Close()
	}
}

// While one types the form stays as large as it is; what is wrong is said in full once it was to be sent.
func TestFormStaysWhileTyping(t *testing.T) {
	app := test.NewTempApp(t)
	w := app.NewWindow("")
	w.SetContent(canvas.NewRectangle(theme.Color(theme.ColorNameBackground)))
	w.Resize(fyne.NewSize(700, 400))
	field := widgets.NewField("Width", "150 cm", func(string) (string, error) {
		return "", errors.New("write a width such as 150 cm or 60 in, from one selvedge to the other, as the cloth lies there now")
	})
	f := &widgets.Form{Title: "Cloth", Send: "Keep", Width: 260, Fields: []*widgets.Field{field}, Rows: [][]fyne.CanvasObject{{field.Object()}}}
	f.Show(w.Canvas())
	before := field.Object().MinSize()
	field.Entry.SetText("x")
	if now := field.Object().MinSize(); now != before {
		t.Errorf("while typing it takes %v, before %v", now, before)
	}
	f.Submit()
	if now := field.Object().MinSize(); now.Height <= before.Height {
		t.Errorf("once sent it takes %v, before %v", now, before)
	}
}

// After its fields Tab comes to what sends a form, which stands to the right of what closes it.
func TestSendComesBeforeClose(t *testing.T) {
	app := test.NewTempApp(t)
	w := app.NewWindow("")
	w.SetContent(canvas.NewRectangle(theme.Color(theme.ColorNameBackground)))
	w.Resize(fyne.NewSize(700, 400))
	field := widgets.NewField("Width", "150 cm", nil)
	f := &widgets.Form{Title: "Cloth", Send: "Keep", Fields: []*widgets.Field{field}, Rows: [][]fyne.CanvasObject{{field.Object()}}}
	f.Show(w.Canvas())
	w.Canvas().FocusNext()
	if w.Canvas().Focused() != fyne.Focusable(f.SendButton()) {
		t.Errorf("Tab comes to %v", w.Canvas().Focused())
	}
	if f.SendButton().Position().X <= f.CloseButton().Position().X {
		t.Error("the button that closes stands to the right")
	}
}
