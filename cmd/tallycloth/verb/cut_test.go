package verb_test

import (
	"math"
	"strings"
	"testing"
)

// cutAnswer is what the verb cut answers.
type cutAnswer struct {
	Garment, State string
	Saved          bool
	Cloth          []struct {
		Code      string
		Before    float64 `json:"before_m2"`
		Cut       float64 `json:"cut_m2"`
		Kept      float64 `json:"kept_m2"`
		Discarded float64 `json:"discarded_m2"`
	}
	Leftovers []struct {
		Code, From string
		Length     float64 `json:"length_mm"`
		Width      float64 `json:"width_mm"`
		Area       float64 `json:"area_m2"`
		Straight   [2]int  `json:"straight_mm"`
		OnlyStrips bool    `json:"only_strips"`
	}
}

// TestCut: a dry run saves nothing; cutting makes cloths of the leftovers, and areas add up.
func TestCut(t *testing.T) {
	d := newDesk(t).withPatterns()
	code := d.log(jersey, "2 m", "--kind", "jersey", "--width", "150 cm", "--stretch-across", "60%", "--stretch-along", "30%")
	d.done("reserve", code, "--pattern", tank, "--size", "4", "--garment", "Tank for June")
	var dry, cut cutAnswer
	d.answer(&dry, "cut", "Tank for June", "--dry")
	if dry.Saved || dry.State != "reserved" || len(dry.Leftovers) == 0 || dry.Leftovers[0].Code != "" {
		t.Fatalf("dry: %+v", dry)
	}
	d.answer(&cut, "cut", "Tank for June")
	if !cut.Saved || cut.State != "cut" || len(cut.Leftovers) != len(dry.Leftovers) || len(cut.Cloth) != 1 || cut.Cloth[0].Code != code {
		t.Fatalf("cut: %+v", cut)
	}
	if c := cut.Cloth[0]; math.Abs(c.Before-3) > 1e-9 || math.Abs(c.Cut+c.Kept+c.Discarded-c.Before) > 1e-9 || c.Cut <= 0 || c.Kept <= 0 || c.Discarded < 0 {
		t.Errorf("%+v", c)
	}
	for _, k := range cut.Leftovers {
		if got := d.free(k.Code); math.Abs(got-k.Area) > 1e-6 {
			t.Errorf("%s: %g m² are free, not %g", k.Code, got, k.Area)
		}
	}
	if r := d.run("wash", strings.ToLower(code), "1.9 m", "147 cm"); r.code == 0 || !strings.Contains(r.err, code+" was cut on") || !strings.Contains(r.err, cut.Leftovers[0].Code) {
		t.Errorf("the old code leads nowhere: %+v", r)
	}
	d.done("undo")
	if g := d.onlyGarment(); g.State != "reserved" || len(g.Cloth) != 1 || g.Cloth[0] != code {
		t.Errorf("after undo: %+v", g)
	}
	if r := d.run("cut", "Tank for June", "--straight", "--discard-rest"); r.code == 0 {
		t.Error("what is discarded was trimmed")
	}
	var none cutAnswer
	d.answer(&none, "cut", "Tank for June", "--discard-rest")
	if len(none.Leftovers) != 0 || none.Cloth[0].Kept != 0 {
		t.Errorf("%+v", none)
	}
	if r := d.run("cut", "Tank for June"); r.code == 0 {
		t.Error("cut twice")
	}
}
