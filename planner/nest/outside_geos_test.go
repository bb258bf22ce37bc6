package nest_test

import (
	"context"
	"runtime"
	"slices"
	"sync"
	"sync/atomic"
	"testing"

	"tallycloth/planner/nest"
	"tallycloth/planner/nest/nesttest"
	"tallycloth/stash/shape"
)

const (
	// geosInstances is how many random layouts GEOS measures on each run: enough that
	// an error that hits one question in four thousand is all but certain to show
	// (1 − e^−5).
	geosInstances = 20_000
	// geosSearched is the share of them, one in so many, that is searched for long
	// enough to shorten, part and settle what it finds, and geosSteps for how long. The
	// layouts are to be right, not short: the others take one step at most.
	geosSearched, geosSteps = 25, 20
	// geosEdited is the share, one in so many, that is moved by hand and gone on from.
	geosEdited = 20
)

// TestGEOSAgrees lays random questions and has GEOS measure every answer.
func TestGEOSAgrees(t *testing.T) {
	t.Parallel()
	g := startGEOS(t)
	var next, laid, searched atomic.Int64
	var wg sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		wg.Go(func() {
			for {
				seed := int(next.Add(1)) - 1
				if seed >= geosInstances {
					return
				}
				in := nesttest.Random(uint64(seed))
				sol := answer(t, uint64(seed), in)
				laid.Add(int64(len(sol.Laid)))
				if seed%geosSearched == 0 && len(sol.Laid) > 1 {
					searched.Add(1)
				}
				g.send(seed, in, sol)
			}
		})
	}
	wg.Wait()
	found := g.figures(t)
	for seed := range geosInstances {
		if m, ok := found[seed]; !ok || !m.right() {
			t.Errorf("seed %d: measured %v: overlap %g mm², outside %g mm², %g mm too near, %g mm off a fold, a repeat or the length used",
				seed, ok, m.overlap, m.outside, m.lack, m.missed)
		}
	}
	t.Logf("%d outlines laid, %d layouts of several searched for", laid.Load(), searched.Load())
	if laid.Load() < 2*geosInstances || searched.Load() < geosInstances/geosSearched/2 {
		t.Error("the questions are too hard to try anything")
	}
}

// answer lays a question with the options that its seed draws, and now and then once
// more after a hand moved some of it.
func answer(t *testing.T, seed uint64, in nest.Instance) nest.Solution {
	o := nesttest.Options(seed, in)
	if o.Steps = geosSteps; seed%geosSearched != 0 {
		o.Steps, o.FirstOnly = 1, true
	}
	a, err := nest.Solve(context.Background(), in, o)
	if err == nil && seed%geosEdited == 1 {
		start := nesttest.Edited(seed, in, a.Solution)
		o.Steps, o.Start, o.FillOnly = 2, &start, false
		a, err = nest.Solve(context.Background(), in, o)
	}
	if err != nil {
		t.Errorf("seed %d: %v", seed, err)
	}
	return a.Solution
}

// TestGEOSFindsEachFault: of a layout that breaks one rule by a micrometre, GEOS says
// so; of the layout itself it says nothing.
func TestGEOSFindsEachFault(t *testing.T) {
	g := startGEOS(t)
	at := func(i int, x, y int64) func(*nest.Instance, *nest.Solution) {
		return func(_ *nest.Instance, s *nest.Solution) { s.Laid[i].Place.At = shape.Point{X: x, Y: y} }
	}
	bare := func(in *nest.Instance) { in.Clearance, in.Items[0].Repeat = 0, 0 }
	cases := []struct {
		name   string
		change func(*nest.Instance, *nest.Solution)
		shows  func(measured) bool
	}{
		{"nothing", func(*nest.Instance, *nest.Solution) {}, measured.right},
		{"overlap", func(in *nest.Instance, s *nest.Solution) {
			bare(in)
			at(1, 99_999, 201_000)(in, s)
		}, func(m measured) bool { return m.overlap > geosArea }},
		{"over the flaw", func(in *nest.Instance, s *nest.Solution) {
			bare(in)
			at(2, 300_001, 0)(in, s)
		}, func(m measured) bool { return m.overlap > geosArea }},
		{"over the cut end", at(2, -1, 0), func(m measured) bool { return m.outside > geosArea }},
		{"over the selvedge", at(0, 0, 300_001), func(m measured) bool { return m.outside > geosArea }},
		{"across two bands", at(0, 0, 199_999), func(m measured) bool { return m.outside > geosArea }},
		{"in too many layers", func(in *nest.Instance, _ *nest.Solution) { in.Items[0].Layers = 2 },
			func(m measured) bool { return m.outside > geosArea }},
		{"off the fold", at(2, 100_000, 1), func(m measured) bool { return m.missed > geosLack }},
		{"off the repeat", at(1, 150_001, 201_000), func(m measured) bool { return m.missed > geosLack }},
		{"too near", func(in *nest.Instance, s *nest.Solution) {
			in.Items[0].Repeat = 0
			at(1, 100_999, 201_000)(in, s)
		}, func(m measured) bool { return m.lack > geosLack }},
		{"shorter than said", func(_ *nest.Instance, s *nest.Solution) { s.Used[0]++ },
			func(m measured) bool { return m.missed > geosLack }},
		{"outside an outline", func(in *nest.Instance, s *nest.Solution) {
			in.Clearance, in.Fabrics[0].Outline = 0, shape.Polygon{Outer: shape.Box{Max: shape.Point{X: 349_999, Y: 400_000}}.Ring()}
		}, func(m measured) bool { return m.outside > geosArea }},
		{"over a hole", func(in *nest.Instance, s *nest.Solution) {
			hole := shape.Box{Min: shape.Point{X: 10_000, Y: 299_999}, Max: shape.Point{X: 90_000, Y: 350_000}}.Ring().Move(shape.Point{Y: 1001})
			in.Clearance = 0
			in.Fabrics[0].Outline = shape.Polygon{Outer: shape.Box{Max: shape.Point{X: 500_000, Y: 400_000}}.Ring(), Holes: []shape.Ring{hole.Reverse()}}
			at(0, 0, 201_001)(in, s)
		}, func(m measured) bool { return m.outside > geosArea }},
	}
	for k, c := range cases {
		in, sol := valid()
		c.change(&in, &sol)
		g.send(k, in, sol)
	}
	found := g.figures(t)
	for k, c := range cases {
		if m, ok := found[k]; !ok || !c.shows(m) {
			t.Errorf("%s: GEOS says %+v (%v)", c.name, m, ok)
		}
	}
}

// TestGEOSFindsWhatIsPlanted: of random layouts, one copy of each is laid over another,
// or half a centimetre over the end of its fabric. GEOS finds every one.
func TestGEOSFindsWhatIsPlanted(t *testing.T) {
	g := startGEOS(t)
	over, out := map[int]bool{}, map[int]bool{}
	for seed := 0; len(over) < 200 || len(out) < 200; seed++ {
		in := nesttest.Random(uint64(seed))
		a, err := nest.Solve(context.Background(), in, nest.Options{FillOnly: true})
		if err != nil {
			t.Fatal(err)
		}
		sol := a.Solution
		if k := slices.IndexFunc(sol.Laid, func(l nest.Laid) bool { return l.Copy == 1 && l.Fabric == sol.Laid[0].Fabric }); k > 0 && len(over) < 200 {
			sol.Laid[k].Place, over[seed] = sol.Laid[k-1].Place, sol.Laid[k-1].Fabric == sol.Laid[k].Fabric
			g.send(seed, in, sol)
		} else if len(sol.Laid) > 0 && len(out) < 200 {
			l, f := &sol.Laid[0], in.Fabrics[sol.Laid[0].Fabric]
			low := int64(0)
			if len(f.Outline.Outer) > 0 {
				low = f.Outline.Bounds().Min.X
			}
			l.Place.At.X += low - 5000 - l.Place.Apply(in.Items[l.Item].Outline).Bounds().Min.X
			out[seed] = true
			g.send(seed, in, sol)
		}
	}
	found := g.figures(t)
	for seed, same := range over {
		if same && found[seed].overlap <= geosArea {
			t.Errorf("seed %d: GEOS missed the overlap: %+v", seed, found[seed])
		}
	}
	for seed := range out {
		if found[seed].outside <= geosArea {
			t.Errorf("seed %d: GEOS missed what lies outside: %+v", seed, found[seed])
		}
	}
}
