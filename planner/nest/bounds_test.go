package nest

import (
	"testing"

	"tallycloth/stash/shape"
)

// TestBoundsProve: each proof where it applies, and none 1 µm before.
func TestBoundsProve(t *testing.T) {
	bar := shape.Box{Max: shape.Point{X: 100_000, Y: 20_000}}.Ring()
	question := func(length, width int64, change func(*Instance)) Instance {
		in := Instance{Ask: FitsAll, Fabrics: []Fabric{{Width: width, Length: length}}, Items: []Item{{Outline: bar, Group: NoGroup}}}
		change(&in)
		return in
	}
	plain := func(*Instance) {}
	turned := func(in *Instance) { in.Items[0].Angles = []shape.Angle{shape.Turn90} }
	for _, c := range []struct {
		name string
		in   Instance
		want BoundKind
	}{
		{"just fits", question(100_000, 20_000, plain), NoBound},
		{"too long", question(99_999, 30_000, plain), BoundLength},
		{"too wide", question(900_000, 19_999, plain), BoundWidth},
		{"too wide turned", question(900_000, 99_999, turned), BoundWidth},
		{"two by area", question(100_000, 39_999, func(in *Instance) { in.Items[0].Count = 2 }), BoundArea},
		{"two just fit", question(100_000, 40_000, func(in *Instance) { in.Items[0].Count = 2 }), NoBound},
		{"no fold", question(900_000, 900_000, func(in *Instance) { in.Items[0].OnFold = true }), BoundBand},
		{"no two layers", question(900_000, 900_000, func(in *Instance) { in.Items[0].Layers = 2 }), BoundBand},
		{"a flaw takes the area", question(100_000, 20_000, func(in *Instance) {
			in.Fabrics[0].Obstacles = []shape.Polygon{{Outer: shape.Ring{{X: 0, Y: 0}, {X: 10, Y: 0}, {X: 0, Y: 10}}}}
		}), BoundArea},
		{"tilt proves nothing", question(99_999, 30_000, func(in *Instance) { in.Items[0].Tilt = 2000 }), NoBound},
	} {
		if got := bounds(c.in); got.Kind != c.want {
			t.Errorf("%s: got %+v, want kind %v", c.name, got, c.want)
		}
	}
}

// BenchmarkBounds: a garment of 40 outlines on a fabric too small for it.
func BenchmarkBounds(b *testing.B) {
	in := garmentOf(40, 300_000)
	for b.Loop() {
		if bounds(in).Kind == NoBound {
			b.Fatal("not refused")
		}
	}
}
