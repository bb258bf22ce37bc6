package draft

import (
	"math"
	"testing"

	"tallycloth/planner/pattern"
	"tallycloth/stash"
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
			if d := lengthOf(fs[seam].pts) - lengthOf(ks[seam].pts); math.Abs(d) > 3 {
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
