package binding_test

import (
	"context"
	"slices"
	"strings"
	"testing"

	"tallycloth/planner/binding"
	"tallycloth/stash/measure"
)

// tankNeck is a scooped neck of invented measures: back, front, open at the strap points.
func tankNeck() binding.Job {
	return binding.Job{Name: "neck", Finish: tankFinish(), EndExtra: binding.FreeEndExtra, Drawn: binding.DrawnOut, Segments: []binding.Segment{
		{Name: "back neck", Length: 21 * cm, Turning: 1.3, Mark: "left strap point"},
		{Name: "front neck", Length: 34 * cm, Turning: 2.9, Mark: "right strap point", NoJoin: true},
	}}
}

// tankArmhole runs on into the strap.
func tankArmhole() binding.Job {
	return binding.Job{Name: "armhole", Count: 2, Finish: tankFinish(), EndExtra: binding.FreeEndExtra, Drawn: binding.DrawnOut, Segments: []binding.Segment{
		{Name: "back armhole", Length: 20 * cm, Turning: 0.9, Mark: "side seam", JoinHere: true},
		{Name: "front armhole", Length: 22 * cm, Turning: 1.6, Mark: "strap point", Catches: "neck"},
		{Name: "strap", Length: 16 * cm, Free: true, NoJoin: true},
	}}
}

func tankFinish() binding.Finish {
	return binding.Finish{Technique: binding.WrappedTurned, Width: 10 * mm, Seam: 10 * mm, Turn: 2 * mm, SecondRow: 2 * mm}
}

var jersey = binding.FabricFacts{Stretch: 6000, Recovery: 9200, Narrowing: 1200, Knit: true}

// TestTank: the strip is shorter than its edge, most at the front neck and less at back and
// armhole: r front < r back < 1 (`common practice`).
func TestTank(t *testing.T) {
	neck, err := binding.Work(tankNeck(), jersey)
	if err != nil {
		t.Fatal(err)
	}
	arm, err := binding.Work(tankArmhole(), jersey)
	if err != nil {
		t.Fatal(err)
	}
	back, front := neck.Parts[0].Ratio, neck.Parts[1].Ratio
	if !(front < back && back < 1 && front < arm.Parts[0].Ratio && front < arm.Parts[1].Ratio && arm.Parts[0].Ratio < 1) {
		t.Errorf("front %.3f, back %.3f, armhole %.3f and %.3f", front, back, arm.Parts[0].Ratio, arm.Parts[1].Ratio)
	}
	if strap := arm.Parts[2]; strap.Length >= 16*cm || strap.Sewn < 0.029 || strap.Basis != binding.DrawnFor {
		t.Errorf("a strap that draws out is cut shorter: %+v", strap)
	}
	if arm.CutLength != arm.Length+10*mm+binding.FreeEndExtra {
		t.Errorf("one caught end and one free end: %d, %d", arm.CutLength, arm.Length)
	}
	if flat, _ := tankFinish().CutWidth(); neck.CutWidth <= flat {
		t.Errorf("a stretched strip narrows, so it is cut wider than %d: %d", flat, neck.CutWidth)
	}
	for _, c := range append(neck.Checks, arm.Checks...) {
		if !c.OK {
			t.Errorf("%+v", c)
		}
	}
	if m := named(arm, "strap point, end of neck"); m.OnEdge != 42*cm || m.FromEnd != arm.Parts[2].From {
		t.Errorf("matching mark %+v", m)
	}
}

// TestJoinedFromTwo: a strip longer than the cloth is wide is joined from two (`common practice`),
// not on the front, and at the side seam where that was wished for.
func TestJoinedFromTwo(t *testing.T) {
	neck, err := binding.Work(tankNeck(), jersey)
	if err != nil {
		t.Fatal(err)
	}
	plan, err := binding.Plan(context.Background(), []binding.Strip{neck}, []binding.Source{{Across: 45 * cm, Along: 20 * cm}})
	if err != nil || len(plan.Joins[0]) != 1 || plan.Strips[0] != 2 {
		t.Fatalf("%+v, %v", plan, err)
	}
	if at := plan.Joins[0][0]; at > neck.Parts[1].From {
		t.Errorf("joined on the front, at %d", at)
	}
	one := tankArmhole()
	one.Count = 1
	arm, err := binding.Work(one, jersey)
	if err != nil {
		t.Fatal(err)
	}
	plan, err = binding.Plan(context.Background(), []binding.Strip{arm}, []binding.Source{{Across: 55 * cm, Along: 40 * cm}})
	want := arm.Parts[1].From
	if err != nil || len(plan.Joins[0]) != 1 || plan.Joins[0][0] != want {
		t.Errorf("joined at %v, wished at %d, %v", plan.Joins, want, err)
	}
}

// TestOpening: a closed neck passes the head with 2 cm to spare, each of strip, seam and
// edge at its usable stretch; a straight lockstitch fails.
func TestOpening(t *testing.T) {
	j := tankNeck()
	j.Closed, j.Passes, j.PassesName = true, 56*cm, "head"
	s, err := binding.Work(j, jersey)
	if err != nil {
		t.Fatal(err)
	}
	if c := find(s, binding.CheckPasses); !c.OK {
		t.Errorf("%+v", c)
	}
	j.Lockstitch = true
	if s, _ = binding.Work(j, jersey); find(s, binding.CheckPasses).OK || !strings.Contains(find(s, binding.CheckPasses).Do, "zigzag") {
		t.Errorf("%+v", find(s, binding.CheckPasses))
	}
	j.Lockstitch = false
	if s, _ = binding.Work(j, binding.FabricFacts{}); !find(s, binding.CheckPasses).Unknown {
		t.Errorf("without a fabric it cannot be told: %+v", find(s, binding.CheckPasses))
	}
	if s, _ = binding.Work(j, binding.FabricFacts{Stretch: 500, Recovery: 10000}); find(s, binding.CheckPasses).OK {
		t.Errorf("cloth of 5 %% cannot pass: %+v", find(s, binding.CheckPasses))
	}
}

func named(s binding.Strip, name string) binding.Mark {
	for _, m := range s.Marks {
		if m.Name == name {
			return m
		}
	}
	return binding.Mark{}
}

func find(s binding.Strip, kind binding.CheckKind) binding.Check {
	for _, c := range s.Checks {
		if c.Kind == kind {
			return c
		}
	}
	return binding.Check{}
}

// TestSecondRow: 1/8 in from the fold it needs a finish wider than 1/8 in (`common practice`).
func TestSecondRow(t *testing.T) {
	for _, c := range []struct {
		f  measure.Length
		ok bool
	}{{in / 8, false}, {in/8 + 1, true}, {3 * in / 8, true}, {in / 16, false}} {
		s, err := binding.Work(ring(60*cm, 0, binding.Finish{Technique: binding.WrappedTurned, Width: c.f, Seam: in / 4, SecondRow: in / 8}), jersey)
		if err != nil || find(s, binding.CheckSecondRow).OK != c.ok {
			t.Errorf("f %d: %+v, %v", c.f, find(s, binding.CheckSecondRow), err)
		}
	}
}

// TestHem: a 1 in single-turn hem takes 1 in (`common practice`).
func TestHem(t *testing.T) {
	if binding.Hem(in, 0) != in || binding.Hem(in, in/4) != 5*in/4 {
		t.Error("hem")
	}
}

// TestLimits: a curve that asks more than the fabric gives says how narrow a finish would do,
// and such a finish then passes.
func TestLimits(t *testing.T) {
	if r := binding.LeastRatio(4000); r < 0.862 || r > 0.8621 {
		t.Errorf("S 40 %%: %f", r)
	}
	if r := binding.LeastRatio(10000); r < 0.714 || r > 0.7143 {
		t.Errorf("S 100 %%: %f", r)
	}
	j := ring(40*cm, 6.283, binding.Finish{Technique: binding.FoldedBand, Width: 25 * mm, Seam: cm})
	s, err := binding.Work(j, jersey)
	if err != nil {
		t.Fatal(err)
	}
	c := find(s, binding.CheckLimit)
	if c.OK || c.Do != "Make the finish narrower: at most 12 mm." {
		t.Errorf("%+v", c)
	}
	j.Finish.Width = 12 * mm
	if s, err = binding.Work(j, jersey); err != nil || find(s, binding.CheckLimit).Text != "" {
		t.Errorf("%+v, %v", s.Checks, err)
	}
}

// TestSigns: an outside curve and a facing turned in take a strip no longer than the edge in a knit.
func TestSigns(t *testing.T) {
	out := ring(60*cm, -2, binding.Finish{Technique: binding.WrappedTurned, Width: cm, Seam: cm})
	in := ring(60*cm, 2, binding.Finish{Technique: binding.FoldedFacing, Width: cm, Seam: cm})
	for _, j := range []binding.Job{out, in} {
		s, err := binding.Work(j, jersey)
		if err != nil || s.Parts[0].Ratio != 1 || s.Parts[0].Fold <= 0 {
			t.Errorf("%+v, %v", s.Parts, err)
		}
		j.Grain = binding.Bias
		if s, err = binding.Work(j, binding.FabricFacts{Assumed: true, Stretch: 2000}); err != nil || s.Parts[0].Ratio <= 1 {
			t.Errorf("bias of a woven may be eased on: %+v, %v", s.Parts, err)
		}
	}
}

// TestRipples: a strip cut longer than the place of its fold stands away.
func TestRipples(t *testing.T) {
	j := ring(60*cm, 3, binding.Finish{Technique: binding.FoldedBand, Width: 2 * cm, Seam: cm})
	j.Segments[0].Ratio = 1
	s, err := binding.Work(j, jersey)
	if c := find(s, binding.CheckFold); err != nil || c.OK || !strings.Contains(c.Text, "ripples") || c.Do != "Cut this part shorter: at most 90 % of its edge." {
		t.Errorf("%+v, %v", c, err)
	}
	if s.Parts[0].Basis != binding.ByHand || s.Parts[0].Curve >= 1 {
		t.Errorf("typed beside the curve: %+v", s.Parts[0])
	}
}

// TestLengthens: a standing band lengthens the edge that crosses it by f at each end, a wrap with f = s does not.
func TestLengthens(t *testing.T) {
	band := binding.Finish{Technique: binding.FoldedBand, Width: 2 * cm, Seam: cm}
	wrap := binding.Finish{Technique: binding.WrappedTurned, Width: cm, Seam: cm}
	facing := binding.Finish{Technique: binding.FoldedFacing, Width: cm, Seam: cm}
	if band.Lengthens() != 2*cm || wrap.Lengthens() != 0 || facing.Lengthens() != 0 {
		t.Error(band.Lengthens(), wrap.Lengthens(), facing.Lengthens())
	}
	j := ring(60*cm, 0, wrap)
	j.Segments[0].CrossStart, j.Segments[0].CrossEnd = band.Lengthens(), band.Lengthens()
	if s, err := binding.Work(j, jersey); err != nil || s.Length != 64*cm {
		t.Errorf("%d, %v", s.Length, err)
	}
}

// TestNarrowing: a strip sewn stretched to all of its bench stretch is cut w ÷ (1 − N).
func TestNarrowing(t *testing.T) {
	j := ring(60*cm, 0, binding.Finish{Technique: binding.FoldedBand, Width: cm, Seam: cm})
	j.Segments[0].Ratio = 1 / 1.25
	s, err := binding.Work(j, binding.FabricFacts{Stretch: 2500, Narrowing: 2000, Knit: true})
	if err != nil || s.CutWidth != 5*cm {
		t.Errorf("4 cm narrowed by 20 %%: %d, %v", s.CutWidth, err)
	}
	s, err = binding.Work(j, binding.FabricFacts{Stretch: 5000, Narrowing: 2000, Knit: true})
	if err != nil || s.CutWidth != 44444 {
		t.Errorf("half of bench stretch narrows half: %d, %v", s.CutWidth, err)
	}
}

func TestClearElastic(t *testing.T) {
	j := tankArmhole()
	j.ClearElastic, j.Lap = true, cm
	s, err := binding.Work(j, binding.FabricFacts{Stretch: 6000, Recovery: 7000, Knit: true})
	if err != nil || s.ClearElastic != 16*cm || find(s, binding.CheckRecovery).Text != "" {
		t.Errorf("%d %v %+v", s.ClearElastic, err, s.Checks)
	}
	j.ClearElastic = false
	if s, _ = binding.Work(j, binding.FabricFacts{Stretch: 6000, Recovery: 7000, Knit: true}); find(s, binding.CheckRecovery).OK || find(s, binding.CheckRecovery).Do == "" {
		t.Errorf("%+v", s.Checks)
	}
}

// TestElastic: girth × 0.85–0.95 and the lap; the stretched ring passes the hip (`common practice`).
func TestElastic(t *testing.T) {
	e := binding.Elastic{Girth: 80 * cm, Lap: in, Width: in, EaseIn: in / 8, TurnUnder: in / 4, Stretch: 8000, Passes: 104 * cm}
	c, err := e.Work()
	if err != nil || c.Ring != 72*cm || c.Cut != 72*cm+in || c.Casing != in+3*in/8 || !c.Checks[0].OK {
		t.Errorf("%+v, %v", c, err)
	}
	e.Stretch = 4000
	if c, err = e.Work(); err != nil || c.Checks[0].OK {
		t.Errorf("72 cm stretched by 40 %% is 100.8 cm: %+v, %v", c, err)
	}
	e.Stretch = 0
	if c, err = e.Work(); err != nil || !c.Checks[0].Unknown {
		t.Errorf("%+v, %v", c, err)
	}
	for _, bad := range []binding.Elastic{{}, {Girth: cm}, {Girth: cm, Width: cm, Factor: 2}, {Girth: cm, Width: cm, Lap: -1}} {
		if _, err := bad.Work(); err == nil {
			t.Errorf("%+v was accepted", bad)
		}
	}
}

// BenchmarkBindingKeystroke is what one keystroke asks: neck and both armholes of a tank
// worked out and cut from three leftovers and a length.
func BenchmarkBindingKeystroke(b *testing.B) {
	sources := []binding.Source{{Across: 48 * cm, Along: 9 * cm}, {Across: 62 * cm, Along: 14 * cm}, {Across: 90 * cm, Along: 5 * cm}, {Across: 148 * cm, Along: 60 * cm}}
	for b.Loop() {
		neck, err := binding.Work(tankNeck(), jersey)
		if err != nil {
			b.Fatal(err)
		}
		arm, err := binding.Work(tankArmhole(), jersey)
		if err != nil {
			b.Fatal(err)
		}
		if _, err := binding.Plan(context.Background(), binding.Alike([]binding.Strip{neck, arm}), sources); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkPlanBatch cuts the strips of 20 tanks from eight leftovers and two lengths.
func BenchmarkPlanBatch(b *testing.B) {
	var strips []binding.Strip
	for _, j := range []binding.Job{tankNeck(), tankArmhole()} {
		j.Count = 20 * max(1, j.Count)
		s, err := binding.Work(j, jersey)
		if err != nil {
			b.Fatal(err)
		}
		strips = append(strips, s)
	}
	sources := []binding.Source{{Across: 140 * cm, Along: 100 * cm}, {Across: 150 * cm, Along: 100 * cm}}
	for i := range measure.Length(8) {
		sources = append(sources, binding.Source{Across: (50 + 7*i) * cm, Along: 11 * cm})
	}
	proved := 0.0
	strips = binding.Alike(strips)
	for b.Loop() {
		p, err := binding.Plan(context.Background(), strips, sources)
		if err != nil {
			b.Fatal(err)
		}
		if p.Proved {
			proved = 1
		}
	}
	b.ReportMetric(proved, "proved")
}

// TestAlike: neck and armholes are cut to one width, the widest, and may then share a length.
func TestAlike(t *testing.T) {
	neck, err := binding.Work(tankNeck(), jersey)
	if err != nil {
		t.Fatal(err)
	}
	arm, err := binding.Work(tankArmhole(), jersey)
	if err != nil {
		t.Fatal(err)
	}
	if neck.CutWidth <= arm.CutWidth {
		t.Fatalf("the neck is stretched more, so it is cut wider: %d, %d", neck.CutWidth, arm.CutWidth)
	}
	both := binding.Alike([]binding.Strip{neck, arm})
	if both[0].CutWidth != neck.CutWidth || both[1].CutWidth != neck.CutWidth || both[1].CutLength != arm.CutLength {
		t.Errorf("%d and %d", both[0].CutWidth, both[1].CutWidth)
	}
	plan, err := binding.Plan(context.Background(), both, []binding.Source{{Across: 130 * cm, Along: 20 * cm}})
	if err != nil || plan.Strips[0] != 2 {
		t.Errorf("two of three share a length: %+v, %v", plan, err)
	}
}

// Elastic that is bought is not of the garment's fabric: what that gives says nothing of it, so the
// checks say how to try it on a ruler; the garment's own edge is checked all the same.
func TestBoughtIsTriedOnARuler(t *testing.T) {
	j := tankNeck()
	j.Finish.Technique, j.Closed = binding.FoldOver, true
	j.Passes, j.PassesName = 57*cm, "head"
	for i := range j.Segments {
		j.Segments[i].Free = false
	}
	kinds := func(j binding.Job) map[binding.CheckKind]binding.Check {
		s, err := binding.Work(j, jersey)
		if err != nil {
			t.Fatal(err)
		}
		out := map[binding.CheckKind]binding.Check{}
		for _, c := range s.Checks {
			out[c.Kind] = c
		}
		return out
	}
	got := kinds(j)
	if c := got[binding.CheckSewn]; !c.Unknown || !strings.Contains(c.Do, "Pull 10 cm of it along a ruler") {
		t.Errorf("of the sewn edge it says %+v", c)
	}
	for _, k := range []binding.CheckKind{binding.CheckFold, binding.CheckLimit, binding.CheckStiff} {
		if c, ok := got[k]; ok {
			t.Errorf("%s is told of elastic: %s", k, c.Text)
		}
	}
	if c := got[binding.CheckPasses]; !c.Unknown || !strings.Contains(c.Text, "the elastic must stretch") {
		t.Errorf("of the opening it says %+v", c)
	}
	j.Passes = 300 * cm
	if c := kinds(j)[binding.CheckPasses]; c.Unknown || c.OK || !strings.Contains(c.Text, "own edge") {
		t.Errorf("of an edge that is too short it says %+v", c)
	}
}

// The mark at an open strip's end is its end: the two are one row of the table.
func TestMarkAtTheEndIsOne(t *testing.T) {
	s, err := binding.Work(binding.Job{Name: "hem", Finish: tankNeck().Finish, Segments: []binding.Segment{
		{Name: "front", Length: 30 * cm, Mark: "side seam"}, {Name: "back", Length: 30 * cm, Mark: "strap point"}}}, jersey)
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, m := range s.Marks {
		names = append(names, m.Name)
	}
	if want := []string{"start", "quarter", "centre", "side seam", "three quarters", "end, strap point"}; !slices.Equal(names, want) {
		t.Errorf("marks are %q, want %q", names, want)
	}
}

// TestBought: fold-over elastic takes no cloth.
func TestBought(t *testing.T) {
	j := tankNeck()
	j.Finish.Technique = binding.FoldOver
	s, err := binding.Work(j, jersey)
	if err != nil {
		t.Fatal(err)
	}
	plan, err := binding.Plan(context.Background(), []binding.Strip{s, strip(50*cm, 4*cm, cm, 1)}, []binding.Source{{Across: 60 * cm, Along: 4 * cm}})
	if err != nil || len(plan.Pieces) != 1 || plan.Pieces[0].StripNo != 1 {
		t.Errorf("%+v, %v", plan, err)
	}
}
