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
			front, back := tt.front(), tt.back()
			for _, k := range []int{2, 4} {
				if d := lengthOf(front[k].pts) - lengthOf(back[k].pts); math.Abs(d) > 0.01 {
					t.Errorf("size %s: seam %d differs by %.2f mm", b.Size, k, d)
				}
			}
		}
		armhole := 2 * lengthOf(teeTorso(b).front()[3].pts)
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

// Common practice: the strip is shortest against its edge at the front neck, so the
// front neck must turn more for its length than the back neck and the armhole do.
func TestFrontNeckTurnsMost(t *testing.T) {
	p := demo(t)[0]
	for _, s := range p.Sizes {
		neck, _ := p.Edge("neck")
		hole, _ := p.Edge("armhole")
		n, missing := p.Measure(neck, s.Name)
		a, more := p.Measure(hole, s.Name)
		if len(missing)+len(more) > 0 {
			t.Fatalf("missing %v %v", missing, more)
		}
		for _, m := range append(n, a...) {
			if m.Turning <= 0 || m.Length <= 0 {
				t.Errorf("size %s %s: turning %.2f over %v", s.Name, m.Name, m.Turning, m.Length)
			}
		}
		per := func(m pattern.MeasuredSegment) float64 { return m.Turning / float64(m.Length) }
		if per(n[0]) <= per(n[1]) || per(n[0]) <= per(a[0]) {
			t.Errorf("size %s: the front neck does not turn most for its length", s.Name)
		}
		t.Logf("size %s: front neck %d mm %.2f rad, back neck %d mm %.2f rad, armholes %d+%d mm %.2f rad", s.Name,
			n[0].Length/1000, n[0].Turning, n[1].Length/1000, n[1].Turning, a[0].Length/1000, a[1].Length/1000, a[0].Turning)
	}
}
