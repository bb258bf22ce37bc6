package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// Button is a button that Enter presses too, and that passes other keys on.
type Button struct{ widget.Button }

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
	case fyne.KeySpace:
		b.Button.TypedKey(k)
	case fyne.KeyReturn, fyne.KeyEnter:
		if !b.Disabled() {
			b.Button.Tapped(nil)
		}
	default:
		passKey(b, k)
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
