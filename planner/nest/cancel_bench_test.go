package nest

import (
	"context"
	"math/rand/v2"
	"testing"
	"time"

	"tallycloth/stash/shape"
)

// BenchmarkCancel reports the worst delay between the end of the context and the
// return of Solve, over cancels at moments spread through the first half second.
func BenchmarkCancel(b *testing.B) {
	rng := rand.New(rand.NewPCG(7, 100))
	many := Instance{Fabrics: []Fabric{{Width: 1_500_000}}}
	for range 100 {
		many.Items = append(many.Items, Item{Outline: blob(rng, 200, 150_000), Group: NoGroup,
			Angles: []shape.Angle{shape.Turn0, shape.Turn180}})
	}
	flawed := many
	flawed.Clearance, flawed.Fabrics = 2000, []Fabric{{Width: 1_500_000}}
	for k := range int64(12) {
		flaw := blob(rng, 40, 60_000).Move(shape.Point{X: k * 300_000, Y: k % 5 * 300_000})
		flawed.Fabrics[0].Obstacles = append(flawed.Fabrics[0].Obstacles, shape.Polygon{Outer: flaw})
	}
	fits, subset := heap(60, 2000), heap(60, 2000)
	fits.Ask, fits.Fabrics[0].Length = FitsAll, 4_500_000
	subset.Ask, subset.Fabrics[0].Length = BestSubset, 3_500_000
	for _, c := range []struct {
		name string
		in   Instance
	}{{"length", heap(60, 2000)}, {"fits", fits}, {"subset", subset}, {"fill", many}, {"flawed", flawed}} {
		b.Run(c.name, func(b *testing.B) {
			worst := time.Duration(0)
			for k := 0; b.Loop(); k++ {
				worst = max(worst, cancelDelay(b, c.in, time.Duration(k*37%500+1)*time.Millisecond))
			}
			b.ReportMetric(float64(worst.Microseconds())/1000, "worst-ms")
		})
	}
}

// cancelDelay is how long Solve goes on after its context ended at a moment.
func cancelDelay(b *testing.B, in Instance, after time.Duration) time.Duration {
	b.Helper()
	ctx, cancel := context.WithCancel(context.Background())
	ended := make(chan time.Time, 1)
	timer := time.AfterFunc(after, func() { ended <- time.Now(); cancel() })
	_, err := Solve(ctx, in, Options{Steps: 1 << 40, Workers: 2})
	done := time.Now()
	if err != nil {
		b.Fatal(err)
	}
	if timer.Stop() {
		cancel()
		return 0 // answered before
	}
	return done.Sub(<-ended)
}
