package draft_test

import (
	"testing"

	"pgregory.net/rapid"

	"tallycloth/planner/draft"
	"tallycloth/planner/pattern"
	"tallycloth/stash/measure"
)

// A top may end anywhere from 12 cm below its underarm on, above the hip or the waist too: an outline comes of it that does
// not cross itself, whose hem lies where it was typed.
func TestTopsOfAnyLength(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		bust := measure.Length(rapid.IntRange(70, 130).Draw(t, "bust"))
		hip := bust + measure.Length(rapid.IntRange(-4, 14).Draw(t, "hip over bust"))
		// The armhole by its rule and a side seam of 12 cm: less, and 14 cm more of hip have no room to come in.
		least := bust/8 + 10 + 13
		long := measure.Length(rapid.IntRange(int(least), 80).Draw(t, "length"))
		f := draft.Form{Name: "Top", Kind: draft.QuickTank, Seam: 7 * measure.Millimetre, Hem: 2 * cm,
			Sizes: []draft.Row{{Name: "M", Finished: map[string]measure.Length{pattern.Bust: bust * cm, pattern.Hip: hip * cm, pattern.BodyLen: long * cm}}}}
		p, err := draft.Quick(f)
		if err != nil {
			t.Fatalf("bust %d, hip %d, length %d: %v", bust, hip, long, err)
		}
		piece, _ := p.Piece("A")
		o := piece.Outlines["M"]
		if err := o.Cut.Validate(); err != nil {
			t.Errorf("length %d: %v", long, err)
		}
		for _, e := range o.Edges {
			if e.Name != "hem" {
				continue
			}
			if got := measure.Length(e.Points[0].X); got < long*cm-cm || got > long*cm+cm {
				t.Errorf("the hem lies %v µm down, asked for %d cm", got, long)
			}
			return
		}
		t.Error("it has no hem")
	})
}
