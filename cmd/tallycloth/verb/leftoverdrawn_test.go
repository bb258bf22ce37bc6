package verb_test

import (
	"math"
	"testing"

	"tallycloth/cmd/tallycloth/verb"
)

// TestLeftoverByCorners: the area of what is said corner by corner is exact, less its hole.
func TestLeftoverByCorners(t *testing.T) {
	d := newDesk(t)
	d.log("Moss", "2 m", "--width", "150 cm")
	var c struct {
		Odd    bool    `json:"odd_outline"`
		Area   float64 `json:"area_m2"`
		Length float64 `json:"length_mm"`
	}
	d.loose(&c, "leftover", "Moss", "--outline", "5,5 65,5 50,45 5,45", "--hole", "10,10 12,10 12,12 10,12", "--selvedges", "1")
	if !c.Odd || c.Length != 600 || math.Abs(c.Area-0.2096) > 1e-9 { // (60 + 45)/2 × 40 − 4 cm²
		t.Errorf("%+v", c)
	}
	for _, args := range [][]string{{"--outline", "0,0 60,0"}, {"--outline", "0,0 60,60 60,0 0,60"}, {"--outline", "0,0 60 60,60"}, {"--outline", "0,0 NaN,0 1,1"},
		{"--outline", "0,0 60,0 30,40", "--selvedges", "2"}, {"--outline", "0,0 60,0 30,40", "--hole", "100,0 110,0 110,10"}} {
		d.refused(verb.Mistyped, nil, append([]string{"leftover", "Moss"}, args...)...)
	}
}
