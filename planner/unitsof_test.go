package planner_test

import (
	"reflect"
	"testing"

	"pgregory.net/rapid"

	"tallycloth/planner"
	"tallycloth/stash/measure"
)

// In inches the usual lengths of settings are those of a ruler in inches and a shop that sells by the eighth
// of a yard (common practice), and what was typed stays.
func TestUsualLengthsFollowTheUnits(t *testing.T) {
	set := planner.DefaultSettings()
	set.EndLoss = 33 * measure.Millimetre
	got := set.In(measure.Imperial)
	write := measure.Style{System: measure.Imperial, Kind: measure.StripLength}
	for name, c := range map[string]struct {
		got  measure.Length
		want string
	}{"shop": {got.ShopIncrement, "4 1/2 in"}, "room": {got.Clearance, "1/8 in"}, "seam": {got.Seam, "1/4 in"}, "hem": {got.Hem, "7/8 in"}, "leftover": {got.KeepSquare, "4 in"}} {
		if write.Format(c.got) != c.want || c.got != write.Up(c.got) {
			t.Errorf("%s is %s, want %s", name, write.Format(c.got), c.want)
		}
	}
	if got.EndLoss != set.EndLoss {
		t.Errorf("what was typed became %v", got.EndLoss)
	}
}

// Going to inches and back changes nothing, whatever was typed in between metric lengths.
func TestUnitsThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		set := planner.DefaultSettings()
		set.Seam = measure.Length(rapid.Int64Range(0, 30).Draw(t, "seam")) * measure.Millimetre
		set.ShopIncrement = measure.Length(rapid.Int64Range(1, 50).Draw(t, "shop")) * measure.Centimetre
		if back := set.In(measure.Imperial).In(measure.Metric); !reflect.DeepEqual(back, set) {
			t.Fatalf("%+v became %+v", set, back)
		}
	})
}
