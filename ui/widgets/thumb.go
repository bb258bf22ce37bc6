package widgets

import (
	"image"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"tallycloth/ui/looks"
)

// Thumb is a small picture that opens something when it is tapped, or with Enter.
type Thumb struct {
	widget.BaseWidget
	Words string // what it shows, for people and tests
	open  func()
	image *canvas.Image
	frame *canvas.Rectangle
}

// NewThumb returns a thumbnail of that size.
func NewThumb(img image.Image, size fyne.Size, words string, open func()) *Thumb {
	t := &Thumb{Words: words, open: open, image: canvas.NewImageFromImage(img), frame: canvas.NewRectangle(nil)}
	t.image.FillMode = canvas.ImageFillContain
	t.image.SetMinSize(size)
	t.frame.StrokeWidth = 2
	t.ExtendBaseWidget(t)
	return t
}

// Tapped opens it.
func (t *Thumb) Tapped(*fyne.PointEvent) { t.open() }

// FocusGained shows the focus.
func (t *Thumb) FocusGained() {
	t.frame.StrokeColor = looks.Now().Accent
	t.frame.Refresh()
}

// FocusLost takes it away.
func (t *Thumb) FocusLost() {
	t.frame.StrokeColor = nil
	t.frame.Refresh()
}

// TypedRune does nothing.
func (t *Thumb) TypedRune(rune) {}

// TypedKey opens it with Enter or the space bar.
func (t *Thumb) TypedKey(k *fyne.KeyEvent) {
	switch k.Name {
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace:
		t.open()
	default:
		passKey(t, k)
	}
}

// Cursor says that it can be tapped.
func (t *Thumb) Cursor() desktop.Cursor { return desktop.PointerCursor }

// CreateRenderer makes the parts.
func (t *Thumb) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(container.NewStack(t.image, t.frame))
}
