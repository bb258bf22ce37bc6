package garment_test

import (
	"encoding/csv"
	"math"
	"os"
	"slices"
	"strconv"
	"testing"

	"pgregory.net/rapid"

	"tallycloth/planner/draft"
	"tallycloth/planner/garment"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

const cm = measure.Centimetre

// published reads a table of testdata/thread without its head.
func published(t *testing.T, name string) [][]string {
	t.Helper()
	f, err := os.Open("../../testdata/thread/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil || len(rows) < 2 {
		t.Fatalf("%d rows, %v", len(rows), err)
	}
	return rows[1:]
}

func number(t *testing.T, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// Every ratio is one that is published for its stitch, and the least and the most are the
// least and the most published; testdata/thread names the sources.
func TestRatiosArePublished(t *testing.T) {
	byClass := map[int][]int{}
	printed := map[int]bool{}
	for _, row := range published(t, "ratios.csv") {
		class := int(number(t, row[1]))
		ratio := int(math.Round(100 * number(t, row[2])))
		byClass[class] = append(byClass[class], ratio)
		if s, _ := garment.StitchOf(class); row[4] == "printed" && s.Ratio == ratio {
			printed[class] = true
		}
	}
	for _, s := range garment.StitchClasses() {
		all := byClass[s.Class]
		if len(all) == 0 || !slices.Contains(all, s.Ratio) || slices.Min(all) != s.Least || slices.Max(all) != s.Most {
			t.Errorf("%d: %d from %d to %d, published %v", s.Class, s.Ratio, s.Least, s.Most, all)
		}
		if s.Memory == printed[s.Class] {
			t.Errorf("%d: from memory %t, printed %t", s.Class, s.Memory, printed[s.Class])
		}
		delete(byClass, s.Class)
	}
	if len(byClass) > 0 {
		t.Errorf("published and left out: %v", byClass)
	}
}

// The bulletin's worked examples: 42 in of stitch 401 at 5.0 take 5.85 yd, with 15 % 6.73 yd;
// printed from a seam rounded to 1.17 yd, which is 0.3 % more.
func TestThreadAsWorkedInTheBulletin(t *testing.T) {
	for _, row := range published(t, "worked.csv") {
		s := garment.MadeSeam{Seam: garment.Seam{Name: "seam", Class: int(number(t, row[0])), Rows: 1, Length: measure.Length(number(t, row[2])) * measure.Inch}}
		got := garment.ThreadFor([]garment.MadeSeam{s}, measure.PercentOf(number(t, row[3])/100))
		yards := float64(got.Total) / float64(measure.Yard)
		if want := number(t, row[4]); math.Abs(yards-want) > 0.004*want {
			t.Errorf("%v: %.3f yd", row, yards)
		}
		if math.Abs(float64(got.Needle)/float64(got.Total)-0.4) > 1e-6 { // 60 % of it through the looper
			t.Errorf("%v: %d of %d through the needle", row, got.Needle, got.Total)
		}
	}
}

// length is that of a line, by itself.
func length(pts []shape.Point) float64 {
	sum := 0.0
	for i := 1; i < len(pts); i++ {
		sum += math.Hypot(float64(pts[i].X-pts[i-1].X), float64(pts[i].Y-pts[i-1].Y))
	}
	return sum
}

func edge(t *testing.T, p pattern.Pattern, piece, name, size string) float64 {
	t.Helper()
	q, _ := p.Piece(piece)
	for _, e := range q.Outlines[size].Edges {
		if e.Name == name {
			return length(e.Points)
		}
	}
	t.Fatalf("%s has no edge %s", piece, name)
	return 0
}

// The seams of the demo patterns, added up by hand from the edges of their pattern pieces.
func TestSeamsAreThoseOfTheOutlines(t *testing.T) {
	tank, tee, shorts := draft.Tank(draft.Chart()), draft.Tee(draft.Chart()), draft.Shorts(draft.Chart())
	of := func(p pattern.Pattern, piece, name string) float64 { return edge(t, p, piece, name, "3") }
	for name, c := range map[string]struct {
		p    pattern.Pattern
		want map[string]float64
	}{
		"tank": {tank, map[string]float64{
			"side seams":       of(tank, "A", "side") + of(tank, "B", "side"),
			"hems":             2 * (of(tank, "A", "hem") + of(tank, "B", "hem")),
			"edge: front neck": 2 * of(tank, "A", "neck"), "edge: back neck": 2 * of(tank, "B", "neck"),
			"edge: armhole and strap": 2 * (of(tank, "A", "armhole") + of(tank, "B", "armhole") + float64(tank.Edges[2].Segments[2].Free["3"])),
		}},
		"tee": {tee, map[string]float64{
			"shoulders":    of(tee, "A", "shoulder") + of(tee, "B", "shoulder"),
			"side seams":   of(tee, "A", "side") + of(tee, "B", "side"),
			"sleeve seams": of(tee, "C", "underarm back") + of(tee, "C", "underarm front"),
			"armholes":     2 * (of(tee, "A", "armhole") + of(tee, "B", "armhole")),
			"edge: neck":   2 * (of(tee, "A", "neck") + of(tee, "B", "neck")),
			"hems":         2 * (of(tee, "A", "hem") + of(tee, "B", "hem") + of(tee, "C", "hem")),
		}},
		"shorts": {shorts, map[string]float64{
			"side seams": of(shorts, "A", "side") + of(shorts, "B", "side"), "inseams": of(shorts, "A", "inseam") + of(shorts, "B", "inseam"),
			"centre seams": of(shorts, "A", "centre") + of(shorts, "B", "centre"),
			"waist casing": 2 * (of(shorts, "A", "waist") + of(shorts, "B", "waist")), "hems": 2 * (of(shorts, "A", "hem") + of(shorts, "B", "hem")),
		}},
	} {
		got := garment.Garment{Size: "3"}.Seams(c.p, true)
		for _, s := range got {
			want, ok := c.want[s.Name]
			if !ok || math.Abs(float64(s.Length)-want) > 100 || !s.Drawn { // 0.1 mm
				t.Errorf("%s %s: %d µm, want %.0f", name, s.Name, s.Length, want)
			}
		}
		if len(got) != len(c.want) {
			t.Errorf("%s: %d seams, want %d: %+v", name, len(got), len(c.want), got)
		}
	}
}

// What is typed of a seam counts, and what is taken away of it lets the outlines count again.
func TestSeamsAsTyped(t *testing.T) {
	p := draft.Tank(draft.Chart())
	g := garment.Garment{Size: "3"}
	before := g.Seams(p, true)
	typed, err := g.WithSeam(garment.Seam{Name: " hems ", Class: 406, Length: 90 * cm, Rows: 2, Still: true})
	if err != nil {
		t.Fatal(err)
	}
	if typed, err = typed.WithSeam(garment.Seam{Name: "pocket", Length: 30 * cm}); err != nil {
		t.Fatal(err)
	}
	all := typed.Seams(p, true)
	at := slices.IndexFunc(all, func(s garment.MadeSeam) bool { return s.Name == "hems" })
	if h := all[at]; len(all) != len(before)+1 || h.Class != 406 || h.Length != 90*cm || h.Rows != 2 || h.Drawn || !h.Still {
		t.Errorf("hems are %+v of %d", h, len(all))
	}
	if s := all[len(all)-1]; s.Name != "pocket" || s.Rows != 1 || s.Class != 504 || s.Drawn {
		t.Errorf("the pocket is %+v", s)
	}
	if typed, err = typed.WithoutSeam("hems"); err != nil {
		t.Fatal(err)
	}
	if typed, err = typed.WithoutSeam("pocket"); err != nil || !slices.Equal(typed.Seams(p, true), before) {
		t.Errorf("%v: %+v", err, typed.Seams(p, true))
	}
	if _, err := typed.WithoutSeam("hems"); err == nil {
		t.Error("taken away twice")
	}
	for _, s := range []garment.Seam{{}, {Name: "x", Class: 302}, {Name: "x", Length: -1}, {Name: "x", Rows: 99}, {Name: "x", Ratio: -1}} {
		if _, err := g.WithSeam(s); err == nil {
			t.Errorf("%+v was taken", s)
		}
	}
}

// Thread grows with length, rows and waste in proportion; a seam left out takes none, one
// without a length is told.
func TestThreadInProportion(t *testing.T) {
	classes := garment.StitchClasses()
	rapid.Check(t, func(t *rapid.T) {
		s := garment.MadeSeam{Seam: garment.Seam{Name: "s", Rows: rapid.IntRange(1, 4).Draw(t, "rows"),
			Class: rapid.SampledFrom(classes).Draw(t, "class").Class, Length: measure.Length(rapid.Int64Range(1, 2_000_000).Draw(t, "length"))}}
		one := garment.ThreadFor([]garment.MadeSeam{s}, 0)
		twice := s
		twice.Length *= 2
		if d := garment.ThreadFor([]garment.MadeSeam{twice}, 0).Total - 2*one.Total; d < -1 || d > 1 {
			t.Fatalf("twice as long: %d off", d)
		}
		if one.Least > one.Total || one.Most < one.Total || one.Needle > one.Total || one.Needle < 0 {
			t.Fatalf("%+v", one)
		}
		if w := garment.ThreadFor([]garment.MadeSeam{s}, garment.ThreadWaste); w.Total < one.Total {
			t.Fatal("waste takes no thread")
		}
		out, unknown := s, garment.MadeSeam{Seam: garment.Seam{Name: "somewhere", Class: 301, Rows: 1}}
		out.Out = true
		rest := garment.ThreadFor([]garment.MadeSeam{out, unknown}, 0)
		if rest.Total != 0 || !slices.Equal(rest.Unknown, []string{"somewhere"}) {
			t.Fatalf("%+v", rest)
		}
	})
}

// A plain lockstitch is told on a seam of a knit that must stretch, and nowhere else.
func TestLockstitchOnASeamThatStretches(t *testing.T) {
	knit, woven := stash.Fabric{Construction: stash.Jersey}, stash.Fabric{Construction: stash.WovenPlain}
	stretchy := woven
	stretchy.Crosswise.Stretch = stash.Reading{Known: true, Value: 20 * measure.OnePercent}
	for _, c := range []struct {
		f    stash.Fabric
		s    garment.Seam
		want bool
	}{
		{knit, garment.Seam{Class: 301}, true}, {knit, garment.Seam{Class: 304}, false}, {knit, garment.Seam{Class: 504}, false},
		{knit, garment.Seam{Class: 301, Still: true}, false}, {knit, garment.Seam{Class: 301, Out: true}, false},
		{woven, garment.Seam{Class: 301}, false}, {stretchy, garment.Seam{Class: 301}, true},
	} {
		if got := (garment.MadeSeam{Seam: c.s}).Breaks(c.f); got != c.want {
			t.Errorf("%+v on %s: %t", c.s, c.f.Construction, got)
		}
	}
}
