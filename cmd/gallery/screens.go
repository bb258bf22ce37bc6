package main

import (
	"os"
	"path/filepath"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"tallycloth/stash/shape"
	"tallycloth/ui"
	"tallycloth/ui/page"
	"tallycloth/ui/widgets"
)

// screen is one picture: how the window comes to show it.
type screen struct {
	name  string
	empty bool // with an empty library
	show  func(*stage)
}

// stage is a window that screens are shown in.
type stage struct {
	window fyne.Window
	shell  *ui.Shell
	folder string // for files that screens need
}

// screens lists every screen in the order of the rail.
var screens = []screen{
	{"stash", false, func(s *stage) { s.row("stash.list", 3) }},
	{"stash-leftover", false, func(s *stage) { s.row("stash.list", 6) }},
	{"stash-empty", true, func(*stage) {}},
	{"stash-log", false, func(s *stage) { s.press("stash.log") }},
	{"stash-add", false, func(s *stage) { s.press("stash.add") }},
	{"stash-measure", false, func(s *stage) { s.row("stash.list", 3); s.press("stash.measure") }},
	{"stash-make", false, func(s *stage) { s.row("stash.list", 3); s.press("stash.make") }},
	{"patterns", false, func(s *stage) { s.go_(page.Patterns); s.row("patterns.list", 0) }},
	{"patterns-empty", true, func(s *stage) { s.go_(page.Patterns) }},
	{"patterns-find", false, func(s *stage) { s.go_(page.Patterns); s.row("patterns.list", 0); s.press("pattern.find") }},
	{"patterns-reserve", false, func(s *stage) {
		s.go_(page.Patterns)
		s.row("patterns.list", 0)
		s.press("pattern.find")
		s.press("find.reserve")
	}},
	{"patterns-hand", false, func(s *stage) {
		s.go_(page.Patterns)
		s.row("patterns.list", 0)
		s.press("pattern.find")
		s.row("find.list", 2)
		s.press("find.move")
		s.move(0, shape.Point{X: 120_000, Y: -300_000})
	}},
	{"stash-change", false, func(s *stage) { s.row("stash.list", 3); s.press("stash.change") }},
	{"settings", false, func(s *stage) { s.press("rail.settings") }},
	{"patterns-want", false, func(s *stage) { s.go_(page.Patterns); s.row("patterns.list", 0); s.press("pattern.want") }},
	{"patterns-outlines", false, func(s *stage) { s.go_(page.Patterns); s.press("patterns.bring"); s.drawing() }},
	{"garments", false, func(s *stage) { s.go_(page.Garments); s.row("garments.list", 1) }},
	{"garments-empty", true, func(s *stage) { s.go_(page.Garments) }},
	{"binding", false, func(s *stage) { s.go_(page.Binding) }},
	{"binding-edge", false, func(s *stage) { s.go_(page.Binding); s.edge(1) }},
	{"binding-all", false, func(s *stage) { s.go_(page.Binding); s.edge(0) }},
}

func (s *stage) go_(place string) { s.shell.Go(page.Route{Place: place}) }

// row chooses a row of a list.
func (s *stage) row(name string, i int) {
	if l, ok := s.shell.Names().Get(name).(*widgets.RowList); ok && i < len(l.Rows()) {
		l.Choose(l.Rows()[i].Key)
	}
}

// press taps a button.
func (s *stage) press(name string) {
	o, ok := s.shell.Names().Get(name).(fyne.Tappable)
	if d, can := o.(fyne.Disableable); ok && (!can || !d.Disabled()) {
		test.Tap(o)
	}
}

// move lets a piece of the layout go somewhere else.
func (s *stage) move(i int, by shape.Point) {
	if v, ok := s.shell.Names().Get("find.layout").(*widgets.LayoutView); ok && v.Mover != nil {
		v.Mover.Moved(i, by)
	}
}

// edge chooses the first pattern that has edges, one of them, and cloth to cut from.
func (s *stage) edge(i int) {
	choose := func(name string, i int) {
		if c, ok := s.shell.Names().Get(name).(*widgets.Choice); ok && i < len(c.Options) {
			c.SetSelectedIndex(i)
		}
	}
	choose("binding.pattern", 1)
	choose("binding.edge", i)
	choose("binding.fabric", 2)
}

// drawing reads a drawing of two pattern pieces and a test square.
func (s *stage) drawing() {
	path := filepath.Join(s.folder, "bolero.svg")
	if err := os.WriteFile(path, []byte(bolero), 0o600); err != nil {
		return
	}
	if e, ok := s.shell.Names().Get("outlines.file").(*widgets.Entry); ok {
		e.SetText(path)
		e.OnSubmitted(path)
	}
}

// bolero is a drawing of an invented pattern.
const bolero = `<svg xmlns="http://www.w3.org/2000/svg" width="700mm" height="500mm" viewBox="0 0 700 500">
<rect id="square" x="10" y="380" width="100" height="100"/>
<path d="M20 20 h120 c10 60 60 90 120 90 v230 h-240 z"><title>Front</title></path>
<path d="M320 20 h160 c-20 40 20 100 90 100 v220 h-250 z"><title>Back</title></path>
<path d="M600 100 l40 60"/>
</svg>`
