package verb_test

import (
	"encoding/json"
	"strings"
	"testing"
)

type resized struct {
	Code       string
	Length     float64  `json:"length_mm"`
	Width      float64  `json:"width_mm"`
	Lengthwise *float64 `json:"lengthwise_percent"`
	Crosswise  *float64 `json:"crosswise_percent"`
	Holds      []string `json:"holds"`
	LaidAgain  []string `json:"laid_again"`
	Released   []string `json:"released"`
}

// TestWash: 2 m become 1.9 m; the garment on it holds; a second washing is refused. Then it
// is measured again, so short that the garment finds no room.
func TestWash(t *testing.T) {
	d := newDesk(t).withPatterns()
	code := d.log(jersey, "2 m", "--kind", "jersey", "--width", "150 cm", "--stretch-across", "60%", "--stretch-along", "30%")
	d.done("reserve", code, "--pattern", tank, "--size", "4", "--garment", "Tank for June")
	var r resized
	d.answer(&r, "wash", code, "1.9 m", "147 cm")
	if r.Code != code || r.Length != 1900 || r.Width != 1470 || r.Lengthwise == nil || *r.Lengthwise != -5 || *r.Crosswise != -2 || len(r.Holds)+len(r.LaidAgain) != 1 {
		t.Fatalf("%+v", r)
	}
	if again := d.run("wash", code, "1.8 m", "147 cm"); again.code == 0 {
		t.Error("washed twice")
	}
	var m resized
	if r := d.run("measure", code, "20 cm", "147 cm"); r.code == 0 || !strings.Contains(r.err, "1.90 m long and would be 20 cm, 89 % less") {
		t.Errorf("a slip was believed: %+v", r)
	}
	d.answer(&m, "measure", code, "20 cm", "147 cm", "--sure", "--note", "the rest was a towel")
	if m.Lengthwise != nil || len(m.Released) != 1 || m.Released[0] != "Tank for June" {
		t.Errorf("%+v", m)
	}
	if g := d.onlyGarment(); g.State != "wanted" {
		t.Errorf("%+v", g)
	}
	if r := d.run("measure", code, "much", "147 cm", "--json"); r.code == 0 || !json.Valid([]byte(r.err)) && r.err == "" {
		t.Errorf("a length of much: %+v", r)
	}
}
