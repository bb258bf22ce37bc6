package bindingui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
)

// sightScroll is a scrolled column that tells when other parts of it come into sight: drawings
// are painted only there, however many strips there are.
type sightScroll struct {
	container.Scroll
	moved func()
}

func newSightScroll(content fyne.CanvasObject, moved func()) *sightScroll {
	s := &sightScroll{moved: moved}
	s.Content, s.Direction = content, container.ScrollVerticalOnly
	s.OnScrolled = func(fyne.Position) { moved() }
	s.ExtendBaseWidget(s)
	return s
}

// Resize shows more of the column, or less.
func (s *sightScroll) Resize(size fyne.Size) {
	s.Scroll.Resize(size)
	s.moved()
}

// sees says whether an object of the column is in sight, at least in part.
func (s *sightScroll) sees(o fyne.CanvasObject) bool {
	top, ok := placeIn(s.Content, o)
	if !ok {
		return false
	}
	top -= s.Offset.Y
	return top < s.Size().Height && top+o.Size().Height > 0
}

// placeIn returns how far below the top of c an object in it lies; false where it is not in it.
func placeIn(c, o fyne.CanvasObject) (float32, bool) {
	if c == o {
		return 0, true
	}
	box, ok := c.(*fyne.Container)
	if !ok {
		return 0, false
	}
	for _, child := range box.Objects {
		if y, ok := placeIn(child, o); ok {
			return child.Position().Y + y, true
		}
	}
	return 0, false
}

// sightLayout is a column; once everything has its place, what is in sight is painted.
type sightLayout struct{ v *answerView }

// Layout places the parts beneath each other.
func (l sightLayout) Layout(o []fyne.CanvasObject, s fyne.Size) {
	layout.NewVBoxLayout().Layout(o, s)
	l.v.paint()
}

// MinSize is that of a column.
func (l sightLayout) MinSize(o []fyne.CanvasObject) fyne.Size {
	return layout.NewVBoxLayout().MinSize(o)
}
