package shape

import (
	"errors"
	"fmt"
	"math"
	"testing"
)

// square is an upright square from a corner.
func square(x, y, side int64) Ring {
	return Box{Point{x, y}, Point{x + side, y + side}}.Ring()
}

// awkward is the list of odd outlines that every function is given.
var awkward = map[string]Ring{
	"nil":            nil,
	"empty":          {},
	"one point":      {{5, 5}},
	"two points":     {{0, 0}, {10, 0}},
	"one spot":       {{3, 3}, {3, 3}, {3, 3}, {3, 3}},
	"line":           {{0, 0}, {5, 5}, {10, 10}},
	"there and back": {{0, 0}, {10, 0}, {10, 10}, {10, 0}},
	"bow tie":        {{0, 0}, {10, 10}, {10, 0}, {0, 10}},
	"clockwise":      {{0, 0}, {0, 10}, {10, 10}, {10, 0}},
	"repeated":       {{0, 0}, {10, 0}, {10, 0}, {10, 10}},
	"spike":          {{0, 0}, {10, 0}, {10, 10}, {20, 10}, {10, 10}, {0, 10}},
	"pinched":        {{0, 0}, {10, 0}, {5, 5}, {10, 10}, {0, 10}, {5, 5}},
	"good":           {{0, 0}, {10, 0}, {10, 10}, {0, 10}},
	"straight angle": {{0, 0}, {5, 0}, {10, 0}, {10, 10}, {0, 10}},
	"tiny":           {{0, 0}, {1, 0}, {0, 1}},
	"huge":           square(-MaxCoordinate, -MaxCoordinate, 2*MaxCoordinate),
	"too large":      square(0, 0, MaxCoordinate+1),
}

// TestAwkwardOutlines gives every function every pair of odd outlines: none may
// panic, and ordering and emptiness rules hold for all of them.
func TestAwkwardOutlines(t *testing.T) {
	for nameA, a := range awkward {
		for nameB, b := range awkward {
			t.Run(nameA+" and "+nameB, func(t *testing.T) { tryAll(t, a, b) })
		}
	}
}

func tryAll(t *testing.T, a, b Ring) {
	p := Polygon{Outer: a, Holes: []Ring{b}}
	_ = p.Validate()
	_ = p.Contains(Point{5, 5})
	_, _ = Inside(a, p), OverlapsPolygon(b, p)
	_, _ = ClearPolygon(a, p, 3), InsideBy(a, p, 3)
	_, _, _ = a.Clean(), a.Hull(), p.Area()
	if got := len(p.Move(Point{1, 1}).Rings()); got != 2 {
		t.Errorf("moving kept %d of 2 rings", got)
	}
	if Overlaps(a, b) != Overlaps(b, a) {
		t.Error("Overlaps is not symmetric")
	}
	if d := Distance(a, b); math.IsNaN(d) || d < 0 {
		t.Errorf("distance %v", d)
	}
	if d := Depth(a, b); (d > 0) != Overlaps(a, b) {
		t.Errorf("depth %v, overlaps %v", d, Overlaps(a, b))
	}
	if OverlapArea(a, b) < 0 {
		t.Error("negative common area")
	}
	if a.Area2() == 0 && (Overlaps(a, b) || Inside(a, Polygon{Outer: b}) || !Clear(a, b, 5)) {
		t.Error("a ring without area overlaps, or lies in, another")
	}
	if got := len((Placement{Angle: 12_345, Mirror: true}).Apply(a)); got != len(a) {
		t.Errorf("laying made %d points of %d", got, len(a))
	}
}

// TestRingValidate asserts the numbered guarantees of Ring.Validate.
func TestRingValidate(t *testing.T) {
	want := map[string]error{
		"nil": ErrTooFew, "empty": ErrTooFew, "one point": ErrTooFew, "two points": ErrTooFew,
		"one spot": ErrRepeated, "line": ErrNoArea, "there and back": ErrDoubled, "bow tie": ErrCrossing,
		"clockwise": ErrClockwise, "repeated": ErrRepeated, "spike": ErrDoubled, "pinched": ErrTouching,
		"good": nil, "straight angle": nil, "tiny": nil, "huge": nil, "too large": ErrTooLarge,
	}
	for name, r := range awkward {
		if got := r.Validate(); !errors.Is(got, want[name]) {
			t.Errorf("%s: got %v, want %v", name, got, want[name])
		}
	}
}

func TestFaultSaysWhere(t *testing.T) {
	r := Ring{{0, 0}, {10_000, 10_000}, {10_000, 0}, {0, 10_000}}
	want := "the outline crosses itself near x 5.000 mm, y 5.000 mm"
	if got := r.Validate(); got == nil || got.Error() != want {
		t.Errorf("got %v, want %s", got, want)
	}
}

// TestPolygonValidate asserts the numbered guarantees of Polygon.Validate.
func TestPolygonValidate(t *testing.T) {
	hole := func(x, y, side int64) Ring { return square(x, y, side).Reverse() }
	for _, c := range []struct {
		name  string
		holes []Ring
		want  error
	}{
		{"plain", nil, nil},
		{"two holes", []Ring{hole(10, 10, 10), hole(30, 30, 10)}, nil},
		{"hole the wrong way round", []Ring{square(10, 10, 10)}, ErrClockwise},
		{"hole out", []Ring{hole(95, 10, 10)}, ErrHoleOut},
		{"hole beside", []Ring{hole(200, 10, 10)}, ErrHoleOut},
		{"hole along the edge", []Ring{hole(0, 10, 10)}, ErrHoleEdge},
		{"hole touches the edge in a point", []Ring{Ring{{0, 50}, {10, 60}, {10, 40}}}, nil},
		{"holes overlap", []Ring{hole(10, 10, 10), hole(15, 15, 10)}, ErrHolesMeet},
		{"holes nested", []Ring{hole(10, 10, 30), hole(15, 15, 10)}, ErrHolesMeet},
		{"holes share an edge", []Ring{hole(10, 10, 10), hole(20, 10, 10)}, ErrHoleEdge},
		{"holes share a corner", []Ring{hole(10, 10, 10), hole(20, 20, 10)}, nil},
		{"hole crosses itself", []Ring{{{10, 10}, {20, 20}, {20, 10}, {10, 20}}}, ErrCrossing},
	} {
		err := Polygon{square(0, 0, 100), c.holes}.Validate()
		if !errors.Is(err, c.want) {
			t.Errorf("%s: got %v, want %v", c.name, err, c.want)
		}
	}
}

// comb is an outline of n long teeth: the worst case for sweeps along one axis.
func comb(n int) Ring {
	r := Ring{{0, 0}, {1_000_000, 0}}
	for i := range n {
		y := int64(i) * 20
		r = append(r, Point{1_000_000, y + 10}, Point{10, y + 10}, Point{10, y + 20}, Point{1_000_000, y + 20})
	}
	return append(r, Point{1_000_000, int64(n)*20 + 10}, Point{0, int64(n)*20 + 10})
}

func TestValidateLargeOutlines(t *testing.T) {
	good := comb(1250)
	if err := good.Validate(); err != nil {
		t.Errorf("comb of %d points: %v", len(good), err)
	}
	bad := append(Ring{}, good...)
	bad[2501].Y += 15 // one tooth reaches into the next
	if err := bad.Validate(); err == nil {
		t.Error("a comb whose teeth cross was accepted")
	}
}

func BenchmarkValidate5000(b *testing.B) {
	for name, r := range map[string]Ring{"comb": comb(1250), "round": round(5000, 1_000_000)} {
		b.Run(fmt.Sprint(name, len(r)), func(b *testing.B) {
			for b.Loop() {
				if err := r.Validate(); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func round(n int, radius float64) Ring {
	var r Ring
	for i := range n {
		s, c := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		r = append(r, Point{int64(math.Round(radius * c)), int64(math.Round(radius * s))})
	}
	return r
}
