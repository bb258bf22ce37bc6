package match_test

import (
	"testing"

	"tallycloth/planner/match"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/shape"
)

// Worked by hand: boxes with 3 mm between them. What area allows is ruled out where no two lie
// beside each other and the lengths of three add up to more than there is; and where one leaves
// room for nothing that is wanted. What lies there is never ruled out.
func TestGauges(t *testing.T) {
	box := func(length, width int64) *match.Question {
		p := pattern.Pattern{Name: "Box", Sizes: []pattern.Size{{Name: "1"}}, Roles: []pattern.Role{{Name: pattern.Main}},
			Pieces: []pattern.Piece{{Code: "A", Name: "Box", Role: pattern.Main, Cut: 1, Outlines: map[string]pattern.Outline{
				"1": {Cut: shape.Box{Max: shape.Point{X: length * int64(cm), Y: width * int64(cm)}}.Ring()}}}}}
		return ask(t, match.Ask{Pattern: p, Size: "1", Clearance: 3 * mm})
	}
	cloth := func(length, width int64) stash.ClothState {
		return leftoverOf(jersey(150*cm), shape.Polygon{Outer: shape.Box{Max: shape.Point{X: length * int64(cm), Y: width * int64(cm)}}.Ring()})
	}
	for _, c := range []struct {
		name   string
		cloth  stash.ClothState
		shares []match.Share
		ruled  bool
	}{
		{"three of 46 cm beside each other on 90 cm", cloth(119, 90), []match.Share{{Q: box(40, 46), N: 3}}, true},
		{"with 121 cm of length they lie", cloth(121, 90), []match.Share{{Q: box(40, 46), N: 3}}, false},
		{"two beside each other need the clearance too", cloth(41, 90), []match.Share{{Q: box(40, 45), N: 2}}, true},
		{"with the clearance they lie", cloth(41, 91), []match.Share{{Q: box(40, 45), N: 2}}, false},
		{"beside a wide one there is no room for narrow ones, nor for four behind it", cloth(100, 100), []match.Share{{Q: box(60, 80), N: 1}, {Q: box(40, 26), N: 4}}, true},
		{"three lie behind it", cloth(101, 100), []match.Share{{Q: box(60, 80), N: 1}, {Q: box(40, 26), N: 3}}, false},
		{"five of a third of the width", cloth(80, 90), []match.Share{{Q: box(40, 31), N: 5}}, true},
		{"four of them lie", cloth(81, 90), []match.Share{{Q: box(40, 31), N: 4}}, false},
	} {
		ruled := false
		for _, g := range match.NewGauger().Of(c.cloth, c.shares) {
			sum := int64(0)
			for k, s := range c.shares {
				sum += int64(s.N) * g.Takes[k]
			}
			ruled = ruled || sum > g.Have
		}
		if ruled != c.ruled {
			t.Errorf("%s: ruled out is %v", c.name, ruled)
		}
	}
}
