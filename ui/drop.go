package ui

import (
	"fyne.io/fyne/v2"

	"tallycloth/planner/exchange/outlines"
	"tallycloth/ui/page"
	"tallycloth/ui/stashui"
)

// Drop takes files that were dropped on the window to the place that reads them.
func (s *Shell) Drop(_ fyne.Position, files []fyne.URI) {
	for _, f := range files {
		name := ""
		switch {
		case page.IsPicture(f.Path()) && s.tracesPiece():
			name = page.Patterns
		case stashui.IsList(f.Path()), page.IsPicture(f.Path()):
			name = page.Stash
		case outlines.Known(f.Path()):
			name = page.Patterns
		}
		for i, p := range s.places {
			if d, ok := p.page.(interface{ Dropped(path string) }); ok && p.name == name {
				s.open(i)
				d.Dropped(f.Path())
				return
			}
		}
	}
	s.tell("Drop a list (.xlsx, .csv), a photo (.jpg, .png, .webp) or a drawing of pattern pieces (.svg, .dxf, .pdf) here.")
}

// tracesPiece says whether the place in sight takes pictures to trace a pattern piece from.
func (s *Shell) tracesPiece() bool {
	if s.current < 0 {
		return false
	}
	t, ok := s.places[s.current].page.(interface{ TakesPicture() bool })
	return ok && t.TakesPicture()
}
