package say_test

import (
	"testing"

	"tallycloth/ui/say"
)

func TestColourName(t *testing.T) {
	for hex, want := range map[string]string{"#ff0000": "red", "#0000ff": "blue", "#00ff00": "light green", "#010101": "black", "#7f7f7f": "grey", "pattern": "", "": ""} {
		if got := say.ColourName(hex); got != want {
			t.Errorf("%s: %q, want %q", hex, got, want)
		}
	}
}
