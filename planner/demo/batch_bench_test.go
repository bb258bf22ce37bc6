package demo_test

import (
	"context"
	"fmt"
	"math/rand/v2"
	"runtime"
	"syscall"
	"testing"
	"time"

	"tallycloth/planner"
	"tallycloth/stash/measure"
)

// scarce is the share of the usual length and width that leftovers have where cloth is short.
const scarce = 0.62

// batchOf is a random shelf with what is wanted from it: so many garments of the demo
// patterns, from leftovers a share as long and as wide as usual.
func batchOf(b testing.TB, garments, leftovers int, share float64) (*planner.Studio, planner.Batch) {
	b.Helper()
	rng := rand.New(rand.NewPCG(uint64(garments), uint64(leftovers)))
	s, patterns := smallerShelf(b, rng, leftovers, share, time.Now)
	var ask planner.Batch
	for garments > 0 {
		p := patterns[rng.IntN(len(patterns))]
		n := min(garments, 1+rng.IntN(4))
		ask.Rows = append(ask.Rows, planner.Wanted{PatternID: p.ID, Size: p.Sizes[rng.IntN(len(p.Sizes))].Name, Count: n, Priority: 1 + rng.IntN(2)})
		garments -= n
	}
	return s, ask
}

// used is the area that a plan cuts into.
func used(p planner.BatchPlan) measure.Area {
	var sum measure.Area
	for _, c := range p.Cuts {
		sum += c.Cloth.Cloth.Area()
		for _, l := range c.Left {
			sum -= l.Area()
		}
	}
	return sum
}

// benchmarkBatch plans for so long and says when the first whole plan was there and what came
// of it by a quarter of the time.
func benchmarkBatch(b *testing.B, garments, leftovers int, share float64, long time.Duration) {
	for b.Loop() {
		s, ask := batchOf(b, garments, leftovers, share)
		start, before := time.Now(), processorTime(b)
		first, last, made, early := time.Duration(0), time.Duration(0), 0, planner.BatchPlan{}
		p, err := s.PlanBatch(context.Background(), ask, planner.BatchEffort{Time: long}, func(p planner.BatchPlan) {
			if first == 0 && len(p.Made) > 0 {
				first = time.Since(start)
			}
			if len(p.Made) > made {
				made, last = len(p.Made), time.Since(start)
			}
			if time.Since(start) < long/4 {
				early = p
			}
		})
		if err != nil {
			b.Fatal(err)
		}
		b.ReportMetric((processorTime(b) - before).Seconds(), "processor-s")
		var mem runtime.MemStats
		runtime.ReadMemStats(&mem)
		b.ReportMetric(first.Seconds(), "first-s")
		b.ReportMetric(last.Seconds(), "last-garment-s")
		b.ReportMetric(float64(len(early.Made)), "garments-at-1/4")
		b.ReportMetric(float64(used(early))/1e12, "m²-at-1/4")
		b.ReportMetric(float64(len(p.Made)), "garments")
		b.ReportMetric(float64(p.AtMost[len(p.AtMost)-1]), "at-most")
		b.ReportMetric(float64(used(p))/1e12, "m²")
		b.ReportMetric(float64(p.Tried), "tried")
		b.ReportMetric(float64(mem.Sys)/1e6, "MB")
	}
}

// processorTime is what this process has used of all cores.
func processorTime(b *testing.B) time.Duration {
	b.Helper()
	var r syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &r); err != nil {
		b.Fatal(err)
	}
	return time.Duration(r.Utime.Nano() + r.Stime.Nano())
}

// BenchmarkBatchSizes plans for a quarter of a minute as the numbers grow, with plenty of cloth
// and where it is short.
func BenchmarkBatchSizes(b *testing.B) {
	for _, n := range [][2]int{{6, 12}, {12, 25}, {24, 50}, {40, 100}, {60, 200}} {
		for name, share := range map[string]float64{"plenty": 1, "scarce": scarce} {
			b.Run(fmt.Sprintf("%dx%d/%s", n[0], n[1], name), func(b *testing.B) { benchmarkBatch(b, n[0], n[1], share, 15*time.Second) })
		}
	}
}

// BenchmarkBatchFirst plans twelve garments over 25 leftovers for a minute.
func BenchmarkBatchFirst(b *testing.B) { benchmarkBatch(b, 12, 25, 1, time.Minute) }

// BenchmarkBatch60x200 plans sixty garments over 200 cloths for a minute.
func BenchmarkBatch60x200(b *testing.B) { benchmarkBatch(b, 60, 200, 1, time.Minute) }

// BenchmarkBatch60x200Scarce does so where cloth is short.
func BenchmarkBatch60x200Scarce(b *testing.B) { benchmarkBatch(b, 60, 200, scarce, time.Minute) }
