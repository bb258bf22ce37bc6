package planner_test

import (
	"strings"
	"testing"

	"tallycloth/planner"
	"tallycloth/planner/binding"
	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// Strips from cloths of two lots, or of which one is washed, are warned of; from alike ones, or where only
// one is cut, they are not.
func TestStripsOfUnlikeCloths(t *testing.T) {
	a, b := stash.Cloth{Code: "K4TR", Lot: "L7", Washed: true}, stash.Cloth{Code: "M2SD"}
	alike := stash.Cloth{Code: "P9WN", Lot: "L7", Washed: true}
	cm := measure.Length(measure.Centimetre)
	for _, c := range []struct {
		name   string
		cloths []stash.Cloth
		taken  []measure.Length
		want   string
	}{
		{"two lots", []stash.Cloth{a, b}, []measure.Length{4 * cm, 4 * cm}, "K4TR (lot L7, washed) and M2SD (lot not noted, not washed)"},
		{"one of them cut", []stash.Cloth{a, b}, []measure.Length{4 * cm, 0}, ""},
		{"alike", []stash.Cloth{a, alike}, []measure.Length{4 * cm, 4 * cm}, ""},
	} {
		answer := planner.BindingAnswer{Plan: binding.CutPlan{Taken: c.taken}}
		for _, one := range c.cloths {
			answer.Cloths = append(answer.Cloths, stash.ClothState{Cloth: one})
		}
		got, ok := answer.Unlike()
		if ok != (c.want != "") || !strings.Contains(got.Text, c.want) {
			t.Errorf("%s: %q, %v", c.name, got.Text, ok)
		}
	}
}
