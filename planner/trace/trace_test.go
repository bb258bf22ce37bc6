package trace_test

import (
	"context"
	"errors"
	"image"
	"math"
	"runtime"
	"sync"
	"sync/atomic"
	"testing"

	"tallycloth/planner/trace"
	"tallycloth/planner/trace/tracetest"
)

// What is asked of an outline of a leftover of 600 mm.
const (
	areaWithin = 0.02
	apartMost  = 5000.0 // µm
	holdsShare = 0.95
	doubtsMost = 0.05
)

// result is how one photo went.
type result struct {
	scene       tracetest.Scene
	area, apart float64
	doubts      []trace.Doubt
	err         error
}

func (r result) holds() bool {
	return r.err == nil && math.Abs(r.area) < areaWithin && r.apart < apartMost
}

func traced(ctx context.Context, s tracetest.Scene) (r result) {
	r.scene, r.area, r.apart = s, math.Inf(1), math.Inf(1)
	photo, err := tracetest.Take(s)
	if err != nil {
		r.err = err
		return r
	}
	a, err := trace.Trace(ctx, photo.Picture, photo.Marked)
	r.err, r.doubts = err, a.Doubts
	if len(a.Outline.Outer) > 0 {
		if err := a.Outline.Validate(); err != nil {
			r.err = err
		}
		r.area = float64(a.Outline.Area())/float64(photo.Truth.Area()) - 1
		r.apart = tracetest.Apart(a.Outline, photo.Truth)
	}
	return r
}

// TestLeftoversOnPhotos takes photos of leftovers whose outline is known, marks the
// rectangle to two pixels as a person does, and compares: area within 2 %, outline within
// 5 mm, for 95 % at least without a word of doubt; 5 % at most are doubted.
func TestLeftoversOnPhotos(t *testing.T) {
	t.Parallel()
	results := make([]result, cases)
	var next atomic.Int64
	var wg sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		wg.Go(func() {
			for i := int(next.Add(1)) - 1; i < cases; i = int(next.Add(1)) - 1 {
				results[i] = traced(t.Context(), tracetest.NewScene(uint64(i)))
			}
		})
	}
	wg.Wait()
	var hold, doubted int
	var area, apart float64
	for i, r := range results {
		s := r.scene
		if len(r.doubts) > 0 {
			doubted++
		}
		if r.holds() && len(r.doubts) == 0 {
			hold++
			area, apart = area+math.Abs(r.area), apart+r.apart
			continue
		}
		t.Logf("photo %d, %s, tilt %.0f°, mat %d, cloth %d: area %+.2f %%, %.1f mm apart, doubts %v, %v",
			i, s.Kind, s.Camera.Tilt, s.Mat.Pattern, s.Cloth.Pattern, 100*r.area, r.apart/1000, r.doubts, r.err)
	}
	t.Logf("%d of %d hold, %d doubted; of those that hold the area is off by %.2f %% and the outline by %.1f mm at its worst place, on average",
		hold, cases, doubted, 100*area/float64(hold), apart/float64(hold)/1000)
	if mustHold && (float64(hold) < holdsShare*cases || float64(doubted) > doubtsMost*cases) {
		t.Errorf("%d of %d hold, %d doubted", hold, cases, doubted)
	}
	if !mustHold && hold == 0 {
		t.Error("none holds")
	}
}

// alike is a scene in which cloth and mat have nearly one colour.
func alike() tracetest.Scene {
	s := tracetest.NewScene(4)
	s.Mat.Pattern, s.Cloth.Pattern = tracetest.Plain, tracetest.Plain
	s.Cloth.Base = s.Mat.Base
	return s
}

// cutOff is a scene whose leftover reaches out of the picture.
func cutOff(t *testing.T) tracetest.Scene {
	t.Helper()
	s := tracetest.NewScene(7)
	if !s.CutOff() {
		t.Fatal("the sheet leaves the picture first")
	}
	return s
}

// TestDoubts: pictures in which the outline cannot be known are never called sure.
func TestDoubts(t *testing.T) {
	t.Parallel()
	near := func(change func(*tracetest.Scene)) tracetest.Scene {
		s := tracetest.NewScene(7)
		s.Shadow.Hand = 0
		change(&s)
		return s
	}
	for name, tt := range map[string]struct {
		scene tracetest.Scene
		want  []trace.Doubt
	}{
		"one colour":           {alike(), []trace.Doubt{trace.NothingFound, trace.Alike}},
		"out of the picture":   {cutOff(t), []trace.Doubt{trace.AtRim, trace.NothingFound}},
		"two leftovers":        {near(func(s *tracetest.Scene) { s.Second = 0.7 }), []trace.Doubt{trace.SeveralParts}},
		"a sheet on the cloth": {near(func(s *tracetest.Scene) { s.LayOver() }), []trace.Doubt{trace.AtSheet, trace.NothingFound, trace.Alike}},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			r := traced(t.Context(), tt.scene)
			if r.err != nil {
				t.Fatal(r.err)
			}
			for _, d := range r.doubts {
				for _, w := range tt.want {
					if d == w {
						return
					}
				}
			}
			t.Errorf("doubts %q, area %+.2f %%, %.1f mm apart", r.doubts, 100*r.area, r.apart/1000)
		})
	}
}

func TestStopsWhenAsked(t *testing.T) {
	photo, err := tracetest.Take(tracetest.NewScene(1))
	if err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if _, err := trace.Trace(ctx, photo.Picture, photo.Marked); !errors.Is(err, context.Canceled) {
		t.Errorf("%v", err)
	}
}

// BenchmarkTrace is a photo of 12 megapixels, as a telephone takes it.
func BenchmarkTrace(b *testing.B) {
	s := tracetest.NewScene(2)
	s.Camera = s.Camera.Finer(4000, 3000)
	photo, err := tracetest.Take(s)
	if err != nil {
		b.Fatal(err)
	}
	if p := photo.Picture.Bounds().Size(); p != (image.Point{X: 4000, Y: 3000}) {
		b.Fatal(p)
	}
	for b.Loop() {
		if _, err := trace.Trace(b.Context(), photo.Picture, photo.Marked); err != nil {
			b.Fatal(err)
		}
	}
}
