package nest_test

import (
	"slices"
	"strings"
	"testing"

	"tallycloth/planner/nest"
	"tallycloth/planner/nest/nesttest"
	"tallycloth/stash/shape"
)

// cutSeeds is how many rectangles are cut up; each tries several shifts.
const cutSeeds = 300

// TestCheckKnowsWhatFits: pieces cut from a rectangle fit it, and not when any of
// them is moved by 1 µm in any direction.
func TestCheckKnowsWhatFits(t *testing.T) {
	for seed := range uint64(cutSeeds) {
		in, sol := nesttest.Cut(seed, 2+int(seed%5))
		if err := in.Validate(); err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		if err := nest.Check(in, sol); err != nil {
			t.Errorf("seed %d: %v", seed, err)
		}
		for i := range sol.Laid {
			for _, d := range []shape.Point{{X: 1}, {X: -1}, {Y: 1}, {Y: -1}} {
				moved := sol
				moved.Laid = slices.Clone(sol.Laid)
				moved.Laid[i].Place.At = moved.Laid[i].Place.At.Add(d)
				err := nest.Check(in, moved)
				if err == nil || !strings.Contains(err.Error(), "mm") {
					t.Errorf("seed %d: item %d moved by %v: %v", seed, i, d, err)
				}
			}
		}
	}
}

// TestBoundsPassWhatFits: no bound refuses pieces that were cut from the fabric,
// and all of them refuse a fabric that is 1 mm shorter, by area.
func TestBoundsPassWhatFits(t *testing.T) {
	for seed := range uint64(cutSeeds) {
		in, _ := nesttest.Cut(seed, 2+int(seed%5))
		if a, err := nest.Solve(t.Context(), in, nest.Options{Steps: 1}); err != nil || a.Reason == nest.Impossible {
			t.Errorf("seed %d: refused what fits: %v %+v", seed, err, a.Why)
		}
		in.Fabrics[0].Length -= 1000
		a, err := nest.Solve(t.Context(), in, nest.Options{Steps: 1})
		if err != nil || a.Reason != nest.Impossible || a.Why.Kind != nest.BoundArea || a.Why.Need <= a.Why.Have {
			t.Errorf("seed %d: a fabric too small: %v %v %+v", seed, err, a.Reason, a.Why)
		}
	}
}

// valid is a layout of three squares, 100 mm each, that uses every rule: a pair
// in a group with a repeat, a pin, clearance, a flaw, a fold.
func valid() (nest.Instance, nest.Solution) {
	side := int64(100_000)
	square := shape.Box{Max: shape.Point{X: side, Y: side}}.Ring()
	at := func(x, y int64) shape.Placement { return shape.Placement{At: shape.Point{X: x, Y: y}} }
	in := nest.Instance{
		Ask: nest.BestSubset, Clearance: 1000,
		Fabrics: []nest.Fabric{{Width: 400_000, Length: 500_000,
			Bands:     []nest.Band{{To: 200_000, Layers: 2, FoldLow: true}, {From: 200_000, To: 400_000, Layers: 1}},
			Obstacles: []shape.Polygon{{Outer: square.Move(shape.Point{X: 400_000})}},
		}},
		Groups: []nest.Group{{Angles: []shape.Angle{shape.Turn0, shape.Turn180}}},
		Items: []nest.Item{
			{Outline: square, Count: 2, Group: 0, Repeat: 150_000, Layers: 1, Value: 5},
			{Outline: square, Group: nest.NoGroup, OnFold: true, Value: 7},
			{Outline: square, Group: nest.NoGroup, Pinned: []nest.Pin{{Place: at(250_000, 90_000)}}},
		},
	}
	sol := nest.Solution{Used: []int64{350_000}, Value: 17, Laid: []nest.Laid{
		{Item: 0, Copy: 0, Place: at(0, 201_000)},
		{Item: 0, Copy: 1, Place: at(150_000, 201_000)},
		{Item: 1, Place: at(100_000, 0)},
		{Item: 2, Place: at(250_000, 90_000)},
	}}
	return in, sol
}

// TestCheckSeesEveryBrokenRule breaks one rule of a valid layout at a time.
func TestCheckSeesEveryBrokenRule(t *testing.T) {
	in, sol := valid()
	if err := nest.Check(in, sol); err != nil {
		t.Fatal("the layout to start from: ", err)
	}
	place := func(i int, p shape.Placement) func(*nest.Instance, *nest.Solution) {
		return func(_ *nest.Instance, s *nest.Solution) { s.Laid[i].Place = p }
	}
	at := func(x, y int64) shape.Placement { return shape.Placement{At: shape.Point{X: x, Y: y}} }
	for _, c := range []struct {
		name, says string
		change     func(*nest.Instance, *nest.Solution)
	}{
		{"a copy missing", "accounted for", func(_ *nest.Instance, s *nest.Solution) { s.Laid = s.Laid[1:] }},
		{"a copy twice", "comes twice", func(_ *nest.Instance, s *nest.Solution) { s.Laid[1].Copy = 0 }},
		{"laid and left", "comes twice", func(_ *nest.Instance, s *nest.Solution) { s.Left = []nest.Copy{{Item: 1}} }},
		{"no such copy", "no copy", func(_ *nest.Instance, s *nest.Solution) { s.Laid[2].Copy = 9 }},
		{"no such item", "no copy", func(_ *nest.Instance, s *nest.Solution) { s.Laid[2].Item = -1 }},
		{"no such fabric", "not there", func(_ *nest.Instance, s *nest.Solution) { s.Laid[2].Fabric = 1 }},
		{"half a group", "others of its group", func(_ *nest.Instance, s *nest.Solution) {
			s.Laid, s.Left = s.Laid[1:], []nest.Copy{{Item: 0, Copy: 0}}
		}},
		{"pinned one left out", "pinned", func(_ *nest.Instance, s *nest.Solution) {
			s.Laid, s.Left = s.Laid[:3], []nest.Copy{{Item: 2}}
		}},
		{"pinned one moved", "pinned", place(3, at(250_001, 90_000))},
		{"turned by 45°", "turned", place(0, shape.Placement{Angle: 45_000, At: shape.Point{X: 150_000, Y: 250_000}})},
		{"one of a group turned", "rest of its group", place(0, shape.Placement{Angle: shape.Turn180, At: shape.Point{X: 0, Y: 301_000}})},
		{"mirrored", "mirrored", place(0, shape.Placement{Mirror: true, At: shape.Point{Y: 301_000}})},
		{"off the repeat", "repeat", place(1, at(150_001, 201_000))},
		{"over the cut end", "0.001 mm over the edge", place(2, at(-1, 0))},
		{"over the far end", "over the edge", place(0, at(450_000, 201_000))},
		{"over the selvedge", "1.000 mm over the edge", place(0, at(0, 301_000))},
		{"across two bands", "no part of the folded cloth", place(0, at(0, 150_000))},
		{"off the fold", "no part of the folded cloth", place(2, at(100_000, 1))},
		{"too near the flaw", "nearer than 1.000 mm to the flaw", place(2, at(299_001, 0))},
		{"over the flaw", "over the flaw", place(2, at(350_000, 0))},
		{"overlap", "overlap by 0.001 mm", func(in *nest.Instance, s *nest.Solution) {
			in.Items[0].Repeat, in.Clearance = 0, 0
			s.Laid[1].Place = at(99_999, 201_000)
		}},
		{"too near each other", "apart, nearer than the clearance", func(in *nest.Instance, s *nest.Solution) {
			in.Items[0].Repeat = 0
			s.Laid[1].Place = at(100_999, 201_000)
		}},
		{"wrong length", "length used", func(_ *nest.Instance, s *nest.Solution) { s.Used = []int64{349_999} }},
		{"no lengths", "length used", func(_ *nest.Instance, s *nest.Solution) { s.Used = nil }},
		{"wrong value", "value", func(_ *nest.Instance, s *nest.Solution) { s.Value++ }},
		{"too far to measure", "further off", place(2, at(shape.MaxCoordinate+1, 0))},
	} {
		in, sol := valid()
		c.change(&in, &sol)
		if err := nest.Check(in, sol); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: got %v, want something with %q", c.name, err, c.says)
		}
	}
}
