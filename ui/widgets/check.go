package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// Check is a yes or no that passes Escape on; the space bar changes it, and so does Enter
// where it does not send a form.
type Check struct {
	widget.Check
	held
	Escape func()
	Enter  func() // Enter, which sends a form
}

// NewCheck returns a check that is off.
func NewCheck(text string, changed func(bool)) *Check {
	c := &Check{}
	c.Text = text
	c.OnChanged = changed
	c.ExtendBaseWidget(c)
	return c
}

// TypedKey passes Escape and Enter on.
func (c *Check) TypedKey(k *fyne.KeyEvent) {
	switch {
	case k.Name == fyne.KeyEscape && c.Escape != nil:
		c.Escape()
	case (k.Name == fyne.KeyReturn || k.Name == fyne.KeyEnter) && c.Enter != nil:
		c.Enter()
	case k.Name == fyne.KeyReturn || k.Name == fyne.KeyEnter:
		c.SetChecked(!c.Checked)
	case k.Name == fyne.KeyEscape || k.Name == fyne.KeyF1:
		passKey(c, k)
	default:
		c.Check.TypedKey(k)
	}
}
