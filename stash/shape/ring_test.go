package shape

import (
	"math"
	"math/big"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// TestMeet asserts the guarantees of Meet row by row, in every order.
func TestMeet(t *testing.T) {
	for _, c := range []struct {
		name       string
		a, b, p, q Point
		want       Meeting
	}{
		{"cross", Point{0, 0}, Point{10, 10}, Point{0, 10}, Point{10, 0}, Crossing},
		{"end on the middle", Point{0, 0}, Point{10, 0}, Point{5, 0}, Point{5, 9}, Touching},
		{"end on end", Point{0, 0}, Point{10, 0}, Point{10, 0}, Point{12, 9}, Touching},
		{"end to end in line", Point{0, 0}, Point{10, 0}, Point{10, 0}, Point{20, 0}, Touching},
		{"along", Point{0, 0}, Point{10, 0}, Point{5, 0}, Point{20, 0}, Along},
		{"along, one in the other", Point{0, 0}, Point{10, 10}, Point{2, 2}, Point{5, 5}, Along},
		{"in line, apart", Point{0, 0}, Point{10, 0}, Point{11, 0}, Point{20, 0}, Disjoint},
		{"parallel", Point{0, 0}, Point{10, 0}, Point{0, 1}, Point{10, 1}, Disjoint},
		{"point on the segment", Point{5, 5}, Point{5, 5}, Point{0, 0}, Point{10, 10}, Touching},
		{"point beside it", Point{5, 6}, Point{5, 6}, Point{0, 0}, Point{10, 10}, Disjoint},
		{"equal points", Point{5, 6}, Point{5, 6}, Point{5, 6}, Point{5, 6}, Touching},
		{"far corners, 1 µm short", Point{-MaxCoordinate, -MaxCoordinate}, Point{MaxCoordinate, MaxCoordinate},
			Point{0, 1}, Point{0, 5}, Disjoint},
	} {
		for _, got := range []Meeting{Meet(c.a, c.b, c.p, c.q), Meet(c.p, c.q, c.a, c.b), Meet(c.b, c.a, c.p, c.q), Meet(c.a, c.b, c.q, c.p)} {
			if got != c.want {
				t.Errorf("%s: got %v, want %v", c.name, got, c.want)
			}
		}
	}
}

// TestOrientationIsExact compares with big integers over the whole range.
func TestOrientationIsExact(t *testing.T) {
	coordinate := rapid.Int64Range(-MaxCoordinate, MaxCoordinate)
	rapid.Check(t, func(t *rapid.T) {
		var v [6]int64
		for i := range v {
			v[i] = coordinate.Draw(t, "v")
		}
		a, b, c := Point{v[0], v[1]}, Point{v[2], v[3]}, Point{v[4], v[5]}
		product := func(x, y int64) *big.Int { return new(big.Int).Mul(big.NewInt(x), big.NewInt(y)) }
		want := product(b.X-a.X, c.Y-a.Y).Cmp(product(b.Y-a.Y, c.X-a.X))
		if got := Orientation(a, b, c); got != want || Orientation(b, c, a) != want || Orientation(b, a, c) != -want {
			t.Errorf("got %d, want %d", got, want)
		}
	})
}

func TestRingMeasures(t *testing.T) {
	r := Ring{{0, 0}, {40, 0}, {40, 30}}
	if r.Area2() != 1200 || r.Reverse().Area2() != -1200 || r.Area() != 600 || r.Perimeter() != 120 {
		t.Errorf("3-4-5 triangle: %d, %d, %v", r.Area2(), r.Area(), r.Perimeter())
	}
	if got := awkward["huge"].Area2(); got != 8*MaxCoordinate*MaxCoordinate {
		t.Errorf("greatest square: %d", got)
	}
	if b := r.Bounds(); b != (Box{Point{0, 0}, Point{40, 30}}) || b.Length() != 40 || b.Width() != 30 {
		t.Errorf("bounds %v", b)
	}
	for p, want := range map[Point]Where{{30, 10}: Within, {20, 15}: OnEdge, {0, 0}: OnEdge, {40, 10}: OnEdge,
		{20, 16}: Outside, {50, 0}: Outside, {-5, 0}: Outside} {
		if got := r.Locate(p); got != want || r.Reverse().Locate(p) != want || r.Contains(p) != (want != Outside) {
			t.Errorf("%v: %v, want %v", p, got, want)
		}
	}
}

func TestClean(t *testing.T) {
	for name, want := range map[string]Ring{
		"nil": nil, "line": nil, "one spot": nil, "there and back": nil, "good": awkward["good"],
		"straight angle": awkward["good"], "spike": awkward["good"], "repeated": {{0, 0}, {10, 0}, {10, 10}},
	} {
		got := awkward[name].Clean()
		if !slices.Equal(got, want) || !slices.Equal(got.Clean(), got) {
			t.Errorf("%s: got %v, want %v", name, got, want)
		}
		if got.Area2() != awkward[name].Area2() {
			t.Errorf("%s: the area changed", name)
		}
	}
}

// TestPlacement asserts the guarantees of Apply.
func TestPlacement(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := star(t, "r")
		a := Angle(rapid.IntRange(-720_000, 720_000).Draw(t, "angle"))
		at := Point{rapid.Int64Range(-1000, 1000).Draw(t, "x"), 7}
		for _, mirror := range []bool{false, true} {
			laid := Placement{a, mirror, at}.Apply(r)
			if a%Turn90 == 0 && laid.Area2() != r.Area2() {
				t.Errorf("a quarter turn changed the area from %d to %d", r.Area2(), laid.Area2())
			}
			back := Placement{a + Turn180, mirror, Point{}}.Apply(r)
			for i, p := range laid {
				if q := p.Sub(at); q != (Point{-back[i].X, -back[i].Y}) {
					t.Errorf("half a turn on gives %v, not the negative of %v", back[i], q)
				}
			}
			if first := (Placement{a, mirror, at}).ApplyPoint(r[0]); first != laid[0] {
				t.Errorf("first point %v, ring starts at %v", first, laid[0])
			}
		}
	})
	r := Ring{{0, 0}, {40, 0}, {40, 30}}
	want := Ring{{7, 9}, {37, 49}, {7, 49}} // mirrored, a quarter turn, moved, in reverse
	got := Placement{Turn90, true, Point{7, 9}}.Apply(r)
	if !slices.Equal(got, want) || got.Area2() <= 0 {
		t.Errorf("got %v, want %v", got, want)
	}
}

// TestTurnIsNearest compares the turned point with one of 200 binary digits
// whose sine and cosine come from the Taylor series in math/big.
func TestTurnIsNearest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := Angle(rapid.IntRange(0, 359_999).Draw(t, "angle"))
		p := Point{rapid.Int64Range(-MaxCoordinate/2, MaxCoordinate/2).Draw(t, "x"), rapid.Int64Range(-MaxCoordinate/2, MaxCoordinate/2).Draw(t, "y")}
		got := Placement{Angle: a}.ApplyPoint(p)
		cos, sin := bigSincos(a)
		x := new(big.Float).Sub(mul(cos, p.X), mul(sin, p.Y))
		y := new(big.Float).Add(mul(sin, p.X), mul(cos, p.Y))
		for _, c := range []struct {
			got  int64
			want *big.Float
		}{{got.X, x}, {got.Y, y}} {
			off, _ := new(big.Float).Sub(c.want, new(big.Float).SetInt64(c.got)).Float64()
			if math.Abs(off) > 0.5+1e-8 {
				t.Errorf("turning %v by %d: off by %v µm", p, a, off)
			}
		}
	})
	if got := (Placement{Angle: 60_000}).ApplyPoint(Point{3, 0}); got != (Point{2, 3}) {
		t.Errorf("a tie at 60° gave %v, want halves away from zero", got)
	}
	if got := (Placement{Angle: 300_000}).ApplyPoint(Point{-3, 0}); got != (Point{-2, 3}) {
		t.Errorf("a tie at 300° gave %v", got)
	}
}

func mul(f *big.Float, v int64) *big.Float {
	return new(big.Float).SetPrec(200).Mul(f, new(big.Float).SetInt64(v))
}

func bigSincos(a Angle) (cos, sin *big.Float) {
	// π to 60 digits (OEIS A000796).
	theta, _, _ := big.ParseFloat("3.14159265358979323846264338327950288419716939937510582097494", 10, 200, big.ToNearestEven)
	theta.Mul(theta, big.NewFloat(float64(a)))
	theta.Quo(theta, big.NewFloat(180_000))
	sums := [2]*big.Float{new(big.Float).SetPrec(200), new(big.Float).SetPrec(200)}
	term := new(big.Float).SetPrec(200).SetInt64(1)
	for k := 1; k < 80; k++ {
		sum := sums[(k-1)%2]
		if k%4 == 1 || k%4 == 2 {
			sum.Add(sum, term)
		} else {
			sum.Sub(sum, term)
		}
		term.Mul(term, theta)
		term.Quo(term, big.NewFloat(float64(k)))
	}
	return sums[0], sums[1]
}

func TestHull(t *testing.T) {
	r := Ring{{0, 0}, {50, 0}, {100, 0}, {60, 50}, {100, 100}, {50, 40}, {0, 100}}
	want := Ring{{0, 0}, {100, 0}, {100, 100}, {0, 100}}
	if got := r.Hull(); !slices.Equal(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
	rapid.Check(t, func(t *rapid.T) {
		r := star(t, "r")
		h := r.Hull()
		if h.Validate() != nil || !Inside(r, Polygon{Outer: h}) {
			t.Errorf("hull %v of %v", h, r)
		}
	})
}
