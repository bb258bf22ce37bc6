package match_test

import (
	"testing"

	"tallycloth/planner/match"
	"tallycloth/planner/pattern"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"

	"pgregory.net/rapid"
)

// uneven is an outline that is no mirror image of itself.
var uneven = shape.Ring{{X: 0, Y: 0}, {X: 420_000, Y: 10_000}, {X: 380_000, Y: 150_000}, {X: 90_000, Y: 210_000}, {X: -20_000, Y: 130_000}}

// However a piece is placed, and whatever it is made larger by, it is found how it lies: marks on it
// come to lie where they were laid.
func TestLieIsFound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		place := shape.Placement{
			Angle:  shape.Angle(rapid.SampledFrom([]int32{0, 45_000, 90_000, 180_000, 270_000, 225_000}).Draw(t, "angle")),
			Mirror: rapid.Bool().Draw(t, "mirror"),
			At:     shape.Point{X: rapid.Int64Range(0, 3_000_000).Draw(t, "x"), Y: rapid.Int64Range(0, 1_500_000).Draw(t, "y")},
		}
		along := rapid.Float64Range(0.97, 1.12).Draw(t, "along")
		across := rapid.Float64Range(0.97, 1.12).Draw(t, "across")
		laid := match.Lie{Along: along, Across: across, Place: place}
		ring := make(shape.Ring, len(uneven))
		for i, p := range uneven {
			ring[i] = laid.At(p)
		}
		if place.Mirror {
			ring = ring.Reverse()
		}
		turn := shape.Placement{Angle: place.Angle, Mirror: place.Mirror}
		got, ok := match.LieOf(uneven, ring, turn.ApplyPoint(shape.Point{X: -1000}))
		if !ok {
			t.Fatalf("%+v is not found", laid)
		}
		for _, p := range []shape.Point{{X: 100_000, Y: 50_000}, {X: 300_000, Y: 100_000}} {
			if d := got.At(p).Sub(laid.At(p)); max(d.X, -d.X, d.Y, -d.Y) > 20 {
				t.Errorf("a mark lies %v µm off", d)
			}
		}
		other := append(shape.Ring{}, ring...)
		other[2] = other[2].Add(shape.Point{X: 2_000})
		if _, ok := match.LieOf(uneven, other, turn.ApplyPoint(shape.Point{X: -1000})); ok {
			t.Error("an outline that was changed is taken for the piece")
		}
	})
}

// How a cloth was folded shows in what is cut from it.
func TestFoldsOf(t *testing.T) {
	half := shape.Ring{{X: 0, Y: 0}, {X: 300_000, Y: 0}, {X: 280_000, Y: 200_000}, {X: 10_000, Y: 180_000}}
	whole := pattern.Unfold(half)
	cloth := shape.Box{Max: shape.Point{X: 2_000_000, Y: 1_500_000}}
	at := func(r shape.Ring, x, y int64) shape.Ring { return r.Move(shape.Point{X: x, Y: y}) }
	turned := func(r shape.Ring, x, y int64) shape.Ring {
		return shape.Placement{Mirror: true, At: shape.Point{X: x, Y: y}}.Apply(r)
	}
	for name, c := range map[string]struct {
		outlines []shape.Ring
		want     []int64
	}{
		"on a fold in the middle, and a pair": {[]shape.Ring{at(whole, 0, 750_000), at(uneven, 500_000, 1_000_000), turned(uneven, 500_000, 500_000)}, []int64{750_000}},
		"folded as deep as the piece":         {[]shape.Ring{at(whole, 0, 210_000), at(uneven, 0, 800_000)}, []int64{210_000}},
		"both selvedges to the middle":        {[]shape.Ring{at(whole, 0, 375_000), at(whole, 0, 1_125_000)}, []int64{375_000, 1_125_000}},
		"one layer":                           {[]shape.Ring{at(whole, 0, 250_000), at(whole, 400_000, 820_000), at(uneven, 800_000, 300_000)}, nil},
		"nothing":                             {nil, nil},
	} {
		got := match.FoldsOf(cloth, c.outlines)
		if len(got) != len(c.want) {
			t.Errorf("%s: folds at %v", name, got)
			continue
		}
		for i := range got {
			if d := got[i] - c.want[i]; max(d, -d) > 20 {
				t.Errorf("%s: folds at %v", name, got)
			}
		}
	}
}

// The folds of unwashed cloth are found where the layout has them: what counts of it is narrower than
// what lies there now.
func TestFoldsOfUnwashedCloth(t *testing.T) {
	p := slab()
	p.Pieces = p.Pieces[:1]
	p.Pieces[0].Cut = 2
	for _, width := range []measure.Length{160 * cm, 142 * cm} {
		c := unwashed(lengthOf(jersey(width), 230*cm))
		a := askFor(p, "M")
		v := verdict(t, a, c)
		if v.Layout == nil || len(v.Layout.Frame.Folds) != 2 {
			t.Fatalf("not folded from both sides: %+v", v.Reasons)
		}
		var rings []shape.Ring
		for _, q := range v.Layout.Pieces {
			rings = append(rings, q.Outline)
		}
		f := v.Layout.Frame
		want := []int64{f.Origin.Y, f.Origin.Y + int64(f.Width)}
		got := match.FoldsOf(match.Counts(c, a.EndLoss), rings)
		if len(got) != 2 || max(got[0]-want[0], want[0]-got[0], got[1]-want[1], want[1]-got[1]) > 40 {
			t.Errorf("on %d µm folds at %v, want %v", width, got, want)
		}
	}
}
