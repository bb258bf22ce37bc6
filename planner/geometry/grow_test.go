package geometry

import (
	"math"
	"math/rand/v2"
	"testing"

	"tallycloth/stash/shape"
)

// smooth is an outline of a garment's kind: n points on a closed curve with hollows.
func smooth(rng *rand.Rand, n int, r float64) shape.Ring {
	a, b, c := rng.Float64(), rng.Float64()*6, rng.Float64()*6
	var out shape.Ring
	for i := range n {
		t := 2 * math.Pi * float64(i) / float64(n)
		k := r * (0.6 + 0.3*a*math.Cos(2*t+b) + 0.12*math.Sin(3*t+c))
		out = append(out, shape.Point{X: int64(k * math.Cos(t)), Y: int64(k * math.Sin(t))})
	}
	return out.Clean()
}

// TestSimplifyOnlyGrows: every simplified ring is valid, contains the original
// exactly, and has the corners asked for or could not be brought there.
func TestSimplifyOnlyGrows(t *testing.T) {
	rng := rand.New(rand.NewPCG(11, 12))
	var before, after float64
	for round := range 400 {
		var r shape.Ring
		switch round % 3 {
		case 0:
			r = star(rng, 4+rng.IntN(40), 300_000)
		case 1:
			r = onGrid(rng, 4+rng.IntN(12))
		default:
			r = smooth(rng, 60+rng.IntN(200), 300_000)
		}
		s := Simplify(r, 24, 1e-5)
		if err := s.Validate(); err != nil {
			t.Fatalf("round %d: %v from %v", round, err, r)
		}
		if !shape.Inside(r, shape.Polygon{Outer: s}) {
			t.Fatalf("round %d: the simplified ring does not contain the original\n%v\n%v", round, r, s)
		}
		if round%3 == 2 {
			if len(s) > 24 {
				t.Errorf("round %d: a smooth outline of %d points keeps %d", round, len(r), len(s))
			}
			before, after = before+float64(r.Area2()), after+float64(s.Area2())
		}
	}
	if grown := after/before - 1; grown > 0.012 {
		t.Errorf("smooth outlines grow by %.2f %% on the whole", 100*grown)
	}
}

// TestGrowKeepsItsDistance: the grown ring contains the original with at least d
// to spare, measured by package shape.
func TestGrowKeepsItsDistance(t *testing.T) {
	rng := rand.New(rand.NewPCG(13, 14))
	for round := range 200 {
		r := star(rng, 4+rng.IntN(20), 300_000)
		if round%2 == 0 {
			r = smooth(rng, 80, 300_000)
		}
		d := 1 + rng.Int64N(20_000)
		g := Grow(r, d)
		if err := g.Validate(); err != nil {
			t.Fatalf("round %d: %v", round, err)
		}
		if !shape.InsideBy(r, shape.Polygon{Outer: g}, d) {
			t.Fatalf("round %d: the ring comes nearer than %d µm to the grown one\n%v", round, d, r)
		}
	}
}

func BenchmarkSimplify(b *testing.B) {
	r := smooth(rand.New(rand.NewPCG(5, 6)), 200, 300_000)
	for b.Loop() {
		Simplify(r, 24, 1e-5)
	}
}
