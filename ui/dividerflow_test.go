package ui

import (
	"testing"

	"fyne.io/fyne/v2"

	"tallycloth/ui/page"
	"tallycloth/ui/widgets"
)

// divided is the line between a list and what is told of its rows.
func (b *bench) divided(name string) *widgets.Divider {
	b.t.Helper()
	d, ok := b.shell.Names().Get(name + ".divider").(*widgets.Divider)
	if !ok {
		b.t.Fatalf("%s has no line between its list and its rows", name)
	}
	return d
}

// stands chooses every row of a list and checks that the line beside it stays.
func (b *bench) stands(name string) {
	b.t.Helper()
	d := b.divided(name)
	at := d.Position().X
	for _, r := range b.list(name + ".list").Rows() {
		b.list(name + ".list").Choose(r.Key)
		b.list(name + ".list").Chosen(r)
		if now := d.Position().X; now != at {
			b.t.Errorf("%s: the line moved from %g to %g when %s was chosen", name, at, now, r.Title)
		}
	}
}

// Whatever is chosen, the line between list and detail stays; it can be dragged, stays there, and a double click puts
// it back.
func TestDividerStays(t *testing.T) {
	b := full(t)
	for _, size := range []fyne.Size{{Width: 1100, Height: 700}, {Width: 1366, Height: 768}} {
		b.window.Resize(size)
		for name, place := range map[string]string{"stash": page.Stash, "patterns": page.Patterns, "garments": page.Garments} {
			b.shell.Go(page.Route{Place: place})
			b.stands(name)
		}
	}
	b.shell.Go(page.Route{Place: page.Patterns})
	d := b.divided("patterns")
	usual := d.Position().X
	d.Dragged(&fyne.DragEvent{Dragged: fyne.NewDelta(-60, 0)})
	d.DragEnd()
	if moved := usual - d.Position().X; moved < 59 || moved > 61 || b.shell.host.Dividers()["patterns.divider"] == "" {
		t.Errorf("dragged by 60 it moved by %g", moved)
	}
	b.stands("patterns")
	d.DoubleTapped(nil)
	if d.Position().X != usual || b.shell.host.Dividers()["patterns.divider"] != "" {
		t.Errorf("put back it is at %g, it was at %g", d.Position().X, usual)
	}
}
