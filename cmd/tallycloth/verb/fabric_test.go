package verb_test

import (
	"encoding/json"
	"strings"
	"testing"

	"tallycloth/cmd/tallycloth/verb"
)

// TestFabricVerb notes care, a weighed swatch, a tube and a stretch test with narrowing.
func TestFabricVerb(t *testing.T) {
	d := newDesk(t)
	d.log("Rosehip rib", "2 m", "--kind", "rib", "--width", "2 x 50 cm")
	var cloths []struct {
		Width float64 `json:"width_mm"`
	}
	d.loose(&cloths, "list", "cloth")
	if len(cloths) != 1 || cloths[0].Width != 1000 {
		t.Errorf("a tube of 50 cm lies as %+v", cloths)
	}
	var f struct {
		Weight  float64 `json:"weight_gsm"`
		Width   float64 `json:"width_mm"`
		Tubular bool
		Care    string
		Across  float64 `json:"stretch_across_percent"`
		Narrow  float64 `json:"narrowing_across_percent"`
		Word    string  `json:"stretch_across_word"`
	}
	d.loose(&f, "fabric", "rosehip", "--care", "no tumble drying, 30 °C", "--weighed", "2.4 g", "--swatch", "10 cm x 10 cm",
		"--pulled", "10 cm, 14 cm, 10.4 cm", "--narrows", "8 cm, 7.2 cm")
	if f.Weight != 240 || !f.Tubular || f.Width != 500 || f.Care != "wash at 30 °C; do not tumble dry" || f.Across != 40 || f.Narrow != 10 || f.Word != "stretchy" {
		t.Errorf("%+v", f)
	}
	d.loose(&f, "fabric", "rosehip", "--weighed", "1.8", "--swatch", "112.838 mm", "--width", "102 cm")
	if f.Weight != 180 || f.Tubular {
		t.Errorf("%+v", f)
	}
	if text := d.done("fabric", "rosehip"); !strings.Contains(text, "40 %, stretchy") {
		t.Errorf("it says\n%s", text)
	}
	for _, args := range [][]string{{"--weighed", "2 g"}, {"--weighed", "much", "--swatch", "10"}, {"--weighed", "2 g", "--swatch", "1 mm x 1 mm"}, {"--weight", "180", "--weighed", "2", "--swatch", "10"},
		{"--pulled", "10, 14"}, {"--narrows", "8, 7"}, {"--width", "2 x"}, {"--pulled", "10, 9, 10"}} {
		d.refused(verb.Mistyped, nil, append([]string{"fabric", "rosehip"}, args...)...)
	}
}

// loose reads the fields of an answer that a test is about; the others are tested elsewhere.
func (d *desk) loose(v any, args ...string) {
	d.t.Helper()
	if err := json.Unmarshal([]byte(d.done(append(args, "--json")...)), v); err != nil {
		d.t.Fatalf("%q: %v", args, err)
	}
}
