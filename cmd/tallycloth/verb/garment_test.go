package verb_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"tallycloth/cmd/tallycloth/verb"
)

type recordLine struct {
	Name, Pattern, Size, Variant, For, Purpose, Wanted, State string

	Copied  string `json:"copy_of"`
	Days    []struct{ State, On string }
	Fabrics []struct {
		Used     string `json:"used_for"`
		Fabric   string
		Area     float64 `json:"area_m2"`
		Reserved bool
	}
	Notions []struct {
		Notion   string
		Quantity float64
	}
	Work []struct {
		Number     int
		Stop, Done bool
		Asks, On   string
		Value      float64 `json:"value_mm"`
	}
	Strap      float64 `json:"strap_mm"`
	ToLength   bool    `json:"strips_to_length"`
	Seams      []seamLine
	Thread     float64  `json:"thread_m"`
	Lockstitch []string `json:"lockstitch_on"`
	Blend      []struct {
		Fibre   string
		Percent float64
	}
	Grams    float64
	Cost     *struct{ Totals []string }
	Fit      *struct{ Size string }
	Fittings []struct {
		Number, Photos int
		Text           string
	}
	Cautions []string
}

type seamLine struct {
	Seam         string
	Stitch, Rows int
	Ratio        float64
	Drawn        bool
	Thread       float64 `json:"thread_m"`
	Mm           float64 `json:"length_mm"`
}

// TestGarmentVerbs goes with a tank from the wish to the last stop, and copies it.
func TestGarmentVerbs(t *testing.T) {
	d := newDesk(t).withPatterns()
	code := d.log(jersey, "2 m", "--kind", "jersey", "--width", "150 cm", "--stretch-across", "60%", "--stretch-along", "30%", "--fibres", "95% cotton 5% elastane", "--weight", "200", "--price", "24")
	d.done("person", "add", "Ida")
	d.done("person", "measure", "Ida", "--at", "bust=92", "--at", "hip=98")
	var r recordLine
	d.loose(&r, "garment", "want", tank, "--size", "4", "--name", "Tank for June", "--for", "Ida")
	if r.State != "wanted" || r.For != "Ida" || r.Fit == nil || r.Cost != nil || len(r.Work) != 9 || len(r.Days) != 1 {
		t.Fatalf("%+v", r)
	}
	d.loose(&r, "garment", "change", "June", "--purpose", "dancing", "--variant", "cropped", "--wanted", "1.6.2026")
	if r.Purpose != "dancing" || r.Variant != "cropped" || r.Wanted != "2026-06-01" || r.Name != "Tank for June" {
		t.Errorf("%+v", r)
	}
	d.done("reserve", code, "--pattern", tank, "--size", "4", "--garment", "Tank for June")
	d.done("cut", "Tank for June")
	d.done("notion", "Thread", "--quantity", "500", "--unit", "m")
	d.done("notion", "Thread", "--used", "60", "--garment", "June")
	for _, n := range []string{"1", "2"} {
		d.done("garment", "step", "June", n)
	}
	d.refused(verb.Failed, []string{"Step 3 is a stop", "Note it first"}, "garment", "step", "June", "4")
	d.loose(&r, "garment", "step", "June", "3", "--value", "1.2 cm", "--note", "both sides")
	if !r.ToLength || r.State != "sewing" || !r.Work[2].Done || r.Work[2].Value != 12 || r.Work[2].Asks != "take-in" {
		t.Errorf("%+v", r.Work[2])
	}
	for _, n := range []string{"4", "5"} {
		d.done("garment", "step", "June", n)
	}
	d.done("garment", "step", "June", "6", "--value", "31 cm")
	d.loose(&r, "garment", "fitting", "June", "--note", "gapes at the back", "--photo", photoFile(t))
	if r.Strap != 310 || len(r.Fittings) != 1 || r.Fittings[0].Photos != 1 {
		t.Errorf("%+v, %v", r.Fittings, r.Strap)
	}
	if len(r.Fabrics) == 0 || r.Fabrics[0].Used != "main" || r.Fabrics[0].Reserved || r.Cost == nil || len(r.Cost.Totals) != 1 || len(r.Notions) != 1 || r.Notions[0].Quantity != 60 {
		t.Errorf("%+v, %+v, %+v", r.Fabrics, r.Cost, r.Notions)
	}
	if len(r.Blend) != 2 || r.Blend[0].Fibre != "cotton" || r.Blend[0].Percent != 95 || math.Abs(r.Grams-200*r.Fabrics[0].Area) > 0.2 {
		t.Errorf("%+v, %v g", r.Blend, r.Grams)
	}
	before := r.Thread
	d.loose(&r, "garment", "seam", "June", "side seams", "--stitch", "301", "--length", "1 m", "--rows", "2")
	at := slices.IndexFunc(r.Seams, func(s seamLine) bool { return s.Seam == "side seams" })
	if s := r.Seams[at]; s.Stitch != 301 || s.Drawn || s.Mm != 1000 || s.Thread != 5.75 || !slices.Equal(r.Lockstitch, []string{"side seams"}) { // 1 m × 2 × 2.5 × 1.15
		t.Errorf("%+v, %v", s, r.Lockstitch)
	}
	if d.loose(&r, "garment", "seam", "June", "side seams", "--as-drawn"); r.Thread != before || len(r.Lockstitch) > 0 {
		t.Errorf("%v, was %v", r.Thread, before)
	}
	if text := d.done("garment", "show", "June"); !strings.Contains(text, "strap length 31") || !strings.Contains(text, "Stop.") || !strings.Contains(text, "by mass of") {
		t.Errorf("it says\n%s", text)
	}
	d.loose(&r, "garment", "mark", "June", "finished")
	if r.State != "finished" {
		t.Errorf("it is %s", r.State)
	}
	d.loose(&r, "garment", "copy", "Tank for June", "--size", "5")
	if r.Name != "Tank for June, again" || r.Size != "5" || r.Copied != "Tank for June" || r.State != "wanted" || len(r.Fittings) > 0 {
		t.Errorf("%+v", r)
	}
	for _, c := range []struct {
		words []string
		args  []string
	}{
		{[]string{"no state"}, []string{"mark", "Tank for June", "mended"}},
		{[]string{"999"}, []string{"seam", "Tank for June", "hems", "--stitch", "999"}},
		{[]string{"garment show"}, []string{"step", "Tank for June", "seven"}},
		{[]string{"not a day"}, []string{"change", "Tank for June", "--wanted", "soon"}},
		{[]string{"no size"}, []string{"copy", "Tank for June", "--size", "99"}},
		{[]string{"no such note"}, []string{"fitting", "Tank for June", "--remove", "9"}},
		{[]string{"want, show"}, nil},
	} {
		d.refused(verb.Mistyped, c.words, append([]string{"garment"}, c.args...)...)
	}
}
