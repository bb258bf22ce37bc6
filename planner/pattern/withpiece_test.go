package pattern_test

import (
	"testing"

	"tallycloth/planner/pattern"
	"tallycloth/stash/shape"
)

// TestWithPiece: a piece comes into an empty pattern, into one that has it in another size, and beside
// others; the pattern it came into is left alone.
func TestWithPiece(t *testing.T) {
	square := shape.Ring{{X: 0, Y: 0}, {X: 90_000, Y: 0}, {X: 90_000, Y: 90_000}, {X: 0, Y: 90_000}}
	made := func(name, size string) pattern.Piece {
		return pattern.Piece{Name: name, Cut: 1, Outlines: map[string]pattern.Outline{size: {Cut: square}}}
	}
	one := pattern.Pattern{Name: "Bib"}.WithPiece(made("Front", "M"), "M")
	if err := one.Validate(); err != nil || one.Pieces[0].Code != "A" || one.Pieces[0].Role != pattern.Main {
		t.Errorf("%+v, %v", one, err)
	}
	two := one.WithPiece(made("Front", "L"), "L")
	if err := two.Validate(); err != nil || len(two.Pieces) != 1 || len(two.Sizes) != 2 || len(one.Pieces[0].Outlines) != 1 {
		t.Errorf("%+v, %v", two, err)
	}
	again := one.WithPiece(made("Front", "M"), "M")
	if err := again.Validate(); err != nil || len(again.Pieces) != 2 || again.Pieces[1].Code != "B" || len(one.Pieces) != 1 {
		t.Errorf("%+v, %v", again, err)
	}
}

// TestTracedFold: a fold edge that is off by 2 mm serves in a piece from a picture, in a drawing not.
func TestTracedFold(t *testing.T) {
	rough := shape.Ring{{X: 0, Y: 0}, {X: 200_000, Y: 2_000}, {X: 400_000, Y: 300}, {X: 400_000, Y: 150_000}, {X: 0, Y: 120_000}}
	q := pattern.Piece{Code: "A", Outlines: map[string]pattern.Outline{"1": {Cut: rough}}}
	if err := q.PutOnFold(pattern.LeftSide); err == nil {
		t.Error("that is no straight edge in a drawing")
	}
	if err := q.PutTracedOnFold(pattern.LeftSide); err != nil || !pattern.HasFoldEdge(q.Outlines["1"].Cut) {
		t.Errorf("%v %v", err, q.Outlines["1"].Cut)
	}
}

func TestLetters(t *testing.T) {
	for k, want := range map[int]string{0: "A", 25: "Z", 26: "AA", 27: "AB", 701: "ZZ", 702: "AAA"} {
		if got := pattern.Letters(k); got != want {
			t.Errorf("%d: %s, want %s", k, got, want)
		}
	}
}
