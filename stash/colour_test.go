package stash_test

import (
	"math"
	"testing"

	"github.com/lucasb-eyer/go-colorful"
	"pgregory.net/rapid"

	"tallycloth/stash"
)

// The difference of colours agrees with pairs 1 and 7 of table 1 in Sharma, Wu, Dalal, "The
// CIEDE2000 color-difference formula", 2005 (from memory).
func TestDifferenceAsPublished(t *testing.T) {
	for _, p := range []struct{ l, a1, b1, a2, b2, want float64 }{
		{50, 2.6772, -79.7751, 0, -82.7485, 2.0425},
		{50, 0, 0, -1, 2, 2.3669},
	} {
		a, b := colorful.Lab(p.l/100, p.a1/100, p.b1/100), colorful.Lab(p.l/100, p.a2/100, p.b2/100)
		if got := 100 * a.DistanceCIEDE2000(b); math.Abs(got-p.want) > 0.01 {
			t.Errorf("%v: %.4f", p, got)
		}
	}
}

func TestColourDifference(t *testing.T) {
	if d, ok := stash.ColourDifference("#000000", "#ffffff"); !ok || math.Abs(d-100) > 0.1 {
		t.Errorf("black and white lie %.2f apart", d)
	}
	for _, bad := range []string{"", "red", "#12345"} {
		if _, ok := stash.ColourDifference(bad, "#000000"); ok {
			t.Errorf("%q was taken for a colour", bad)
		}
	}
	hex := rapid.StringMatching(`#[0-9a-f]{6}`)
	rapid.Check(t, func(t *rapid.T) {
		a, b := hex.Draw(t, "a"), hex.Draw(t, "b")
		ab, _ := stash.ColourDifference(a, b)
		ba, _ := stash.ColourDifference(b, a)
		if math.Abs(ab-ba) > 1e-6 || (a == b) != (ab == 0) {
			t.Fatalf("%s to %s is %v, back %v", a, b, ab, ba)
		}
	})
}
