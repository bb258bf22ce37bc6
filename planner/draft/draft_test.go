package draft

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"tallycloth/planner/binding"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/measure"

	"pgregory.net/rapid"
)

func demo(t testing.TB) []pattern.Pattern {
	t.Helper()
	return DemoPatterns(func() stash.ID { return stash.ID{1} })
}

func TestDemoPatternsAreValidInEverySize(t *testing.T) {
	for _, p := range demo(t) {
		if err := p.Validate(); err != nil {
			t.Errorf("%s: %v", p.Name, err)
		}
		if len(p.Sizes) < 6 {
			t.Errorf("%s: %d sizes, want at least six", p.Name, len(p.Sizes))
		}
		for _, q := range p.Pieces {
			for size := range q.Outlines {
				if err := q.Whole(size).Validate(); err != nil {
					t.Errorf("%s %s whole in size %s: %v", p.Name, q.Name, size, err)
				}
			}
		}
	}
}

func TestPiecesGrowWithTheSize(t *testing.T) {
	for _, p := range demo(t) {
		for _, q := range p.Pieces {
			for i := 1; i < len(p.Sizes); i++ {
				a, b := q.Outlines[p.Sizes[i-1].Name].Cut, q.Outlines[p.Sizes[i].Name].Cut
				if b.Area() <= a.Area() || b.Bounds().Width() <= a.Bounds().Width() {
					t.Errorf("%s %s: size %s is not larger than %s", p.Name, q.Name, p.Sizes[i].Name, p.Sizes[i-1].Name)
				}
			}
		}
	}
}

// Seams that are sewn together are equally long; a sleeve cap is eased in.
func TestSeamsMeet(t *testing.T) {
	for _, b := range Chart() {
		for _, tt := range []torso{tankTorso(b), teeTorso(b)} {
			front, back := tt.sides(tt.front), tt.sides(tt.back)
			for _, k := range []int{2, 4} {
				if d := lengthOf(front[k].pts) - lengthOf(back[k].pts); math.Abs(d) > 0.01 {
					t.Errorf("size %s: seam %d differs by %.2f mm", b.Size, k, d)
				}
			}
		}
		tee := teeTorso(b)
		armhole := 2 * lengthOf(tee.sides(tee.front)[3].pts)
		if got := lengthOf(sleeve(armhole, 120, 110)[2].pts) - armhole; math.Abs(got-capEase) > 0.05 {
			t.Errorf("size %s: the cap is %.2f mm longer than the armhole, want %.0f", b.Size, got, capEase)
		}
		f, k := legs(b)
		fs, ks := f.sides(), k.sides()
		for _, seam := range []int{1, 3} {
			if d := lengthOf(fs[seam].pts) - lengthOf(ks[seam].pts); math.Abs(d) > 0.01 {
				t.Errorf("size %s: shorts seam %d differs by %.2f mm", b.Size, seam, d)
			}
		}
	}
}

// segments returns every segment of every edge in a size, by name.
func segments(t *testing.T, p pattern.Pattern, size string) map[string]pattern.MeasuredSegment {
	t.Helper()
	out := map[string]pattern.MeasuredSegment{}
	for _, e := range p.Edges {
		found, missing := p.Measure(e, size)
		if len(missing) > 0 {
			t.Fatalf("%s size %s: no path for %v", p.Name, size, missing)
		}
		for _, m := range found {
			out[m.Name] = m
		}
	}
	return out
}

// Common practice: a strip is shortest against its edge at the front neck, so the
// front neck must turn more for its length than the back neck and the armholes do.
func TestFrontNeckTurnsMost(t *testing.T) {
	for _, p := range demo(t)[:2] {
		for _, s := range p.Sizes {
			found := segments(t, p, s.Name)
			per := func(name string) float64 { return found[name].Turning / float64(found[name].Length) }
			for _, m := range found {
				if m.Piece == "" {
					continue
				}
				if m.Turning <= 0 || m.Length <= 0 || m.Name != "front neck" && per(m.Name) >= per("front neck") {
					t.Errorf("%s size %s: %s turns %.2f over %d µm, front neck %.2f over %d µm", p.Name, s.Name,
						m.Name, m.Turning, m.Length, found["front neck"].Turning, found["front neck"].Length)
				}
			}
		}
	}
}

// TestChartIsThePublishedOne compares with the printed table, row 8 being size 1.
func TestChartIsThePublishedOne(t *testing.T) {
	f, err := os.Open(filepath.Join("..", "..", "testdata", "body", "misses.csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for i, b := range Chart() {
		row := rows[2+i]
		for k, got := range []float64{b.Bust, b.Waist, b.Hip, b.BackWaist} {
			want, err := strconv.ParseFloat(row[1+k], 64)
			if err != nil || math.Abs(got-want*25.4) > 1e-9 {
				t.Errorf("size %s: %s is %g mm, printed %s in", b.Size, rows[0][1+k], got, row[1+k])
			}
		}
	}
}

// TestFinishedFollowsTheBody: girths grow with the size, the tank is a little smaller
// than the body and the sleep shirt larger, never beyond what the fabric asked gives:
// a third of its stretch is comfortable (common practice).
func TestFinishedFollowsTheBody(t *testing.T) {
	for _, p := range demo(t) {
		main, _ := p.Role(pattern.Main)
		for i, s := range p.Sizes {
			for _, l := range p.Levels {
				if i > 0 && s.Finished[l.Name] <= p.Sizes[i-1].Finished[l.Name] {
					t.Errorf("%s size %s: %s does not grow", p.Name, s.Name, l.Name)
				}
				if !l.Girth {
					continue
				}
				worn, ok := s.WearStretch(l.Name)
				if !ok || worn > main.StretchAround/3 {
					t.Errorf("%s size %s: worn, the %s stretches %v of %v", p.Name, s.Name, l.Name, worn, main.StretchAround)
				}
			}
		}
	}
}

// TestOutlinesMatchTheChart: girths on the stitching lines are those of the chart.
func TestOutlinesMatchTheChart(t *testing.T) {
	for _, p := range demo(t)[:2] {
		for _, s := range p.Sizes {
			var hem float64
			for _, q := range p.Pieces[:2] {
				hem += 2 * edgeOf(t, q, s.Name, "hem").Length().Millimetres()
			}
			if want := s.Finished[pattern.Hip].Millimetres(); math.Abs(hem-want) > 0.5 {
				t.Errorf("%s size %s: the hem is %.1f mm round, the chart has %.1f", p.Name, s.Name, hem, want)
			}
		}
	}
}

func edgeOf(t testing.TB, q pattern.Piece, size, name string) pattern.EdgePath {
	t.Helper()
	for _, e := range q.Outlines[size].Edges {
		if e.Name == name {
			return e
		}
	}
	t.Fatalf("%s has no edge %q in size %s", q.Name, name, size)
	return pattern.EdgePath{}
}

// TestStripsOfTheTank: worked out with the binding itself, the strip is shorter than its
// edge, most at the front neck: r front < r back < 1 and r front < r armhole < 1
// (common practice), and every check passes on a jersey that stretches as asked.
func TestStripsOfTheTank(t *testing.T) {
	tank := demo(t)[0]
	jersey := binding.FabricFacts{Stretch: 60 * measure.OnePercent, Recovery: 92 * measure.OnePercent, Knit: true}
	for _, s := range tank.Sizes {
		ratio := map[string]float64{}
		for _, e := range tank.Edges {
			job := binding.Job{Name: e.Name, Count: e.Count, Closed: e.Closed,
				Finish: binding.Finish{Technique: binding.Technique(e.Finish), Width: e.Width, Seam: length(bindingSeam)}}
			found, _ := tank.Measure(e, s.Name)
			for _, m := range found {
				job.Segments = append(job.Segments, binding.Segment{Name: m.Name, Length: m.Length, Turning: m.Turning, Free: m.Piece == "", Catches: m.Catches})
			}
			strip, err := binding.Work(job, jersey)
			if err != nil {
				t.Fatal(err)
			}
			for _, part := range strip.Parts {
				ratio[part.Segment.Name] = part.Ratio
			}
			for _, c := range strip.Checks {
				if !c.OK {
					t.Errorf("size %s %s: %+v", s.Name, e.Name, c)
				}
			}
		}
		front := ratio["front neck"]
		for _, other := range []string{"back neck", "front armhole", "back armhole"} {
			if !(front < ratio[other] && ratio[other] < 1) {
				t.Errorf("size %s: front neck %.3f, %s %.3f", s.Name, front, other, ratio[other])
			}
		}
	}
}

// TestOrderOfWork: the tank is tried on before its edges are bound, before the straps are
// trimmed, and before the hem.
func TestOrderOfWork(t *testing.T) {
	var asks []string
	for _, s := range demo(t)[0].Work {
		if s.TryOn {
			asks = append(asks, s.Asks)
		}
	}
	if len(asks) != 3 || asks[0] != "take-in" || asks[1] != "strap length" || asks[2] != "hem" {
		t.Errorf("try-on stops %q", asks)
	}
}

// TestAnyBodyDraftsValidPieces drafts bodies that are on no chart.
func TestAnyBodyDraftsValidPieces(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		bust := rapid.Float64Range(740, 1240).Draw(t, "bust")
		b := Body{Size: "own", Bust: bust, Waist: bust - rapid.Float64Range(110, 230).Draw(t, "waist"),
			Hip: bust + rapid.Float64Range(-20, 110).Draw(t, "hip"), BackWaist: rapid.Float64Range(380, 460).Draw(t, "back waist")}
		for _, p := range []pattern.Pattern{Tank([]Body{b}), Tee([]Body{b}), Shorts([]Body{b})} {
			if err := p.Validate(); err != nil {
				t.Fatalf("%s for %+v: %v", p.Name, b, err)
			}
		}
	})
}

// TestDeterministic: drafting twice gives the same records.
func TestDeterministic(t *testing.T) {
	a, b := demo(t), demo(t)
	for i := range a {
		for _, q := range a[i].Pieces {
			for size, o := range q.Outlines {
				other, _ := b[i].Piece(q.Code)
				if len(o.Cut) != len(other.Outlines[size].Cut) || o.Cut.Area2() != other.Outlines[size].Cut.Area2() {
					t.Errorf("%s %s differs from itself", a[i].Name, q.Name)
				}
			}
		}
	}
}
