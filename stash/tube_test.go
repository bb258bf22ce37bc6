package stash_test

import (
	"testing"

	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// A tube is said by twice its flat width; slit it is twice as wide, with no selvedge to lose.
func TestParseFullWidth(t *testing.T) {
	for text, want := range map[string]stash.Fabric{
		"150":         {FullWidth: 150 * cm},
		"60 in":       {FullWidth: 60 * measure.Inch},
		"2 × 50 cm":   {FullWidth: 50 * cm, Tubular: true},
		"2x50":        {FullWidth: 50 * cm, Tubular: true},
		"2 x 18 in":   {FullWidth: 18 * measure.Inch, Tubular: true},
		"two x 50,5":  {FullWidth: 505 * mm, Tubular: true},
		"twice 50 cm": {FullWidth: 50 * cm, Tubular: true},
		"250":         {FullWidth: 250 * cm},
	} {
		w, tube, err := stash.ParseFullWidth(text, measure.Centimetre)
		if err != nil || w != want.FullWidth || tube != want.Tubular {
			t.Errorf("%q: %d, %v, %v", text, w, tube, err)
		}
	}
	for _, text := range []string{"", "2 ×", "3 x 50 cm", "2 x -5", "wide"} {
		if w, _, err := stash.ParseFullWidth(text, measure.Centimetre); err == nil {
			t.Errorf("%q was read as %d", text, w)
		}
	}
	tube := stash.Fabric{FullWidth: 50 * cm, Tubular: true, SelvedgeLoss: cm}
	flat := stash.Fabric{FullWidth: 150 * cm, SelvedgeLoss: cm}
	if tube.OpenWidth() != 100*cm || tube.UsableWidth() != 100*cm || flat.UsableWidth() != 148*cm {
		t.Errorf("usable: %d, %d", tube.UsableWidth(), flat.UsableWidth())
	}
}
