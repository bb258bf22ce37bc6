package widgets

import (
	"image/color"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// Choice is a labelled choice of one of several words. With the focus on it, letters
// typed quickly are taken together and choose the word that begins with them; arrows
// move on. A click or the space bar opens the list of words.
type Choice struct {
	widget.Select
	held
	Escape func()
	Enter  func() // Enter, which sends a form
	// Swatch is the colour that a word is drawn beside in the list, nil for none.
	Swatch func(word string) color.Color
	// Now is the clock that tells letters typed in one go from later ones.
	Now     func() time.Time
	touched func() // the form hears that something was changed
	typed   typing
	list    *choiceList // while it is open
	bare    *fyne.Container
	box     *fyne.Container
}

// NewChoice returns a choice with the first word chosen, if there is one.
func NewChoice(name string, words []string, changed func(string)) *Choice {
	c := &Choice{Now: time.Now}
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

// TypedRune chooses the word that begins with the letters typed in one go.
func (c *Choice) TypedRune(r rune) {
	if c.Disabled() {
		return
	}
	if i := c.typed.find(c.Options, c.SelectedIndex(), r, c.Now()); i >= 0 {
		c.take(i)
	}
}

// take chooses a word as a person does.
func (c *Choice) take(i int) {
	if i != c.SelectedIndex() {
		c.SetSelectedIndex(i)
	}
	if c.touched != nil {
		c.touched()
	}
}

// Tapped opens the list of words.
func (c *Choice) Tapped(*fyne.PointEvent) {
	if !c.Disabled() {
		focusOn(c, c)
		c.open()
	}
}

// TypedKey passes Escape and Enter on.
func (c *Choice) TypedKey(k *fyne.KeyEvent) {
	n := len(c.Options)
	switch {
	case k.Name == fyne.KeyEscape && c.Escape != nil:
		c.Escape()
	case k.Name == fyne.KeyEscape || k.Name == fyne.KeyF1:
		passKey(c, k)
	case k.Name == fyne.KeyReturn || k.Name == fyne.KeyEnter:
		if c.Enter != nil {
			c.Enter()
		}
	case c.Disabled() || n == 0:
	case k.Name == fyne.KeySpace && c.typed.going(c.Now()): // within a word such as "swim knit"
	case k.Name == fyne.KeySpace || k.Name == fyne.KeyUp || k.Name == fyne.KeyDown:
		c.open()
	case k.Name == fyne.KeyRight:
		c.take((c.SelectedIndex() + 1) % n)
	case k.Name == fyne.KeyLeft:
		c.take((max(c.SelectedIndex(), 0) + n - 1) % n)
	}
}

// typing is what was typed into a choice in one go.
type typing struct {
	letters string
	last    time.Time
}

// typingPause is how long after a letter another still belongs to the same word.
const typingPause = time.Second

func (t *typing) going(now time.Time) bool {
	return t.letters != "" && now.Sub(t.last) < typingPause
}

// find adds a letter and returns the word that begins with all that was typed in one go, or
// -1. The same letter again goes from one word that begins with it to the next.
func (t *typing) find(words []string, at int, r rune, now time.Time) int {
	if !t.going(now) {
		t.letters = ""
	}
	letters := t.letters + strings.ToLower(string(r))
	if letters == " " {
		return -1 // it opens the list
	}
	t.last = now
	from := at
	if len([]rune(letters)) == 1 {
		from++ // a first letter moves on
	}
	if i := beginning(words, letters, from); i >= 0 {
		t.letters = letters
		return i
	}
	if first := string([]rune(letters)[:1]); strings.Trim(letters, first) == "" {
		return beginning(words, first, at+1)
	}
	t.letters = letters
	return -1
}

// beginning returns the first word from a place on, and round, that begins with the letters.
func beginning(words []string, letters string, from int) int {
	for k := range words {
		i := (max(from, 0) + k) % len(words)
		if strings.HasPrefix(strings.ToLower(words[i]), letters) {
			return i
		}
	}
	return -1
}

// outline is the frame that tells a choice from a text.
func outline() fyne.CanvasObject {
	r := canvas.NewRectangle(color.Transparent)
	r.StrokeColor, r.StrokeWidth, r.CornerRadius = theme.Color(theme.ColorNameInputBorder), 1, theme.InputRadiusSize()
	return r
}
