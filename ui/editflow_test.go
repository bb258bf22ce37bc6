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
