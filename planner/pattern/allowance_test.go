package pattern_test

import (
	"math"
	"slices"
	"testing"

	"tallycloth/planner/pattern"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"

	"pgregory.net/rapid"
)

// TestAllowanceByEdge: on a rectangle the cutting line lies off each edge by what was said for it, by
// elementary geometry; the edges that moved keep their line to stitch along.
func TestAllowanceByEdge(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		long, wide := rapid.Int64Range(60_000, 700_000).Draw(t, "long"), rapid.Int64Range(60_000, 400_000).Draw(t, "wide")
		r := shape.Ring{{}, {X: long}, {X: long, Y: wide}, {Y: wide}}
		edges := pattern.Stretches(r)
		if len(edges) != 4 {
			t.Fatalf("%v", edges)
		}
		draw := func(name string) measure.Length {
			return measure.Length(rapid.Int64Range(0, 25_000).Draw(t, name))
		}
		usual, top, right, hem := draw("usual"), draw("top"), draw("right"), draw("hem")
		got, err := apron(r).Edited("A", nil, pattern.AddAllowance(usual, []pattern.EdgeAllowance{
			{At: edges[0].Middle(r), Wide: top}, {At: edges[1].Middle(r), Wide: right}, {At: edges[2].Middle(r), Wide: hem}}, false))
		if err != nil {
			t.Fatal(err)
		}
		o := got.Pieces[0].Outlines["S"]
		want := shape.Box{Min: shape.Point{X: -int64(top), Y: -int64(usual)}, Max: shape.Point{X: long + int64(hem), Y: wide + int64(right)}}
		if o.Cut.Bounds() != want || len(o.Cut) != 4 {
			t.Fatalf("%v, want %v", o.Cut, want)
		}
		along := 0.0
		for _, l := range o.Inner {
			along += float64(pattern.EdgePath{Points: l}.Length())
		}
		all := 0.0
		for k, d := range []measure.Length{top, right, hem, usual} {
			if d > 0 {
				all += float64(edges[k].Length(r))
			}
		}
		if math.Abs(along-all) > 4 {
			t.Fatalf("%.0f µm to stitch along, want %.0f", along, all)
		}
	})
}

// TestAllowanceOnTheFold: the fold edge stays, though it was said for all others, and the hem of a half
// runs out to it.
func TestAllowanceOnTheFold(t *testing.T) {
	p := vest()
	r := p.Pieces[0].Outlines["1"].Cut
	hem := slices.IndexFunc(pattern.Stretches(r), func(s pattern.Stretch) bool { return s.Middle(r).X == r.Bounds().Max.X })
	if hem < 0 {
		t.Fatalf("no hem among %v of %v", pattern.Stretches(r), r)
	}
	got, err := p.Edited("A", []string{"1"}, pattern.AddAllowance(0, []pattern.EdgeAllowance{{At: pattern.Stretches(r)[hem].Middle(r), Wide: 20 * measure.Millimetre}}, true))
	if err != nil {
		t.Fatal(err)
	}
	o := got.Pieces[0].Outlines["1"].Cut
	a, b := r.Bounds(), o.Bounds()
	if !pattern.HasFoldEdge(o) || b.Max.X != a.Max.X+20_000 || b.Min != a.Min || b.Max.Y != a.Max.Y {
		t.Errorf("%v, was %v", b, a)
	}
}

// TestAllowanceBesideAStep: part of a hem beside a vent is let down alone, by a rectangle.
func TestAllowanceBesideAStep(t *testing.T) {
	r := shape.Ring{{}, {X: 300_000}, {X: 300_000, Y: 100_000}, {X: 290_000, Y: 100_000}, {X: 290_000, Y: 200_000}, {Y: 200_000}}
	got, err := apron(r).Edited("A", nil, pattern.AddAllowance(0, []pattern.EdgeAllowance{{At: shape.Point{X: 300_000, Y: 50_000}, Wide: 5_000}}, false))
	if err != nil {
		t.Fatal(err)
	}
	if o := got.Pieces[0].Outlines["S"].Cut; o.Area() != r.Area()+5_000*100_000 {
		t.Errorf("%v has %d µm² more", o, o.Area()-r.Area())
	}
}

// TestStretchesClockwiseFromTheTop: numbers go round as the piece is seen, whatever point its ring begins
// with; a curve is one edge.
func TestStretchesClockwiseFromTheTop(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var r shape.Ring // a hem, two sides, and a round top in 40 steps
		r = append(r, shape.Point{X: 400_000, Y: 0}, shape.Point{X: 400_000, Y: 200_000})
		for i := range 41 {
			s, c := math.Sincos(math.Pi * float64(i) / 40)
			r = append(r, shape.Point{X: int64(200_000 - 80_000*s), Y: int64(100_000 + 100_000*c)})
		}
		turn := rapid.IntRange(0, len(r)-1).Draw(t, "begins")
		r = slices.Concat(r[turn:], r[:turn])
		edges := pattern.Stretches(r)
		// Tangents at the ends of the top run along the sides, so that sides and top are one edge.
		if len(edges) != 2 || edges[0].Middle(r).X > 200_000 || edges[1].Middle(r).X != 400_000 {
			t.Fatalf("%v: %v", edges, r)
		}
		if all := edges[0].Length(r) + edges[1].Length(r); math.Abs(float64(all)-r.Perimeter()) > 2 {
			t.Fatalf("%d of %.0f", all, r.Perimeter())
		}
	})
}
