package draft_test

import (
	"context"
	"errors"
	"math"
	"strings"
	"testing"

	"tallycloth/planner/draft"
	"tallycloth/planner/match"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"

	"pgregory.net/rapid"
)

const cm = measure.Centimetre

// path is a named edge of a pattern piece in a size.
func path(t testing.TB, p pattern.Pattern, piece, name, size string) []shape.Point {
	t.Helper()
	q, _ := p.Piece(piece)
	for _, e := range q.Outlines[size].Edges {
		if e.Name == name {
			return e.Points
		}
	}
	t.Fatalf("%s: %s has no %s", p.Name, piece, name)
	return nil
}

func along(pts []shape.Point) measure.Length { return pattern.EdgePath{Points: pts}.Length() }

// taped measures the true pattern as a person measures the garment made of it, with what
// its chart says and a tape along its stitching lines; rough to half a centimetre.
func taped(t testing.TB, p pattern.Pattern, s pattern.Size) draft.Row {
	m := map[string]measure.Length{}
	for name, l := range s.Finished {
		m[name] = l
	}
	switch p.Kind {
	case "tank":
		m[draft.Strap] = p.Edges[2].Segments[2].Free[s.Name]
	case "sleep shirt":
		sleeve, _ := p.Piece("C")
		m[draft.SleeveLen] = measure.Length(path(t, p, sleeve.Code, "hem", s.Name)[0].X)
		m[draft.UpperArm] = measure.Length(2 * path(t, p, "C", "cap", s.Name)[0].Y)
	case "shorts":
		m[draft.Rise] = along(path(t, p, "A", "centre", s.Name))
		m[draft.Inseam] = along(path(t, p, "A", "inseam", s.Name))
	}
	for name, l := range m {
		m[name] = (l + cm/4) / (cm / 2) * (cm / 2)
	}
	return draft.Row{Name: s.Name, Finished: m}
}

// quickOf is the quick outline of a true pattern.
func quickOf(t testing.TB, p pattern.Pattern) pattern.Pattern {
	f := draft.Form{Name: "quick " + p.Name, Kind: map[string]draft.Kind{"tank": draft.QuickTank, "sleep shirt": draft.QuickTee, "shorts": draft.QuickShorts}[p.Kind],
		Seam: p.SeamAllowance, Hem: p.HemAllowance}
	for _, s := range p.Sizes {
		f.Sizes = append(f.Sizes, taped(t, p, s))
	}
	q, err := draft.Quick(f)
	if err != nil {
		t.Fatal(err)
	}
	return q
}

// needs is what a pattern takes at a width, folded and in one layer, searched for so long.
func needs(t testing.TB, p pattern.Pattern, size string, width measure.Length, steps int64) match.Needs {
	q, err := match.New(match.Ask{Pattern: p, Size: size, Role: pattern.Main, Clearance: 3 * measure.Millimetre, Fold: true, EndLoss: 2 * cm, Steps: steps})
	if err != nil {
		t.Fatal(err)
	}
	n, err := q.Needs(context.Background(), stash.Fabric{Name: "plain jersey", Construction: stash.Jersey, FullWidth: width, SelvedgeLoss: cm, Direction: stash.SameWayInGarment})
	if err != nil {
		t.Fatal(err)
	}
	return n
}

// How long a layout is searched for, at first and where that does not settle it, in steps of the search.
const (
	shortly  = 12
	thorough = 120
)

// within says whether a pattern takes what another does to 5 %, folded and in one layer.
func within(got, want match.Needs) bool {
	near := func(a, b measure.Length) bool { return math.Abs(float64(a-b)) <= 0.05*float64(b) }
	return near(got.Folded, want.Folded) && near(got.Open, want.Open)
}

// TestQuickTakesAsMuchAsTheTrueOutlines: drafted from what a tape says of the finished garment,
// the demo patterns take within 5 % of the fabric length that their true outlines take, whatever
// the width of cloth, folded and in one layer: 90 cases of 90. Both are searched for longer where a short
// search finds them apart.
func TestQuickTakesAsMuchAsTheTrueOutlines(t *testing.T) {
	for _, p := range draft.DemoPatterns(func() stash.ID { return stash.ID{1} }) {
		quick := quickOf(t, p)
		for _, size := range []string{"1", "4", "8"} {
			for _, width := range []measure.Length{112 * cm, 124 * cm, 140 * cm, 150 * cm, 160 * cm} {
				exact, got := needs(t, p, size, width, shortly), needs(t, quick, size, width, shortly)
				if within(got, exact) {
					continue
				}
				exact, got = needs(t, p, size, width, thorough), needs(t, quick, size, width, thorough)
				say := t.Logf
				if !within(got, exact) {
					say = t.Errorf
				}
				say("%s size %s at %.0f cm, folded and in one layer: quick %.1f and %.1f cm, true %.1f and %.1f cm", p.Name, size, width.Millimetres()/10,
					got.Folded.Millimetres()/10, got.Open.Millimetres()/10, exact.Folded.Millimetres()/10, exact.Open.Millimetres()/10)
			}
		}
	}
}

// usual is a garment of each kind that no one would wonder at, in cm.
func usual(k draft.Kind) draft.Row {
	all := map[string]float64{pattern.Bust: 92, pattern.Hip: 98, pattern.Waist: 86, pattern.BodyLen: 64, draft.SleeveLen: 22, draft.Rise: 27, draft.Inseam: 10}
	switch k {
	case draft.LongSleeve:
		all[draft.SleeveLen] = 59
	case draft.QuickLeggings:
		all[draft.Inseam], all[pattern.Hip], all[pattern.Waist] = 70, 84, 68
	case draft.Dress:
		all[pattern.BodyLen] = 105
	}
	row := draft.Row{Name: "M", Finished: map[string]measure.Length{}}
	for _, a := range k.Asks() {
		if a.Needed {
			row.Finished[a.Name] = measure.Length(all[a.Name] * float64(cm))
		}
	}
	return row
}

// TestEveryKindIsDrafted: valid in every size, approximate, graded, laid out on cloth, with
// a yardage table and with strips for its edges.
func TestEveryKindIsDrafted(t *testing.T) {
	for _, k := range draft.Kinds() {
		base := usual(k)
		rows, err := draft.Graded(base, []string{"S", "M", "L", "XL"}, draft.UsualSteps(k, base))
		if err != nil {
			t.Fatal(err)
		}
		p, err := draft.Quick(draft.Form{Name: "Quick " + string(k), Kind: k, Sizes: rows})
		if err != nil {
			t.Fatalf("%s: %v", k, err)
		}
		if !p.Approximate || p.Spare != draft.Spare || len(p.Sizes) != 4 || len(p.Yards) == 0 || len(p.Work) == 0 {
			t.Errorf("%s: %+v", k, p)
		}
		for _, q := range p.Pieces {
			var last int64
			for _, s := range p.Sizes {
				if a := q.Outlines[s.Name].Cut.Area(); a <= last {
					t.Errorf("%s: %s does not grow to size %s", k, q.Name, s.Name)
				} else {
					last = a
				}
			}
		}
		if n := needs(t, p, "M", 150*cm, shortly); n.Folded < 20*cm || n.Folded > 400*cm {
			t.Errorf("%s takes %.1f cm", k, n.Folded.Millimetres()/10)
		}
	}
}

// TestQuickMeasuresAsAsked: the stitching lines measure what was typed, to half a millimetre.
func TestQuickMeasuresAsAsked(t *testing.T) {
	near := func(what string, got, want measure.Length) {
		t.Helper()
		if d := got - want; d > measure.Millimetre/2 || d < -measure.Millimetre/2 {
			t.Errorf("%s: %.2f mm, want %.2f", what, got.Millimetres(), want.Millimetres())
		}
	}
	for _, k := range []draft.Kind{draft.QuickTank, draft.QuickTee} {
		p, err := draft.Quick(draft.Form{Name: "q", Kind: k, Sizes: []draft.Row{usual(k)}})
		if err != nil {
			t.Fatal(err)
		}
		near("hem", 2*(along(path(t, p, "A", "hem", "M"))+along(path(t, p, "B", "hem", "M"))), 98*cm)
		under := func(piece string) int64 { return path(t, p, piece, "armhole", "M")[0].Y }
		near("underarms", measure.Length(2*(under("A")+under("B"))), 92*cm)
		near("length", measure.Length(path(t, p, "A", "hem", "M")[0].X), 64*cm)
	}
	row := usual(draft.QuickShorts)
	row.Finished[pattern.Thigh], row.Finished[draft.LegOpening] = 60*cm, 56*cm
	p, err := draft.Quick(draft.Form{Name: "q", Kind: draft.QuickShorts, Sizes: []draft.Row{row}})
	if err != nil {
		t.Fatal(err)
	}
	near("leg opening", along(path(t, p, "A", "hem", "M"))+along(path(t, p, "B", "hem", "M")), 56*cm)
	near("front rise", along(path(t, p, "A", "centre", "M")), 27*cm)
	for _, piece := range []string{"A", "B"} {
		near("inseam", along(path(t, p, piece, "inseam", "M")), 10*cm)
	}
	p, err = draft.Quick(draft.Form{Name: "q", Kind: draft.Skirt, Sizes: []draft.Row{usual(draft.Skirt)}})
	if err != nil {
		t.Fatal(err)
	}
	waist := path(t, p, "A", "waist", "M")
	near("waist of the skirt", 4*along(waist), 86*cm)
}

// TestSpare: every cutting line is longer by Spare at each end than its allowances make it, and
// as wide as they make it.
func TestSpare(t *testing.T) {
	row := usual(draft.Skirt)
	row.Finished[draft.HemGirth] = row.Finished[pattern.Hip] // its sides run straight down
	p, err := draft.Quick(draft.Form{Name: "q", Kind: draft.Skirt, Seam: cm, Hem: 3 * cm, Sizes: []draft.Row{row}})
	if err != nil {
		t.Fatal(err)
	}
	o := p.Pieces[0].Outlines["M"]
	b := o.Cut.Bounds()
	hem, out := path(t, p, "A", "hem", "M")[0].X, o.Edges[1].Points
	widest := int64(0)
	for _, q := range out {
		widest = max(widest, q.Y)
	}
	if b.Min.Y != 0 || b.Max.X-hem != int64(3*cm+draft.Spare) || p.SeamAllowance != cm || p.HemAllowance != 3*cm {
		t.Errorf("bounds %v, hem at %d", b, hem)
	}
	if off := b.Max.Y - widest - int64(cm); off < -100 || off > 500 {
		t.Errorf("%d µm wider than the allowance", off)
	}
}

// TestQuickRefuses: clear words for what cannot be, and what to do.
func TestQuickRefuses(t *testing.T) {
	change := func(k draft.Kind, name string, v measure.Length) draft.Form {
		r := usual(k)
		r.Finished[name] = v
		return draft.Form{Name: "q", Kind: k, Sizes: []draft.Row{r}}
	}
	for says, f := range map[string]draft.Form{
		"not drafted here":              {Name: "q", Kind: "tent", Sizes: []draft.Row{{Name: "M"}}},
		"no size":                       {Name: "q", Kind: draft.QuickTee},
		"The bust is missing":           change(draft.QuickTee, pattern.Bust, 0),
		"A bust of 9.2 cm cannot be":    change(draft.QuickTee, pattern.Bust, 92*measure.Millimetre),
		"A hip of 250.0 cm cannot be":   change(draft.QuickTank, pattern.Hip, 250*cm),
		"not go with a bust of 49.0 cm": change(draft.QuickTee, pattern.Bust, 49*cm),
		"ends at the underarm":          change(draft.QuickTank, pattern.BodyLen, 25*cm),
		"ends above the underarm":       change(draft.QuickTee, draft.SleeveLen, 10*cm),
		"leaves no crotch":              change(draft.QuickShorts, pattern.Thigh, 49*cm),
		"too short to sit on a hip":     change(draft.QuickShorts, draft.Rise, 13*cm),
		"does not go into an armhole":   change(draft.QuickTee, draft.UpperArm, 68*cm),
		"wider than the garment":        change(draft.QuickTee, draft.Shoulders, 79*cm),
		"leaves no shoulder":            change(draft.QuickTee, draft.NeckWidth, 38*cm),
		"is not asked for a skirt":      change(draft.Skirt, draft.SleeveLen, 30*cm),
		"too shallow for an arm":        change(draft.QuickTee, draft.Armhole, 9*cm),
		"ends 34.4 cm down":             change(draft.QuickTank, draft.Strap, 70*cm),
		"An allowance":                  {Name: "q", Kind: draft.Skirt, Seam: -1, Sizes: []draft.Row{usual(draft.Skirt)}},
		"the size M comes twice":        {Name: "q", Kind: draft.Skirt, Sizes: []draft.Row{usual(draft.Skirt), usual(draft.Skirt)}},
		"the pattern has no name":       {Kind: draft.Skirt, Sizes: []draft.Row{usual(draft.Skirt)}},
		"reaches to the hem":            change(draft.QuickTee, draft.NeckDepth, 39*cm),
		"A waist of 120.0 cm does not":  change(draft.QuickShorts, pattern.Waist, 120*cm),
	} {
		if says == "reaches to the hem" {
			f.Sizes[0].Finished[pattern.BodyLen] = 45 * cm
		}
		_, err := draft.Quick(f)
		var e *stash.Error
		if err == nil || !strings.Contains(err.Error(), says) || !errors.As(err, &e) || e.Do == "" || e.Kind != stash.Invalid {
			t.Errorf("%s: %v", says, err)
		}
	}
	rows, err := draft.Graded(usual(draft.QuickTank), []string{"S", "M"}, map[string]measure.Length{pattern.BodyLen: 40 * cm}) // of 64 cm
	if err != nil {
		t.Fatal(err)
	}
	var e *stash.Error
	if _, err := draft.Quick(draft.Form{Name: "q", Kind: draft.QuickTank, Sizes: rows}); !errors.As(err, &e) || e.What != "A length of 24.0 cm cannot be, in size S" {
		t.Errorf("the size is not named: %v", err)
	}
	if _, err := draft.Graded(usual(draft.Skirt), []string{"S", "L"}, nil); err == nil {
		t.Error("graded from a size that is not there")
	}
	if _, err := draft.Graded(usual(draft.Skirt), []string{"M"}, map[string]measure.Length{draft.HemGirth: cm}); err == nil {
		t.Error("a step from nothing")
	}
}

// TestAnyMeasurements: whatever is typed, it is refused as invalid or drafted to a valid
// pattern whose outlines hold; nothing else.
func TestAnyMeasurements(t *testing.T) {
	drafted := 0
	rapid.Check(t, func(t *rapid.T) {
		k := rapid.SampledFrom(draft.Kinds()).Draw(t, "kind")
		row := usual(k)
		wild := rapid.Bool().Draw(t, "wild")
		for _, a := range k.Asks() {
			switch {
			case wild && rapid.Bool().Draw(t, a.Name+" wild"):
				row.Finished[a.Name] = measure.Length(rapid.Int64Range(-10, 300).Draw(t, a.Name)) * cm
			case a.Needed:
				row.Finished[a.Name] = row.Finished[a.Name] * measure.Length(rapid.Int64Range(70, 150).Draw(t, a.Name)) / 100
			}
		}
		p, err := draft.Quick(draft.Form{Name: "any", Kind: k, Sizes: []draft.Row{row}})
		if err != nil {
			var e *stash.Error
			if !errors.As(err, &e) || e.Kind != stash.Invalid || e.Do == "" {
				t.Fatalf("%v: %v", row, err)
			}
			return
		}
		drafted++
		for _, q := range p.Pieces {
			if err := q.Whole("M").Validate(); err != nil {
				t.Fatalf("%s %v: %v", q.Name, row, err)
			}
		}
	})
	if drafted == 0 {
		t.Error("nothing was drafted")
	}
}
