package planner_test

import (
	"errors"
	"testing"

	"tallycloth/planner"
	"tallycloth/planner/match"
	"tallycloth/stash"
	"tallycloth/stash/shape"
)

// TestCuttingSheet: a sheet knows each reserved outline as its pattern piece, with its marks where the
// layout laid them, and what lies beside it.
func TestCuttingSheet(t *testing.T) {
	s := studio(t)
	c := bought(t, s, 250*cm)
	tank(t, s)
	g, other := reservedOn(t, s, c.Cloth.ID, "First"), reservedOn(t, s, c.Cloth.ID, "Second")
	sheet, err := s.CuttingSheet(ctx, g.ID)
	if err != nil || len(sheet.Cloths) != 1 || len(sheet.Garments) != 1 {
		t.Fatalf("%+v, %v", sheet, err)
	}
	on := sheet.Cloths[0]
	kept, _ := s.Reservations(ctx, g.ID)
	if len(on.Pieces) == 0 || len(on.Pieces) != len(kept[0].Pieces) || len(on.Others) != len(on.Pieces) || on.Others[0].Garment != other.Name {
		t.Fatalf("%d pieces of %d, others %+v", len(on.Pieces), len(kept[0].Pieces), on.Others)
	}
	var cut []shape.Ring
	for i, p := range on.Pieces {
		if !p.Known || p.Number != i+1 || p.GrainFoot == p.GrainTop {
			t.Errorf("%d: %s is not known: %+v", i, p.Name, p)
		}
		whole, err := match.AsCut(sheet.Garments[0].Pattern, p.Piece, p.Size)
		if err != nil {
			t.Fatal(err)
		}
		for k, q := range whole {
			at := p.Lie.At(q)
			if p.Outline.Locate(at) == shape.Outside && shape.Distance(shape.Ring{at, at.Add(shape.Point{X: 1}), at.Add(shape.Point{Y: 1})}, p.Outline) > 60 {
				t.Errorf("point %d of %s comes to lie off its outline", k, p.Name)
			}
		}
		cut = append(cut, p.Outline)
	}
	if b := cut[0].Bounds(); on.UsedLength <= 0 || on.UsedLength > 250*cm || int64(on.UsedWidth) < b.Width() {
		t.Errorf("%d × %d used", on.UsedLength, on.UsedWidth)
	}
	for _, l := range on.Left {
		for _, r := range cut {
			if shape.OverlapsPolygon(r, l.Outline) {
				t.Error("what is left lies over what is cut")
			}
		}
	}
	if on.Trued != 0 && on.Trued != int64(2*cm) {
		t.Errorf("measured from %d", on.Trued)
	}
	whole, err := s.ClothSheet(ctx, c.Cloth.ID)
	if err != nil || len(whole.Garments) != 2 || len(whole.Cloths[0].Pieces) != 2*len(on.Pieces) || len(whole.Cloths[0].Others) != 0 {
		t.Fatalf("%d garments, %v", len(whole.Garments), err)
	}
	if _, err := s.Release(ctx, g.ID); err != nil {
		t.Fatal(err)
	}
	for name, f := range map[string]func() (planner.CuttingSheet, error){
		"a garment without cloth": func() (planner.CuttingSheet, error) { return s.CuttingSheet(ctx, g.ID) },
		"a cloth without garment": func() (planner.CuttingSheet, error) { return s.ClothSheet(ctx, bought(t, s, 30*cm).Cloth.ID) },
	} {
		var told *stash.Error
		if _, err := f(); !errors.As(err, &told) || told.Do == "" {
			t.Errorf("%s: %v", name, err)
		}
	}
}
