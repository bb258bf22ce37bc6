package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
)

// wheel lies over a line of text and hands the wheel on to what the line is scrolled in: the toolkit
// would keep it for the text within the line, and the page would stand still. Clicks pass through it.
type wheel struct {
	widget.BaseWidget
	line *Entry
}

func newWheel(line *Entry) *wheel {
	w := &wheel{line: line}
	w.ExtendBaseWidget(w)
	return w
}

// CreateRenderer draws nothing.
func (w *wheel) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(container.NewWithoutLayout())
}

// Scrolled hands the wheel on.
func (w *wheel) Scrolled(e *fyne.ScrollEvent) {
	if s := scrollOf(w.line); s != nil {
		s.Scrolled(e)
	}
}

// scrollOf is the innermost scroll round an object, in the form on top or in the window; nil where there
// is none.
func scrollOf(o fyne.CanvasObject) *container.Scroll {
	c := CanvasOf(o)
	if c == nil {
		return nil
	}
	root := c.Overlays().Top()
	if root == nil {
		root = c.Content()
	}
	s, _ := scrollAround(root, o, nil)
	return s
}

// scrollAround finds an object below another and the innermost scroll round it, nil where there is none
// beneath outer; false where the object is not there.
func scrollAround(o, sought fyne.CanvasObject, outer *container.Scroll) (*container.Scroll, bool) {
	if o == sought {
		return outer, true
	}
	var inside []fyne.CanvasObject
	switch w := o.(type) {
	case *fyne.Container:
		inside = w.Objects
	case *container.Scroll:
		outer, inside = w, []fyne.CanvasObject{w.Content}
	case *container.Clip:
		inside = []fyne.CanvasObject{w.Content}
	case *container.Split:
		inside = []fyne.CanvasObject{w.Leading, w.Trailing}
	case *widget.PopUp:
		inside = []fyne.CanvasObject{w.Content}
	}
	for _, in := range inside {
		if s, ok := scrollAround(in, sought, outer); ok {
			return s, true
		}
	}
	return nil, false
}
