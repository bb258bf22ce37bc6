package binding_test

import (
	"math"
	"strings"
	"testing"

	"tallycloth/planner/binding"
)

// TestNearTheLimit: close to the fabric's limit a ratio holds and is warned of, with the
// width of a finish that is clear of it; that finish then is.
func TestNearTheLimit(t *testing.T) {
	// jersey stretches 60 %: the limit is 1/1.24 = 0.806. r = 1 − 2π·h/40 cm: h 12 mm gives 0.8115.
	j := ring(40*cm, 2*math.Pi, binding.Finish{Technique: binding.FoldedBand, Width: 12 * mm, Seam: cm})
	s, err := binding.Work(j, jersey)
	c := find(s, binding.CheckNear)
	if err != nil || !c.OK || !c.Mind || c.Do != "Make the finish narrower: at most 11 mm." || find(s, binding.CheckLimit).Text != "" {
		t.Fatalf("%+v, %v", s.Checks, err)
	}
	j.Finish.Width = 11 * mm // 0.8272
	if s, _ = binding.Work(j, jersey); find(s, binding.CheckNear).Text != "" {
		t.Errorf("%+v", s.Checks)
	}
}

// TestTooStiff: a ring of 40 cm with a band of h has its fold at 40 − 2πh (plane geometry); a fabric that
// gives 10 % can follow where 40 ≤ 1.1 × (40 − 2πh), h ≤ 5.79 mm.
func TestTooStiff(t *testing.T) {
	stiff := binding.FabricFacts{Stretch: 1250, Recovery: 9000, Knit: true} // 80 % of 12.5 % is 10 %
	f := binding.Finish{Technique: binding.FoldedBand, Width: 6 * mm, Seam: cm}
	s, err := binding.Work(ring(40*cm, 2*math.Pi, f), stiff)
	c := find(s, binding.CheckStiff)
	if err != nil || c.OK || !strings.Contains(c.Do, "at most 5 mm") {
		t.Errorf("%+v, %v", c, err)
	}
	f.Width = 5 * mm
	if s, _ = binding.Work(ring(40*cm, 2*math.Pi, f), stiff); find(s, binding.CheckStiff).Text != "" {
		t.Errorf("%+v", s.Checks)
	}
	// On an outside curve the fold is longer, 40 + 2πh: 10 % of 40 cm gives h ≤ 6.37 mm.
	f.Width = 6 * mm
	if s, _ = binding.Work(ring(40*cm, -2*math.Pi, f), stiff); find(s, binding.CheckStiff).Text != "" {
		t.Errorf("%+v", s.Checks)
	}
	f.Width = 7 * mm
	if s, _ = binding.Work(ring(40*cm, -2*math.Pi, f), stiff); !strings.Contains(find(s, binding.CheckStiff).Do, "at most 6 mm") {
		t.Errorf("%+v", s.Checks)
	}
}

// TestNapAndWidth: what a nap or a print does is told by the grain of the strip, and a strip
// longer than the fabric is wide says from how many lengths.
func TestNapAndWidth(t *testing.T) {
	facts := jersey
	facts.OneWay, facts.Repeat, facts.Across = true, 20*cm, 40*cm
	for grain, want := range map[binding.Grain][2]string{
		binding.Crosswise:  {"runs across the strip", "from 2 lengths"},
		binding.Lengthwise: {"runs along the strip", "from 2 lengths"},
		binding.Bias:       {"slanting over the strip", "continuous bias"},
	} {
		j := tankNeck()
		j.Grain = grain
		s, err := binding.Work(j, facts)
		if err != nil {
			t.Fatal(err)
		}
		nap, wide := find(s, binding.CheckNap), find(s, binding.CheckWide)
		if !nap.Mind || !strings.Contains(nap.Text, want[0]) || nap.Do == "" {
			t.Errorf("%+v", nap)
		}
		if !wide.Mind || !strings.Contains(wide.Do, want[1]) {
			t.Errorf("%+v", wide)
		}
		if grain == binding.Crosswise && !strings.Contains(nap.Text, "5 % of a repeat of 20 cm") {
			t.Errorf("1 cm is a twentieth of 20 cm: %s", nap.Text)
		}
	}
	s, _ := binding.Work(tankNeck(), jersey)
	if find(s, binding.CheckNap).Text != "" || find(s, binding.CheckWide).Text != "" {
		t.Errorf("%+v", s.Checks)
	}
}

// TestCross: a standing band lengthens the edge that crosses it by f at that end, one
// that wraps it with f = s does not (domain rule, common practice).
func TestCross(t *testing.T) {
	neck, arm := tankNeck(), tankArmhole()
	neck.Finish = binding.Finish{Technique: binding.FoldedBand, Width: 15 * mm, Seam: cm}
	jobs := []binding.Job{neck, arm}
	crossed := binding.Cross(jobs)
	if got := crossed[1].Segments[1].CrossEnd; got != 15*mm || arm.Segments[1].CrossEnd != 0 {
		t.Errorf("lengthened by %d", got)
	}
	s, err := binding.Work(crossed[1], jersey)
	if c := find(s, binding.CheckCrosses); err != nil || !strings.Contains(c.Text, "catches the end of neck, which makes it 15 mm longer") {
		t.Errorf("%+v, %v", c, err)
	}
	jobs[0].Finish = tankFinish()
	s, _ = binding.Work(binding.Cross(jobs)[1], jersey)
	if c := find(s, binding.CheckCrosses); !strings.Contains(c.Text, "does not make it longer") {
		t.Errorf("%+v", c)
	}
}

// TestOffers: the ways to a ratio stand side by side, each with both stretches and what
// it gives rise to.
func TestOffers(t *testing.T) {
	j := tankNeck()
	j.Segments[1].Ratio = 0.7
	offers := binding.Offers(j, jersey, 0.85, []binding.Past{{Words: "neck, 3 May", Ratio: 0.9}})
	want := []struct {
		by    binding.Basis
		ratio float64
	}{{binding.ByHand, 0}, {binding.ByCurve, 0}, {binding.ByLimit, 1 / 1.24}, {binding.ByRule, 0.85}, {binding.ByLast, 0.9}}
	if len(offers) != len(want) {
		t.Fatalf("%d offers", len(offers))
	}
	for i, w := range want {
		o := offers[i]
		if o.Basis != w.by || w.ratio > 0 && math.Abs(o.Ratio-w.ratio) > 1e-9 {
			t.Errorf("%s of %f, want %s of %f", o.Basis, o.Ratio, w.by, w.ratio)
		}
		k := j
		k.By, k.Rule, k.Segments = o.Basis, o.Rule, o.Strip.Job.Segments
		if s, err := binding.Work(k, jersey); err != nil || s.Length != o.Strip.Length {
			t.Errorf("%s: taken up it gives %d, offered was %d, %v", o.Basis, s.Length, o.Strip.Length, err)
		}
	}
	if c := offers[0].Says; c.Kind != binding.CheckLimit || c.Do == "" {
		t.Errorf("70 %% is under the limit: %+v", c)
	}
	if offers[4].Strip.Parts[0].Basis != binding.ByLast {
		t.Errorf("%+v", offers[4].Strip.Parts[0])
	}
	j.Segments = []binding.Segment{{Length: 30 * cm, Free: true}}
	if binding.Offers(j, jersey, 0.85, nil) != nil {
		t.Error("a tie has no ratio")
	}
}
