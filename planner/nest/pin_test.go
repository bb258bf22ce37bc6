package nest_test

import (
	"context"
	"testing"

	"tallycloth/planner/nest"
	"tallycloth/planner/nest/nesttest"
	"tallycloth/stash/shape"
)

// TestPinsAreNeverLost: what is pinned by the rules, at any angle within a tilt and in
// groups that several turns explain, is laid where it is pinned, with whatever else
// finds room.
func TestPinsAreNeverLost(t *testing.T) {
	pinned := 0
	for seed := range uint64(3000) {
		in := nesttest.Random(seed)
		if in.Ask == nest.BestSubset {
			in.Ask = nest.FitsAll // else a whole group may have to stay away
			if in.Fabrics[0].Length == 0 && len(in.Fabrics[0].Outline.Outer) == 0 {
				in.Fabrics[0].Length = 900_000
			}
		}
		a, err := nest.Solve(context.Background(), in, nest.Options{Seed: seed, FillOnly: true})
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		if a.Reason == nest.Impossible {
			continue
		}
		laid := map[nest.Copy]shape.Placement{}
		for _, l := range a.Solution.Laid {
			laid[nest.Copy{Item: l.Item, Copy: l.Copy}] = l.Place
		}
		for i, it := range in.Items {
			for k, pin := range it.Pinned {
				pinned++
				if p, ok := laid[nest.Copy{Item: i, Copy: k}]; !ok || p != pin.Place {
					t.Errorf("seed %d: item %d is pinned at %+v and lies at %+v (%v)", seed, i, pin.Place, p, ok)
				}
			}
		}
	}
	if pinned < 400 {
		t.Errorf("only %d copies were pinned", pinned)
	}
}

// TestSharedTurnSuitsEveryPin: two of a group are pinned, the one that both turns of the
// group explain after the one that only the second does; a third must follow.
func TestSharedTurnSuitsEveryPin(t *testing.T) {
	piece := shape.Ring{{}, {X: 100_000}, {X: 60_000, Y: 100_000}}
	at := func(x int64) []nest.Pin {
		return []nest.Pin{{Place: shape.Placement{Angle: shape.Turn180, At: shape.Point{X: x, Y: 100_000}}}}
	}
	in := nest.Instance{Ask: nest.FitsAll, Fabrics: []nest.Fabric{{Width: 300_000, Length: 500_000}},
		Groups: []nest.Group{{Angles: []shape.Angle{shape.Turn0, shape.Turn180}}},
		Items: []nest.Item{
			{Outline: piece, Pinned: at(100_000)},
			{Outline: piece, Pinned: at(300_000), Angles: []shape.Angle{shape.Turn0, shape.Turn180}},
			{Outline: piece},
		}}
	for name, o := range map[string]nest.Options{"fill": {FillOnly: true}, "search": {Steps: 20}} {
		a, err := nest.Solve(context.Background(), in, o)
		if err != nil || a.Reason != nest.Found || len(a.Solution.Laid) != 3 {
			t.Fatalf("%s: %v, %+v", name, err, a)
		}
		if got := a.Solution.Laid[2].Place.Angle; got != shape.Turn180 {
			t.Errorf("%s: the third is turned by %d", name, got)
		}
	}
}

// TestStartMovesNoPin: a layout to go on from that has a pinned copy elsewhere, or not
// at all, is taken up with the copy where it is pinned, and no longer for it.
func TestStartMovesNoPin(t *testing.T) {
	in := nest.GarmentOf(6, 0)
	in.Ask = nest.LeastLength
	short, err := nest.Solve(context.Background(), in, nest.Options{Steps: 100})
	if err != nil {
		t.Fatal(err)
	}
	in.Items[0].Pinned = []nest.Pin{{Place: short.Solution.Laid[0].Place}}
	used := short.Solution.Used
	moved, without := nest.Solution{Used: used}, nest.Solution{Used: used}
	moved.Laid = append(moved.Laid, short.Solution.Laid...)
	moved.Laid[0].Place.At.Y += 30_000
	without.Laid, without.Left = short.Solution.Laid[1:], []nest.Copy{{}}
	for name, start := range map[string]*nest.Solution{"moved": &moved, "without": &without} {
		a, err := nest.Solve(context.Background(), in, nest.Options{FirstOnly: true, Start: start})
		if err != nil || len(a.Solution.Left) > 0 || a.Solution.Used[0] > used[0] {
			t.Errorf("%s: %v, %v µm from %v", name, err, a.Solution.Used, used)
		}
	}
}

// TestGoesOnFromAnyTilt: a layout whose copies lie at angles between those that the
// search tries is gone on from.
func TestGoesOnFromAnyTilt(t *testing.T) {
	in := nest.GarmentOf(10, 0)
	in.Ask = nest.LeastLength
	for i := range in.Items {
		in.Items[i].Angles = []shape.Angle{713}
	}
	first, err := nest.Solve(context.Background(), in, nest.Options{FirstOnly: true})
	if err != nil {
		t.Fatal(err)
	}
	for i := range in.Items {
		in.Items[i].Angles, in.Items[i].Tilt = nil, 1500
	}
	a, err := nest.Solve(context.Background(), in, nest.Options{Steps: 60, Start: &first.Solution})
	if err != nil || a.Solution.Used[0] >= first.Solution.Used[0] {
		t.Errorf("%v: from %d to %d µm", err, first.Solution.Used[0], a.Solution.Used[0])
	}
}
