package ui

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"tallycloth/ui/page"
	"tallycloth/ui/widgets"
)

// With work away from the window's thread, as in the program: the test is the window's
// thread and does what is handed to it. Meant for the race detector, and for answers
// that come when something else is in sight already.
func TestWorkAwayFromTheWindow(t *testing.T) {
	b, until := away(t)
	s := b.shell
	list := func(name string) *widgets.RowList {
		l, _ := s.Names().Get(name).(*widgets.RowList)
		return l
	}
	until(func() bool { return len(list("stash.list").Rows()) > 0 })
	for _, r := range list("stash.list").Rows()[:6] { // faster than details can be read
		list("stash.list").Choose(r.Key)
	}
	test.Tap(s.Names().Get("undo").(fyne.Tappable))
	until(func() bool { return s.Quiet() != "" })

	s.Go(page.Route{Place: page.Patterns})
	until(func() bool { return len(list("patterns.list").Rows()) > 0 })
	list("patterns.list").Choose(list("patterns.list").Rows()[0].Key)
	test.Tap(s.Names().Get("pattern.find").(fyne.Tappable))
	until(func() bool { return list("find.list") != nil && len(list("find.list").Rows()) == 16 })
	view := s.Names().Get("find.layout").(*widgets.LayoutView)
	until(func() bool { return len(view.Picture().Pieces) > 0 })
	for range 20 {
		view.Scrolled(&fyne.ScrollEvent{Scrolled: fyne.NewDelta(0, 25), PointEvent: fyne.PointEvent{Position: fyne.NewPos(100, 100)}})
		view.Dragged(&fyne.DragEvent{Dragged: fyne.NewDelta(3, -2)})
	}
	list("find.list").TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	s.Go(page.Route{Place: page.Stash})
	until(func() bool { return s.Place() == page.Stash })
}
