package nest

import (
	"context"
	"errors"
	"math"
	"testing"

	"tallycloth/stash/shape"
)

// ringOf reads a fuzzer's bytes as an outline: pairs of small steps, scaled.
func ringOf(data []byte, scale int64) shape.Ring {
	var out shape.Ring
	for k := 0; k+1 < len(data); k += 2 {
		out = append(out, shape.Point{X: int64(int8(data[k])) * scale, Y: int64(int8(data[k+1])) * scale})
	}
	return out
}

// FuzzAwkwardOutlines: whatever the outlines, the engine refuses them with a reason
// or lays them so that Check agrees; it neither panics nor goes on without end.
func FuzzAwkwardOutlines(f *testing.F) {
	f.Add([]byte{0, 0, 10, 0, 10, 10, 0, 10}, []byte{0, 0, 5, 0, 0, 5}, int64(1000), int64(0))
	f.Add([]byte{0, 0, 10, 0, 10, 0, 5, 0}, []byte{0, 0, 5, 0, 0, 5}, int64(1), int64(0))              // flat
	f.Add([]byte{0, 0, 10, 10, 10, 0, 0, 10}, []byte{0, 0, 5, 0, 0, 5}, int64(1000), int64(0))         // crosses itself
	f.Add([]byte{0, 0, 20, 0, 20, 20, 10, 1, 0, 20}, []byte{0, 0, 1, 0, 0, 90}, int64(9), int64(7))    // spiky, thin
	f.Add([]byte{0, 0, 9, 0, 9, 9, 5, 0, 0, 9}, []byte{1, 1, 2, 1, 1, 2}, int64(100_000), int64(3000)) // touches itself
	f.Fuzz(func(t *testing.T, a, b []byte, scale, clearance int64) {
		if len(a) > 64 || len(b) > 64 || scale < 1 || scale > 1_000_000 || clearance < 0 || clearance > 50_000 {
			return
		}
		in := Instance{Fabrics: []Fabric{{Width: 200 * scale}}, Clearance: clearance, Items: []Item{
			{Outline: ringOf(a, scale), Count: 2, Group: NoGroup, Mirror: EitherFace},
			{Outline: ringOf(b, scale), Count: 2, Group: NoGroup, Angles: []shape.Angle{0, 33_000}}}}
		got, err := Solve(context.Background(), in, Options{Steps: 2})
		if err == nil && Check(in, got.Solution) != nil {
			t.Fatalf("the answer does not pass: %v", Check(in, got.Solution))
		}
	})
}

// wave is an outline of n points with n/10 teeth.
func wave(n int, r float64) shape.Ring {
	var out shape.Ring
	for i := range n {
		t := 2 * math.Pi * float64(i) / float64(n)
		k := r * (1 + 0.05*math.Sin(t*float64(n/10)))
		out = append(out, shape.Point{X: int64(math.Round(k * math.Cos(t))), Y: int64(math.Round(k * math.Sin(t)))})
	}
	return out.Clean()
}

// TestManyVertices: outlines of 5 000 points are laid, through simplified ones.
func TestManyVertices(t *testing.T) {
	in := Instance{Fabrics: []Fabric{{Width: 1_000_000}}, Items: []Item{{Outline: wave(5000, 200_000), Count: 2, Group: NoGroup}}}
	if a := solved(t, in, Options{Steps: 2}); len(a.Solution.Left) > 0 {
		t.Errorf("%d left over", len(a.Solution.Left))
	}
}

// TestTinyAndHuge: a few µm beside hundreds of metres.
func TestTinyAndHuge(t *testing.T) {
	square := func(a int64) shape.Ring { return shape.Ring{{}, {X: a}, {X: a, Y: a}, {Y: a}} }
	in := Instance{Fabrics: []Fabric{{Width: 60_000_000}}, Items: []Item{
		{Outline: square(2), Count: 3, Group: NoGroup}, {Outline: square(50_000_000), Count: 2, Group: NoGroup}}}
	if a := solved(t, in, Options{Steps: 3}); len(a.Solution.Left) > 0 || a.Solution.Used[0] != 100_000_000 {
		t.Errorf("%d left over, %v µm used", len(a.Solution.Left), a.Solution.Used)
	}
}

// TestCrossingIsRefused: an outline that crosses itself is refused with the reason.
func TestCrossingIsRefused(t *testing.T) {
	bow := shape.Ring{{}, {X: 10_000, Y: 10_000}, {X: 10_000}, {Y: 12_000}}
	in := Instance{Fabrics: []Fabric{{Width: 60_000}}, Items: []Item{{Outline: bow, Group: NoGroup}}}
	var fault *shape.Fault
	if _, err := Solve(context.Background(), in, Options{}); !errors.As(err, &fault) {
		t.Errorf("got %v", err)
	}
}
