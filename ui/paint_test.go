package ui

import (
	"context"
	"fmt"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"tallycloth/planner"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/ui/page"
	"tallycloth/ui/sample"
	"tallycloth/ui/task"
)

// shelf is a studio with n lengths of a fifth as many fabrics.
func shelf(b *testing.B, n int) *planner.Studio {
	b.Helper()
	ctx, s := context.Background(), sample.Empty()
	made := stash.Constructions()
	for i := range n {
		form := planner.PurchaseForm{Length: measure.Length(500+i) * measure.Millimetre, Place: fmt.Sprintf("shelf %d", i%9),
			Fabric: stash.Fabric{Name: fmt.Sprintf("Cloth %03d", i), Construction: made[i%len(made)], FullWidth: 150 * measure.Centimetre, Colour: fmt.Sprintf("#%02x8060", i%256)}}
		if _, err := s.LogPurchase(ctx, form); err != nil {
			b.Fatal(err)
		}
	}
	return s
}

// BenchmarkFirstPaint1000 makes the window over a library of 1 000 cloths, in memory,
// and paints it with the toolkit's software painter: from nothing to the picture of the
// shelf. The store's own reading is measured in package db.
func BenchmarkFirstPaint1000(b *testing.B) {
	studio := shelf(b, 1000)
	app := test.NewTempApp(b)
	app.Settings().SetTheme(ThemeOf(planner.DefaultSettings()))
	for b.Loop() {
		w := test.NewWindow(nil)
		w.Resize(fyne.NewSize(1366, 768))
		s := New(w, Deps{Studio: studio, Tasks: task.Inline()})
		w.Canvas().Capture()
		s.Close()
		w.Close()
	}
}

// BenchmarkFilter1000 types a letter into the filter line over 1 000 cloths.
func BenchmarkFilter1000(b *testing.B) {
	app := test.NewTempApp(b)
	app.Settings().SetTheme(ThemeOf(planner.DefaultSettings()))
	w := test.NewTempWindow(b, nil)
	w.Resize(fyne.NewSize(1366, 768))
	s := New(w, Deps{Studio: shelf(b, 1000), Tasks: task.Inline()})
	b.Cleanup(s.Close)
	s.Go(page.Route{Place: page.Stash})
	line := s.Names().Get("stash.filter").(fyne.Focusable)
	for b.Loop() {
		line.TypedRune('o')
		line.TypedKey(&fyne.KeyEvent{Name: fyne.KeyBackspace})
	}
}
