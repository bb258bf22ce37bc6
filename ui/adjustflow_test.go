package ui

import (
	"context"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"tallycloth/planner"
	"tallycloth/planner/adjust"
	"tallycloth/planner/garment"
	"tallycloth/planner/pattern"
	"tallycloth/planner/sizing"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
	"tallycloth/ui/page"
	"tallycloth/ui/widgets"
)

// chosenGarment brings a garment into sight by its name.
func (b *bench) chosenGarment(name string) garment.Garment {
	b.t.Helper()
	gs, err := b.studio.Garments(context.Background())
	if err != nil {
		b.t.Fatal(err)
	}
	for _, g := range gs {
		if g.Name == name {
			b.shell.Go(page.Route{Place: page.Garments, ID: g.ID})
			return g
		}
	}
	b.t.Fatalf("there is no garment %q", name)
	return garment.Garment{}
}

// A waist is taken in by keyboard: the form says what follows while she types, the list has it
// then, Ctrl+Z takes it back.
func TestTakeInByKeyboard(t *testing.T) {
	b := full(t)
	g := b.chosenGarment("Tank for the lake")
	b.tabTo("adjust.add")
	b.key(fyne.KeyReturn)
	b.tabTo("form.amount")
	b.write("1.2")
	if said := b.told(); !strings.Contains(said, "Take in 12 mm at the waist, from the underarm to the hip") || !strings.Contains(said, ", now ") {
		t.Fatalf("the form says %q", said)
	}
	b.key(fyne.KeyReturn)
	a, err := b.studio.AdjustedGarment(context.Background(), g.ID)
	if err != nil || len(a.Garment.Adjustments) != 1 {
		t.Fatalf("%+v, %v: %s", a.Garment.Adjustments, err, b.shell.Quiet())
	}
	if by := a.Plain.Sizes[0].Finished[pattern.Waist] - a.Sewn.Sizes[0].Finished[pattern.Waist]; by != 48*measure.Millimetre {
		t.Errorf("the finished waist lost %d µm", by)
	}
	if b.shell.Names().Get("adjust.change.1") == nil {
		t.Error("the list does not show it")
	}
	b.ctrl(fyne.KeyZ)
	if a, _ = b.studio.AdjustedGarment(context.Background(), g.ID); len(a.Garment.Adjustments) != 0 {
		t.Errorf("undone, it has %+v", a.Garment.Adjustments)
	}
}

// By mouse: changed, kept for the person, removed; and offered again at the same garment.
func TestKeepAnAdjustmentByMouse(t *testing.T) {
	b := full(t)
	ctx := context.Background()
	g := b.chosenGarment("Tank for the lake")
	form := planner.FormOf(g)
	form.For = "Ida"
	if _, err := b.studio.ChangeGarment(ctx, g.ID, form); err != nil {
		t.Fatal(err)
	}
	if _, err := b.studio.SavePerson(ctx, sizing.Person{Name: "Ida"}); err != nil {
		t.Fatal(err)
	}
	b.chosenGarment(g.Name)
	b.press("adjust.add")
	b.choose("form.kind", "Let the hem down")
	b.put("form.amount", "4 cm")
	b.press("form.send")
	b.press("adjust.change.1")
	b.put("form.amount", "5 cm")
	b.press("form.send")
	b.press("adjust.keep.1")
	b.press("adjust.remove.1")
	a, err := b.studio.AdjustedGarment(ctx, g.ID)
	if err != nil || len(a.Garment.Adjustments) != 0 || len(a.Offers) != 1 || a.Offers[0].Step.Amount != 5*measure.Centimetre {
		t.Fatalf("%+v, %+v, %v", a.Garment.Adjustments, a.Offers, err)
	}
	b.press("adjust.take.1")
	if a, _ = b.studio.AdjustedGarment(ctx, g.ID); len(a.Garment.Adjustments) != 1 || len(a.Offers) != 0 {
		t.Errorf("taken over: %+v", a.Garment.Adjustments)
	}
	b.press("rail.patterns")
	b.press("patterns.people")
	b.list("people.list").Choose(a.Person.ID)
	b.press("person.forget.1")
	if who, err := b.studio.Person(ctx, a.Person.ID); err != nil || len(who.Adjustments) != 0 {
		t.Errorf("%+v, %v: %s", who, err, b.shell.Quiet())
	}
}

// A line is clicked over the back, from its neck to its hem; the back is parted along it.
func TestPanelsByMouse(t *testing.T) {
	b := full(t)
	g := b.chosenGarment("Tank for the lake")
	b.press("adjust.add")
	b.choose("form.kind", "Part into panels")
	b.choose("form.on", "B Back")
	view := b.shell.Names().Get("form.picture").(fyne.Tappable)
	line := func() []shape.Point {
		pts, _ := adjust.ReadLine(b.shell.Names().Get("form.line").(*widgets.Entry).Text)
		return pts
	}
	for n, y := range []float32{0.4, 0.8} { // from the left until the back is hit, which is drawn first
		for x := float32(0.2); x < 0.6 && len(line()) == n; x += 0.02 {
			size := b.shell.Names().Get("form.picture").Size()
			test.TapAt(view, fyne.NewPos(size.Width*x, size.Height*y))
		}
	}
	if pts := line(); len(pts) != 2 || pts[0].X >= pts[1].X || pts[0].Y > 200 {
		t.Fatalf("the line is %v", pts)
	}
	b.put("form.line", "0 45, 100 45")
	b.press("form.send")
	a, err := b.studio.AdjustedGarment(context.Background(), g.ID)
	if err != nil || len(a.Garment.Adjustments) != 1 {
		t.Fatalf("%+v, %v: %s", a.Garment.Adjustments, err, b.shell.Quiet())
	}
	if _, ok := a.Cut.Piece("B2"); !ok {
		t.Error("the back is not parted")
	}
}
