package verb_test

import (
	"math"
	"strings"
	"testing"

	"tallycloth/cmd/tallycloth/verb"
)

type adjustedLine struct {
	Garment, State string
	Adjustments    []struct {
		Number   int
		Text     string
		AfterCut bool `json:"after_cut"`
	}
	Finished []struct {
		Name string
		B    float64 `json:"before_mm"`
		A    float64 `json:"after_mm"`
	}
	Offers []struct {
		Number     int
		Text, From string
	}
	Notes []string
}

// finished is by how much a finished measurement changed, in mm.
func (l adjustedLine) finished(name string) float64 {
	for _, f := range l.Finished {
		if f.Name == name {
			return math.Round((f.A-f.B)*1000) / 1000
		}
	}
	return 0
}

// TestAdjustVerbs adjusts a tank before and after its cloth is cut, keeps what was found for the
// person and takes it over for her next.
func TestAdjustVerbs(t *testing.T) {
	d := newDesk(t).withPatterns()
	code := d.log(jersey, "2 m", "--kind", "jersey", "--width", "150 cm", "--stretch-across", "60%", "--stretch-along", "30%")
	d.done("person", "add", "Ida")
	d.done("garment", "want", tank, "--size", "4", "--name", "Tank for June", "--for", "Ida")
	var a adjustedLine
	d.loose(&a, "adjust", "add", "June", "take in 1/2 in at the waist, from the underarm to the hip")
	if len(a.Adjustments) != 1 || a.finished("waist") != -50.8 || a.finished("hip") != 0 {
		t.Fatalf("%+v", a)
	}
	d.loose(&a, "adjust", "change", "June", "1", "take in 1 cm at the waist, from the underarm to the hip")
	d.loose(&a, "adjust", "add", "June", "hem 5 cm longer")
	if len(a.Adjustments) != 2 || a.finished("waist") != -40 || a.finished("length") != 50 {
		t.Fatalf("%+v", a)
	}
	d.done("reserve", code, "--pattern", tank, "--size", "4", "--garment", "Tank for June")
	d.loose(&a, "adjust", "add", "June", "neckline 1 cm deeper on A")
	if a.State != "reserved" || len(a.Notes) == 0 || !strings.Contains(a.Notes[0], "laid out again") {
		t.Errorf("%+v", a)
	}
	d.done("cut", "Tank for June")
	d.refused(verb.Mistyped, []string{"once the cloth is cut"}, "adjust", "add", "June", "let out 3 cm at the hip, from the waist")
	d.loose(&a, "adjust", "add", "June", "take in 6 mm at the underarm, to the waist")
	if !a.Adjustments[3].AfterCut || a.finished("bust") != -24 {
		t.Errorf("%+v", a)
	}
	if out := d.done("adjust", "keep", "June", "4"); !strings.Contains(out, "take in 6 mm at the underarm, to the waist") {
		t.Error(out)
	}
	var people []personLine
	d.answer(&people, "person", "list")
	if k := people[0].Adjustments; len(k) != 1 || k[0].Text != "take in 6 mm at the underarm, to the waist" || k[0].On == "" {
		t.Errorf("kept is %+v", k)
	}
	d.done("garment", "want", tank, "--size", "5", "--name", "Tank for July", "--for", "Ida")
	d.loose(&a, "adjust", "list", "July")
	if len(a.Offers) != 4 || a.Offers[0].From != "kept for Ida" {
		t.Fatalf("%+v", a.Offers)
	}
	d.loose(&a, "adjust", "take", "July", "1")
	if len(a.Adjustments) != 1 || a.Adjustments[0].AfterCut || len(a.Offers) != 3 {
		t.Errorf("%+v", a)
	}
	d.loose(&a, "adjust", "remove", "July", "1")
	if len(a.Adjustments) != 0 {
		t.Errorf("%+v", a)
	}
	if out := d.done("adjust", "forget", "Ida", "1"); !strings.Contains(out, "Nothing is kept") {
		t.Error(out)
	}
	d.refused(verb.Mistyped, []string{"Write it such as"}, "adjust", "add", "July", "make it nicer")
	d.refused(verb.Mistyped, []string{"adjust list"}, "adjust", "remove", "July", "7")
}
