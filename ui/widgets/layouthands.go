package widgets

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
)

// Scrolled zooms at the pointer. Where the drawing lies on a page that scrolls, the wheel alone
// moves the page, and zooms while Ctrl is held.
func (v *LayoutView) Scrolled(e *fyne.ScrollEvent) {
	if v.page != nil && !controlHeld() {
		v.page.Scrolled(e)
		return
	}
	v.zoomAt(math.Pow(1.0015, float64(e.Scrolled.DY)*3), float64(e.Position.X), float64(e.Position.Y))
}

// LieOn says which page that scrolls the drawing lies on.
func (v *LayoutView) LieOn(page fyne.Scrollable) { v.page = page }

func controlHeld() bool {
	d, ok := fyne.CurrentApp().Driver().(desktop.Driver)
	return ok && d.CurrentKeyModifiers()&fyne.KeyModifierShortcutDefault != 0
}

// zoomAt zooms so that what is at (x, y) stays there.
func (v *LayoutView) zoomAt(by, x, y float64) {
	before := v.view(1).back(x, y)
	v.zoom = math.Min(math.Max(v.zoom*by, 0.5), 40)
	after := v.view(1).back(x, y)
	v.dx += float64(after.X-before.X) / 1000
	v.dy += float64(after.Y-before.Y) / 1000
	v.render()
}

// Dragged moves the picture, or the piece the drag began on where pieces can be moved.
func (v *LayoutView) Dragged(e *fyne.DragEvent) {
	if !v.drag(e) {
		v.pan(float64(e.Dragged.DX), float64(e.Dragged.DY))
	}
}

// DragEnd ends a drag.
func (v *LayoutView) DragEnd() { v.drop() }

func (v *LayoutView) pan(x, y float64) {
	s := v.view(1).scale
	v.dx += x / s
	v.dy -= y / s
	v.render()
}

// MouseIn tells which piece the pointer is on.
func (v *LayoutView) MouseIn(e *desktop.MouseEvent) { v.MouseMoved(e) }

// MouseMoved tells which piece the pointer is on.
func (v *LayoutView) MouseMoved(e *desktop.MouseEvent) {
	if v.grip.held {
		return
	}
	v.point(v.pieceAt(float64(e.Position.X), float64(e.Position.Y)))
}

// pieceAt is the piece at a place of the widget, the last drawn of several, or −1.
func (v *LayoutView) pieceAt(x, y float64) int {
	p := v.view(1).back(x, y)
	at := -1
	for i, q := range v.picture.Pieces {
		if b := q.Outline.Bounds(); p.X >= b.Min.X && p.X <= b.Max.X && p.Y >= b.Min.Y && p.Y <= b.Max.Y && q.Outline.Contains(p) {
			at = i
		}
	}
	return at
}

// MouseOut forgets the piece.
func (v *LayoutView) MouseOut() {
	if !v.grip.held {
		v.point(-1)
	}
}

// FocusGained shows the focus.
func (v *LayoutView) FocusGained() { v.focused = true; v.Refresh() }

// FocusLost takes it away.
func (v *LayoutView) FocusLost() { v.focused = false; v.Refresh() }

// Tapped takes the focus, for the keys, and chooses the piece that was tapped where
// pieces can be moved.
func (v *LayoutView) Tapped(e *fyne.PointEvent) {
	if v.Mover != nil {
		v.choosePiece(v.pieceAt(float64(e.Position.X), float64(e.Position.Y)))
	}
	if c := CanvasOf(v); c != nil {
		c.Focus(v)
	}
}

// TappedSecondary keeps the piece that was tapped in place, or lets it go.
func (v *LayoutView) TappedSecondary(e *fyne.PointEvent) {
	v.Tapped(e)
	if i := v.grip.piece; v.Mover != nil && i >= 0 {
		v.Mover.KeptOrNot(i)
	}
}

// TypedRune zooms with + and − and shows the whole cloth with 0.
func (v *LayoutView) TypedRune(r rune) {
	if v.moveRune(r) {
		return
	}
	c := v.Size()
	switch r {
	case '+', '=':
		v.zoomAt(1.25, float64(c.Width)/2, float64(c.Height)/2)
	case '-':
		v.zoomAt(0.8, float64(c.Width)/2, float64(c.Height)/2)
	case '0':
		v.zoom, v.dx, v.dy = 1, 0, 0
		v.render()
	}
}

// TypedKey moves the picture with the arrows.
func (v *LayoutView) TypedKey(e *fyne.KeyEvent) {
	if v.moveKey(e.Name) {
		return
	}
	switch e.Name {
	case fyne.KeyLeft:
		v.pan(40, 0)
	case fyne.KeyRight:
		v.pan(-40, 0)
	case fyne.KeyUp:
		v.pan(0, 40)
	case fyne.KeyDown:
		v.pan(0, -40)
	default:
		if v.Key != nil {
			v.Key(e.Name)
			return
		}
		passKey(v, e)
	}
}
