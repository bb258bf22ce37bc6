package ui

import (
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"

	"tallycloth/ui/page"
	"tallycloth/ui/stashui"
)

// Drop takes files that were dropped on the window to the place that reads them.
func (s *Shell) Drop(_ fyne.Position, files []fyne.URI) {
	for _, f := range files {
		name := ""
		switch ending := strings.ToLower(filepath.Ext(f.Path())); {
		case stashui.IsList(f.Path()), stashui.IsPicture(f.Path()):
			name = page.Stash
		case ending == ".svg" || ending == ".svgz":
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
	s.tell("Drop a list (.xlsx, .csv), a photo (.jpg, .png, .webp) or a drawing of pattern pieces (.svg) here.")
}
