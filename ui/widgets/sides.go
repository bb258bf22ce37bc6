package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
)

// Sides puts two views beside each other with a thin line between, the left one as wide
// as its share of the whole. Neither gets less than it needs while there is room.
func Sides(left, right fyne.CanvasObject, share float32) fyne.CanvasObject {
	return container.New(&sides{share: share}, left, widget.NewSeparator(), right)
}

// Stacked puts two views above each other in the same way.
func Stacked(upper, lower fyne.CanvasObject, share float32) fyne.CanvasObject {
	return container.New(&sides{share: share, upright: true}, upper, widget.NewSeparator(), lower)
}

type sides struct {
	share   float32
	upright bool
}

// Layout places the views.
func (l *sides) Layout(o []fyne.CanvasObject, s fyne.Size) {
	first, second := o[0].MinSize(), o[2].MinSize()
	whole, a, b := s.Width, first.Width, second.Width
	if l.upright {
		whole, a, b = s.Height, first.Height, second.Height
	}
	at := min(max(whole*l.share, a), max(whole-b-1, a))
	if l.upright {
		place(o[0], 0, 0, s.Width, at)
		place(o[1], 0, at, s.Width, 1)
		place(o[2], 0, at+1, s.Width, s.Height-at-1)
		return
	}
	place(o[0], 0, 0, at, s.Height)
	place(o[1], at, 0, 1, s.Height)
	place(o[2], at+1, 0, s.Width-at-1, s.Height)
}

func place(o fyne.CanvasObject, x, y, w, h float32) {
	o.Move(fyne.NewPos(x, y))
	o.Resize(fyne.NewSize(w, h))
}

// MinSize is what both need.
func (l *sides) MinSize(o []fyne.CanvasObject) fyne.Size {
	a, b := o[0].MinSize(), o[2].MinSize()
	if l.upright {
		return fyne.NewSize(max(a.Width, b.Width), a.Height+b.Height+1)
	}
	return fyne.NewSize(a.Width+b.Width+1, max(a.Height, b.Height))
}
