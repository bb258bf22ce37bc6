package nest

import (
	"context"
	"math/rand/v2"
	"reflect"
	"testing"
	"time"

	"tallycloth/stash/shape"
)

// heap is a strip question of n blobs in three kinds, either way up.
func heap(n int, clearance int64) Instance {
	rng := rand.New(rand.NewPCG(7, uint64(n)))
	in := Instance{Fabrics: []Fabric{{Width: 1_000_000}}, Clearance: clearance}
	for k := range 3 {
		in.Items = append(in.Items, Item{Outline: blob(rng, 40, 250_000-60_000*float64(k)), Count: n / 3,
			Angles: []shape.Angle{shape.Turn0, shape.Turn180}, Group: NoGroup})
	}
	return in
}

func solved(t *testing.T, in Instance, o Options) Answer {
	t.Helper()
	a, err := Solve(context.Background(), in, o)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// TestSearchShortens: more steps never give a longer strip, and some a shorter one.
func TestSearchShortens(t *testing.T) {
	for _, clearance := range []int64{0, 3000} {
		in := heap(15, clearance)
		first := solved(t, in, Options{FirstOnly: true}).Solution.Used[0]
		more := solved(t, in, Options{Steps: 60}).Solution.Used[0]
		if more >= first {
			t.Errorf("clearance %d: %d µm at first, %d after a search", clearance, first, more)
		}
	}
}

// TestSameSeedSameAnswer: one worker and a budget in steps leave nothing to chance.
func TestSameSeedSameAnswer(t *testing.T) {
	in := heap(12, 3000)
	a, b := solved(t, in, Options{Seed: 3, Steps: 20}), solved(t, in, Options{Seed: 3, Steps: 20})
	if !reflect.DeepEqual(a, b) {
		t.Errorf("two answers: %v and %v µm", a.Solution.Used, b.Solution.Used)
	}
}

// TestReportsOnlyBetter: each report is shorter than the one before, and the last
// is the answer.
func TestReportsOnlyBetter(t *testing.T) {
	in := heap(15, 0)
	var seen []int64
	a := solved(t, in, Options{Steps: 40, Workers: 2, Report: func(p Progress) { seen = append(seen, p.Best.Used[0]) }})
	for k := 1; k < len(seen); k++ {
		if seen[k] >= seen[k-1] {
			t.Errorf("report %d: %d µm after %d", k, seen[k], seen[k-1])
		}
	}
	if len(seen) == 0 || seen[len(seen)-1] != a.Solution.Used[0] {
		t.Errorf("reports %v, answer %v", seen, a.Solution.Used)
	}
}

// TestCancelled: an ended context stops the search, and what was found is whole.
func TestCancelled(t *testing.T) {
	in := heap(30, 0)
	ctx, cancel := context.WithCancel(context.Background())
	a, err := Solve(ctx, in, Options{Steps: 1 << 40, Report: func(Progress) { cancel() }})
	if err != nil || a.Reason != Cancelled || len(a.Solution.Left) > 0 {
		t.Errorf("%v, reason %v, %d left over", err, a.Reason, len(a.Solution.Left))
	}
}

// TestGoesOnFromStart: a layout given is never made longer, and pinned copies stay.
func TestGoesOnFromStart(t *testing.T) {
	in := heap(12, 3000)
	start := solved(t, in, Options{FirstOnly: true}).Solution
	in.Items[0].Pinned = []Pin{{Place: start.Laid[0].Place}}
	a := solved(t, in, Options{Steps: 30, Start: &start})
	if a.Solution.Used[0] > start.Used[0] || a.Solution.Laid[0] != start.Laid[0] {
		t.Errorf("from %d to %d µm, the pinned copy at %v instead of %v", start.Used[0], a.Solution.Used[0],
			a.Solution.Laid[0], start.Laid[0])
	}
}

// TestPartsAnOverlappingStart: a layout moved by hand so that outlines overlap is
// parted again.
func TestPartsAnOverlappingStart(t *testing.T) {
	in := heap(9, 0)
	start := solved(t, in, Options{FirstOnly: true}).Solution
	start.Laid[3].Place.At.Y += 40_000
	if Check(in, start) == nil {
		t.Fatal("the layout should overlap")
	}
	if a := solved(t, in, Options{Steps: 20, Start: &start}); len(a.Solution.Left) > 0 {
		t.Errorf("%d left over", len(a.Solution.Left))
	}
}

// TestFitsWhereFillingFails: seven outlines on a rectangle that a bottom-left fill
// does not find a layout for in any of its orders.
func TestFitsWhereFillingFails(t *testing.T) {
	tri := shape.Ring{{X: 0, Y: 0}, {X: 300_000, Y: 0}, {X: 0, Y: 200_000}}
	quad := shape.Ring{{X: 0, Y: 0}, {X: 250_000, Y: 60_000}, {X: 300_000, Y: 200_000}, {X: 30_000, Y: 150_000}}
	in := Instance{Ask: FitsAll, Fabrics: []Fabric{{Width: 430_000, Length: 680_000}}, Items: []Item{
		{Outline: tri, Count: 4, Group: NoGroup, Angles: []shape.Angle{shape.Turn0, shape.Turn180}},
		{Outline: quad, Count: 3, Group: NoGroup, Angles: []shape.Angle{shape.Turn0, shape.Turn90}}}}
	if a := solved(t, in, Options{FillOnly: true}); a.Reason == Found {
		t.Error("filling alone does it: this question asks too little")
	}
	now := time.Unix(0, 0)
	clock := func() time.Time { now = now.Add(time.Millisecond / 4); return now }
	for name, o := range map[string]Options{
		"steps": {Steps: 100}, "first only": {Steps: 100, FirstOnly: true},
		"time": {Time: 10 * time.Second, Clock: clock}, "first only in time": {Time: 10 * time.Second, Clock: clock, FirstOnly: true},
	} {
		if a := solved(t, in, o); a.Reason != Found {
			t.Errorf("%s: got %v with %d left over", name, a.Reason, len(a.Solution.Left))
		}
	}
}

// TestSubsetGrows: a budget never makes the chosen subset worth less.
func TestSubsetGrows(t *testing.T) {
	in := heap(15, 0)
	in.Ask, in.Fabrics[0].Length = BestSubset, 1_100_000
	for i := range in.Items {
		in.Items[i].Value = in.Items[i].Outline.Area() / 1_000_000
	}
	less := solved(t, in, Options{FirstOnly: true}).Solution.Value
	more := solved(t, in, Options{Steps: 60}).Solution.Value
	if more < less {
		t.Errorf("worth %d at first, %d after a search", less, more)
	}
}

// TestTimeEndsIt: a clock that jumps ends the search by its time.
func TestTimeEndsIt(t *testing.T) {
	now := time.Unix(0, 0)
	clock := func() time.Time { now = now.Add(time.Millisecond); return now }
	if a := solved(t, heap(9, 0), Options{Time: time.Second, Clock: clock}); a.Reason != BudgetSpent {
		t.Errorf("got %v", a.Reason)
	}
}
