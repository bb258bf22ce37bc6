package patternui

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"tallycloth/planner/scene"
	"tallycloth/ui/widgets"
)

// sceneBoard is a picture whose things can be clicked, and dragged where that makes sense. With the focus on
// it keys go to Key.
type sceneBoard struct {
	widgets.SceneView
	Tap    func(scene.Point)
	Drag   func(from, by scene.Point, end bool)
	Key    func(fyne.KeyName) bool // says whether it had a use for the key
	Escape func()
	from   *scene.Point // where a drag began
	by     scene.Point
}

var (
	_ fyne.Tappable      = (*sceneBoard)(nil)
	_ fyne.Draggable     = (*sceneBoard)(nil)
	_ fyne.Focusable     = (*sceneBoard)(nil)
	_ desktop.Cursorable = (*sceneBoard)(nil)
)

func newSceneBoard(width, height float32) *sceneBoard {
	b := &sceneBoard{}
	b.SceneView.Set(width, height)
	b.ExtendBaseWidget(b)
	return b
}

// Tapped takes the focus and says where the picture was clicked.
func (b *sceneBoard) Tapped(e *fyne.PointEvent) {
	if c := widgets.CanvasOf(b); c != nil && b.Key != nil {
		c.Focus(b)
	}
	if p, ok := b.Place(e.Position); ok && b.Tap != nil {
		b.Tap(p)
	}
}

// Dragged moves what the drag began on.
func (b *sceneBoard) Dragged(e *fyne.DragEvent) {
	if b.Drag == nil {
		return
	}
	if b.from == nil {
		p, ok := b.Place(fyne.NewPos(e.Position.X-e.Dragged.DX, e.Position.Y-e.Dragged.DY))
		if !ok {
			return
		}
		b.from = &p
	}
	if p, ok := b.Place(e.Position); ok {
		b.by = scene.Point{X: p.X - b.from.X, Y: p.Y - b.from.Y}
		b.Drag(*b.from, b.by, false)
	}
}

// DragEnd lets it go.
func (b *sceneBoard) DragEnd() {
	if b.from != nil && b.Drag != nil {
		from := *b.from
		b.from = nil
		b.Drag(from, b.by, true)
	}
}

// FocusGained is nothing to see: what keys move is marked in the picture.
func (b *sceneBoard) FocusGained() {}

// FocusLost is nothing to see either.
func (b *sceneBoard) FocusLost() {}

// TypedRune is a key with a letter.
func (b *sceneBoard) TypedRune(r rune) {
	if b.Key != nil {
		b.Key(fyne.KeyName(string(r)))
	}
}

// TypedKey passes on what nobody here has a use for.
func (b *sceneBoard) TypedKey(k *fyne.KeyEvent) {
	switch {
	case k.Name == fyne.KeyEscape && b.Escape != nil:
		b.Escape()
	case b.Key != nil && b.Key(k.Name):
	}
}

// Cursor shows that a click does something.
func (b *sceneBoard) Cursor() desktop.Cursor {
	if b.Tap == nil && b.Drag == nil {
		return desktop.DefaultCursor
	}
	return desktop.PointerCursor
}

// Spot is where words of the picture stand, by the name of what they belong to.
func (b *sceneBoard) Spot(id string) (fyne.Position, bool) {
	for _, it := range b.Scene().Items {
		if it.ID == id && it.Text != "" {
			return b.Over(it.At)
		}
	}
	return fyne.Position{}, false
}

func far(a, b scene.Point) float64 { return math.Hypot(a.X-b.X, a.Y-b.Y) }
