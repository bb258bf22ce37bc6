package planner_test

import (
	"testing"

	"tallycloth/planner"
	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// TestUncut: a length has both selvedges, was bought as wide as its fabric, or is of a tube; what was put
// in as a leftover is one, also when it is as wide as its fabric.
func TestUncut(t *testing.T) {
	const wide = 150 * measure.Centimetre
	some := stash.ID{1}
	for name, c := range map[string]struct {
		cloth  stash.Cloth
		tube   bool
		length bool
	}{
		"with both selvedges":        {stash.Cloth{Width: wide, SelvedgeLow: true, SelvedgeHigh: true}, false, true},
		"bought, selvedges cut off":  {stash.Cloth{Width: wide, PurchaseID: some}, false, true},
		"of a tube":                  {stash.Cloth{Width: 2 * wide}, true, true},
		"put in as a leftover":       {stash.Cloth{Width: wide, SelvedgeLow: true}, false, false},
		"bought as a narrower piece": {stash.Cloth{Width: wide / 2, PurchaseID: some}, false, false},
		"left over from a length":    {stash.Cloth{Width: wide, SelvedgeLow: true, SelvedgeHigh: true, CutFrom: some}, false, false},
	} {
		c.cloth.Length = measure.Metre
		if got := planner.Uncut(stash.ClothState{Cloth: c.cloth, Fabric: stash.Fabric{FullWidth: wide, Tubular: c.tube}}); got != c.length {
			t.Errorf("%s: %v", name, got)
		}
	}
}
