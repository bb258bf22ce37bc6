package planner_test

import (
	"slices"
	"testing"

	"tallycloth/planner"
	"tallycloth/stash"
)

// What one undo wrote is one line, as is what it took back; what stands is told line by line.
func TestTold(t *testing.T) {
	undo, act, other := stash.ID{1}, stash.ID{2}, stash.ID{3}
	line := func(of stash.ID, kind stash.MovementKind, back bool, garment string) planner.PastLine {
		return planner.PastLine{Movement: stash.Movement{ActID: of, Kind: kind, Area: 5}, TakenBack: back, Garment: garment, FullWidth: 1}
	}
	got := planner.Told([]planner.PastLine{
		line(undo, stash.Reversed, false, "Reed tank"), line(undo, stash.Reversed, false, ""), line(undo, stash.Reversed, false, "Reed tank"),
		line(act, stash.Washed, true, ""), line(act, stash.Released, true, "Reed tank"),
		line(other, stash.Cut, false, "Fern dress"), line(other, stash.LeftOver, false, ""),
	})
	var sizes []int
	for _, g := range got {
		sizes = append(sizes, len(g.All()))
	}
	if !slices.Equal(sizes, []int{3, 2, 1, 1}) {
		t.Fatalf("told as %v", sizes)
	}
	if names := got[0].Names(planner.PastLine.GarmentName); names != "Reed tank" || got[0].Yards().Area != 15 {
		t.Errorf("%q, %v", names, got[0].Yards())
	}
	if got[2].Together() || !got[0].Together() || !got[1].Together() {
		t.Error("what is told together is wrong")
	}
}
