package say

import "testing"

// A plain word is read as the colour it is written for, in any case, and other words for it as well.
func TestColourOf(t *testing.T) {
	for _, w := range colourWords {
		hex, ok := ColourOf(" " + w.name)
		if !ok || hex != w.hex || ColourName(hex) != w.name {
			t.Errorf("%s: %s, %t, %s", w.name, hex, ok, ColourName(hex))
		}
	}
	for other, word := range alike {
		hex, _ := ColourOf(other)
		if want, ok := ColourOf(word); !ok || hex != want {
			t.Errorf("%s: %q, want %q", other, hex, want)
		}
	}
	if hex, ok := ColourOf("asdf"); ok {
		t.Errorf("asdf is %s", hex)
	}
}
