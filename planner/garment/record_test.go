package garment_test

import (
	"errors"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"tallycloth/planner/draft"
	"tallycloth/planner/garment"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// A day for each state that it came to; a change of something else leaves them alone.
func TestDaysOfStates(t *testing.T) {
	g := garment.Garment{}.Became(garment.Wanted, "2026-03-01").Became(garment.Reserved, "2026-03-02").Became(garment.Reserved, "2026-03-05")
	g = g.Became(garment.Wanted, "2026-03-06").Became(garment.Reserved, "2026-03-07")
	want := []garment.Reached{{State: garment.Wanted, On: "2026-03-01"}, {State: garment.Reserved, On: "2026-03-02"}, {State: garment.Wanted, On: "2026-03-06"}, {State: garment.Reserved, On: "2026-03-07"}}
	if !slices.Equal(g.Record.Reached, want) || g.ReachedOn(garment.Reserved) != "2026-03-07" || g.ReachedOn(garment.Cut) != "" {
		t.Errorf("%+v", g.Record.Reached)
	}
	old := garment.Garment{State: garment.Sewing, Changed: "2025-01-01"}.Became(garment.Sewing, "2026-03-01").Became(garment.Fitted, "2026-03-02")
	if len(old.Record.Reached) != 1 || old.ReachedOn(garment.Fitted) != "2026-03-02" {
		t.Errorf("an old one: %+v", old.Record.Reached)
	}
}

// The tank's order of work, step by step: nothing goes on behind a stop before it is noted;
// strips come to length with the first; the strap's length is kept.
func TestOrderOfWorkWithItsStops(t *testing.T) {
	p := draft.Tank(draft.Chart())
	g := garment.Garment{Name: "tank", State: garment.Reserved, Size: "3"}
	if _, err := g.StepDone(p, 1, garment.Done{On: "2026-03-01"}); !errors.Is(err, stash.ErrConflict) {
		t.Errorf("before it was cut: %v", err)
	}
	if g.Steps(p)[0].Done() {
		t.Error("cut before it was marked cut")
	}
	g.State = garment.Cut
	if all := g.Steps(p); !all[0].Done() || all[1].Done() {
		t.Error("marked cut, its first step is the one that is done")
	}
	values := map[string]measure.Length{garment.AsksTakeIn: 12 * measure.Millimetre, garment.AsksStrap: 31 * cm}
	stops := 0
	for i, s := range garment.Work(p) {
		n := i + 1
		if s.TryOn {
			stops++
			var e *stash.Error
			if _, err := g.StepDone(p, n+1, garment.Done{On: "2026-03-02"}); !errors.As(err, &e) || e.Do == "" {
				t.Errorf("step %d before its stop: %v", n+1, err)
			}
		}
		if got, want := g.StripsToLength(p), stops > 0 && !(s.TryOn && stops == 1); got != want {
			t.Errorf("before step %d strips may be cut to length: %t", n, got)
		}
		if s.Asks == garment.AsksTakeIn { // at each of four edges
			var e *stash.Error
			if _, err := g.StepDone(p, n, garment.Done{On: "2026-03-02", Value: 55 * cm}); !errors.As(err, &e) || e.Do == "" {
				t.Errorf("55 cm taken in at each seam: %v", err)
			}
		}
		var err error
		if g, err = g.StepDone(p, n, garment.Done{On: "2026-03-02", Value: values[s.Asks], Note: " as pinned "}); err != nil {
			t.Fatal(err)
		}
		g.State = g.StateByWork(p)
		if want := map[bool]garment.State{true: garment.Cut, false: garment.Sewing}[n == 1]; n < 8 && g.State != want {
			t.Errorf("after step %d it is %s", n, g.State)
		}
	}
	if g.State != garment.Fitted || stops != 3 {
		t.Errorf("at the end it is %s after %d stops", g.State, stops)
	}
	if l, ok := g.Noted(garment.AsksStrap); !ok || l != 31*cm {
		t.Errorf("the strap is %d", l)
	}
	if l, ok := g.Noted(garment.AsksTakeIn); !ok || l != 12*measure.Millimetre {
		t.Errorf("the take-in is %d", l)
	}
	if _, ok := g.Noted(garment.AsksHem); ok {
		t.Error("nothing was noted at the hem")
	}
	n := len(g.Record.Done)
	again, err := g.StepDone(p, 6, garment.Done{On: "2026-03-03", Value: 30 * cm})
	if l, _ := again.Noted(garment.AsksStrap); err != nil || l != 30*cm || len(again.Record.Done) != n {
		t.Errorf("noted again: %d, %d steps, %v", l, len(again.Record.Done), err)
	}
	g, err = g.StepUndone(p, 6)
	if _, ok := g.Noted(garment.AsksStrap); err != nil || ok || g.Steps(p)[5].Done() {
		t.Errorf("taken back: %v", err)
	}
	for _, bad := range []int{0, 99, -1} {
		if _, err := g.StepDone(p, bad, garment.Done{On: "2026-03-02"}); err == nil {
			t.Errorf("step %d was done", bad)
		}
	}
	if _, err := g.StepUndone(p, 6); err == nil {
		t.Error("taken back twice")
	}
}

// A pattern without an order of work has the usual one, as much of it as applies.
func TestUsualOrderOfWork(t *testing.T) {
	var asks [][]string
	for _, p := range []pattern.Pattern{
		{},
		{Edges: []pattern.Edge{{Name: "neck", Segments: []pattern.EdgeSegment{{Piece: "A"}}}}},
		{Edges: []pattern.Edge{{Name: "armhole", Segments: []pattern.EdgeSegment{{Piece: "A"}, {Name: "strap"}}}}},
	} {
		var some []string
		for _, s := range garment.Work(p) {
			if s.TryOn {
				some = append(some, s.Asks)
			}
		}
		asks = append(asks, some)
	}
	want := [][]string{{"take-in", "hem"}, {"take-in", "hem"}, {"take-in", "strap length", "hem"}}
	for i := range want {
		if !slices.Equal(asks[i], want[i]) {
			t.Errorf("%d: %v", i, asks[i])
		}
	}
}

// domain rule, common practice: p at the underarm shortens each armhole edge by 2p, so a
// strip round both by 4p.
func TestStripsAfterATakeIn(t *testing.T) {
	if got := garment.Shorter(10*measure.Millimetre, 1, 1); got != 20*measure.Millimetre {
		t.Errorf("%d", got)
	}
	if got := garment.Shorter(10*measure.Millimetre, 1, 2); got != 40*measure.Millimetre {
		t.Errorf("%d", got)
	}
	if got := garment.Shorter(10*measure.Millimetre, 0.9, 1); got != 18*measure.Millimetre {
		t.Errorf("%d", got)
	}
}

func TestFittings(t *testing.T) {
	g, err := garment.Garment{}.WithFitting(garment.Fitting{On: "2026-03-05", Text: " gapes at the back neck "})
	if err != nil {
		t.Fatal(err)
	}
	if g, err = g.WithFitting(garment.Fitting{On: "2026-03-01", Text: "first"}); err != nil || g.Record.Fittings[0].Text != "first" || g.Record.Fittings[1].Text != "gapes at the back neck" {
		t.Errorf("%v: %+v", err, g.Record.Fittings)
	}
	if g, err = g.WithoutFitting(1); err != nil || len(g.Record.Fittings) != 1 || g.Record.Fittings[0].On != "2026-03-05" {
		t.Errorf("%v: %+v", err, g.Record.Fittings)
	}
	if _, err := g.WithoutFitting(2); err == nil {
		t.Error("there is no second one")
	}
	for _, f := range []garment.Fitting{{}, {On: "2026-03-05"}, {On: "2026-13-05", Text: "x"}} {
		if _, err := g.WithFitting(f); err == nil {
			t.Errorf("%+v was taken", f)
		}
	}
}

func TestCopyToMakeItAgain(t *testing.T) {
	g := garment.Garment{ID: stash.ID{7}, Name: "tank", PatternID: stash.ID{8}, Size: "3", Variant: "cropped", For: "Ida", State: garment.Finished, Changed: "2026-03-01", Wanted: "2026-04-01",
		Strips: make([]garment.StripRecord, 1), Stitches: make([]garment.StitchNote, 1),
		Record: garment.Record{Purpose: "dancing", Reached: make([]garment.Reached, 1), Done: make([]garment.Done, 1), Fittings: make([]garment.Fitting, 1), Seams: []garment.Seam{{Name: "hems", Class: 406}}}}
	c := g.Copy()
	if c.ID != stash.NoID || c.State != "" || c.Wanted != "" || len(c.Strips)+len(c.Stitches)+len(c.Record.Reached)+len(c.Record.Done)+len(c.Record.Fittings) > 0 {
		t.Errorf("it took over what belongs to the first: %+v", c)
	}
	if c.PatternID != g.PatternID || c.Size != "3" || c.Variant != "cropped" || c.For != "Ida" || c.Record.Purpose != "dancing" || c.Record.CopyOf != g.ID || c.Record.Seams[0].Class != 406 {
		t.Errorf("it lost something: %+v", c)
	}
}

func fabric(name, fibres string, weight measure.Weight, t *testing.T) stash.Fabric {
	t.Helper()
	f, err := stash.ParseFibres(fibres)
	if err != nil {
		t.Fatal(err)
	}
	return stash.Fabric{Name: name, Construction: stash.Jersey, Fibres: f, Weight: weight}
}

// 16 CFR 303.24: a face of 60 % rayon, 40 % nylon, a back of 70 % cotton, 30 % rayon that is
// 60 % of the fabric: by hand 42 % cotton, 42 % rayon (viscose), 16 % nylon (polyamide).
func TestBlendOfFaceAndBack(t *testing.T) {
	const gsm = measure.GramPerSquareMetre
	b := garment.BlendOf([]garment.OfFabric{
		{Fabric: fabric("face", "60% viscose 40% polyamide", 100*gsm, t), Area: 1_000_000_000_000},
		{Fabric: fabric("back", "70% cotton 30% viscose", 300*gsm, t), Area: 500_000_000_000},
	})
	if got := b.Fibres.String(); got != "42 % cotton, 42 % viscose, 16 % polyamide" || b.Unknown != 0 || math.Abs(b.Grams-250) > 1e-9 || len(b.Assumed) > 0 {
		t.Errorf("%s, %+v", got, b)
	}
}

// Shares sum to 100 % exactly; one fabric alone keeps its fibres; what is not known is told.
func TestBlendSums(t *testing.T) {
	contents := []string{"95% cotton 5% elastane", "66% viscose 29% polyamide 5% elastane", "100% wool", "50% cotton 50% modal", "33.3% cotton 66.7% polyester"}
	rapid.Check(t, func(r *rapid.T) {
		var parts []garment.OfFabric
		for i := range rapid.IntRange(1, 4).Draw(r, "fabrics") {
			f := fabric(string(rune('a'+i)), rapid.SampledFrom(contents).Draw(r, "fibres"), measure.Weight(rapid.Int64Range(50_000, 500_000).Draw(r, "weight")), t)
			if rapid.IntRange(0, 4).Draw(r, "unknown") == 0 {
				f.Fibres = nil
			}
			parts = append(parts, garment.OfFabric{Fabric: f, Area: measure.Area(rapid.Int64Range(1, 3_000_000_000_000).Draw(r, "area"))})
		}
		b := garment.BlendOf(parts)
		sum := b.Unknown
		for _, f := range b.Fibres {
			sum += f.Share
		}
		if sum != 100*measure.OnePercent {
			r.Fatalf("they reach %d", sum)
		}
		if len(parts) == 1 && len(parts[0].Fabric.Fibres) > 0 && b.Fibres.String() != parts[0].Fabric.Fibres.String() {
			r.Fatalf("%s became %s", parts[0].Fabric.Fibres, b.Fibres)
		}
	})
	none := garment.BlendOf([]garment.OfFabric{{Fabric: stash.Fabric{Name: "old jersey", Construction: stash.Jersey}, Area: 1e12}})
	if none.Unknown != 100*measure.OnePercent || len(none.Fibres) > 0 || !slices.Equal(none.Assumed, []string{"old jersey"}) {
		t.Errorf("%+v", none)
	}
	if empty := garment.BlendOf(nil); len(empty.Fibres) > 0 || empty.Unknown != 0 {
		t.Errorf("%+v", empty)
	}
}

// The usual cautions where they apply, and only there (common practice).
func TestCautionsWhereTheyApply(t *testing.T) {
	ring := stash.Notion{Name: "strap rings 10 mm", Kind: "rings and sliders"}
	elastic := stash.Notion{Name: "waist elastic", Kind: "elastic"}
	for name, c := range map[string]struct {
		in   garment.Cautious
		want []garment.Caution
	}{
		"a tank for herself":    {garment.Cautious{Pattern: pattern.Pattern{Kind: "tank"}}, nil},
		"being sewn":            {garment.Cautious{Garment: garment.Garment{State: garment.Sewing}}, []garment.Caution{garment.BladesAndIron}},
		"finished":              {garment.Cautious{Garment: garment.Garment{State: garment.Finished}}, nil},
		"child's nightshirt":    {garment.Cautious{Pattern: pattern.Pattern{Kind: "nightshirt"}, Garment: garment.Garment{Record: garment.Record{Purpose: "for a child"}}}, []garment.Caution{garment.Sleepwear}},
		"nightshirt, grown up":  {garment.Cautious{Pattern: pattern.Pattern{Kind: "nightshirt"}}, nil},
		"child's hood":          {garment.Cautious{Garment: garment.Garment{Name: "Toddler hoodie with drawstring"}}, []garment.Caution{garment.Drawstrings}},
		"rings on baby wear":    {garment.Cautious{Garment: garment.Garment{Name: "Baby romper"}, Notions: []stash.Notion{ring}}, []garment.Caution{garment.SmallParts}},
		"rings on a grown up":   {garment.Cautious{Notions: []stash.Notion{ring}}, nil},
		"elastic":               {garment.Cautious{Notions: []stash.Notion{elastic}}, []garment.Caution{garment.Latex}},
		"elastic by pattern":    {garment.Cautious{Pattern: draft.Shorts(draft.Chart())}, []garment.Caution{garment.Latex}},
		"elastane is no rubber": {garment.Cautious{Fabrics: []stash.Fabric{fabric("x", "95% cotton 5% elastane", 0, t)}}, nil},
		"rubber threads":        {garment.Cautious{Fabrics: []stash.Fabric{fabric("x", "95% cotton 5% elastodiene", 0, t)}}, []garment.Caution{garment.Latex}},
	} {
		got := garment.CautionsFor(c.in)
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: %v, want %v", name, got, c.want)
		}
		for _, k := range got {
			if k.Says() == string(k) {
				t.Errorf("%s has no words", k)
			}
		}
	}
}
