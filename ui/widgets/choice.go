package widgets

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// Choice is a labelled choice of one of several words. With the focus on it,
// letters jump to the next word that begins with them and arrows move on.
type Choice struct {
	widget.Select
	Escape func()
	Enter  func() // Enter, which sends a form
	bare   *fyne.Container
	box    *fyne.Container
}

// NewChoice returns a choice with the first word chosen, if there is one.
func NewChoice(name string, words []string, changed func(string)) *Choice {
	c := &Choice{}
	c.Options = words
	c.PlaceHolder = "choose"
	c.ExtendBaseWidget(c)
	if len(words) > 0 {
		c.SetSelectedIndex(0)
	}
	c.OnChanged = changed
	c.bare = container.NewStack(c, outline())
	c.box = container.New(&fieldLayout{}, Caption(name), c.bare, Caption(" "))
	return c
}

// Object is what is put on a screen.
func (c *Choice) Object() fyne.CanvasObject { return c.box }

// Bare is the choice without its label and the room beneath, for tables of choices.
func (c *Choice) Bare() fyne.CanvasObject { return c.bare }

// Words changes what can be chosen; the choice stays if it is still there.
func (c *Choice) Words(words []string) {
	keep := c.Selected
	changed := c.OnChanged
	c.OnChanged = nil
	c.SetOptions(words)
	c.ClearSelected()
	for i, w := range words {
		if w == keep || i == 0 {
			c.SetSelectedIndex(i)
		}
	}
	if keep != "" {
		for i, w := range words {
			if w == keep {
				c.SetSelectedIndex(i)
			}
		}
	}
	c.OnChanged = changed
}

// TypedRune jumps to the next word that begins with the letter.
func (c *Choice) TypedRune(r rune) {
	at := c.SelectedIndex()
	for k := 1; k <= len(c.Options); k++ {
		i := (at + k) % len(c.Options)
		if w := []rune(c.Options[i]); len(w) > 0 && lower(w[0]) == lower(r) {
			c.SetSelectedIndex(i)
			return
		}
	}
	c.Select.TypedRune(r)
}

func lower(r rune) rune {
	if r >= 'A' && r <= 'Z' {
		return r + 'a' - 'A'
	}
	return r
}

// TypedKey passes Escape and Enter on.
func (c *Choice) TypedKey(k *fyne.KeyEvent) {
	switch {
	case k.Name == fyne.KeyEscape && c.Escape != nil:
		c.Escape()
	case k.Name == fyne.KeyEscape || k.Name == fyne.KeyF1:
		passKey(c, k)
	case k.Name == fyne.KeyReturn || k.Name == fyne.KeyEnter:
		if c.Enter != nil {
			c.Enter()
		}
	default:
		if k.Name != fyne.KeySpace || remembered(c, func() { c.Select.TypedKey(k) }) { // space opens the list
			c.Select.TypedKey(k)
		}
	}
}

// outline is the frame that tells a choice from a text.
func outline() fyne.CanvasObject {
	r := canvas.NewRectangle(color.Transparent)
	r.StrokeColor, r.StrokeWidth, r.CornerRadius = theme.Color(theme.ColorNameInputBorder), 1, theme.InputRadiusSize()
	return r
}
