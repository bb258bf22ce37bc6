package verb_test

import (
	"testing"

	"tallycloth/cmd/tallycloth/verb"
)

type chartLine struct {
	Pattern string
	Sizes   []struct {
		Size, Front string
		Body, Sewn  chartLevels
	}
}

type chartLevels []struct {
	Level string
	MM    float64
}

func (all chartLevels) at(level string) float64 {
	for _, x := range all {
		if x.Level == level {
			return x.MM
		}
	}
	return 0
}

// Sizes are blended by level and their chart is shown; a chart is taken from a published table
// (EN 13402-3 has 84, 68 and 92 cm for its size S 84) and changed.
func TestBlendAndChartVerbs(t *testing.T) {
	d := newDesk(t).withPatterns()
	var c chartLine
	d.answer(&c, "chart", tank)
	before := len(c.Sizes)
	hip := c.Sizes[4].Body.at("hip")
	var b struct {
		Pattern, Size string
		Kept          []string `json:"not_blended"`
		Whole         []string `json:"not_followed"`
	}
	d.answer(&b, "blend", tank, "--at", "bust=3", "--at", "hip=5", "--at", "upper arm=4")
	if b.Size != "3 to 5" || len(b.Kept) != 0 || len(b.Whole) != 1 || b.Whole[0] != "upper arm" {
		t.Fatalf("%+v", b)
	}
	d.answer(&c, "chart", tank)
	if z := c.Sizes[3]; len(c.Sizes) != before+1 || z.Size != "3 to 5" || z.Body.at("hip") != hip || z.Body.at("bust") != c.Sizes[2].Body.at("bust") {
		t.Errorf("%+v", z)
	}
	d.done("undo")
	d.done("quick", "skirt", "--name", "Millrace skirt", "--at", "waist=72", "--at", "hip=98", "--at", "length=60")
	d.answer(&c, "chart", "Millrace skirt", "--table", "EN 13402", "--first", "S 84")
	if z := c.Sizes[0]; z.Body.at("bust") != 840 || z.Body.at("waist") != 680 || z.Body.at("hip") != 920 || z.Sewn.at("waist") != 720 {
		t.Errorf("%+v", z)
	}
	d.answer(&c, "chart", "Millrace skirt", "--size", c.Sizes[0].Size, "--at", "waist=70")
	if z := c.Sizes[0]; z.Body.at("waist") != 700 || z.Body.at("hip") != 920 {
		t.Errorf("%+v", z)
	}
	for _, r := range []struct {
		words []string
		args  []string
	}{
		{[]string{"nothing to blend"}, []string{"blend", tank, "--at", "bust=3", "--at", "hip=3"}},
		{[]string{"no size"}, []string{"blend", tank, "--at", "bust=3", "--at", "hip=99"}},
		{[]string{"waist", "cannot be"}, []string{"chart", "Millrace skirt", "--size", c.Sizes[0].Size, "--at", "waist=7"}},
		{[]string{"table"}, []string{"chart", tank, "--table", "tailors of the moon"}},
		{[]string{"table", "sizes"}, []string{"chart", tank, "--table", "EN 13402", "--first", "3XL 128"}},
	} {
		d.refused(verb.Mistyped, r.words, r.args...)
	}
}
