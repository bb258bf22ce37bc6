package planner_test

import (
	"slices"
	"testing"

	"tallycloth/planner"
	"tallycloth/planner/adjust"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/shape"
)

// lies are the boxes of what is reserved for a garment in one use.
func lies(t *testing.T, s *planner.Studio, id stash.ID, usedFor string) []shape.Box {
	t.Helper()
	live, err := s.Reservations(ctx, id)
	if err != nil {
		t.Fatal(err)
	}
	var out []shape.Box
	for _, r := range live {
		for _, p := range r.Pieces {
			if r.UsedFor == usedFor {
				out = append(out, p.Outline.Bounds())
			}
		}
	}
	return out
}

// Strips that lie right behind the pattern pieces do not drive them away: taken in, each lies within the place
// it had, and the strips stay.
func TestAdjustedInItsPlace(t *testing.T) {
	s := studio(t)
	c := bought(t, s, 250*cm)
	tank(t, s)
	g := reservedOn(t, s, c.Cloth.ID, "First")
	jobs, err := s.GarmentEdgeJobs(ctx, g.ID)
	if err != nil {
		t.Fatal(err)
	}
	strips, err := s.Strips(ctx, planner.BindingAsk{Jobs: jobs, FabricID: c.Fabric.ID, ClothIDs: []stash.ID{c.Cloth.ID}})
	if err != nil {
		t.Fatal(err)
	}
	if _, err := s.ReserveStrips(ctx, g.ID, strips); err != nil {
		t.Fatal(err)
	}
	main, bound := lies(t, s, g.ID, pattern.Main), lies(t, s, g.ID, pattern.Binding)
	out := adjusts(t, s, g.ID, underarm)
	if len(out.Resized.Again) != 1 {
		t.Fatalf("%+v", out.Resized)
	}
	for i, b := range lies(t, s, g.ID, pattern.Main) {
		if was := main[i]; b.Min.X < was.Min.X || b.Min.Y < was.Min.Y || b.Max.X > was.Max.X || b.Max.Y > was.Max.Y {
			t.Errorf("what lay in %v lies in %v", was, b)
		}
	}
	if now := lies(t, s, g.ID, pattern.Binding); !slices.Equal(now, bound) {
		t.Errorf("the strips lay in %v and lie in %v", bound, now)
	}
}

// Made longer where something lies right behind its foot, it grows the other way if there is room.
func TestAdjustedTheOtherWay(t *testing.T) {
	s := studio(t)
	c := bought(t, s, 250*cm)
	tank(t, s)
	first, second := reservedOn(t, s, c.Cloth.ID, "First"), reservedOn(t, s, c.Cloth.ID, "Second")
	reservedOn(t, s, c.Cloth.ID, "Third")
	before := lies(t, s, second.ID, pattern.Main)
	if _, err := s.Release(ctx, first.ID); err != nil {
		t.Fatal(err)
	}
	longer := adjust.Step{Kind: adjust.Hem, Amount: 4 * cm}
	if out := adjusts(t, s, second.ID, longer); len(out.Resized.Again) != 1 {
		t.Fatalf("%+v", out.Resized)
	}
	for i, b := range lies(t, s, second.ID, pattern.Main) {
		if was := before[i]; b.Max.X != was.Max.X || b.Min.X >= was.Min.X {
			t.Errorf("what lay from %d to %d lies from %d to %d", was.Min.X, was.Max.X, b.Min.X, b.Max.X)
		}
	}
}
