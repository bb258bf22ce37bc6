package ui

import (
	"context"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"tallycloth/planner/garment"
	"tallycloth/stash"
	"tallycloth/ui/page"
	"tallycloth/ui/widgets"
)

// goGarment chooses a garment by its name and returns it as it is in the library.
func (b *bench) goGarment(name string) garment.Garment {
	b.t.Helper()
	b.shell.Go(page.Route{Place: page.Garments})
	l := b.list("garments.list")
	for _, r := range l.Rows() {
		if r.Title == name {
			l.Choose(r.Key)
			g, err := b.studio.Garment(context.Background(), r.Key.(stash.ID))
			if err != nil {
				b.t.Fatal(err)
			}
			return g
		}
	}
	b.t.Fatalf("no garment is called %q", name)
	return garment.Garment{}
}

// The work of a garment that is cut, by keyboard: steps are done up to the stop, which asks for
// its take-in; behind it nothing can be noted before. Undo takes it back.
func TestWorkByKeyboard(t *testing.T) {
	b := full(t)
	b.goGarment("Saturday shorts")
	if b.shell.Names().Get("garment.step.4") != nil {
		t.Error("a step behind the stop can be noted")
	}
	b.tabTo("garment.step.2")
	b.key(fyne.KeyReturn)
	g := b.goGarment("Saturday shorts")
	if g.State != garment.Sewing || len(g.Record.Done) != 1 {
		t.Fatalf("%s, %+v: %s", g.State, g.Record.Done, b.shell.Quiet())
	}
	b.tabTo("garment.step.3")
	b.key(fyne.KeyReturn)
	b.write("1,2")
	b.key(fyne.KeyReturn)
	g = b.goGarment("Saturday shorts")
	if l, ok := g.Noted(garment.AsksTakeIn); !ok || l != 12_000 {
		t.Fatalf("noted %+v: %s", g.Record.Done, b.shell.Quiet())
	}
	if b.shell.Names().Get("garment.step.4") == nil {
		t.Error("the step behind the stop cannot be noted")
	}
	b.ctrl(fyne.KeyZ)
	if g = b.goGarment("Saturday shorts"); len(g.Record.Done) != 1 {
		t.Errorf("after Undo %+v", g.Record.Done)
	}
}

// By mouse: what is said of a garment is changed, a fitting noted with its photo and taken away,
// a seam given a lockstitch, of which the window warns; the garment is copied in another size.
func TestRecordByMouse(t *testing.T) {
	b := full(t)
	g := b.goGarment("Tank for the lake")
	b.press("garment.change")
	b.put("form.purpose", "swimming")
	b.put("form.wanted", "soon")
	b.press("form.send")
	if e := b.shell.Names().Get("form.wanted").(*widgets.Entry); e.Text != "soon" {
		t.Error("the form lost what was typed")
	}
	b.put("form.wanted", "2026-06-01")
	b.press("form.send")
	if g = b.goGarment(g.Name); g.Record.Purpose != "swimming" || g.Wanted != "2026-06-01" {
		t.Fatalf("%+v: %s", g, b.shell.Quiet())
	}
	b.press("garment.fitting")
	b.put("form.text", "gapes at the back")
	b.put("form.file", scrapFile(t))
	b.press("form.send")
	if g = b.goGarment(g.Name); len(g.Record.Fittings) != 1 || len(g.Record.Fittings[0].Photos) != 1 {
		t.Fatalf("%+v: %s", g.Record.Fittings, b.shell.Quiet())
	}
	if _, ok := b.shell.Names().Get("fitting.photo").(*widgets.Thumb); !ok {
		t.Error("its photo is not shown")
	}
	b.press("garment.seam")
	b.choose("form.seam", "side seams")
	b.choose("form.stitch", "lockstitch (301)")
	b.press("form.send")
	r, err := b.studio.GarmentRecord(context.Background(), g.ID)
	if err != nil || strings.Join(r.Breaks, "") != "side seams" {
		t.Fatalf("%v, %v: %s", r.Breaks, err, b.shell.Quiet())
	}
	b.press("garment.seam")
	b.choose("form.seam", "side seams")
	b.shell.Names().Get("form.forget").(*widgets.Check).SetChecked(true)
	b.press("form.send")
	if g = b.goGarment(g.Name); len(g.Record.Seams) != 0 {
		t.Errorf("%+v", g.Record.Seams)
	}
	b.press("fitting.remove.1")
	if g = b.goGarment(g.Name); len(g.Record.Fittings) != 0 {
		t.Errorf("%+v", g.Record.Fittings)
	}
	b.press("garment.again")
	b.choose("form.size", "5")
	b.press("form.send")
	again := b.goGarment(g.Name + ", again")
	if again.Size != "5" || again.Record.CopyOf != g.ID || again.State != garment.Wanted {
		t.Errorf("%+v", again)
	}
}
