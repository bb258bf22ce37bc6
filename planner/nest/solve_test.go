package nest

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"

	"tallycloth/stash/shape"
)

// blob is a smooth outline of n points with one hollow, about r µm in size.
func blob(rng *rand.Rand, n int, r float64) shape.Ring {
	var out shape.Ring
	a, b := rng.Float64(), rng.Float64()*6
	for i := range n {
		t := 2 * math.Pi * float64(i) / float64(n)
		k := r * (0.7 + 0.3*a*math.Cos(2*t+b) + 0.15*math.Sin(3*t))
		out = append(out, shape.Point{X: int64(k * math.Cos(t)), Y: int64(k * math.Sin(t))})
	}
	return out.Clean()
}

// garmentOf is a question of the demo kind: so many outlines of about 60 points
// that share one of two turns.
func garmentOf(n int, length int64) Instance {
	rng := rand.New(rand.NewPCG(5, uint64(n)))
	in := Instance{Fabrics: []Fabric{{Width: 1_450_000, Length: length}}, Clearance: 3000, Ask: FitsAll,
		Groups: []Group{{Angles: []shape.Angle{shape.Turn0, shape.Turn180}}}}
	for i := range n {
		r := 300_000.0 - 200_000*float64(i)/float64(n)
		in.Items = append(in.Items, Item{Outline: blob(rng, 60, r), Group: 0})
	}
	return in
}

func TestSolveLaysAGarment(t *testing.T) {
	for _, ask := range []Ask{FitsAll, BestSubset} {
		in := garmentOf(8, 1_500_000)
		in.Ask = ask
		a, err := Solve(context.Background(), in, Options{})
		if err != nil {
			t.Fatal(err)
		}
		if a.Reason != Found || len(a.Solution.Left) != 0 {
			t.Errorf("%v: got %v with %d left over", ask, a.Reason, len(a.Solution.Left))
		}
	}
}
