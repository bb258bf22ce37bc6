//go:build e2e

package e2e

import (
	"fmt"
	"slices"
	"strings"
)

// hands are how a person works the window: by mouse or by keyboard. Text is typed
// either way.
type hands interface {
	place(s *studio, name string)        // go to a place of the rail
	press(s *studio, button string)      // press a button or change a check
	put(s *studio, line, text string)    // fill a line
	choose(s *studio, name, word string) // choose a word
	row(s *studio, list string, row int) // choose a row of a list
	undo(s *studio)                      // take the last act back
	redo(s *studio)                      // and do it again
}

// places are the places of the rail, in their order.
var places = []string{"stash", "patterns", "garments", "batch", "binding", "history"}

// mouse works by pointing and clicking.
type mouse struct{}

func (mouse) place(s *studio, name string) { s.t.Helper(); s.click("rail." + name) }

func (mouse) press(s *studio, button string) { s.t.Helper(); s.click(button) }

func (mouse) put(s *studio, line, text string) {
	s.t.Helper()
	s.click(line)
	s.await(line, "has the focus", func(w widget) bool { return w.Focused })
	s.retype(line, text)
}

func (mouse) row(s *studio, list string, row int) {
	s.t.Helper()
	w := s.await(list, fmt.Sprintf("has row %d", row), func(w widget) bool { return visible(w) && len(w.Rows) > row })
	s.screen.click(s.t, s.left+w.X+w.Width/3, s.top+w.Y+row*rowHeight+rowHeight/2)
	s.await(list, fmt.Sprintf("has row %d chosen", row), func(w widget) bool { return w.Chosen == row })
}

func (mouse) undo(s *studio) { s.t.Helper(); s.click("undo") }
func (mouse) redo(s *studio) { s.t.Helper(); s.click("redo") }

func (mouse) choose(s *studio, name, word string) {
	s.t.Helper()
	i, w := s.word(name, word)
	if w.Text == word {
		return
	}
	s.click(name)
	s.screen.click(s.t, s.left+w.X+w.Width/3, s.top+w.Y+w.Height+i*menuHeight+menuHeight/2)
	s.await(name, "says "+word, func(w widget) bool { return w.Text == word })
}

// Distances at the usual text size, in pixels: of two rows of a list, and of two words
// of an open choice.
const (
	rowHeight  = 50
	menuHeight = 29
)

// keyboard works by keys alone.
type keyboard struct{}

func (keyboard) place(s *studio, name string) {
	s.t.Helper()
	s.screen.key(s.t, fmt.Sprintf("ctrl+%d", slices.Index(places, name)+1))
}

func (keyboard) press(s *studio, button string) {
	s.t.Helper()
	s.tabTo(button)
	s.screen.key(s.t, "space")
}

func (keyboard) put(s *studio, line, text string) {
	s.t.Helper()
	s.tabTo(line)
	s.retype(line, text)
}

func (keyboard) row(s *studio, list string, row int) {
	s.t.Helper()
	s.tabTo(list)
	s.await(list, fmt.Sprintf("has row %d", row), func(w widget) bool { return len(w.Rows) > row })
	s.screen.key(s.t, "Home")
	for range row {
		s.screen.key(s.t, "Down")
	}
	s.await(list, fmt.Sprintf("has row %d chosen", row), func(w widget) bool { return w.Chosen == row })
}

func (keyboard) undo(s *studio) { s.t.Helper(); s.screen.key(s.t, "ctrl+z") }
func (keyboard) redo(s *studio) { s.t.Helper(); s.screen.key(s.t, "ctrl+shift+z") }

func (keyboard) choose(s *studio, name, word string) {
	s.t.Helper()
	_, w := s.word(name, word)
	s.tabTo(name)
	for range w.Rows {
		before := s.see(name).Text
		if before == word {
			return
		}
		s.screen.key(s.t, "Right")
		s.await(name, "moves on", func(w widget) bool { return w.Text != before })
	}
	s.t.Errorf("%s has no word %q", name, word)
}

// word waits until a choice offers a word and says which of its words that is.
func (s *studio) word(name, word string) (int, widget) {
	s.t.Helper()
	w := s.await(name, "offers "+word, func(w widget) bool { return visible(w) && slices.Contains(w.Rows, word) })
	return slices.Index(w.Rows, word), w
}

// retype replaces what stands in the line that has the focus.
func (s *studio) retype(line, text string) {
	s.t.Helper()
	s.screen.key(s.t, "ctrl+a")
	s.screen.typeText(s.t, text)
	s.await(line, fmt.Sprintf("holds %q", text), func(w widget) bool { return w.Text == text })
}

// tabTo presses Tab until a widget has the focus.
func (s *studio) tabTo(name string) {
	s.t.Helper()
	s.await(name, "can be reached", visible)
	const most = 60
	var been []string
	for range most {
		if s.see(name).Focused {
			return
		}
		at := s.focused()
		been = append(been, at)
		s.screen.key(s.t, "Tab")
		if at != "?" {
			s.await(at, "lets go of the focus", func(w widget) bool { return !w.Focused })
		}
	}
	s.t.Fatalf("%d times Tab did not reach %s; the focus went through %s", most, name, strings.Join(been, ", "))
}

// focused names the widget that has the focus, if it has a name.
func (s *studio) focused() string {
	var all []widget
	s.ask("", &all)
	for _, w := range all {
		if w.Focused {
			return w.Name
		}
	}
	return "?"
}
