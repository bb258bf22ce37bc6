package measure_test

import (
	"slices"
	"testing"

	"tallycloth/stash/measure"
)

func TestWordsKeepQuantitiesWhole(t *testing.T) {
	for text, want := range map[string][]string{
		"seam 8 mm":                     {"seam", "8 mm"},
		"at most 5 mm.":                 {"at", "most", "5 mm."},
		"it is 1 1/4 yd × 60 in, about": {"it", "is", "1 1/4 yd × 60 in,", "about"},
		"2.30 m − 4 cm raw ends":        {"2.30 m", "− 4 cm", "raw", "ends"},
		"  two\n blanks ":               {"two", "blanks"},
		"":                              nil,
	} {
		if got := measure.Words(text); !slices.Equal(got, want) {
			t.Errorf("%q parts into %q, not %q", text, got, want)
		}
	}
}
