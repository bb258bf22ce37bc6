package ui

import (
	"context"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"tallycloth/planner/pattern"
	"tallycloth/ui/widgets"
)

// TestOutlinesEdited: by mouse a corner is dragged, a notch set, an allowance added and one change taken
// back; what cannot be is refused with its reason; the save is one act that Undo takes back.
func TestOutlinesEdited(t *testing.T) {
	b := full(t)
	b.press("rail.patterns")
	ps, err := b.studio.Patterns(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	var was pattern.Pattern
	for _, p := range ps {
		if len(p.Pieces) > 1 && len(p.Sizes) > 2 && len(p.Pieces[0].Outlines) == len(p.Sizes) {
			was = p
		}
	}
	b.list("patterns.list").Choose(was.ID)
	b.press("pattern.edit")
	sizes := b.shell.Names().Get("edit.sizes").(*widgets.Choice)
	size := strings.TrimPrefix(sizes.Selected, "only in size ")
	before := was.Pieces[0].Outlines[size]
	board := b.boardOf("edit.board")
	from := board.Trails()[0].Points[0]
	dragOn(board, 2, 0, from) // the cross onto the first corner
	b.press("edit.notch")
	board = b.boardOf("edit.board")
	dragOn(board, 0, 0, widgets.Spot{X: from.X + 6, Y: from.Y + 4})
	b.press("edit.move")
	b.put("edit.allowance", "5 mm")
	b.press("edit.let")
	b.press("edit.undo")
	b.choose("edit.where", "at the cross")
	b.press("edit.let")
	if words := b.text("edit.told"); words != "" {
		t.Errorf("along one edge: %q", words)
	}
	b.press("edit.undo")
	b.choose("edit.where", "all round")
	b.put("edit.allowance", "2 m")
	b.press("edit.take")
	if told := b.text("edit.told"); !strings.Contains(told, "cross itself or vanish") {
		t.Errorf("it tells %q", told)
	}
	b.put("edit.name", "Middle front")
	b.press("edit.piece")
	b.press("edit.save")
	got := b.named(was.Name)[0]
	o := got.Pieces[0].Outlines[size]
	if got.Pieces[0].Name != "Middle front" || len(o.Notches) != len(before.Notches)+1 || o.Cut.Area() == before.Cut.Area() || len(o.Cut) != len(before.Cut) {
		t.Errorf("%q, %d notches, area %d, was %d: told %q", got.Pieces[0].Name, len(o.Notches), o.Cut.Area(), before.Cut.Area(), b.shell.Quiet())
	}
	for z, other := range was.Pieces[0].Outlines {
		if z != size && got.Pieces[0].Outlines[z].Cut.Area() != other.Cut.Area() {
			t.Errorf("size %s was changed too", z)
		}
	}
	b.ctrl(fyne.KeyZ)
	if again := b.named(was.Name)[0]; again.Pieces[0].Name != was.Pieces[0].Name || len(again.Pieces[0].Outlines[size].Notches) != len(before.Notches) {
		t.Errorf("after taking it back: %q", again.Pieces[0].Name)
	}
}

// TestOutlinesEditedInAllSizes: every kind of change is made on the outline of one size and lands in all of
// them, by keyboard alone; the changes that a person did not mean are taken back one by one.
func TestOutlinesEditedInAllSizes(t *testing.T) {
	b := full(t)
	b.press("rail.patterns")
	was := b.named("Fennel tank")[0]
	b.list("patterns.list").Choose(was.ID)
	b.press("pattern.edit")
	if b.choose("edit.sizes", "in all sizes"); len(b.boardOf("edit.board").Trails()) != 3 {
		t.Fatal("there is no outline on the board")
	}
	b.focus("edit.board")
	b.key(fyne.KeyDown, fyne.KeyDown, fyne.KeyDown) // the first corner, which is in hand, down along the fold
	b.key(fyne.KeyReturn)
	for _, name := range []string{"edit.notch", "edit.add"} { // the cross lies in the middle, where nothing is near
		b.tabTo(name)
		b.key(fyne.KeySpace)
	}
	if told := b.text("edit.told"); told != "" && !strings.Contains(told, "cutting line") {
		t.Errorf("it tells %q", told)
	}
	board := b.boardOf("edit.board")
	side := board.Trails()[0].Points
	board.Trails()[2].Points[0] = widgets.Spot{X: side[len(side)/2].X + 2, Y: side[len(side)/2].Y + 9}
	for _, c := range []struct{ name, text string }{{"edit.notch", ""}, {"edit.allowance", "1 cm"}, {"edit.let", ""}, {"edit.let", ""}, {"edit.undo", ""}} {
		b.tabTo(c.name)
		if c.text != "" {
			b.write(c.text)
			continue
		}
		b.key(fyne.KeySpace)
	}
	b.choose("edit.drawn", "whole")
	b.press("edit.piece")
	b.put("edit.degrees", "10")
	b.press("edit.turn")
	b.press("edit.mirror")
	b.put("edit.count", "2")
	b.press("edit.pair")
	b.choose("edit.role", pattern.Binding)
	b.press("edit.piece")
	b.tabTo("edit.save")
	b.key(fyne.KeyReturn)
	got := b.named(was.Name)[0].Pieces[0]
	if got.OnFold || got.Cut != 2 || !got.Pairs || got.Role != pattern.Binding {
		t.Errorf("%+v: told %q", got, b.shell.Quiet())
	}
	for _, z := range was.Sizes {
		o, before := got.Outlines[z.Name], was.Pieces[0].Outlines[z.Name]
		if len(o.Notches) < 2*len(before.Notches)+2 {
			t.Errorf("size %s has %d notches on the whole front, had %d on half of it", z.Name, len(o.Notches), len(before.Notches))
		}
		// 1 cm more on every side but the fold: the half grows by its way round, without the fold, times 1 cm.
		grown := float64(o.Cut.Area())/2 - float64(before.Cut.Area())
		if round := before.Cut.Perimeter() - float64(before.Cut.Bounds().Length()); grown < 0.8*round*10_000 || grown > 1.2*round*10_000 {
			t.Errorf("size %s grew by %.0f cm², want about %.0f", z.Name, grown/1e8, round*10_000/1e8)
		}
	}
}
