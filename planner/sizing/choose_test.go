package sizing_test

import (
	"encoding/csv"
	"errors"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"tallycloth/planner/draft"
	"tallycloth/planner/pattern"
	"tallycloth/planner/sizing"
	"tallycloth/stash"
	"tallycloth/stash/measure"

	"pgregory.net/rapid"
)

type body = map[string]measure.Length

func in(v float64) measure.Length { return measure.Length(math.Round(v * float64(measure.Inch))) }

// table is a published table by the beginning of its name.
func table(t testing.TB, name string) sizing.Table {
	for _, x := range sizing.Tables() {
		if strings.HasPrefix(x.Name, name) {
			return x
		}
	}
	t.Fatalf("no table %s", name)
	return sizing.Table{}
}

// TestTablesAreThePublishedOnes compares tables with the printed figures: those of the pattern industry and
// those of ASTM D5585-11e1, see testdata/body.
func TestTablesAreThePublishedOnes(t *testing.T) {
	for _, c := range []struct {
		name, file string
		columns    map[string]int
	}{
		{"US pattern industry", "misses.csv", map[string]int{pattern.Bust: 1, pattern.Waist: 2, pattern.Hip: 3, sizing.BackWaist: 4}},
		{"ASTM D5585-11e1, misses, curvy", "d5585.csv", map[string]int{pattern.Bust: 1, pattern.HighBust: 2, sizing.Underbust: 3, pattern.Waist: 4}},
		{"ASTM D5585-11e1, misses, straight", "d5585.csv", map[string]int{pattern.Bust: 1, pattern.HighBust: 2, sizing.Underbust: 3, pattern.Waist: 5}},
	} {
		f, err := os.Open(filepath.Join("..", "..", "testdata", "body", c.file))
		if err != nil {
			t.Fatal(err)
		}
		rows, err := csv.NewReader(f).ReadAll()
		if err := errors.Join(err, f.Close()); err != nil {
			t.Fatal(err)
		}
		got := table(t, c.name).Rows
		if len(got) != len(rows)-1 {
			t.Fatalf("%s: %d rows, printed %d", c.name, len(got), len(rows)-1)
		}
		for i, r := range got {
			for name, k := range c.columns {
				want, err := strconv.ParseFloat(rows[i+1][k], 64)
				if err != nil || r.Size != rows[i+1][0] || r.Body[name] != in(want) {
					t.Errorf("%s size %s: %s is %d, printed %s", c.name, r.Size, name, r.Body[name], rows[i+1][k])
				}
			}
		}
	}
}

// TestTablesGrow: in every table every measurement grows from size to size; EN 13402-3 has
// bust classes of 4 cm up to 102 cm and of 6 cm above (CEN EN 13402-3:2005).
func TestTablesGrow(t *testing.T) {
	for _, x := range sizing.Tables() {
		for i := 1; i < len(x.Rows); i++ {
			for name, l := range x.Rows[i].Body {
				if l <= x.Rows[i-1].Body[name] {
					t.Errorf("%s: %s does not grow to size %s", x.Name, name, x.Rows[i].Size)
				}
			}
		}
	}
	rows := table(t, "EN 13402-3").Rows
	low := 74 * cm
	for _, r := range rows {
		step := 4 * cm
		if low >= 102*cm {
			step = 6 * cm
		}
		high := low + step
		if low == 102*cm {
			high = 107 * cm // the one class between them
		}
		if r.Body[pattern.Bust] < low || r.Body[pattern.Bust] > high {
			t.Errorf("%s lies outside %d to %d", r.Size, low, high)
		}
		low = high
	}
}

// charted is a pattern whose sizes are those of a published table, 2 in of ease everywhere.
func charted(x sizing.Table, fronts ...string) pattern.Pattern {
	p := pattern.Pattern{Name: "charted", Levels: []pattern.Level{{Name: pattern.Bust, Girth: true}, {Name: pattern.Waist, Girth: true}, {Name: pattern.Hip, Girth: true}},
		Roles: []pattern.Role{{Name: pattern.Main, StretchAround: 30 * measure.OnePercent}}}
	if len(fronts) == 0 {
		fronts = []string{""}
	}
	for _, r := range x.Rows {
		for n, front := range fronts {
			b, f := body{}, body{}
			for name, l := range r.Body {
				b[name] = l
			}
			if front != "" {
				b[pattern.Bust] = b[pattern.HighBust] + measure.Length(n+1)*measure.Inch
			}
			for _, l := range p.Levels {
				if b[l.Name] > 0 {
					f[l.Name] = b[l.Name] + 2*measure.Inch
				}
			}
			p.Sizes = append(p.Sizes, pattern.Size{Name: r.Size + front, Front: front, Body: b, Finished: f})
		}
	}
	return p
}

// TestTheTablesOwnBodies: a body that measures what a published table prints for a size gets
// that size, at every level, and nothing speaks against it.
func TestTheTablesOwnBodies(t *testing.T) {
	for _, x := range sizing.Tables() {
		p := charted(x)
		for i, r := range x.Rows {
			c, err := sizing.Choose(sizing.Ask{Pattern: p, Body: r.Body})
			if err != nil || c.Size != r.Size {
				t.Errorf("%s: the body of size %s gets %s, %v", x.Name, r.Size, c.Size, err)
			}
			for _, l := range c.Levels {
				if l.Size != r.Size || l.Beyond != 0 {
					t.Errorf("%s: %s of size %s gets %+v", x.Name, l.Level, r.Size, l)
				}
			}
			if slices.Contains(c.Why, sizing.LevelsDiffer) || len(c.Options) != 3 && i > 0 && i < len(x.Rows)-1 {
				t.Errorf("%s size %s: %v with %d options", x.Name, r.Size, c.Why, len(c.Options))
			}
		}
	}
}

// TestHandWorked: worked out with pencil and paper on the table of 1967/68, in inches.
func TestHandWorked(t *testing.T) {
	x := table(t, "US pattern industry")
	plain, cups := charted(x), charted(x, "A", "B", "C", "D")
	for _, c := range []struct {
		name   string
		p      pattern.Pattern
		body   body
		size   string
		levels []string
		why    []sizing.Why
	}{
		// High bust 34 is that of 14, whatever the full bust; waist 30 and hip 38 are 16 and 14.
		{"by high bust", plain, body{pattern.HighBust: in(34), pattern.Bust: in(38), pattern.Waist: in(30), pattern.Hip: in(38)}, "14", []string{"14", "14", "16"},
			[]sizing.Why{sizing.ByHighBust, sizing.FrontOther, sizing.LevelsDiffer}},
		// The same with fronts: 38 − 34 = 4 in is a D.
		{"her cup", cups, body{pattern.HighBust: in(34), pattern.Bust: in(38)}, "14D", nil, []sizing.Why{sizing.ByHighBust, sizing.FrontFits}},
		// 36.5 − 34 = 2.5 in lies between B and C: the larger.
		{"between cups", cups, body{pattern.HighBust: in(34), pattern.Bust: in(36.5)}, "14C", nil, []sizing.Why{sizing.ByHighBust, sizing.FrontBetween}},
		{"beyond D", cups, body{pattern.HighBust: in(34), pattern.Bust: in(39)}, "14D", nil, []sizing.Why{sizing.ByHighBust, sizing.FrontOther}},
		// 35 lies as far from 34 as from 36: the larger.
		{"by bust, between sizes", plain, body{pattern.Bust: in(35)}, "14", []string{"14"}, []sizing.Why{sizing.ByBust}},
		// ASTM's size 12 is for a bust of 38 3/4 and a high bust of 38; 10 for a high bust of 36 3/4: 37 1/2 lies nearer to 38.
		{"by the high bust of another table", charted(table(t, "ASTM D5585-11e1, misses, curvy")), body{pattern.HighBust: in(37.5), pattern.Bust: in(39.5), pattern.Waist: in(29)}, "12", []string{"12", "10"},
			[]sizing.Why{sizing.ByHighBust, sizing.LevelsDiffer}},
		// EN 13402-3: a bust of 97.5 lies in the class 94 to 98, M; a hip of 109 lies nearest to 108 (L).
		{"by classes of 4 cm", charted(table(t, "EN 13402-3")), body{pattern.Bust: 975 * measure.Millimetre, pattern.Hip: 109 * cm}, "M 96", []string{"M 96", "L 100"},
			[]sizing.Why{sizing.ByBust, sizing.LevelsDiffer}},
		{"larger than the table", plain, body{pattern.Bust: in(50)}, "24", []string{"24"}, []sizing.Why{sizing.ByBust, sizing.TooLarge}},
		{"by hip alone", plain, body{pattern.Hip: in(41.5), pattern.Waist: in(30)}, "18", []string{"18", "16"}, []sizing.Why{sizing.ByHip, sizing.LevelsDiffer}},
	} {
		got, err := sizing.Choose(sizing.Ask{Pattern: c.p, Body: c.body})
		if err != nil || got.Size != c.size || !slices.Equal(got.Why, c.why) {
			t.Errorf("%s: %s because %v, %v; want %s because %v", c.name, got.Size, got.Why, err, c.size, c.why)
		}
		for i, want := range c.levels {
			if got.Levels[i].Size != want {
				t.Errorf("%s: at the %s %s, want %s", c.name, got.Levels[i].Level, got.Levels[i].Size, want)
			}
		}
	}
}

// TestWear: body 90 cm in a garment of 80 cm is worn stretched 90/80 − 1 = 12.5 %. That is
// comfortable at 37.5 % of bench stretch or more (a third), firm from 25 % (a half), a
// warning below (common practice).
func TestWear(t *testing.T) {
	p := pattern.Pattern{Name: "close", Levels: []pattern.Level{{Name: pattern.Bust, Girth: true}}, Roles: []pattern.Role{{Name: pattern.Main, StretchAround: 30 * measure.OnePercent}},
		Sizes: []pattern.Size{{Name: "M", Body: body{pattern.Bust: 90 * cm}, Finished: body{pattern.Bust: 80 * cm}}}}
	for stretch, want := range map[measure.Percent]sizing.Wear{3750: sizing.Comfortable, 3749: sizing.Firm, 2500: sizing.Firm, 2499: sizing.TooFar, 0: sizing.TooFar} {
		c, err := sizing.Choose(sizing.Ask{Pattern: p, Body: body{pattern.Bust: 90 * cm}, Stretch: stretch, Chosen: true})
		if err != nil {
			t.Fatal(err)
		}
		e := c.Options[0].Eases[0]
		if e.Worn != 1250 || e.Ease != -10*cm || e.Wear != want {
			t.Errorf("of %d: %+v, want %v", stretch, e, want)
		}
		if (want == sizing.TooFar) != slices.Contains(c.Why, sizing.TooTight) || (stretch < 3000) != slices.Contains(c.Why, sizing.FabricFirm) {
			t.Errorf("of %d: %v", stretch, c.Why)
		}
	}
	if c, _ := sizing.Choose(sizing.Ask{Pattern: p, Body: body{pattern.Bust: 90 * cm}, Stretch: 4500, Chosen: true}); !slices.Contains(c.Why, sizing.FabricMore) {
		t.Errorf("half as much again: %v", c.Why)
	}
}

// TestByGarment: without a body chart the smallest size is proposed that is comfortable:
// stretched 30 %, a third of that is 10 %; 94 cm in 86 cm are 9.3 %, in 84 cm 11.9 %.
func TestByGarment(t *testing.T) {
	p := pattern.Pattern{Name: "quick", Levels: []pattern.Level{{Name: pattern.Bust, Girth: true}}, Roles: []pattern.Role{{Name: pattern.Main, StretchAround: 30 * measure.OnePercent}}}
	for _, f := range []measure.Length{84, 86, 88} {
		p.Sizes = append(p.Sizes, pattern.Size{Name: strconv.Itoa(int(f)), Finished: body{pattern.Bust: f * cm}})
	}
	c, err := sizing.Choose(sizing.Ask{Pattern: p, Body: body{pattern.Bust: 94 * cm}})
	if err != nil || c.Size != "86" || !slices.Contains(c.Why, sizing.ByGarment) {
		t.Errorf("%+v, %v", c, err)
	}
	if c, _ := sizing.Choose(sizing.Ask{Pattern: p, Body: body{pattern.Bust: 110 * cm}}); c.Size != "88" || c.Levels[0].Beyond <= 0 {
		t.Errorf("%+v", c)
	}
}

// TestByGarmentAlone: without a body chart a high bust changes nothing, and is not asked for; a blend
// that is what each level asks is proposed, beside the sizes before and after it.
func TestByGarmentAlone(t *testing.T) {
	p := pattern.Pattern{Name: "quick", Levels: []pattern.Level{{Name: pattern.Bust, Girth: true}, {Name: pattern.Waist, Girth: true}}}
	for i, name := range []string{"S", "M", "M, waist S", "L"} {
		bust, waist := []measure.Length{86, 91, 91, 96}[i], []measure.Length{76, 81, 76, 86}[i]
		p.Sizes = append(p.Sizes, pattern.Size{Name: name, Finished: body{pattern.Bust: bust * cm, pattern.Waist: waist * cm}})
	}
	c, err := sizing.Choose(sizing.Ask{Pattern: p, Body: body{pattern.HighBust: 86 * cm, pattern.Bust: 90 * cm, pattern.Waist: 74 * cm}})
	if err != nil || c.Size != "M, waist S" || !slices.Equal(c.Why, []sizing.Why{sizing.ByBustAlone, sizing.ByGarment}) {
		t.Errorf("%q for %v, %v", c.Size, c.Why, err)
	}
	var names []string
	for _, o := range c.Options {
		names = append(names, o.Size)
	}
	if want := []string{"S", "M", "M, waist S", "L"}; !slices.Equal(names, want) {
		t.Errorf("%q, want %q", names, want)
	}
}

func TestChooseRefuses(t *testing.T) {
	mute := sizing.Ask{Pattern: pattern.Pattern{Name: "bare", Sizes: []pattern.Size{{Name: "S"}}}, Body: body{pattern.Bust: 90 * cm}}
	if _, err := sizing.Choose(mute); err == nil || !strings.Contains(err.Error(), "for which body") {
		t.Errorf("a pattern that says nothing of its sizes: %v", err)
	}
	p := charted(table(t, "US pattern industry"))
	for _, a := range []sizing.Ask{{Pattern: pattern.Pattern{Name: "bare"}, Body: body{pattern.Bust: 90 * cm}}, {Pattern: p}, {Pattern: p, Body: body{sizing.Height: 170 * cm}}} {
		var e *stash.Error
		if _, err := sizing.Choose(a); !errors.As(err, &e) || e.Do == "" {
			t.Errorf("%v", err)
		}
	}
	if _, err := sizing.Started(p.Sizes, table(t, "US pattern industry"), "8"); err == nil {
		t.Error("began where too few rows follow")
	}
	some, err := sizing.Started(p.Sizes[:3], table(t, "US pattern industry"), "12")
	if err != nil || some[2].Body[pattern.Bust] != in(38) || p.Sizes[2].Body[pattern.Bust] != in(32.5) {
		t.Errorf("%+v, %v", some, err)
	}
}

// TestChooseProperties: a larger body never gets a smaller size; ease is finished less body
// and wear stretch its share; no other size's chart lies nearer.
func TestChooseProperties(t *testing.T) {
	tank := draft.Tank(draft.Chart())
	place := func(name string) int {
		return slices.IndexFunc(tank.Sizes, func(s pattern.Size) bool { return s.Name == name })
	}
	rapid.Check(t, func(t *rapid.T) {
		bust := measure.Length(rapid.Int64Range(70, 125).Draw(t, "bust")) * cm
		hip := measure.Length(rapid.Int64Range(70, 130).Draw(t, "hip")) * cm
		ask := func(by measure.Length) sizing.Choice {
			c, err := sizing.Choose(sizing.Ask{Pattern: tank, Body: body{pattern.Bust: bust + by, pattern.Hip: hip}, Stretch: 4000, Chosen: true})
			if err != nil {
				t.Fatal(err)
			}
			return c
		}
		c, larger := ask(0), ask(measure.Length(rapid.Int64Range(0, 20).Draw(t, "more"))*cm)
		if place(larger.Size) < place(c.Size) {
			t.Fatalf("size %s, larger %s", c.Size, larger.Size)
		}
		chosen, _ := tank.Size(c.Size)
		off := func(s pattern.Size) measure.Length {
			return max(s.Body[pattern.Bust]-bust, bust-s.Body[pattern.Bust])
		}
		for _, s := range tank.Sizes {
			if off(s) < off(chosen) {
				t.Fatalf("%s lies nearer than %s", s.Name, c.Size)
			}
		}
		for _, o := range c.Options {
			for _, e := range o.Eases {
				if e.Ease != e.Finished-e.Body || (e.Ease < 0) != (e.Worn > 0) || e.Ease >= 0 && e.Wear != sizing.Loose {
					t.Fatalf("%+v", e)
				}
			}
		}
	})
}
