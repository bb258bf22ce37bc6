package answer

import (
	"slices"
	"strings"
	"testing"

	"tallycloth/planner/match"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
	"tallycloth/ui/say"
)

// Of two pieces over each other the bit is shaded once, other faults stripe their piece, and
// each piece has one sentence.
func TestInHandMarksWhatDoesNotHold(t *testing.T) {
	c := stash.ClothState{Cloth: stash.Cloth{Length: 2_000_000, Width: 1_600_000}}
	l := match.Layout{}
	for i, name := range []string{"Front", "Back", "Sleeve", "Cuff"} {
		l.Pieces = append(l.Pieces, match.PlacedPiece{Name: name, Outline: box(int64(i)*90_000, 0, 100_000, 100_000)})
	}
	faults := []match.Fault{
		{Kind: match.Missing, Piece: -1, Other: -1, Name: "Pocket", Asked: 2, Has: 1},
		{Kind: match.OverPiece, Piece: 0, Other: 1, Name: "Front", With: "Back", Over: l.Pieces[1].Outline, By: 10 * measure.Millimetre},
		{Kind: match.OverPiece, Piece: 1, Other: 0, Name: "Back", With: "Front", Over: l.Pieces[0].Outline, By: 10 * measure.Millimetre},
		{Kind: match.OffGrain, Piece: 2, Other: -1, Name: "Sleeve"},
		{Kind: match.TooNear, Piece: 2, Other: 3, Name: "Sleeve", With: "Cuff", Over: shape.Ring{{}, {X: 1}, {Y: 1}}, By: 3 * measure.Millimetre},
	}
	pic := InHand(say.Voice{}, c, l, faults, func(i int) bool { return i == 3 })
	if len(pic.Over) != 1 || pic.Over[0].Note != "10 mm over" {
		t.Errorf("%+v", pic.Over)
	}
	for i, p := range pic.Pieces {
		if p.Wrong != (i == 2) || p.Kept != (i == 3) {
			t.Errorf("%s: wrong %v, kept %v", p.Name, p.Wrong, p.Kept)
		}
	}
	lines := FaultLines(say.Voice{}, faults)
	want := []string{"Pocket: only 1 of 2 laid.", "Front lies 10 mm over Back.", "Back lies 10 mm over Front.", "Sleeve is off its grain line."}
	if !slices.Equal(lines, want) {
		t.Error(strings.Join(lines, " / "))
	}
}
