package widgets

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
)

// CanvasOf is the canvas that a widget is drawn on. The toolkit forgets it for widgets that were not
// asked about for a minute, until the window is drawn again: then clicks would be lost, or worse. The
// program has one window, so that is the one, and it is drawn again. Nil where there is no window.
func CanvasOf(o fyne.CanvasObject) fyne.Canvas {
	d := fyne.CurrentApp().Driver()
	if c := d.CanvasForObject(o); c != nil {
		return c
	}
	for _, w := range d.AllWindows() {
		if c := w.Canvas(); c != nil && c.Content() != nil {
			c.Refresh(c.Content())
			return c
		}
	}
	return nil
}

// remembered says whether the toolkit knows where a widget is drawn. Where it does not, what was to be
// done is done once it does, or dropped if the widget does not come back.
func remembered(o fyne.CanvasObject, again func()) bool {
	if fyne.CurrentApp().Driver().CanvasForObject(o) != nil {
		return true
	}
	if CanvasOf(o) == nil {
		return false
	}
	go func() {
		known := false
		for range 20 {
			time.Sleep(25 * time.Millisecond)
			fyne.DoAndWait(func() {
				if known = fyne.CurrentApp().Driver().CanvasForObject(o) != nil; known {
					again()
				}
			})
			if known {
				return
			}
		}
	}()
	return false
}

// MouseDown puts the focus on the line.
func (e *Entry) MouseDown(m *desktop.MouseEvent) {
	if fyne.CurrentApp().Driver().CanvasForObject(e) == nil {
		if c := CanvasOf(e); c != nil && !e.Disabled() {
			c.Focus(e)
		}
	}
	e.Entry.MouseDown(m)
}

// TappedSecondary opens the menu for copying and pasting.
func (e *Entry) TappedSecondary(p *fyne.PointEvent) {
	if remembered(e, func() { e.Entry.TappedSecondary(p) }) {
		e.Entry.TappedSecondary(p)
	}
}
