package widgets

import "fyne.io/fyne/v2"

// revealRoom is left above and beneath what is brought into sight, for its name and its note.
const revealRoom = 24

// reveal scrolls a page or a form so that what has got the focus is in sight, which by Tab may lie beneath.
func reveal(o fyne.CanvasObject) {
	s := scrollOf(o)
	if s == nil {
		return
	}
	d := fyne.CurrentApp().Driver()
	y := d.AbsolutePositionForObject(o).Y - d.AbsolutePositionForObject(s).Y
	switch low := y + o.Size().Height; {
	case y < 0:
		s.ScrollToOffset(s.Offset.AddXY(0, y-revealRoom))
	case low > s.Size().Height:
		s.ScrollToOffset(s.Offset.AddXY(0, low-s.Size().Height+revealRoom))
	}
}

// held remembers whether a widget has the focus, so that the focus finds it again when it is drawn anew.
type held struct{ has bool }

// HasFocus says whether the widget has the focus, or will have it when what lies over the window has gone.
func (h *held) HasFocus() bool { return h.has }

// OnScreen says whether a widget is drawn now; one in its window's very corner counts as not drawn.
func OnScreen(o fyne.CanvasObject) bool {
	c := CanvasOf(o)
	if c == nil {
		return false
	}
	corner, _ := c.InteractiveArea() // positions count from there, and what is not drawn has none
	return fyne.CurrentApp().Driver().AbsolutePositionForObject(o).Add(corner) != fyne.Position{}
}

// FocusOn moves the focus to a widget, if that is drawn, and says whether it was.
func FocusOn(o fyne.CanvasObject) bool {
	f, ok := o.(fyne.Focusable)
	if !ok || !OnScreen(o) {
		return false
	}
	focusOn(o, f)
	return true
}

// FocusGained brings the choice into sight.
func (c *Choice) FocusGained() {
	c.has = true
	c.Select.FocusGained()
	reveal(c)
}

// FocusLost lets go of the focus.
func (c *Choice) FocusLost() { c.has = false; c.Select.FocusLost() }

// FocusGained brings the button into sight.
func (b *Button) FocusGained() {
	b.has = true
	b.Button.FocusGained()
	reveal(b)
}

// FocusLost lets go of the focus.
func (b *Button) FocusLost() { b.has = false; b.Button.FocusLost() }

// FocusGained brings the box into sight.
func (c *Check) FocusGained() {
	c.has = true
	c.Check.FocusGained()
	reveal(c)
}

// FocusLost lets go of the focus.
func (c *Check) FocusLost() { c.has = false; c.Check.FocusLost() }
