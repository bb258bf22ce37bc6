package scene

import (
	"math"
	"testing"

	"tallycloth/stash/measure"
	"tallycloth/stash/shape"

	"pgregory.net/rapid"
)

// star draws a simple ring around the origin with radii drawn at random: concave as a rule.
func star(t *rapid.T) shape.Ring {
	n := rapid.IntRange(3, 14).Draw(t, "corners")
	var r shape.Ring
	for i := range n {
		a := 2 * math.Pi * float64(i) / float64(n)
		d := float64(rapid.Int64Range(20_000, 400_000).Draw(t, "radius"))
		r = append(r, shape.Point{X: 500_000 + int64(d*math.Cos(a)), Y: 500_000 + int64(d*math.Sin(a))})
	}
	return r
}

// TestNamesLieInside: the name of a pattern piece is always written, its corners lie within the
// outline, and it keeps clear of the grain arrow.
func TestNamesLieInside(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := star(t)
		cloth := shape.Polygon{Outer: shape.Box{Max: shape.Point{X: 1_000_000, Y: 1_000_000}}.Ring()}
		from, to := shape.Point{X: 495_000, Y: 499_000}, shape.Point{X: 512_000, Y: 499_000}
		s := Layout{Cloth: cloth, Pieces: []Placed{{ID: "p", Name: rapid.SampledFrom([]string{"front", "upper side back", "K1"}).Draw(t, "name"), Size: "M", Count: "cut 2", Outline: r, GrainFrom: from, GrainTo: to}}}.Scene()
		written := 0
		for _, it := range s.Items {
			if it.Text == "" || it.ID != "p" {
				continue
			}
			written++
			for _, c := range it.corners() {
				if q := (shape.Point{X: int64(math.Round(c.X * 1000)), Y: int64(math.Round(c.Y * 1000))}); !r.Contains(q) {
					t.Fatalf("%q: corner %v is outside", it.Text, c)
				}
			}
			if y := mm(from.Y); it.Turn == 0 && math.Abs(it.At.Y-y) < it.Size/2 && math.Abs(it.At.X-503.5) < 8.5 {
				t.Fatalf("%q lies on the grain arrow", it.Text)
			}
		}
		if written == 0 {
			t.Fatal("no name")
		}
	})
}

// TestPole against shapes whose largest inscribed circle is known: a square, a 3-4-5 triangle
// (r = 1), and an L whose arms are narrower than its corner.
func TestPole(t *testing.T) {
	line := func(p ...Point) []Line { return []Line{{Points: p, Closed: true}} }
	for _, c := range []struct {
		lines []Line
		at    Point
		r     float64
	}{
		{line(Point{0, 0}, Point{10, 0}, Point{10, 10}, Point{0, 10}), Point{5, 5}, 5},
		{line(Point{0, 0}, Point{4, 0}, Point{0, 3}), Point{1, 1}, 1},
	} {
		at, r := room{area: c.lines}.pole()
		if math.Abs(r-c.r) > c.r/40 || math.Hypot(at.X-c.at.X, at.Y-c.at.Y) > c.r/10 {
			t.Errorf("%v: %v, %f", c.lines, at, r)
		}
	}
	for _, none := range [][]Line{nil, line(), line(Point{1, 1}), line(Point{0, 0}, Point{4, 4}, Point{0, 4}, Point{0, 0})[:0]} {
		if _, r := (room{area: none}).pole(); r != 0 {
			t.Errorf("%v has room", none)
		}
	}
}

// TestMiddleOfAParallelogram: what is worked out without a search is as far inside as the search finds, and
// asking again answers the same.
func TestMiddleOfAParallelogram(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := func(name string) Point {
			return Point{rapid.Float64Range(-300, 300).Draw(t, name+" x"), rapid.Float64Range(-300, 300).Draw(t, name+" y")}
		}
		a, b, d := p("a"), p("b"), p("d")
		if math.Abs((b.X-a.X)*(d.Y-a.Y)-(b.Y-a.Y)*(d.X-a.X)) < 100 {
			return
		}
		r := room{area: []Line{{Points: []Point{a, b, {b.X + d.X - a.X, b.Y + d.Y - a.Y}, d}, Closed: true}}}
		if !r.even() {
			t.Fatal("it is not seen as one")
		}
		if _, most := r.pole(); r.inside(r.middle()) < most*0.999 {
			t.Fatalf("the middle is %f inside, the pole %f", r.inside(r.middle()), most)
		}
		r.area[0].Points[2].X += 1
		if r.even() {
			t.Fatal("a corner off its place is not seen")
		}
	})
	star := shape.Polygon{Outer: shape.Ring{{}, {X: 90_000}, {X: 90_000, Y: 40_000}, {X: 40_000, Y: 40_000}, {X: 40_000, Y: 90_000}, {Y: 90_000}}}
	for range 2 {
		if got, want := fitOf(star, nil, 3, 30), fitText(star, nil, 3, 30); got != want {
			t.Errorf("remembered %v, found %v", got, want)
		}
	}
}

// TestEmpty: what has nothing to show gives an empty scene and no panic.
func TestEmpty(t *testing.T) {
	for name, s := range map[string]Scene{
		"layout": Layout{}.Scene(), "line": Layout{Cloth: shape.Polygon{Outer: shape.Ring{{X: 1}, {X: 2}}}}.Scene(),
		"strip": StripDrawing{}.Scene(), "section": SectionDrawing{}.Scene(), "cut": CutDrawing{Across: 5}.Scene(),
	} {
		if len(s.Items) != 0 || s.Bounds != (Box{}) {
			t.Errorf("%s: %+v", name, s)
		}
	}
}

func count(s Scene, style Style) (shapes, texts int) {
	for _, it := range s.Items {
		switch {
		case it.Style != style:
		case it.Text == "":
			shapes++
		default:
			texts++
		}
	}
	return shapes, texts
}

func rect(x0, y0, x1, y1 int64) shape.Polygon {
	return shape.Polygon{Outer: shape.Box{Min: shape.Point{X: x0, Y: y0}, Max: shape.Point{X: x1, Y: y1}}.Ring()}
}

// TestLayoutShows: two selvedges and two cut edges, a fold only where there is cloth, what is
// left behind the last piece, measured.
func TestLayoutShows(t *testing.T) {
	l := Layout{Cloth: rect(0, 0, 1_000_000, 600_000), Selvedges: Sides{true, true}, Folds: []int64{300_000}, Units: measure.Metric,
		Pieces: []Placed{{Name: "a", Outline: rect(0, 0, 400_000, 200_000).Outer}}}
	s := l.Scene()
	for style, want := range map[Style]int{Selvedge: 2, Edge: 2, Fold: 1, Piece: 1, Free: 1, Cloth: 1} {
		if n, _ := count(s, style); n != want {
			t.Errorf("%s: %d shapes, want %d", style, n, want)
		}
	}
	found := false
	for _, it := range s.Items {
		found = found || it.Text == "free 60 cm × 60 cm"
	}
	if !found {
		t.Error("what is left is not measured")
	}
	l.Pieces[0].Outline = rect(0, 0, 1_000_000, 10_000).Outer
	if n, _ := count(l.Scene(), Free); n != 0 {
		t.Error("nothing is left along the whole width")
	}
}

// TestGridStaysOnCloth: every line of the grid lies within the cloth, out of its holes.
func TestGridStaysOnCloth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cloth := shape.Polygon{Outer: star(t), Holes: []shape.Ring{shape.Box{Min: shape.Point{X: 498_000, Y: 498_000}, Max: shape.Point{X: 502_000, Y: 502_000}}.Ring().Reverse()}}
		s := Layout{Cloth: cloth, Units: measure.System(rapid.IntRange(0, 1).Draw(t, "units"))}.Scene()
		for _, it := range s.Items {
			if it.Style != Grid || it.Text != "" {
				continue
			}
			for _, l := range it.Lines {
				a, b := l.Points[0], l.Points[1]
				mid := shape.Point{X: int64((a.X + b.X) / 2 * 1000), Y: int64((a.Y + b.Y) / 2 * 1000)}
				// A line of a hair's length may round to the other side of a slanted edge.
				if math.Hypot(a.X-b.X, a.Y-b.Y) > 0.01 && !cloth.Contains(mid) {
					t.Fatalf("grid line %v is off the cloth", l.Points)
				}
			}
		}
	})
}

// TestFlags: the words of marks on a strip never lie on each other, nor do poles cross them.
func TestFlags(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := StripDrawing{Length: 600_000, Width: 40_000}
		for range rapid.IntRange(1, 10).Draw(t, "marks") {
			d.Marks = append(d.Marks, StripMark{"strap point", rapid.Int64Range(0, 600_000).Draw(t, "at")})
		}
		s := d.Scene()
		var words []Box
		var poles []Line
		for _, it := range s.Items {
			switch {
			case it.Style != Notch:
			case it.Text != "":
				c := it.corners()
				words = append(words, Box{c[0], c[2]})
			default:
				poles = append(poles, it.Lines...)
			}
		}
		for i, a := range words {
			for _, b := range words[:i] {
				if a.Min.X < b.Max.X && b.Min.X < a.Max.X && a.Min.Y < b.Max.Y-1e-9 && b.Min.Y < a.Max.Y-1e-9 {
					t.Fatalf("words %v and %v meet", a, b)
				}
			}
			for _, p := range poles {
				x, top := p.Points[0].X, p.Points[1].Y
				if a.Min.X < x && x < a.Max.X && top > a.Min.Y+1e-9 {
					t.Fatalf("a pole at %f crosses the words %v", x, a)
				}
			}
		}
	})
}

// TestSceneHoldsAll: everything lies within the bounds.
func TestSceneHoldsAll(t *testing.T) {
	s := CutDrawing{Name: "leftover of the striped jersey", Across: 580_000, Along: 300_000, Units: measure.Imperial,
		Pieces: []CutPiece{{Name: "neck", From: 0, To: 500_000, Width: 40_000, JoinTo: true}, {Name: "neck", From: 0, To: 80_000, At: 40_000, Width: 40_000, JoinFrom: true}}}.Scene()
	if n, _ := count(s, Join); n != 2 {
		t.Errorf("%d ends are joined", n)
	}
	for _, it := range s.Items {
		for _, c := range it.corners() {
			if c.X < s.Bounds.Min.X || c.X > s.Bounds.Max.X || c.Y < s.Bounds.Min.Y || c.Y > s.Bounds.Max.Y {
				t.Errorf("%+v is out of bounds", it)
			}
		}
	}
}

// BenchmarkLayoutScene draws 20 pattern pieces of 40 vertices.
func BenchmarkLayoutScene(b *testing.B) {
	l := Layout{Cloth: rect(0, 0, 2_000_000, 1_500_000)}
	for i := range int64(20) {
		var r shape.Ring
		for k := range 40 {
			a := 2 * math.Pi * float64(k) / 40
			r = append(r, shape.Point{X: 150_000 + i%5*300_000 + int64(140_000*math.Cos(a)), Y: 150_000 + i/5*300_000 + int64(100_000*math.Sin(a))})
		}
		l.Pieces = append(l.Pieces, Placed{Name: "piece", Size: "M", Count: "cut 2", Outline: r})
	}
	for b.Loop() {
		l.Scene()
	}
}
