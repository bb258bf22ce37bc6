package widgets

import (
	"image/color"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
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

// CreateRenderer draws a line round a button that can be pressed, as the ground alone hardly tells it
// from what it lies on. The one that stands out needs none.
func (b *Button) CreateRenderer() fyne.WidgetRenderer {
	r := &buttonRenderer{WidgetRenderer: b.Button.CreateRenderer(), button: b, frame: canvas.NewRectangle(color.Transparent)}
	r.draw()
	return r
}

type buttonRenderer struct {
	fyne.WidgetRenderer
	button  *Button
	frame   *canvas.Rectangle
	objects []fyne.CanvasObject // asked for at every frame
}

// Objects are the button's, and the line over them.
func (r *buttonRenderer) Objects() []fyne.CanvasObject { return r.objects }

// Layout lets the line go round the whole button.
func (r *buttonRenderer) Layout(s fyne.Size) {
	r.WidgetRenderer.Layout(s)
	r.frame.Resize(s)
}

// Refresh draws the line in the colour in force, or not.
func (r *buttonRenderer) Refresh() {
	r.WidgetRenderer.Refresh()
	r.draw()
	r.frame.Refresh()
}

func (r *buttonRenderer) draw() {
	r.objects = append(slices.Clone(r.WidgetRenderer.Objects()), r.frame) // an icon may have come or gone
	r.frame.StrokeWidth, r.frame.CornerRadius = theme.InputBorderSize(), theme.InputRadiusSize()
	r.frame.StrokeColor = theme.Color(theme.ColorNameInputBorder)
	r.frame.Hidden = r.button.Disabled() || r.button.Importance == widget.HighImportance
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
