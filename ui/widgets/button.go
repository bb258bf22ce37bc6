package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// Button is a button that Enter presses too, and that passes other keys on. The one pressed has the
// focus afterwards, by mouse too, so that Tab goes on from there and a form that it opened leads back.
type Button struct {
	widget.Button
	held
}

// NewButton returns a button.
func NewButton(text string, tapped func()) *Button {
	b := &Button{}
	b.Text, b.OnTapped = text, tapped
	b.ExtendBaseWidget(b)
	return b
}

// Primary returns the one button of a view that does what the view is for.
func Primary(text string, tapped func()) *Button {
	b := NewButton(text, tapped)
	b.Importance = widget.HighImportance
	return b
}

// TypedKey presses the button with Enter as with the space bar.
func (b *Button) TypedKey(k *fyne.KeyEvent) {
	switch k.Name {
	case fyne.KeySpace, fyne.KeyReturn, fyne.KeyEnter:
		if OnScreen(b) { // one that went while it had the focus does nothing more
			b.Tapped(nil)
		}
	default:
		passKey(b, k)
	}
}

// Tapped presses the button. The toolkit's own takes the focus away from everything.
func (b *Button) Tapped(e *fyne.PointEvent) {
	press := b.OnTapped
	b.OnTapped = nil
	b.Button.Tapped(e)
	b.OnTapped = press
	if b.Disabled() {
		return
	}
	if OnScreen(b) {
		focusOn(b, b)
	}
	if press != nil {
		press()
	}
}

// passKey gives a key that a widget has no use for to the window.
func passKey(o fyne.CanvasObject, k *fyne.KeyEvent) {
	c := CanvasOf(o)
	if c == nil {
		return
	}
	if f := c.OnTypedKey(); f != nil {
		f(k)
	}
}

// passShortcut gives a shortcut that a line of text has no use for to the window.
func passShortcut(o fyne.CanvasObject, s fyne.Shortcut) {
	if c, ok := CanvasOf(o).(fyne.Shortcutable); ok {
		c.TypedShortcut(s)
	}
}
