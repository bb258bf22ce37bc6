package match_test

import (
	"context"
	"encoding/json"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"tallycloth/planner/match"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

var updateHandwork = flag.Bool("update-handwork", false, "write the table of lengths anew")

// handworkSteps bounds each search: enough to come off the first layout.
const handworkSteps = 40

// handwork is testdata/nest/garments.json; see the README beside it.
type handwork struct {
	Widths   []int64 `json:"widths_mm"`
	Garments []struct {
		Name   string
		Pieces []struct {
			Name  string
			Whole bool
			Half  [][2]int64 `json:"half_mm"`
		}
	}
}

func readHandwork(t testing.TB) (handwork, []pattern.Pattern) {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "..", "testdata", "nest", "garments.json"))
	if err != nil {
		t.Fatal(err)
	}
	var all handwork
	if err := json.Unmarshal(data, &all); err != nil {
		t.Fatal(err)
	}
	var out []pattern.Pattern
	for n, g := range all.Garments {
		p := pattern.Pattern{ID: id(400 + n), Name: g.Name, Kind: g.Name, Sizes: []pattern.Size{{Name: "M"}}}
		for k, q := range g.Pieces {
			var r shape.Ring
			for _, xy := range q.Half {
				r = append(r, shape.Point{X: xy[0] * 1000, Y: xy[1] * 1000})
			}
			piece := pattern.Piece{Code: fmt.Sprint(k + 1), Name: q.Name, Role: pattern.Main, Cut: 1, OnFold: q.Whole,
				Outlines: map[string]pattern.Outline{"M": {Cut: r}}}
			if !q.Whole {
				piece.Cut, piece.Pairs = 2, true
			}
			p.Pieces = append(p.Pieces, piece)
		}
		out = append(out, p)
	}
	return all, out
}

// TestHandwork lays the garments folded and open, in each direction, and compares the
// lengths with each other and with the table kept beside them. Common practice says
// the same: opening the cloth out and turning pieces round never takes more.
func TestHandwork(t *testing.T) {
	all, garments := readHandwork(t)
	var table strings.Builder
	fmt.Fprintln(&table, "garment width_mm folded_one_way folded_either_way open_one_way open_either_way (mm)")
	for _, p := range garments {
		for _, w := range all.Widths {
			needs := map[stash.Direction]match.Needs{}
			for _, d := range []stash.Direction{stash.SameWayForAll, stash.SameWayInGarment, stash.EitherWay} {
				needs[d] = needsOf(t, p, measure.Length(w)*mm, d)
			}
			one, same, either := needs[stash.SameWayForAll], needs[stash.SameWayInGarment], needs[stash.EitherWay]
			for name, n := range map[string]match.Needs{"one way": one, "one way in each garment": same, "either way": either} {
				if n.Folded == 0 || n.Open == 0 || n.Open > n.Folded {
					t.Errorf("%s on %d mm, %s: %d µm folded, %d open", p.Name, w, name, n.Folded, n.Open)
				}
			}
			if either.Folded > same.Folded || same.Folded > one.Folded || either.Open > same.Open || same.Open > one.Open {
				t.Errorf("%s on %d mm: freer takes more: %+v, %+v, %+v", p.Name, w, either, same, one)
			}
			fmt.Fprintf(&table, "%s %d %.1f %.1f %.1f %.1f\n", p.Name, w, inMM(one.Folded), inMM(either.Folded), inMM(one.Open), inMM(either.Open))
		}
	}
	compareHandwork(t, table.String())
}

func inMM(l measure.Length) float64 { return float64(l) / float64(mm) }

// needsOf lays one garment on a fabric of this usable width.
func needsOf(t testing.TB, p pattern.Pattern, width measure.Length, d stash.Direction) match.Needs {
	t.Helper()
	a := askFor(p, "M")
	a.Steps = handworkSteps
	f := jersey(width + 2*cm)
	f.Direction = d
	n, err := ask(t, a).Needs(context.Background(), f)
	if err != nil {
		t.Fatal(err)
	}
	return n
}

// handworkSlack is how much longer than in the table a layout may come out: a change in
// the search moves single lengths either way.
const handworkSlack = 1.03

// compareHandwork: no length is more than the slack above the table's.
func compareHandwork(t *testing.T, got string) {
	t.Helper()
	name := filepath.Join("..", "..", "testdata", "nest", "handwork.golden")
	if *updateHandwork {
		if err := os.WriteFile(name, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	is, was := strings.Split(got, "\n"), strings.Split(string(want), "\n")
	if len(is) != len(was) {
		t.Fatalf("%d lines, %d in %s", len(is), len(was), name)
	}
	for k := 1; k < len(is)-1; k++ {
		a, b := strings.Fields(is[k]), strings.Fields(was[k])
		for c := range a {
			var x, y float64
			if c < 2 && a[c] == b[c] {
				continue
			}
			if _, err := fmt.Sscan(a[c]+" "+b[c], &x, &y); err != nil || x > y*handworkSlack {
				t.Errorf("%s\nwas %s (go test -run Handwork -update-handwork writes the table anew)", is[k], was[k])
			}
		}
	}
}

// BenchmarkHandwork reports the mean length in mm over all garments and widths, open
// either way, and how much of the cloth that covers.
func BenchmarkHandwork(b *testing.B) {
	all, garments := readHandwork(b)
	for b.Loop() {
		sum, covered, n := 0.0, 0.0, 0.0
		for _, p := range garments {
			for _, w := range all.Widths {
				open := needsOf(b, p, measure.Length(w)*mm, stash.EitherWay).Open
				area := 0.0
				for _, q := range p.Pieces {
					area += float64(q.Whole("M").Area()) * float64(q.Cut)
				}
				sum, n = sum+inMM(open), n+1
				covered += area / (float64(open) * float64(w) * 1000)
			}
		}
		b.ReportMetric(sum/n, "mm/garment")
		b.ReportMetric(100*covered/n, "%covered")
	}
}
