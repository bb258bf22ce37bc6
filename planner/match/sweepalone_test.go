package match_test

import (
	"context"
	"reflect"
	"testing"

	"pgregory.net/rapid"

	"tallycloth/planner/match"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// TestSweepAnswersAsAlone: whatever a shelf holds, every verdict of a sweep, layout and
// all, is that of the cloth asked about by itself. What cloths share changes nothing.
func TestSweepAnswersAsAlone(t *testing.T) {
	tank, tee, shorts := demo(t)
	rapid.Check(t, func(t *rapid.T) {
		p := rapid.SampledFrom([]pattern.Pattern{slab(), tank, shorts, tee}).Draw(t, "pattern")
		a := askFor(p, p.Sizes[rapid.IntRange(0, len(p.Sizes)-1).Draw(t, "size")].Name)
		if rapid.Bool().Draw(t, "strips") {
			a.Strips = []match.StripAsk{{Name: "hem", Length: 60 * cm, Width: 4 * cm, MayJoin: true, JoinLoss: cm, Count: 2}}
		}
		var cloths []stash.ClothState
		for range rapid.IntRange(2, 4).Draw(t, "cloths") {
			cloths = append(cloths, anyCloth(t))
		}
		q, err := match.New(a)
		if err != nil {
			t.Fatal(err)
		}
		all, err := q.Sweep(context.Background(), cloths, 2, nil)
		if err != nil {
			t.Fatal(err)
		}
		for i, c := range cloths {
			alone, err := match.New(a)
			if err != nil {
				t.Fatal(err)
			}
			if v := must(t, alone, c); !reflect.DeepEqual(v, all[i]) {
				t.Fatalf("cloth %d: graded %d in the sweep, %d alone, or laid otherwise", i, all[i].Grade, v.Grade)
			}
		}
	})
}

// anyCloth is a length or a leftover of one of a few widths, so that some share a bed,
// some of them with a part reserved.
func anyCloth(t *rapid.T) stash.ClothState {
	f := jersey(measure.Length(rapid.SampledFrom([]int{90, 140, 150}).Draw(t, "width")) * cm)
	f.Direction = stash.Direction(rapid.IntRange(0, 2).Draw(t, "direction"))
	f.SameBothFace = rapid.Bool().Draw(t, "faces")
	length := rapid.IntRange(400, 1600).Draw(t, "length")
	if rapid.IntRange(0, 4).Draw(t, "kind") == 0 {
		return leftoverOf(f, armholeCut(int64(length), int64(rapid.IntRange(500, 1000).Draw(t, "across"))))
	}
	c := lengthOf(f, measure.Length(length)*mm)
	c.Cloth.Washed = rapid.Bool().Draw(t, "washed")
	if x := int64(rapid.IntRange(0, 2*length).Draw(t, "reserved")); x < int64(length)-100 {
		c = withReserved(c, shape.Box{Min: shape.Point{X: x * 1000, Y: 300_000}, Max: shape.Point{X: (x + 90) * 1000, Y: 600_000}})
	}
	return c
}
