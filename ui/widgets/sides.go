package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// Sides puts two views beside each other with a thin line between that can be dragged, the left one as wide
// as its share of the whole. Neither gets less than it needs while there is room; a view whose need differs
// with what is chosen belongs into a Leaf, so that the line stays where it is.
func Sides(left, right fyne.CanvasObject, share float32) *fyne.Container {
	return parted(left, right, &sides{share: share})
}

// Stacked puts two views above each other in the same way.
func Stacked(upper, lower fyne.CanvasObject, share float32) *fyne.Container {
	return parted(upper, lower, &sides{share: share, upright: true})
}

func parted(a, b fyne.CanvasObject, l *sides) *fyne.Container {
	d := &Divider{l: l, usual: l.share}
	d.ExtendBaseWidget(d)
	d.whole = container.New(l, a, d, b)
	return d.whole
}

// Leaf is a view with what is told of a thing that was chosen: what needs more width than there is is moved sideways.
func Leaf(o fyne.CanvasObject) fyne.CanvasObject {
	s := container.NewHScroll(o)
	s.SetMinSize(fyne.NewSize(leastLeaf, 0))
	return s
}

// leastLeaf is what a Leaf is wide at least.
const leastLeaf = 360

// thick is how thick the line is to be dragged by.
const thick = 5

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
	at := min(max(whole*l.share, a), max(whole-b-thick, a))
	if l.upright {
		place(o[0], 0, 0, s.Width, at)
		place(o[1], 0, at, s.Width, thick)
		place(o[2], 0, at+thick, s.Width, s.Height-at-thick)
		return
	}
	place(o[0], 0, 0, at, s.Height)
	place(o[1], at, 0, thick, s.Height)
	place(o[2], at+thick, 0, s.Width-at-thick, s.Height)
}

func place(o fyne.CanvasObject, x, y, w, h float32) {
	o.Move(fyne.NewPos(x, y))
	o.Resize(fyne.NewSize(w, h))
}

// MinSize is what both need.
func (l *sides) MinSize(o []fyne.CanvasObject) fyne.Size {
	a, b := o[0].MinSize(), o[2].MinSize()
	if l.upright {
		return fyne.NewSize(max(a.Width, b.Width), a.Height+b.Height+thick)
	}
	return fyne.NewSize(a.Width+b.Width+thick, max(a.Height, b.Height))
}

// Divider is the line between two views. Dragged, it stays where it is left; a double click puts it back.
type Divider struct {
	widget.BaseWidget
	l     *sides
	usual float32
	whole *fyne.Container
}

// DividerOf is the line between the views of Sides or Stacked.
func DividerOf(o *fyne.Container) *Divider { return o.Objects[1].(*Divider) }

// Share is how much of the whole the first view has.
func (d *Divider) Share() float32 { return d.l.share }

// Moved says whether the line is elsewhere than usual.
func (d *Divider) Moved() bool { return d.l.share != d.usual }

// SetShare gives the first view a share of the whole; what is no share is left alone.
func (d *Divider) SetShare(share float32) {
	if share > 0 && share < 1 {
		d.l.share = share
		d.whole.Refresh()
	}
}

// Dragged moves the line.
func (d *Divider) Dragged(e *fyne.DragEvent) {
	at, by, whole := d.Position().X, e.Dragged.DX, d.whole.Size().Width
	if d.l.upright {
		at, by, whole = d.Position().Y, e.Dragged.DY, d.whole.Size().Height
	}
	if whole > 0 {
		d.SetShare((at + by) / whole)
	}
}

// DragEnd leaves the line there.
func (d *Divider) DragEnd() {}

// DoubleTapped puts the line back where it usually is.
func (d *Divider) DoubleTapped(*fyne.PointEvent) { d.SetShare(d.usual) }

// Cursor shows that the line can be dragged.
func (d *Divider) Cursor() desktop.Cursor {
	if d.l.upright {
		return desktop.VResizeCursor
	}
	return desktop.HResizeCursor
}

// CreateRenderer draws a thin line in the middle.
func (d *Divider) CreateRenderer() fyne.WidgetRenderer {
	line := widget.NewSeparator()
	return widget.NewSimpleRenderer(container.New(&middle{d.l}, line))
}

// middle lays a line along the middle of a divider.
type middle struct{ l *sides }

func (m *middle) Layout(o []fyne.CanvasObject, s fyne.Size) {
	if m.l.upright {
		place(o[0], 0, (thick-1)/2, s.Width, 1)
		return
	}
	place(o[0], (thick-1)/2, 0, 1, s.Height)
}

func (m *middle) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(thick, thick) }
