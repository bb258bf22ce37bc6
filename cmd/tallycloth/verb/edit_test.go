package verb_test

import (
	"fmt"
	"testing"

	"tallycloth/cmd/tallycloth/verb"
)

type editedLine struct {
	Pattern, Piece string
	Sizes          []struct {
		Size    string
		Length  float64 `json:"length_mm"`
		Width   float64 `json:"width_mm"`
		Notches int
	}
}

// TestEditVerb: the outlines of a piece are edited in one size or all at the places that correspond;
// what cannot be leaves everything as it was, and undo takes an edit back.
func TestEditVerb(t *testing.T) {
	d := newDesk(t).withPatterns()
	var was, now editedLine
	d.answer(&was, "edit", tank, "A", "--name", "Front half")
	if was.Piece != "A Front half" || len(was.Sizes) != 8 {
		t.Fatalf("%+v", was)
	}
	d.answer(&now, "edit", tank, "Front half", "--size", "4", "--move", "90 down 0 out: 2 down", "--move", "90 down 90 out: 2 down", "--notch", fmt.Sprintf("%.1f down 10 out", was.Sizes[3].Length/10+2))
	for i, z := range now.Sizes {
		if d := z.Length - was.Sizes[i].Length; d < 19 || d > 21 {
			t.Errorf("size %s is %.1f mm longer", z.Size, d)
		}
		if z.Notches != was.Sizes[i].Notches+1 {
			t.Errorf("size %s has %d notches, had %d", z.Size, z.Notches, was.Sizes[i].Notches)
		}
	}
	was, now = now, editedLine{}
	d.answer(&now, "edit", tank, "A", "--size", "4", "--only", "--allowance", "1 cm")
	for i, z := range now.Sizes {
		if d := z.Width - was.Sizes[i].Width; z.Size == "4" && (d < 9.9 || d > 10.1) || z.Size != "4" && d != 0 {
			t.Errorf("size %s is %.1f mm wider", z.Size, d)
		}
	}
	d.done("undo")
	d.answer(&now, "edit", tank, "A", "--count", "2")
	if now.Sizes[3] != was.Sizes[3] {
		t.Errorf("undone, it is %+v", now.Sizes[3])
	}
	d.refused(verb.Mistyped, []string{"how far"}, "edit", tank, "A", "--move", "5 down")
	d.refused(verb.Mistyped, []string{"no place"}, "edit", tank, "A", "--notch", "over there")
	d.refused(verb.Mistyped, []string{"fold"}, "edit", tank, "A", "--turn-grain", "5")
	d.refused(verb.Mistyped, []string{"left, right or none"}, "edit", tank, "A", "--fold", "middle")
}
