package say

import (
	"strings"
	"testing"

	"tallycloth/planner/sizing"
	"tallycloth/stash/measure"
)

// What a firmer or stretchier fabric does is said with the size that it asks, and whether its stretch was measured.
func TestSizeWhyOfAFabric(t *testing.T) {
	v := Voice{Units: measure.Metric}
	c := sizing.Choice{Size: "4", Levels: []sizing.AtLevel{{Level: "bust", Size: "4"}}, Why: []sizing.Why{sizing.FabricFirm}, Limit: 2000, Asked: 3500,
		MeantAt: "hip", Meant: 28 * measure.Millimetre, MeantSize: "5", Assumed: true}
	got := v.SizeWhy(c)[0]
	for _, want := range []string{"20 % (assumed, measure it)", "35 %", "28 mm wider at the hip", "size 5 comes nearest"} {
		if !strings.Contains(got, want) {
			t.Errorf("%q does not say %q", got, want)
		}
	}
	c.Why, c.Limit, c.Meant, c.MeantSize, c.Assumed = []sizing.Why{sizing.FabricMore}, 7000, -4*measure.Millimetre, "4", false
	got = v.SizeWhy(c)[0]
	for _, want := range []string{"70 %, much more", "4 mm narrower at the hip", "no size comes nearer"} {
		if !strings.Contains(got, want) {
			t.Errorf("%q does not say %q", got, want)
		}
	}
}
