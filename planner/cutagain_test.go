package planner_test

import (
	"errors"
	"testing"

	"tallycloth/planner"
	"tallycloth/planner/garment"
	"tallycloth/stash"
	"tallycloth/stash/shape"
)

// TestCutAgain spoils a front: another lies on what is left, the same way round, clear of all else;
// the sheet draws both, and marking the garment cut takes both from the cloth.
func TestCutAgain(t *testing.T) {
	s := studio(t)
	c := bought(t, s, 250*cm)
	tank(t, s)
	g, other := reservedOn(t, s, c.Cloth.ID, "First"), reservedOn(t, s, c.Cloth.ID, "Second")
	was, _ := s.Reservations(ctx, g.ID)
	made, err := s.CutAgain(ctx, was[0].ID, 0)
	if err != nil || made.Elsewhere || made.Cloth.Cloth.ID != c.Cloth.ID {
		t.Fatalf("%+v, %v", made, err)
	}
	now, _ := s.Reservations(ctx, g.ID)
	if len(now) != 1 || len(now[0].Pieces) != len(was[0].Pieces)+1 || !now[0].Pieces[0].Spoiled {
		t.Fatalf("%+v", now)
	}
	again := now[0].Pieces[len(now[0].Pieces)-1]
	if again.Name != was[0].Pieces[0].Name || again.Outline.Area() != was[0].Pieces[0].Outline.Area() || again.GrainTo != was[0].Pieces[0].GrainTo {
		t.Errorf("%s of %d, pointing %v", again.Name, again.Outline.Area(), again.GrainTo)
	}
	for _, r := range made.Cloth.Reservations {
		for _, p := range r.Pieces {
			if p.Outline[0] != again.Outline[0] && shape.Overlaps(p.Outline, again.Outline) {
				t.Errorf("it lies over %s", p.Name)
			}
		}
	}
	sheet, err := s.CuttingSheet(ctx, g.ID)
	if err != nil {
		t.Fatal(err)
	}
	spoiled := 0
	for _, p := range sheet.Cloths[0].Pieces {
		if p.Spoiled {
			spoiled++
		}
		if !p.Known {
			t.Errorf("%s is not known", p.Name)
		}
	}
	if spoiled != 1 {
		t.Errorf("%d are spoiled", spoiled)
	}
	var told *stash.Error
	if _, err := s.CutAgain(ctx, now[0].ID, 0); !errors.As(err, &told) {
		t.Errorf("a spoiled piece was spoiled again: %v", err)
	}
	if _, err := s.CutAgain(ctx, was[0].ID, 0); !errors.As(err, &told) {
		t.Errorf("a released piece was spoiled: %v", err)
	}
	plan, err := s.CutPlan(ctx, g.ID)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := s.MarkCut(ctx, g.ID, planner.AllLeft(plan)); err != nil {
		t.Fatal(err)
	}
	if end, err := s.Garment(ctx, g.ID); err != nil || end.State != garment.Cut {
		t.Errorf("%s, %v", end.State, err)
	}
	if left, _ := s.Reservations(ctx, other.ID); len(left) != 1 {
		t.Errorf("the other garment has %d reservations", len(left))
	}
}

// TestCutAgainElsewhere: where its own cloth has no room it is cut from other cloth of the fabric, and
// refused where there is none.
func TestCutAgainElsewhere(t *testing.T) {
	s := studio(t)
	c := bought(t, s, 250*cm)
	tank(t, s)
	g := reservedOn(t, s, c.Cloth.ID, "First")
	sheet, err := s.CuttingSheet(ctx, g.ID)
	if err != nil {
		t.Fatal(err)
	}
	short := sheet.Cloths[0].UsedLength + 3*cm
	if _, err := s.MeasureAgain(ctx, planner.Sizing{ClothID: c.Cloth.ID, Length: short, Width: c.Cloth.Width, Sure: true}); err != nil {
		t.Fatal(err)
	}
	r, _ := s.Reservations(ctx, g.ID)
	for len(r) == 1 { // until nothing is left of it
		next, err := s.CutAgain(ctx, r[0].ID, len(r[0].Pieces)-1)
		var told *stash.Error
		if errors.As(err, &told) && told.Do != "" {
			break
		}
		if err != nil || next.Elsewhere {
			t.Fatalf("%+v, %v", next, err)
		}
		r, _ = s.Reservations(ctx, g.ID)
	}
	if len(r) != 1 {
		t.Fatalf("%d reservations", len(r))
	}
	if _, err := s.LogPurchase(ctx, planner.PurchaseForm{FabricID: c.Fabric.ID, Length: 150 * cm, Washed: !c.Cloth.Washed}); err != nil {
		t.Fatal(err)
	}
	if _, err := s.CutAgain(ctx, r[0].ID, len(r[0].Pieces)-1); !errors.Is(err, stash.ErrConflict) { // it would shrink unlike the rest
		t.Fatalf("cut from cloth that is not washed alike: %v", err)
	}
	more, err := s.LogPurchase(ctx, planner.PurchaseForm{FabricID: c.Fabric.ID, Length: 150 * cm, Washed: c.Cloth.Washed})
	if err != nil {
		t.Fatal(err)
	}
	made, err := s.CutAgain(ctx, r[0].ID, len(r[0].Pieces)-1)
	if err != nil || !made.Elsewhere || made.Cloth.Cloth.ID != more.Cloth.ID {
		t.Fatalf("%+v, %v", made.Cloth.Cloth, err)
	}
	if r, _ = s.Reservations(ctx, g.ID); len(r) != 2 || len(r[1].Pieces) != 1 {
		t.Errorf("%+v", r)
	}
}
