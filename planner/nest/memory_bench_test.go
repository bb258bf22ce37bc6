package nest

import (
	"context"
	"math/rand/v2"
	"runtime"
	"testing"
	"time"

	"tallycloth/stash/shape"
)

// BenchmarkMemory100x80 searches for the least length of 100 different outlines of 80
// corners, each in two turns, with two workers for five seconds, and reports the
// greatest heap in use and taken from the system, in MB, read every 20 ms. The goal is
// 300 MB.
func BenchmarkMemory100x80(b *testing.B) {
	rng := rand.New(rand.NewPCG(8, 80))
	in := Instance{Fabrics: []Fabric{{Width: 1_500_000}}, Clearance: 3000}
	for range 100 {
		in.Items = append(in.Items, Item{Outline: blob(rng, 80, 80_000+120_000*rng.Float64()), Group: NoGroup,
			Angles: []shape.Angle{shape.Turn0, shape.Turn180}})
	}
	var heap, sys, used uint64
	for b.Loop() {
		runtime.GC()
		done := make(chan struct{})
		go func() {
			defer close(done)
			a, err := Solve(context.Background(), in, Options{Seed: 1, Workers: 2, Time: 5 * time.Second, Clock: time.Now})
			if err != nil || len(a.Solution.Left) > 0 {
				b.Errorf("%v, %d left over", err, len(a.Solution.Left))
				return
			}
			used = uint64(a.Solution.Used[0])
		}()
		tick := time.NewTicker(20 * time.Millisecond)
		for running := true; running; {
			select {
			case <-done:
				running = false
			case <-tick.C:
				var m runtime.MemStats
				runtime.ReadMemStats(&m)
				heap, sys = max(heap, m.HeapInuse), max(sys, m.HeapSys)
			}
		}
		tick.Stop()
	}
	b.ReportMetric(float64(heap)/1e6, "heap-MB")
	b.ReportMetric(float64(sys)/1e6, "system-MB")
	b.ReportMetric(float64(used)/1000, "mm")
}
