package scene

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"
)

// 42 garments on one cloth differ, and of neighbours both paper and line do.
func TestGarmentsDiffer(t *testing.T) {
	seen := map[string]int{}
	for n := 1; n <= 42; n++ {
		m := MarkOf(n)
		key := fmt.Sprint(m.Paper, m.Line)
		if seen[key] > 0 {
			t.Errorf("garments %d and %d look alike", seen[key], n)
		}
		seen[key] = n
		if next := MarkOf(n + 1); next.Paper == m.Paper || next.Line == m.Line {
			t.Errorf("garments %d and %d share paper or line", n, n+1)
		}
	}
	if got := MarkOf(0); got.Line != MarkOf(1).Line {
		t.Errorf("no tint has the line %q", got.Line)
	}
}

func length(l Line) (sum float64) {
	for i, p := range l.Points[1:] {
		sum += math.Hypot(p.X-l.Points[i].X, p.Y-l.Points[i].Y)
	}
	return sum
}

// What is drawn of a line is the share of its dash, each dash as long as it should be however
// many corners there are.
func TestDashesRunRoundCorners(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		side := rapid.Float64Range(1, 200).Draw(rt, "side")
		dash := []float64{rapid.Float64Range(0.5, 9).Draw(rt, "on"), rapid.Float64Range(0.5, 9).Draw(rt, "off")}
		square := Line{Points: []Point{{0, 0}, {side, 0}, {side, side}, {0, side}}, Closed: true}
		got := Dashes(square, dash)
		drawn := 0.0
		for i, l := range got {
			drawn += length(l)
			if i < len(got)-1 && math.Abs(length(l)-dash[0]) > 1e-9*side {
				rt.Fatalf("dash %d is %v long, not %v", i, length(l), dash[0])
			}
		}
		turns, rest := math.Modf(4 * side / (dash[0] + dash[1]))
		want := turns*dash[0] + math.Min(rest*(dash[0]+dash[1]), dash[0])
		if math.Abs(drawn-want) > 1e-6*side {
			rt.Fatalf("%v of %v are drawn, want %v", drawn, 4*side, want)
		}
	})
	if got := Dashes(Line{Points: []Point{{0, 0}, {1, 0}}, Closed: true}, nil); len(got) != 1 || len(got[0].Points) != 3 {
		t.Errorf("a whole line is %v", got)
	}
}
