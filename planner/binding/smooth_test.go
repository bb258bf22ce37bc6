package binding_test

import (
	"math"
	"testing"

	"tallycloth/planner/binding"

	"pgregory.net/rapid"
)

// TestSmoothCircle: through a few points of a circle the line is as long as the circle within half a
// percent, and turns once round (plane geometry: 2πr, 360°); so for a half circle left open, but for its ends.
func TestSmoothCircle(t *testing.T) {
	const r = 1e5
	for _, c := range []struct {
		points, upTo int
		closed       bool
		length, turn float64
		near, within float64
	}{
		{8, 8, true, 2 * math.Pi * r, 2 * math.Pi, 0.005, 0.001},
		{12, 12, true, 2 * math.Pi * r, 2 * math.Pi, 0.002, 0.001},
		{24, 13, false, math.Pi * r, math.Pi, 0.002, 0.03},
	} {
		var drawn [][2]float64
		for i := range c.upTo {
			a := 2 * math.Pi * float64(i) / float64(c.points)
			drawn = append(drawn, [2]float64{r * math.Cos(a), r * math.Sin(a)})
		}
		got, err := binding.EdgeAlong(binding.Smooth(drawn, c.closed), c.closed)
		if err != nil || len(got) != 1 {
			t.Fatalf("%d points: %+v, %v", c.points, got, err)
		}
		if l := float64(got[0].Length); math.Abs(l/c.length-1) > c.near {
			t.Errorf("%d points: %.0f µm long, the arc %.0f", c.points, l, c.length)
		}
		if math.Abs(got[0].Turning-c.turn) > c.within {
			t.Errorf("%d points: it turns %.3f, the arc %.3f", c.points, got[0].Turning, c.turn)
		}
	}
}

// TestSmoothKeepsPoints: the line goes through every point drawn, in order, and points on a straight
// line stay straight.
func TestSmoothKeepsPoints(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(3, 9).Draw(t, "points")
		var drawn [][2]float64
		for range n {
			drawn = append(drawn, [2]float64{float64(rapid.IntRange(0, 1_000_000).Draw(t, "x")), float64(rapid.IntRange(0, 1_000_000).Draw(t, "y"))})
		}
		closed := rapid.Bool().Draw(t, "closed")
		got := binding.Smooth(drawn, closed)
		at := 0
		for _, q := range got {
			if at < len(drawn) && math.Hypot(q[0]-drawn[at][0], q[1]-drawn[at][1]) < 1e-3 {
				at++
				for at < len(drawn) && drawn[at] == drawn[at-1] {
					at++
				}
			}
			if math.IsNaN(q[0]) || math.IsNaN(q[1]) {
				t.Fatalf("%v of %v", q, drawn)
			}
		}
		if at < len(drawn) && !(closed && at == len(drawn)-1 && drawn[at] == drawn[0]) {
			t.Fatalf("only %d of %v are passed", at, drawn)
		}
		k := float64(rapid.IntRange(1, 5).Draw(t, "slope"))
		for _, q := range binding.Smooth([][2]float64{{0, 0}, {1e4, k * 1e4}, {5e4, k * 5e4}, {9e4, k * 9e4}}, false) {
			if math.Abs(q[1]-k*q[0]) > 1e-3 {
				t.Fatalf("%v is off the straight line", q)
			}
		}
	})
}
