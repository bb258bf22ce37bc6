package nest_test

import (
	"context"
	"fmt"
	"slices"
	"testing"
	"time"

	"tallycloth/planner/draft"
	"tallycloth/planner/nest"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/shape"
)

// garments are the demo patterns' main pieces in some sizes, as they are cut from one
// layer: each in one of two turns that its own pieces share.
func garments(pieces map[string]string) nest.Instance {
	in := nest.Instance{Ask: nest.FitsAll, Clearance: 3000}
	for _, p := range draft.DemoPatterns(func() stash.ID { return stash.NoID }) {
		size, ok := pieces[p.Kind]
		if !ok {
			continue
		}
		group := len(in.Groups)
		in.Groups = append(in.Groups, nest.Group{Angles: []shape.Angle{shape.Turn0, shape.Turn180}})
		for _, q := range p.PiecesOf(pattern.Main, size) {
			it := nest.Item{Outline: q.Whole(size), Count: max(q.Cut, 1), Group: group}
			if q.Pairs {
				it.Count = q.Cut / 2
				in.Items = append(in.Items, it)
				it.Mirror = nest.Mirrored
			}
			in.Items = append(in.Items, it)
		}
	}
	return in
}

func outlines(in nest.Instance) (n int) {
	for _, it := range in.Items {
		n += max(it.Count, 1)
	}
	return n
}

// leftover is 1.5 m wide and so long, in mm: plain, or odd with a bite out of one side,
// a slanted end and a hole.
func leftover(length int64, odd bool) nest.Fabric {
	if !odd {
		return nest.Fabric{Width: 1_500_000, Length: length * 1000}
	}
	p := func(x, y int64) shape.Point { return shape.Point{X: x * 1000, Y: y * 1000} }
	l := length
	return nest.Fabric{Outline: shape.Polygon{
		Outer: shape.Ring{p(0, 0), p(l, 0), p(l-150, 1500), p(l*2/3, 1500), p(l*2/3-30, 1400), p(l/2, 1360), p(l/3+30, 1400), p(l/3, 1500), p(0, 1500)},
		Holes: []shape.Ring{{p(l/2, 60), p(l/2, 75), p(l/2+20, 75), p(l/2+20, 60)}}}}
}

// firstCases are demo garments of 6 to 12 outlines in three sizes on leftovers that
// hold them.
func firstCases(b testing.TB) (out []nest.Instance) {
	for _, kinds := range [][]string{{"tank", "sleep shirt"}, {"tank", "shorts"}, {"sleep shirt", "shorts"}, {"tank", "sleep shirt", "shorts"}} {
		for size := 1; size <= 7; size += 3 {
			pieces := map[string]string{}
			for k, kind := range kinds {
				pieces[kind] = fmt.Sprint(size + k%2)
			}
			in := garments(pieces)
			if n := outlines(in); n < 6 || n > 12 {
				b.Fatalf("%v: %d outlines", kinds, n)
			}
			for _, odd := range []bool{false, true} {
				in.Fabrics = []nest.Fabric{leftover(2400+int64(size)*120, odd)}
				out = append(out, in)
			}
		}
	}
	return out
}

// BenchmarkFirstLayout reports the median and the 95th percentile, in ms, of the time to
// a first valid layout, over demo garments of 6 to 12 outlines on plain and odd
// leftovers. The goals are 20 and 50 ms.
func BenchmarkFirstLayout(b *testing.B) { reportFirst(b, firstCases(b)) }

// BenchmarkFirstLayout40 is the same for 40 outlines or more, the garments in many sizes
// on one length. The goal is 300 ms.
func BenchmarkFirstLayout40(b *testing.B) {
	var all nest.Instance
	for size := 1; outlines(all) < 40; size++ {
		in := garments(map[string]string{"tank": fmt.Sprint(size), "sleep shirt": fmt.Sprint(size), "shorts": fmt.Sprint(size)})
		for i := range in.Items {
			in.Items[i].Group += len(all.Groups)
		}
		all.Items, all.Groups = append(all.Items, in.Items...), append(all.Groups, in.Groups...)
		all.Ask, all.Clearance = in.Ask, in.Clearance
	}
	var cases []nest.Instance
	for _, odd := range []bool{false, true} {
		all.Fabrics = []nest.Fabric{leftover(10_000, odd)}
		cases = append(cases, all)
	}
	reportFirst(b, cases)
}

func reportFirst(b *testing.B, cases []nest.Instance) {
	var took []time.Duration
	for b.Loop() {
		for k, in := range cases {
			from := time.Now()
			a, err := nest.Solve(context.Background(), in, nest.Options{FirstOnly: true})
			took = append(took, time.Since(from))
			if err != nil || a.Reason != nest.Found {
				b.Fatalf("case %d: %v, %v, %d left over, %+v", k, err, a.Reason, len(a.Solution.Left), a.Why)
			}
		}
	}
	slices.Sort(took)
	ms := func(share float64) float64 {
		return float64(took[int(share*float64(len(took)-1))].Microseconds()) / 1000
	}
	b.ReportMetric(ms(0.5), "median-ms")
	b.ReportMetric(ms(0.95), "p95-ms")
}
