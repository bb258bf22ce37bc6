package answer

import (
	"slices"

	"tallycloth/planner"
	"tallycloth/planner/match"
	"tallycloth/stash"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// InHand is the drawing of a layout in hand: pins in what is kept in place, the bit
// shaded where one lies over another, striped what breaks a rule of its own.
func InHand(v say.Voice, c stash.ClothState, l match.Layout, faults []match.Fault, kept func(i int) bool) widgets.ClothPicture {
	pic := Picture(v, c, &l)
	for i := range l.Pieces {
		pic.Pieces[i].Kept = kept(i)
	}
	for _, f := range faults {
		if f.Piece < 0 {
			continue
		}
		if len(f.Over) > 2 && f.Kind != match.TooNear {
			if f.Other < f.Piece { // of two that lie over each other one is enough
				pic.Over = append(pic.Over, widgets.Overlap{A: l.Pieces[f.Piece].Outline, B: f.Over, Note: v.Fine(f.By) + " over"})
			}
			continue
		}
		pic.Pieces[f.Piece].Wrong = true
	}
	return pic
}

// FaultLines says what does not hold, one sentence for each pattern piece; of copies that
// break the same rule alike it is said once.
func FaultLines(v say.Voice, faults []match.Fault) []string {
	var out []string
	for _, f := range match.Gravest(faults) {
		if line := say.Sentence(planner.FaultWords(f, v.Fine)); !slices.Contains(out, line) {
			out = append(out, line)
		}
	}
	return out
}
