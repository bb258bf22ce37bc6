package say

import (
	"testing"

	"tallycloth/planner/pattern"
	"tallycloth/stash/measure"
)

func TestWhatAPatternAsks(t *testing.T) {
	v := Voice{Units: measure.Metric}
	gsm := measure.GramPerSquareMetre
	for want, r := range map[string]pattern.Role{
		"nothing special": {},
		"a knit":          {Knit: true},
		"a knit, stretches 35 % around, recovers 85 %, 140 to 260 g/m²": {Knit: true, StretchAround: 3500, Recovery: 8500, WeightMin: 140 * gsm, WeightMax: 260 * gsm},
		"stretches 20 % around, 10 % up and down, at most 200 g/m²":     {StretchAround: 2000, StretchAlong: 1000, WeightMax: 200 * gsm},
	} {
		if got := v.Asks(r); got != want {
			t.Errorf("got %q, want %q", got, want)
		}
	}
	if got := AsksShort(pattern.Role{Knit: true, StretchAround: 1500, StretchAlong: 2000}); got != "knit, stretches 20 %" {
		t.Errorf("got %q", got)
	}
}

func TestSignedDifferences(t *testing.T) {
	v := Voice{Units: measure.Metric}
	for want, l := range map[string]measure.Length{"+6 cm": 6 * measure.Centimetre, "−4.5 cm": -45 * measure.Millimetre, "0": 0} {
		if got := v.Signed(l); got != want {
			t.Errorf("got %q, want %q", got, want)
		}
	}
}

// The cautions of the trade stand where they apply and nowhere else (common practice).
func TestCautions(t *testing.T) {
	for kind, want := range map[string]bool{"tank": false, "sleep shirt": true, "children's tee": true, "shorts": false} {
		if got := Caution(pattern.Pattern{Kind: kind}) != ""; got != want {
			t.Errorf("%s: a caution %v, want %v", kind, got, want)
		}
	}
}
