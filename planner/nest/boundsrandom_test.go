package nest_test

import (
	"context"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"

	"tallycloth/planner/nest"
	"tallycloth/planner/nest/nesttest"
	"tallycloth/stash/shape"
)

// onlyLaid is the question about what a layout holds, on cloth cut down to it, and the
// layout as its answer: one that is known to exist.
func onlyLaid(in nest.Instance, sol nest.Solution) (nest.Instance, nest.Solution) {
	out := in
	out.Ask, out.Items = nest.FitsAll, nil
	out.Fabrics = append([]nest.Fabric(nil), in.Fabrics...)
	known := nest.Solution{Used: sol.Used, Value: sol.Value}
	top := make([]int64, len(in.Fabrics))
	for _, l := range sol.Laid {
		it := in.Items[l.Item]
		it.Count = 1
		if it.Pinned = nil; l.Copy < len(in.Items[l.Item].Pinned) {
			it.Pinned = in.Items[l.Item].Pinned[l.Copy : l.Copy+1]
		}
		known.Laid = append(known.Laid, nest.Laid{Item: len(out.Items), Fabric: l.Fabric, Place: l.Place})
		out.Items = append(out.Items, it)
		top[l.Fabric] = max(top[l.Fabric], l.Place.Apply(it.Outline).Bounds().Max.Y)
	}
	for f := range out.Fabrics {
		c := &out.Fabrics[f]
		if len(c.Outline.Outer) > 0 || sol.Used[f] == 0 {
			continue
		}
		c.Length = sol.Used[f]
		if len(c.Bands) == 0 {
			c.Width = top[f]
		}
	}
	return out, known
}

// tiltedAnyhow asks for tilted items at angles of their own within their tilt, to be
// laid so; loosen asks for the tilt again.
func tiltedAnyhow(in nest.Instance, seed uint64) (tight, loose nest.Instance) {
	rng := rand.New(rand.NewPCG(seed, 0x7117))
	tight = in
	tight.Items = append([]nest.Item(nil), in.Items...)
	for i := range tight.Items {
		it := &tight.Items[i]
		if it.Tilt == 0 {
			continue
		}
		if len(it.Angles) == 0 {
			it.Angles = []shape.Angle{0}
		}
		it.Angles = append([]shape.Angle(nil), it.Angles...)
		for k := range it.Angles {
			it.Angles[k] += shape.Angle(rng.IntN(int(2*it.Tilt)+1)) - it.Tilt
		}
		it.Tilt = 0
	}
	return tight, in
}

// TestBoundsPassWhatIsLaid: whatever the engine lays, with any option and at any angle
// within a tilt, is refused by no bound on cloth cut down to just hold it, and no
// least length is above what it takes.
func TestBoundsPassWhatIsLaid(t *testing.T) {
	reached := map[nest.BoundKind]int{}
	rapid.Check(t, func(t *rapid.T) {
		seed := rapid.Uint64().Draw(t, "seed")
		tight, loose := tiltedAnyhow(nesttest.Random(seed), seed)
		a, err := nest.Solve(context.Background(), tight, nest.Options{Seed: seed, Steps: 4})
		if err != nil {
			t.Fatal(err)
		}
		reached[nest.BoundsOf(tight).Kind]++
		if a.Reason == nest.Impossible || len(a.Solution.Laid) == 0 {
			return
		}
		if loose.Ask == nest.LeastLength && len(a.Solution.Left) == 0 {
			if floor := nest.FloorOf(loose); floor > a.Solution.Used[0] {
				t.Fatalf("a least length of %d µm, and a layout of %d", floor, a.Solution.Used[0])
			}
		}
		in, known := onlyLaid(loose, a.Solution)
		if err := nest.Check(in, known); err != nil {
			t.Fatalf("the known layout does not pass: %v", err)
		}
		if b := nest.BoundsOf(in); b.Kind != nest.NoBound {
			t.Fatalf("refused what is laid: %+v", b)
		}
	})
	t.Logf("bounds of the questions themselves: %v", reached)
}

// TestPairsPassWhatIsLaid: the same with two or three outlines on little cloth, where
// they keep each other out or only just fit. Some must be refused.
func TestPairsPassWhatIsLaid(t *testing.T) {
	refused, laid := 0, 0
	for seed := range uint64(1500) {
		rng := rand.New(rand.NewPCG(seed, 0xbead))
		in := nest.Instance{Ask: nest.FitsAll, Clearance: []int64{0, 0, 3000}[rng.IntN(3)],
			Fabrics: []nest.Fabric{{Width: 150_000 + int64(rng.IntN(250_000)), Length: 150_000 + int64(rng.IntN(250_000))}}}
		for range 2 + rng.IntN(2) {
			it := nest.Item{Outline: nesttest.Star(rng, 8, 150_000), Group: nest.NoGroup, Mirror: nest.Mirror(rng.IntN(3))}
			if rng.IntN(2) == 0 {
				it.Angles = []shape.Angle{0, shape.Turn180}
			}
			in.Items = append(in.Items, it)
		}
		if nest.BoundsOf(in).Kind == nest.BoundPair {
			refused++
		}
		strip := in
		strip.Ask, strip.Fabrics = nest.LeastLength, []nest.Fabric{{Width: in.Fabrics[0].Width}}
		a, err := nest.Solve(context.Background(), strip, nest.Options{Seed: seed, Steps: 3})
		if err != nil {
			t.Fatal(err)
		}
		if len(a.Solution.Left) > 0 {
			continue
		}
		laid++
		if floor := nest.FloorOf(strip); floor > a.Solution.Used[0] {
			t.Errorf("seed %d: a least length of %d µm, and a layout of %d", seed, floor, a.Solution.Used[0])
		}
		just, known := onlyLaid(in, a.Solution)
		if err := nest.Check(just, known); err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		if b := nest.BoundsOf(just); b.Kind != nest.NoBound {
			t.Errorf("seed %d: refused what is laid: %+v", seed, b)
		}
	}
	if refused < 50 || laid < 300 {
		t.Errorf("%d refused for a pair, %d laid: the questions ask too little", refused, laid)
	}
	t.Logf("%d refused for a pair, %d laid", refused, laid)
}
