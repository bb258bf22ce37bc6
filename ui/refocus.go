package ui

import (
	"fyne.io/fyne/v2"

	"tallycloth/ui/page"
	"tallycloth/ui/widgets"
)

// focusAnew is what is to be seen to once widgets that follow others are drawn.
type focusAnew struct {
	asked  bool
	name   string      // of the widget that had the focus, "" for none
	before page.Holder // that widget
}

// drawnAnew sees to it that the focus goes on to the widget that follows the one that had it. It is looked
// at after what runs now, when the new ones are on screen.
func (s *Shell) drawnAnew(name string, before fyne.CanvasObject) {
	if h, ok := before.(page.Holder); ok && h.HasFocus() {
		s.anew.name, s.anew.before = name, h
	}
	if !s.anew.asked {
		s.anew.asked = true
		s.deps.Tasks.Post(s.refocus)
	}
}

// refocus gives the focus to what follows the widget that had it, or to the place where nothing does: what
// is not on screen any more must not keep it.
func (s *Shell) refocus() {
	lost := s.anew
	s.anew = focusAnew{}
	if lost.before != nil && lost.before.HasFocus() && widgets.FocusOn(s.host.Names.Get(lost.name)) {
		return
	}
	c := s.window.Canvas()
	h, ok := c.Focused().(page.Holder)
	if ok && c.Overlays().Top() == nil && !widgets.OnScreen(h.(fyne.CanvasObject)) {
		s.places[s.current].page.Focus()
	}
}
