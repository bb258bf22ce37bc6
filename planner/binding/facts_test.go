package binding_test

import (
	"context"
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"tallycloth/planner/binding"
	"tallycloth/stash/measure"
)

const (
	in = measure.Inch
	cm = measure.Centimetre
	mm = measure.Millimetre
)

// facts reads a table of testdata/binding, whose README names the sources; it fails when empty.
func facts(t *testing.T, name string) []map[string]string {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "..", "testdata", "binding", name))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil || len(rows) < 2 {
		t.Fatalf("%s: %d rows, %v", name, len(rows), err)
	}
	var out []map[string]string
	for _, r := range rows[1:] {
		m := map[string]string{}
		for i, h := range rows[0] {
			m[h] = r[i]
		}
		out = append(out, m)
	}
	return out
}

func number(t *testing.T, row map[string]string, col string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(row[col], 64)
	if err != nil {
		t.Fatalf("%s: %v", col, err)
	}
	return v
}

func inches(t *testing.T, row map[string]string, col string) measure.Length {
	t.Helper()
	return measure.Length(math.Round(number(t, row, col) * float64(in)))
}

// TestCutWidths against the table with its sources.
func TestCutWidths(t *testing.T) {
	for _, r := range facts(t, "cut_widths.csv") {
		f := binding.Finish{Technique: binding.Technique(r["technique"]), Width: inches(t, r, "finished_in"), Seam: inches(t, r, "seam_in"),
			Turn: inches(t, r, "turn_in"), Caught: inches(t, r, "caught_in")}
		if got, err := f.CutWidth(); err != nil || got != inches(t, r, "cut_in") {
			t.Errorf("%v: %d, %v", r, got, err)
		}
	}
}

// TestCrosswiseStrips: the number of strips cut across, of which a total is joined. The
// guides join with seams that they leave to the rounding up; so does this check.
func TestCrosswiseStrips(t *testing.T) {
	for _, r := range facts(t, "crosswise_strips.csv") {
		s := strip(inches(t, r, "total_in"), 2*in, 0, 1)
		plan, err := binding.Plan(context.Background(), []binding.Strip{s}, []binding.Source{{Across: inches(t, r, "usable_in"), Along: 100 * in}})
		want := int(number(t, r, "strips"))
		if err != nil || plan.Strips[0] != want || plan.Taken[0] != measure.Length(want)*2*in || len(plan.Joins[0]) != want-1 {
			t.Errorf("%v: %+v, %v", r, plan, err)
		}
	}
}

// TestBiasYield: no printed chart exceeds area ÷ width, and none is under 74 % of it.
func TestBiasYield(t *testing.T) {
	for _, r := range facts(t, "bias_yield.csv") {
		most, _ := binding.BiasYield(inches(t, r, "fabric_width_in"), inches(t, r, "fabric_length_in"), inches(t, r, "strip_width_in"))
		share := number(t, r, "printed_yd") * float64(measure.Yard) / float64(most)
		if share > 1 || share < 0.74 {
			t.Errorf("%v is %.3f of the bound", r, share)
		}
	}
}

func TestContinuousBias(t *testing.T) {
	for _, r := range facts(t, "bias_squares.csv") {
		side, width, length := inches(t, r, "side_in"), inches(t, r, "strip_in"), inches(t, r, "length_in")
		yield := binding.Continuous{Width: side, Length: side, CutWidth: width}.Yield()
		if most, _ := binding.BiasYield(side, side, width); yield > most {
			t.Errorf("%v: %d is more than its area gives", r, yield)
		}
		if r["ask"] == "length" {
			if yield != length {
				t.Errorf("%v: %d", r, yield)
			}
			continue
		}
		// The guides round the side up to a whole inch.
		got, err := binding.SquareFor(length, width, 0)
		if err != nil || got > side+in/2 || got < side-in {
			t.Errorf("%v: %d, %v", r, got, err)
		}
	}
	for seam := range measure.Length(3) {
		side, err := binding.SquareFor(250*in, 2*in, seam*in/4)
		back := binding.Continuous{Width: side, Length: side, CutWidth: 2 * in, Seam: seam * in / 4}.Yield()
		if err != nil || back < 250*in || back > 251*in {
			t.Errorf("there and back: %d, %v", back, err)
		}
	}
}

// TestJoinTake: 1/4 in seams take 1/2 in straight and 0.707 in at 45°; strips of
// straight grain joined corner to corner lose their width (derived).
func TestJoinTake(t *testing.T) {
	j := binding.Job{JoinSeam: in / 4}
	slant, bias := j, j
	slant.JoinAt45 = true
	bias.JoinAt45, bias.Grain = true, binding.Bias
	if a, b, c := j.JoinTake(2*in), slant.JoinTake(2*in), bias.JoinTake(2*in); a != in/2 || b != 2*in || c != 17961 {
		t.Errorf("%d, %d, %d", a, b, c)
	}
	if j.Joins(3) != 2 || j.Joins(0) != 0 {
		t.Error("an open strip of n lengths has n − 1 joins")
	}
	if j.Closed = true; j.Joins(3) != 3 {
		t.Error("a ring of n lengths has n joins")
	}
}

// ring is one closed segment.
func ring(length measure.Length, turning float64, f binding.Finish) binding.Job {
	return binding.Job{Name: "neck", Closed: true, HoldIn: 1, Finish: f, Segments: []binding.Segment{{Name: "round", Length: length, Turning: turning}}}
}

// TestCurveRule against plane geometry: the inner edge of a flat ring of 60 cm at the stitching
// line, 2 cm wide, is 60 − 2π·2 = 47.43 cm (53.72 cm when 1 cm wide).
func TestCurveRule(t *testing.T) {
	for _, c := range []struct{ h, want measure.Length }{{2 * cm, 474_336}, {1 * cm, 537_168}} {
		s, err := binding.Work(ring(60*cm, 2*math.Pi, binding.Finish{Technique: binding.FoldedBand, Width: c.h, Seam: cm}), binding.FabricFacts{})
		if err != nil || s.Length != c.want {
			t.Errorf("h %d: %d, %v; want %d", c.h, s.Length, err, c.want)
		}
	}
}

// TestHalfCircle: a half circle with its cut edge at R = 4 in, wrapped with s = f = 3/8 in, takes a
// strip as long as the cut edge, π·4 in (geometry: the fold lies on the cut edge).
func TestHalfCircle(t *testing.T) {
	cut := measure.Length(math.Round(math.Pi * 4 * float64(in)))
	l := binding.OnStitchingLine(cut, math.Pi, 3*in/8)
	if d := float64(l)/float64(in) - 13.744; math.Abs(d) > 0.0005 {
		t.Errorf("on the stitching line %d", l)
	}
	f := binding.Finish{Technique: binding.WrappedTurned, Width: 3 * in / 8, Seam: 3 * in / 8}
	s, err := binding.Work(ring(l, math.Pi, f), binding.FabricFacts{})
	if err != nil || s.Length-cut > 1 || cut-s.Length > 1 {
		t.Errorf("strip %d, cut edge %d, %v", s.Length, cut, err)
	}
	if r := s.Parts[0].Ratio; math.Abs(r-0.9143) > 0.00005 {
		t.Errorf("ratio %f", r)
	}
}

// TestRibRatios: shared over a whole closed edge a rule of thumb comes to the printed share of it.
func TestRibRatios(t *testing.T) {
	for _, r := range facts(t, "rib_ratios.csv") {
		for _, rule := range []float64{number(t, r, "low"), number(t, r, "high")} {
			j := tankNeck()
			j.Closed, j.Rule = true, rule
			s, err := binding.Work(j, binding.FabricFacts{})
			edge := 0.0
			for _, p := range s.Parts {
				edge += float64(p.Segment.Length)
			}
			if err != nil || math.Abs(float64(s.Length)/edge-rule) > 1e-5 {
				t.Errorf("%v: %d of %.0f, %v", r, s.Length, edge, err)
			}
			if !(s.Parts[1].Ratio < s.Parts[0].Ratio) {
				t.Errorf("%v: most is to be taken in at the front: %+v", r, s.Parts)
			}
		}
	}
	// The printed example: a neckline of 16 in and a rib of about 12 in (home sewing trade association).
	j := ring(16*in, 0, binding.Finish{Technique: binding.FoldedBand, Width: in, Seam: in / 4})
	j.Rule = 0.75
	if s, err := binding.Work(j, binding.FabricFacts{}); err != nil || s.Length != 12*in {
		t.Errorf("rib for 16 in: %d, %v", s.Length, err)
	}
}

// TestBiasStrips: strips cut side by side never exceed area ÷ width and, like the printed charts,
// give 74 % of it or more; none is longer than the diagonal cut of the shorter side.
func TestBiasStrips(t *testing.T) {
	for _, r := range facts(t, "bias_yield.csv") {
		a, b, w := inches(t, r, "fabric_width_in"), inches(t, r, "fabric_length_in"), inches(t, r, "strip_width_in")
		most, _ := binding.BiasYield(a, b, w)
		sum := measure.Length(0)
		for _, s := range binding.BiasStrips(a, b, w) {
			sum += s.Across
			if s.Across > binding.OneBias(min(a, b)) || s.Along != w {
				t.Errorf("%v: %+v", r, s)
			}
		}
		if share := float64(sum) / float64(most); share > 1 || share < 0.74 {
			t.Errorf("%v: %.3f of the bound", r, share)
		}
	}
	if binding.BiasStrips(0, in, in) != nil {
		t.Error("no cloth, no strips")
	}
	// A single strip cut across a depth of 32.53 in is 46 in long (worked example of a sewing manual).
	if d := binding.BiasDepth(46 * in); math.Abs(float64(d)/float64(in)-32.53) > 0.005 || binding.OneBias(d)-46*in > 1 || 46*in-binding.OneBias(d) > 1 {
		t.Errorf("depth for 46 in: %d", d)
	}
}
