package planner_test

import (
	"errors"
	"slices"
	"testing"

	"tallycloth/planner"
	"tallycloth/planner/garment"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// reservedOn finds room for a tank of size 3 on a cloth and reserves it.
func reservedOn(t *testing.T, s *planner.Studio, cloth stash.ID, name string) garment.Garment {
	t.Helper()
	all, err := s.Patterns(ctx)
	if err != nil {
		t.Fatal(err)
	}
	p := all[0]
	g, err := s.NewGarment(ctx, p.ID, "3", name, "")
	if err != nil {
		t.Fatal(err)
	}
	f, err := s.CheckCloth(ctx, cloth, planner.Search{PatternID: p.ID, Size: "3"})
	if err != nil {
		t.Fatal(err)
	}
	if _, err := s.Reserve(ctx, g.ID, f, ""); err != nil {
		t.Fatal(err)
	}
	return g
}

// TestCutMovesOthersOn cuts one of two garments that share a length: what is reserved for
// the other lies on the leftover then, at the same place of the fabric, and can be cut.
func TestCutMovesOthersOn(t *testing.T) {
	s := studio(t)
	c := bought(t, s, 250*cm)
	tank(t, s)
	first, second := reservedOn(t, s, c.Cloth.ID, "First"), reservedOn(t, s, c.Cloth.ID, "Second")
	before, _ := s.Reservations(ctx, second.ID)
	plan, err := s.CutPlan(ctx, first.ID)
	if err != nil || len(plan) != 1 || len(plan[0].Others) != 1 || len(plan[0].Cut) != 1 {
		t.Fatalf("%+v, %v", plan, err)
	}
	kept, err := s.MarkCut(ctx, first.ID, planner.AllLeft(plan))
	if err != nil {
		t.Fatal(err)
	}
	after, _ := s.Reservations(ctx, second.ID)
	if len(after) != 1 || after[0].ClothID == c.Cloth.ID || after[0].Area() != before[0].Area() {
		t.Fatalf("%+v", after)
	}
	on, err := s.Cloth(ctx, after[0].ClothID)
	if err != nil || on.Cloth.CutFrom != c.Cloth.ID || on.FreeArea != on.Cloth.Area()-after[0].Area() {
		t.Errorf("%+v, %v", on, err)
	}
	var sum measure.Area
	for _, k := range kept {
		sum += k.Area()
	}
	lines, _ := s.Movements(ctx, c.Cloth.ID)
	if left, _ := stash.Balance(lines, c.Cloth.ID); left != 0 {
		t.Errorf("%d µm² of the cloth that is gone are still there", left)
	}
	if discarded := c.Cloth.Area() - sum - plan[0].Cut[0].Area(); discarded != plan[0].Waste() {
		t.Errorf("%d discarded, %d said", discarded, plan[0].Waste())
	}
	again, err := s.CutPlan(ctx, second.ID)
	if err != nil || len(again) != 1 {
		t.Fatalf("%+v, %v", again, err)
	}
	if _, err := s.MarkCut(ctx, second.ID, nil); err != nil {
		t.Fatal(err)
	}
	expectState(t, s, second.ID, garment.Cut)
	for range 2 {
		if _, err := s.Undo(ctx); err != nil {
			t.Fatal(err)
		}
	}
	if back, err := s.Cloth(ctx, c.Cloth.ID); err != nil || back.Cloth.Gone || len(back.Reservations) != 2 {
		t.Errorf("undo: %+v, %v", back, err)
	}
}

// What another garment has on both sides of what is cut lies on two leftovers then, each with its pieces, and can
// be cut from there.
func TestCutBetweenOthers(t *testing.T) {
	s := studio(t)
	c := bought(t, s, 250*cm)
	tank(t, s)
	first, second := reservedOn(t, s, c.Cloth.ID, "First"), reservedOn(t, s, c.Cloth.ID, "Second")
	plan, err := s.CutPlan(ctx, first.ID)
	if err != nil {
		t.Fatal(err)
	}
	live, _ := s.Reservations(ctx, second.ID)
	if len(live[0].Pieces) < 2 {
		t.Fatalf("%d pieces are reserved", len(live[0].Pieces))
	}
	// Parted between the pieces of the second garment, each part kept by itself.
	one := live[0].Pieces[0].Outline
	var kept []planner.Kept
	for _, l := range plan[0].Left {
		if !shape.Inside(one, l.Outline) {
			kept = append(kept, planner.Kept{Outline: l.Outline})
			continue
		}
		rest := l.Outline
		rest.Holes = append(slices.Clone(rest.Holes), one.Reverse())
		kept = append(kept, planner.Kept{Outline: shape.Polygon{Outer: one}}, planner.Kept{Outline: rest})
	}
	if _, err := s.MarkCut(ctx, first.ID, planner.Keeping{c.Cloth.ID: kept}); err != nil {
		t.Fatal(err)
	}
	after, _ := s.Reservations(ctx, second.ID)
	var sum measure.Area
	pieces := 0
	for _, r := range after {
		sum += r.Area()
		pieces += len(r.Pieces)
	}
	if len(after) != 2 || after[0].ClothID == after[1].ClothID || sum != live[0].Area() || pieces != len(live[0].Pieces) {
		t.Fatalf("%d reservations of %d pieces", len(after), pieces)
	}
	if _, err := s.MarkCut(ctx, second.ID, nil); err != nil {
		t.Fatal(err)
	}
	expectState(t, s, second.ID, garment.Cut)
}

// TestCutRefuses tries what cannot be: each is refused whole, with a reason.
func TestCutRefuses(t *testing.T) {
	s := studio(t)
	c := bought(t, s, 250*cm)
	tank(t, s)
	first := reservedOn(t, s, c.Cloth.ID, "First")
	reservedOn(t, s, c.Cloth.ID, "Second")
	whole := planner.Kept{Outline: c.Cloth.Polygon()}
	end := func(from, to measure.Length) planner.Kept {
		return planner.Kept{Outline: shape.Polygon{Outer: shape.Box{Min: shape.Point{X: int64(from)}, Max: shape.Point{X: int64(to), Y: int64(c.Cloth.Width)}}.Ring()}}
	}
	plan, err := s.CutPlan(ctx, first.ID)
	if err != nil {
		t.Fatal(err)
	}
	good := planner.AllLeft(plan)[c.Cloth.ID]
	tests := []struct {
		name string
		keep []planner.Kept
		kind error
	}{
		{"nothing of what another garment lies on", nil, stash.ErrConflict},
		{"what is cut", []planner.Kept{whole}, stash.ErrInvalid},
		{"more than there is", []planner.Kept{end(200*cm, 300*cm)}, stash.ErrInvalid},
		{"the same twice", append(good[:1:1], good[0]), stash.ErrInvalid},
		{"no outline", []planner.Kept{{}}, stash.ErrInvalid},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if _, err := s.MarkCut(ctx, first.ID, planner.Keeping{c.Cloth.ID: tt.keep}); !errors.Is(err, tt.kind) {
				t.Errorf("%v", err)
			}
			expectState(t, s, first.ID, garment.Reserved)
			if now, err := s.Cloth(ctx, c.Cloth.ID); err != nil || now.Cloth.Gone || len(now.Reservations) != 2 {
				t.Errorf("%+v, %v", now, err)
			}
		})
	}
	if _, err := s.CutPlan(ctx, stash.ID{9}); !errors.Is(err, stash.ErrNotFound) {
		t.Errorf("a garment that is not there: %v", err)
	}
}
