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

// FocusGained brings the choice into sight.
func (c *Choice) FocusGained() {
	c.Select.FocusGained()
	reveal(c)
}

// FocusGained brings the button into sight.
func (b *Button) FocusGained() {
	b.Button.FocusGained()
	reveal(b)
}

// FocusGained brings the box into sight.
func (c *Check) FocusGained() {
	c.Check.FocusGained()
	reveal(c)
}
