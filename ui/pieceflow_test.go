package ui

import (
	"math"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/storage"

	"tallycloth/ui/widgets"
)

// TestPatternPieceFromPhoto: the picture of a pattern piece beside a sheet of paper is dropped on the
// window, its corners marked, the outline found; it becomes a piece of a new pattern and, in another
// size, of the same.
func TestPatternPieceFromPhoto(t *testing.T) {
	b := full(t)
	path, photo := drawnPhoto(t)
	b.press("rail.patterns")
	for i, size := range []string{"M", "L"} {
		b.press("patterns.trace")
		b.shell.Drop(fyne.NewPos(10, 10), []fyne.URI{storage.NewFileURI(path)})
		board := b.boardOf("piece.board")
		for k, c := range photo.Marked.Corners {
			dragOn(board, 0, k, widgets.Spot{X: c.X, Y: c.Y})
		}
		b.press("piece.find")
		b.press("piece.add")
		if len(b.named("Traced bib")) > i {
			t.Fatal("it was added without a name")
		}
		b.put("piece.name", "Front")
		b.put("piece.pattern", "Traced bib")
		if i > 0 {
			b.choose("piece.into", "Traced bib")
		}
		b.put("piece.sizename", size)
		b.put("piece.count", "2")
		b.press("piece.add")
		ps := b.named("Traced bib")
		if len(ps) != 1 || len(ps[0].Pieces) != 1 || len(ps[0].Pieces[0].Outlines) != i+1 || ps[0].Pieces[0].Cut != 2 {
			t.Fatalf("%+v, told %q", ps, b.text("piece.told"))
		}
		o := ps[0].Pieces[0].Outlines[size]
		whole := photo.Truth.Area()
		for _, h := range photo.Truth.Holes {
			whole += h.Area()
		}
		if off := float64(o.Cut.Area())/float64(whole) - 1; math.Abs(off) > 0.02 {
			t.Errorf("%s: the outline has %.1f %% more area than the piece", size, 100*off)
		}
		if o.GrainTop.X >= o.GrainFoot.X || len(o.Inner) != len(photo.Truth.Holes) {
			t.Errorf("grain %v to %v, %d lines", o.GrainTop, o.GrainFoot, len(o.Inner))
		}
	}
	if q := b.shell.Quiet(); !strings.Contains(q, "Front") {
		t.Errorf("it says %q", q)
	}
}
