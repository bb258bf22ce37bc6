package sizing_test

import (
	"testing"

	"tallycloth/planner/draft"
	"tallycloth/planner/pattern"
	"tallycloth/planner/sizing"
	"tallycloth/stash/measure"
)

// By hand: a bust of 100 in a garment of 95 cm is stretched 5.263 % when worn; the pattern asks 35 %.
// In a fabric of 20 % the same share is 3.008 %, and the garment would be 97.08 cm: 2.08 cm wider.
// In one of 70 % it is 10.526 %, and it would be 90.48 cm: 4.52 cm narrower. A garment with ease is
// stretched nowhere.
func TestWhatTheFabricDoesToTheEase(t *testing.T) {
	p := draft.Tank(draft.Chart())
	p.Sizes = p.Sizes[2:3]
	for name, c := range map[string]struct {
		finished, want measure.Length
		stretch        measure.Percent
		at             string
	}{
		"firmer":     {95 * cm, 20_800, 20 * measure.OnePercent, pattern.Bust},
		"stretchier": {95 * cm, -45_200, 70 * measure.OnePercent, pattern.Bust},
		"as asked":   {95 * cm, 0, 35 * measure.OnePercent, ""},
		"with ease":  {104 * cm, 0, 20 * measure.OnePercent, ""},
	} {
		p.Sizes[0].Body = body{pattern.Bust: 100 * cm}
		p.Sizes[0].Finished = body{pattern.Bust: c.finished}
		got, err := sizing.Choose(sizing.Ask{Pattern: p, Body: body{pattern.Bust: 100 * cm}, Stretch: c.stretch, Chosen: true})
		if err != nil {
			t.Fatal(err)
		}
		if d := got.Meant - c.want; d < -100 || d > 100 || got.MeantAt != c.at || got.Asked != 35*measure.OnePercent {
			t.Errorf("%s: %d at %q, asked %d", name, got.Meant, got.MeantAt, got.Asked)
		}
	}
}
