package geometry

import (
	"math"
	"math/rand/v2"
	"testing"

	"tallycloth/stash/shape"
)

// star is a random simple ring about the origin with n points, often with reflex corners.
func star(rng *rand.Rand, n int, r float64) shape.Ring {
	for {
		var out shape.Ring
		for i := range n {
			t := 2 * math.Pi * (float64(i) + 0.8*rng.Float64()) / float64(n)
			k := r * (0.3 + 0.7*rng.Float64())
			out = append(out, shape.Point{X: int64(k * math.Cos(t)), Y: int64(k * math.Sin(t))})
		}
		if out = out.Clean(); out.Validate() == nil && out.Area2() > 0 {
			return out
		}
	}
}

// onGrid rounds a ring to a coarse grid, so that edges are often parallel and
// corners often fall on edges.
func onGrid(rng *rand.Rand, n int) shape.Ring {
	for {
		r := star(rng, n, 6)
		for i := range r {
			r[i].X, r[i].Y = r[i].X*1000, r[i].Y*1000
		}
		if r = r.Clean(); r.Validate() == nil && r.Area2() > 0 {
			return r
		}
	}
}

// TestNoFitAgreesWithOverlap compares the region with the exact test of package
// shape at random places and at places on the coarse grid, where contacts happen.
func TestNoFitAgreesWithOverlap(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for round := range 600 {
		var a, b shape.Ring
		if round%2 == 0 {
			a, b = star(rng, 3+rng.IntN(12), 5000), star(rng, 3+rng.IntN(12), 5000)
		} else {
			a, b = onGrid(rng, 4+rng.IntN(9)), onGrid(rng, 4+rng.IntN(9))
		}
		region := NoFit(a, b)
		for range 60 {
			at := shape.Point{X: rng.Int64N(20001) - 10000, Y: rng.Int64N(20001) - 10000}
			if round%2 == 1 && rng.IntN(2) == 0 {
				at.X, at.Y = at.X/1000*1000, at.Y/1000*1000
			}
			x, y := float64(at.X), float64(at.Y)
			want := shape.Overlaps(a, b.Move(at))
			bx, by := region.Way(x, y)
			if edge := math.Hypot(bx-x, by-y); edge < 1.5 {
				continue
			}
			if got := region.Contains(x, y); got != want {
				t.Fatalf("round %d at %v: region says %v, outlines say %v\n%v\n%v", round, at, got, want, a, b)
			}
			if got := region.Depth(x, y); (got > 0) != want {
				t.Fatalf("round %d at %v: depth %v, overlap %v", round, at, got, want)
			} else if want && math.Abs(got-math.Hypot(bx-x, by-y)) > 1e-6 {
				t.Fatalf("round %d: depth %v, nearest boundary %v", round, got, math.Hypot(bx-x, by-y))
			}
		}
	}
}

// TestWithinAgrees compares with containment of package shape.
func TestWithinAgrees(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	for range 300 {
		cloth, b := star(rng, 3+rng.IntN(12), 9000), star(rng, 3+rng.IntN(6), 2500)
		region := Within(cloth, b)
		for range 60 {
			at := shape.Point{X: rng.Int64N(16001) - 8000, Y: rng.Int64N(16001) - 8000}
			x, y := float64(at.X), float64(at.Y)
			want := shape.Inside(b.Move(at), shape.Polygon{Outer: cloth})
			if bx, by := region.Way(x, y); math.Hypot(bx-x, by-y) < 1.5 {
				continue
			}
			if got := region.Contains(x, y); got != want {
				t.Fatalf("at %v: region says inside %v, outlines say %v\n%v\n%v", at, got, want, cloth, b)
			}
		}
	}
}

func BenchmarkNoFit(b *testing.B) {
	rng := rand.New(rand.NewPCG(5, 6))
	p, q := star(rng, 24, 300000), star(rng, 24, 200000)
	for b.Loop() {
		NoFit(p, q)
	}
}

func BenchmarkDepth(b *testing.B) {
	rng := rand.New(rand.NewPCG(5, 6))
	r := NoFit(star(rng, 10, 300000), star(rng, 10, 200000))
	var at [1024]Vec
	for i := range at {
		at[i] = Vec{r.minX + rng.Float64()*(r.maxX-r.minX), r.minY + rng.Float64()*(r.maxY-r.minY)}
	}
	i := 0
	for b.Loop() {
		r.Depth(at[i&1023].X, at[i&1023].Y)
		i++
	}
}

// TestTurnedRegion: a region turned by half is that of both outlines turned by half, and
// that of the two in each other's part.
func TestTurnedRegion(t *testing.T) {
	rng := rand.New(rand.NewPCG(4, 180))
	half := func(r shape.Ring) shape.Ring { return shape.Placement{Angle: shape.Turn180}.Apply(r) }
	for seed := range 40 {
		a, b := star(rng, 3+rng.IntN(12), 5000), star(rng, 3+rng.IntN(12), 5000)
		as := NoFit(a, b)
		turned := as.Turned()
		for name, want := range map[string]*Region{"both turned": NoFit(half(a), half(b)), "parts changed": NoFit(b, a)} {
			for range 200 {
				x := want.minX - 1000 + rng.Float64()*(want.maxX-want.minX+2000)
				y := want.minY - 1000 + rng.Float64()*(want.maxY-want.minY+2000)
				d, e := turned.Depth(x, y), want.Depth(x, y)
				dx, dy := turned.Push(x, y, 2)
				ex, ey := as.Push(-x, -y, 2)
				if math.Abs(d-e) > 0.1 || turned.Contains(x, y) != (d > 0) || dx != -ex || dy != -ey {
					t.Fatalf("seed %d, %s at %f, %f: depth %f and %f, push %f %f and %f %f", seed, name, x, y, d, e, dx, dy, ex, ey)
				}
			}
		}
	}
}
