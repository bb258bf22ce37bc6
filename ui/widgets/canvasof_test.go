package widgets_test

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	"tallycloth/ui/widgets"
)

// windowless is a toolkit that has forgotten where widgets are drawn.
type windowless struct{ fyne.Driver }

func (windowless) CanvasForObject(fyne.CanvasObject) fyne.Canvas { return nil }
func (windowless) AllWindows() []fyne.Window                     { return nil }

type forgetful struct{ fyne.App }

func (a forgetful) Driver() fyne.Driver { return windowless{a.App.Driver()} }

// A toolkit that does not know in which window a choice or a line lies takes a click all the same.
func TestClickWithoutAKnownWindow(t *testing.T) {
	app := test.NewTempApp(t)
	c, e := widgets.NewChoice("Fabric", []string{"rib", "jersey"}, nil), widgets.NewEntry("name")
	app.NewWindow("").SetContent(container.NewVBox(c, e))
	fyne.SetCurrentApp(forgetful{app})
	t.Cleanup(func() { fyne.SetCurrentApp(app) })
	if widgets.CanvasOf(c) != nil {
		t.Fatal("there is a window")
	}
	c.Tapped(&fyne.PointEvent{})
	c.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
	e.MouseDown(&desktop.MouseEvent{Button: desktop.MouseButtonPrimary})
	e.TappedSecondary(&fyne.PointEvent{})
	if c.Selected != "rib" {
		t.Errorf("%q is chosen", c.Selected)
	}
}

// Where the window is known a click on a line puts the focus there even if the toolkit forgot the line.
func TestFocusOnAForgottenLine(t *testing.T) {
	app := test.NewTempApp(t)
	e := widgets.NewEntry("name")
	w := app.NewWindow("")
	w.SetContent(e)
	fyne.SetCurrentApp(half{app})
	t.Cleanup(func() { fyne.SetCurrentApp(app) })
	e.MouseDown(&desktop.MouseEvent{Button: desktop.MouseButtonPrimary})
	if w.Canvas().Focused() != e {
		t.Errorf("the focus is on %v", w.Canvas().Focused())
	}
}

// lineless has a window and does not know what is in it.
type lineless struct{ fyne.Driver }

func (lineless) CanvasForObject(fyne.CanvasObject) fyne.Canvas { return nil }

type half struct{ fyne.App }

func (a half) Driver() fyne.Driver { return lineless{a.App.Driver()} }
