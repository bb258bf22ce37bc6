package ui

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"

	"tallycloth/ui/page"
	"tallycloth/ui/widgets"
)

// usualSize is what the window has when nobody has changed it.
var usualSize = fyne.NewSize(1280, 720)

// lastSize is the size that a window had last, as large as a screen may be and no smaller than its
// places need.
func (s *Shell) lastSize() fyne.Size {
	var w, h float32
	if _, err := fmt.Sscanf(s.memory.Get("size"), "%g×%g", &w, &h); err != nil {
		return usualSize
	}
	return fyne.NewSize(min(max(w, 640), 5120), min(max(h, 480), 2880))
}

// kept is the name of something remembered of this library.
func (s *Shell) kept(name string) string { return s.deps.Folder + "|" + name }

// recall brings the place and the filters back as they were left.
func (s *Shell) recall() {
	for name, line := range s.filters() {
		if text := s.memory.Get(s.kept(name)); text != "" {
			line.SetText(text)
		}
	}
	for i, p := range s.places {
		if p.name == s.memory.Get(s.kept("place")) {
			s.open(i)
		}
	}
}

// remember keeps them when the window closes.
func (s *Shell) remember() {
	s.host.KeepTyped()
	if size := s.window.Canvas().Size(); size.Width > 0 {
		s.memory.Set("size", fmt.Sprintf("%g×%g", size.Width, size.Height))
	}
	at := s.current
	if s.Place() == page.Help {
		at = s.before
	}
	s.memory.Set(s.kept("place"), s.places[at].name)
	for name, line := range s.filters() {
		s.memory.Set(s.kept(name), line.Text)
	}
	for name, at := range s.host.Dividers() {
		s.memory.Set(s.kept(name), at)
	}
}

// filters are the lines above the lists of places, by name.
func (s *Shell) filters() map[string]*widgets.Entry {
	out := map[string]*widgets.Entry{}
	for _, name := range s.host.Names.All() {
		if line, ok := s.host.Names.Get(name).(*widgets.Entry); ok && strings.HasSuffix(name, ".filter") {
			out[name] = line
		}
	}
	return out
}
