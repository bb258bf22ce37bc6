package shape

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// TestRelations asserts the guarantees of Overlaps, Inside and Clear row by row.
// All outlines are in µm; side 100 at the origin is the other one.
func TestRelations(t *testing.T) {
	base := square(0, 0, 100)
	notch := Ring{{0, 0}, {100, 0}, {100, 100}, {60, 100}, {60, 40}, {40, 40}, {40, 100}, {0, 100}}
	for _, c := range []struct {
		name             string
		a, b             Ring
		overlaps, inside bool
	}{
		{"the same", base, base, true, true},
		{"the same, other start", Ring{{100, 0}, {100, 100}, {0, 100}, {0, 0}}, base, true, true},
		{"apart", square(200, 0, 10), base, false, false},
		{"corner on corner", square(100, 100, 10), base, false, false},
		{"edge on edge", square(100, 20, 10), base, false, false},
		{"whole edge on edge", square(100, 0, 100), base, false, false},
		{"1 µm over the edge", square(99, 20, 10), base, true, false},
		{"inside", square(20, 20, 10), base, true, true},
		{"inside against the edge", square(0, 20, 10), base, true, true},
		{"inside against the corner", square(0, 0, 10), base, true, true},
		{"around", square(-10, -10, 200), base, true, false},
		{"crossing bars", Ring{{-50, 40}, {150, 40}, {150, 60}, {-50, 60}}, base, true, false},
		{"bar through both edges exactly", Ring{{0, 40}, {100, 40}, {100, 60}, {0, 60}}, base, true, true},
		{"in the notch, touching", square(40, 40, 20), notch, false, false},
		{"in the notch, 1 µm too wide", Ring{{40, 40}, {61, 40}, {61, 60}, {40, 60}}, notch, true, false},
		{"across the notch's mouth", Ring{{0, 90}, {100, 90}, {100, 100}, {0, 100}}, notch, true, false},
		{"corner to corner through", Ring{{0, 0}, {100, 100}, {0, 100}}, base, true, true},
		{"corner passes through a corner", Ring{{50, 150}, {150, 50}, {160, 160}}, base, false, false},
		{"corner 1 µm in", Ring{{50, 149}, {150, 49}, {160, 160}}, base, true, false},
	} {
		for _, b := range []Ring{c.b, c.b.Reverse()} {
			if got := Overlaps(c.a, b); got != c.overlaps {
				t.Errorf("%s: Overlaps %v", c.name, got)
			}
			if got := Overlaps(b, c.a); got != c.overlaps {
				t.Errorf("%s: Overlaps %v the other way", c.name, got)
			}
			if got := Inside(c.a, Polygon{Outer: b}); got != c.inside {
				t.Errorf("%s: Inside %v", c.name, got)
			}
		}
		if got := Clear(c.a, c.b, 0); got == c.overlaps {
			t.Errorf("%s: Clear %v", c.name, got)
		}
		if area := OverlapArea(c.a, c.b); (area > 1e-6) != c.overlaps {
			t.Errorf("%s: common area %v", c.name, area)
		}
	}
}

// TestHoles: lying in a hole is outside the polygon and clear of it.
func TestHoles(t *testing.T) {
	p := Polygon{square(0, 0, 100), []Ring{square(40, 40, 20).Reverse()}}
	for _, c := range []struct {
		name                    string
		r                       Ring
		inside, overlaps, clear bool // clear by 5
	}{
		{"beside the hole", square(10, 10, 20), true, true, false},
		{"fills the hole", square(40, 40, 20), false, false, false},
		{"in the hole", square(45, 45, 10), false, false, true},
		{"in the hole, near its edge", square(44, 45, 10), false, false, false},
		{"over the hole's edge", square(30, 45, 11), false, true, false},
		{"over all of the hole", square(30, 30, 40), false, true, false},
		{"far outside", square(105, 0, 10), false, false, true},
	} {
		if got := Inside(c.r, p); got != c.inside {
			t.Errorf("%s: Inside %v", c.name, got)
		}
		if got := OverlapsPolygon(c.r, p); got != c.overlaps {
			t.Errorf("%s: OverlapsPolygon %v", c.name, got)
		}
		if got := ClearPolygon(c.r, p, 5); got != c.clear {
			t.Errorf("%s: ClearPolygon %v", c.name, got)
		}
	}
	if !InsideBy(square(10, 10, 20), p, 10) || InsideBy(square(10, 10, 20), p, 11) {
		t.Error("InsideBy does not change at exactly 10 µm")
	}
}

// TestClearIsExact: the 3-4-5 triangle gives slanted distances that are whole.
func TestClearIsExact(t *testing.T) {
	slant := Ring{{0, 0}, {400, -300}, {400, 0}} // its long edge is 3x + 4y = 0
	for k := int64(1); k < 50; k++ {
		// The corner (−3k, −4k) moved off the edge's middle (200, −150) lies 5k away.
		tip := Point{200 - 3*k, -150 - 4*k}
		r := Ring{tip, {tip.X - 400, tip.Y - 10}, {tip.X - 10, tip.Y - 400}}.ccw()
		if !Clear(slant, r, 5*k) || Clear(slant, r, 5*k+1) {
			t.Errorf("k = %d: clear by %d: %v, by 1 µm more: %v", k, 5*k, Clear(slant, r, 5*k), Clear(slant, r, 5*k+1))
		}
		if d := Distance(slant, r); math.Abs(d-float64(5*k)) > 1e-9 {
			t.Errorf("k = %d: distance %v", k, d)
		}
	}
}

func (r Ring) ccw() Ring {
	if r.Area2() < 0 {
		return r.Reverse()
	}
	return r
}

// star draws a valid ring about a point.
func star(t *rapid.T, name string) Ring {
	return rapid.Custom(func(t *rapid.T) Ring {
		n := rapid.IntRange(3, 9).Draw(t, "corners")
		at := Point{rapid.Int64Range(-40, 40).Draw(t, "x"), rapid.Int64Range(-40, 40).Draw(t, "y")}
		var r Ring
		for i := range n {
			far := rapid.Float64Range(10, 60).Draw(t, "reach")
			s, c := math.Sincos(2 * math.Pi * float64(i) / float64(n))
			r = append(r, Point{int64(math.Round(far * c)), int64(math.Round(far * s))}.Add(at))
		}
		return r.Clean()
	}).Filter(func(r Ring) bool { return r.Validate() == nil }).Draw(t, name)
}

// TestRelationsAgreeWithArea: the exact answers against the measured common area.
func TestRelationsAgreeWithArea(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := star(t, "a"), star(t, "b")
		common := OverlapArea(a, b)
		if Overlaps(a, b) != (common > 1e-6) {
			t.Errorf("Overlaps %v, common area %v", Overlaps(a, b), common)
		}
		whole := math.Abs(common-float64(a.Area2())/2) < 1e-6
		if Inside(a, Polygon{Outer: b}) != whole {
			t.Errorf("Inside %v, area %v, common %v", !whole, float64(a.Area2())/2, common)
		}
		gap := rapid.Int64Range(1, 40).Draw(t, "gap")
		if d := Distance(a, b); math.Abs(d-float64(gap)) > 1e-6 && Clear(a, b, gap) != (d > float64(gap)) {
			t.Errorf("Clear(%d) %v at distance %v", gap, Clear(a, b, gap), d)
		}
	})
}
