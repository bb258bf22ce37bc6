package nest_test

import (
	"context"
	"testing"

	"tallycloth/planner/nest"
	"tallycloth/planner/nest/nesttest"
	"tallycloth/stash/shape"
)

// emptyEnd is the largest upright rectangle, in mm², that reaches from the far end of a
// rectangle of cloth to what is laid on it: between any two boxes' sides.
func emptyEnd(in nest.Instance, sol nest.Solution) int64 {
	f := in.Fabrics[0]
	ys := []int64{0, f.Width}
	var boxes []shape.Box
	for _, l := range sol.Laid {
		b := l.Place.Apply(in.Items[l.Item].Outline).Bounds()
		boxes = append(boxes, b)
		ys = append(ys, b.Min.Y, b.Max.Y)
	}
	var most int64
	for _, low := range ys {
		for _, high := range ys {
			end := int64(0)
			for _, b := range boxes {
				if b.Min.Y < high && b.Max.Y > low {
					end = max(end, b.Max.X)
				}
			}
			most = max(most, (f.Length-end)/1000*((high-low)/1000))
		}
	}
	return most
}

func tidied(t *testing.T, in nest.Instance, o nest.Options) (before, after nest.Solution) {
	t.Helper()
	before, after = nest.Tidied(context.Background(), in, o)
	if err := nest.Check(in, after); err != nil {
		t.Fatal(err)
	}
	return before, after
}

func sumOf(used []int64) (n int64) {
	for _, u := range used {
		n += u
	}
	return n
}

// TestRemainderIsDrawnTogether: of a garment on a longer piece of cloth, as a whole and as
// far as it can be laid, what is left over gets longer, and its largest empty rectangle
// larger.
func TestRemainderIsDrawnTogether(t *testing.T) {
	for _, c := range []struct {
		n      int
		length int64
		ask    nest.Ask
	}{{8, 1_500_000, nest.FitsAll}, {10, 1_500_000, nest.FitsAll}, {12, 1_600_000, nest.FitsAll}, {16, 3_000_000, nest.FitsAll},
		{8, 1_500_000, nest.BestSubset}, {12, 1_600_000, nest.BestSubset}} {
		in := nest.GarmentOf(c.n, c.length)
		in.Ask = c.ask
		before, after := tidied(t, in, nest.Options{})
		if after.Used[0] >= before.Used[0] || emptyEnd(in, after) <= emptyEnd(in, before) {
			t.Errorf("%+v: %d µm used before, %d after; %d and %d mm² empty", c, before.Used[0], after.Used[0], emptyEnd(in, before), emptyEnd(in, after))
		}
		t.Logf("%+v: %d µm used before, %d after; %d and %d mm² empty", c, before.Used[0], after.Used[0], emptyEnd(in, before), emptyEnd(in, after))
	}
}

// TestTidyKeepsWhatIsLaid: on any fabrics, with any options, the same is laid in no more
// length, and the same again from the same seed.
func TestTidyKeepsWhatIsLaid(t *testing.T) {
	shorter := 0
	for seed := range uint64(300) {
		in := nesttest.Random(seed)
		if in.Ask == nest.LeastLength || nest.BoundsOf(in).Kind != nest.NoBound {
			continue
		}
		before, after := tidied(t, in, nest.Options{Seed: seed, Steps: 16})
		if before.Value != after.Value || len(before.Left) != len(after.Left) || sumOf(after.Used) > sumOf(before.Used) {
			t.Errorf("seed %d: worth %d with %d left over on %v before, %d, %d, %v after", seed, before.Value, len(before.Left), before.Used,
				after.Value, len(after.Left), after.Used)
		}
		if sumOf(after.Used) < sumOf(before.Used) {
			shorter++
		}
	}
	if shorter == 0 {
		t.Error("nothing was ever drawn together")
	}
	t.Logf("%d drawn together", shorter)
}
