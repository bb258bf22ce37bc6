package widgets

import (
	"math"

	"fyne.io/fyne/v2"

	"tallycloth/stash/shape"
)

// Mover is who decides about pattern pieces moved by hand; the view only tells what the
// hand does. Distances are in the cloth's frame.
type Mover interface {
	// Held is called while piece i is held that far from where it lies.
	Held(i int, by shape.Point)
	// Moved is called when it is let go there.
	Moved(i int, by shape.Point)
	// Nudged is called when a key moves it that far.
	Nudged(i int, by shape.Point)
	// Turned is called when it is to be turned.
	Turned(i int)
	// KeptOrNot is called when it is to be kept in place, or to be let go if it is.
	KeptOrNot(i int)
	// Chosen is called when another piece is the one that keys move, −1 for none.
	Chosen(i int)
}

// step is how far an arrow key moves a piece, µm.
const step = 5_000

// grip is a piece held by the pointer, or chosen by the keyboard.
type grip struct {
	piece int // −1 for none
	dx    float32
	dy    float32
	held  bool
}

// by is how far the piece is held from its place, in the cloth's frame.
func (v *LayoutView) by() shape.Point {
	s := v.view(1).scale // units of the canvas for 1 mm
	return shape.Point{X: int64(math.Round(float64(v.grip.dx) / s * 1000)), Y: -int64(math.Round(float64(v.grip.dy) / s * 1000))}
}

// drag moves the piece that the drag began on; false when it began on none.
func (v *LayoutView) drag(e *fyne.DragEvent) bool {
	if v.Mover == nil {
		return false
	}
	if !v.grip.held {
		if v.panning {
			return false
		}
		i := v.pieceAt(float64(e.Position.X-e.Dragged.DX), float64(e.Position.Y-e.Dragged.DY))
		if i < 0 {
			v.panning = true
			return false
		}
		v.choosePiece(i)
		v.grip.held = true
	}
	v.grip.dx += e.Dragged.DX
	v.grip.dy += e.Dragged.DY
	v.showTop()
	v.Mover.Held(v.grip.piece, v.by())
	return true
}

// drop lets the held piece go.
func (v *LayoutView) drop() {
	v.panning = false
	if !v.grip.held {
		return
	}
	i, by := v.grip.piece, v.by()
	v.grip = grip{piece: i}
	if by != (shape.Point{}) {
		v.Mover.Moved(i, by)
	}
}

// Redraw draws the pieces anew where they lie now; zoom, place and grip stay.
func (v *LayoutView) Redraw(p ClothPicture) {
	v.picture = p
	v.crisp = nil
	v.Refresh()
}

// Follow is Redraw for the frames of a search: the picture is drawn away from the
// window's thread, and the old one is seen until it is there.
func (v *LayoutView) Follow(p ClothPicture) {
	v.picture = p
	if v.hover >= 0 || v.grip.piece >= 0 {
		v.grip = grip{piece: -1}
		v.point(-1)
	}
	v.render()
}

// Grip is the piece that keys move, −1 for none.
func (v *LayoutView) Grip() int { return v.grip.piece }

// moveKey moves the chosen piece with an arrow; false when the key is for the view.
func (v *LayoutView) moveKey(k fyne.KeyName) bool {
	if v.Mover == nil || v.grip.piece < 0 || v.grip.piece >= len(v.picture.Pieces) {
		return false
	}
	by, ok := map[fyne.KeyName]shape.Point{fyne.KeyLeft: {X: -step}, fyne.KeyRight: {X: step}, fyne.KeyUp: {Y: step}, fyne.KeyDown: {Y: -step}}[k]
	switch {
	case ok:
		v.Mover.Nudged(v.grip.piece, by)
	case k == fyne.KeyEscape:
		v.choosePiece(-1)
	default:
		return false
	}
	return true
}

// moveRune chooses the next piece with n, the one before with b, turns the chosen one with
// r, and keeps it in place or lets it go with k.
func (v *LayoutView) moveRune(r rune) bool {
	if v.Mover == nil || len(v.picture.Pieces) == 0 {
		return false
	}
	switch r {
	case 'n', 'N', ' ':
		v.choosePiece((v.grip.piece + 1) % len(v.picture.Pieces))
	case 'b', 'B':
		v.choosePiece((max(v.grip.piece, 0) + len(v.picture.Pieces) - 1) % len(v.picture.Pieces))
	case 'r', 'R':
		i := v.grip.piece
		if i < 0 {
			i = v.hover
		}
		if i >= 0 {
			v.Mover.Turned(i)
		}
	case 'k', 'K':
		i := v.grip.piece
		if i < 0 {
			i = v.hover
		}
		if i >= 0 {
			v.Mover.KeptOrNot(i)
		}
	default:
		return false
	}
	return true
}

// choosePiece makes a piece the one that keys move, −1 for none.
func (v *LayoutView) choosePiece(i int) {
	was := v.grip.piece
	v.grip = grip{piece: i}
	v.point(i)
	v.showTop()
	if was != i && v.Mover != nil {
		v.Mover.Chosen(i)
	}
}
