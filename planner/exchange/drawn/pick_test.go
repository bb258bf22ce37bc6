package drawn_test

import (
	"context"
	"testing"

	"tallycloth/planner/exchange/drawn"

	"pgregory.net/rapid"
)

// nested is a piece in three sizes drawn one in the other: their outer edges each in a colour and
// dash, the fold edge at the left once for all of them.
func nested(t testing.TB) drawn.Drawing {
	c := drawn.Collector{Limits: drawn.Limits{Outline: 100}, Brief: true}
	for i, l := range []drawn.Line{{Colour: "#ff0000"}, {Colour: "#00ff00", Dash: "3-1"}, {Colour: "#0000ff", Dash: "5-2"}} {
		wide := 100 + 10*float64(i)
		c.Add([]drawn.Place{{X: 0, Y: 20}, {X: wide, Y: 20}, {X: wide, Y: 220}, {X: 0, Y: 220}}, false, drawn.Found{Line: l, Object: i})
	}
	c.Add([]drawn.Place{{X: 0, Y: 20}, {X: 0, Y: 220}}, false, drawn.Found{Line: drawn.Line{Colour: "#000000"}, Object: 9})
	c.Add([]drawn.Place{{X: 400}, {X: 500}, {X: 500, Y: 100}, {X: 400, Y: 100}}, true, drawn.Found{Line: drawn.Line{Colour: "#000000"}, Object: 10})
	d, err := c.Finish(context.Background(), drawn.Scale{Unit: 1})
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// TestSizesByColourAndDash: what three sizes share is drawn once; each comes out whole, as one
// pattern piece, and the test square is no size.
func TestSizesByColourAndDash(t *testing.T) {
	d := nested(t)
	got, err := d.Picked(context.Background(), drawn.Pick{By: drawn.ByColour,
		Sizes: map[string]string{"#ff0000": "S", "#00ff00": "M", "#0000ff": "L", "#000000": drawn.EverySize}})
	if err != nil {
		t.Fatal(err)
	}
	p, _ := got.Pattern(drawn.Choice{Layers: true})
	if len(p.Pieces) != 1 || len(p.Sizes) != 3 || len(got.Squares) != 1 {
		t.Fatalf("%d pieces, %d sizes, squares %+v", len(p.Pieces), len(p.Sizes), got.Squares)
	}
	for size, wide := range map[string]int64{"S": 100_000, "M": 110_000, "L": 120_000} {
		if b := p.Pieces[0].Outlines[size].Cut.Bounds(); b.Width() != wide || b.Length() != 200_000 {
			t.Errorf("%s: %v", size, b)
		}
	}
	byDash := d.Values(drawn.ByDash)
	if len(byDash) != 3 || byDash[0].Of != "" || byDash[0].Lines != 2 || byDash[1].Of != "3-1" {
		t.Errorf("%+v", byDash)
	}
	if got, err = d.Picked(context.Background(), drawn.Pick{By: drawn.ByDash, Sizes: map[string]string{"5-2": "L"}}); err != nil || len(got.Shapes) != 2 || len(got.Shapes[0].Open) != 4 {
		t.Errorf("%+v, %v", got.Shapes, err)
	}
}

func TestOneSizePicked(t *testing.T) {
	d := nested(t)
	values := d.Values(drawn.ByColour)
	if len(values) != 4 || values[0].Of != "#ff0000" || values[0].Lines != 1 || values[3].Outlines != 0 {
		t.Errorf("%+v", values)
	}
	got, err := d.Picked(context.Background(), drawn.Pick{By: drawn.ByColour, Sizes: map[string]string{"#00ff00": "M", "#000000": drawn.EverySize}})
	if err != nil {
		t.Fatal(err)
	}
	if p, _ := got.Pattern(drawn.Choice{Layers: true}); len(p.Pieces) != 1 || len(p.Sizes) != 1 || p.Sizes[0].Name != "M" {
		t.Errorf("%+v", p)
	}
	if got, err = d.Picked(context.Background(), drawn.Pick{By: drawn.ByLayer}); err != nil || len(got.Shapes) != 1 {
		t.Errorf("nothing is picked but the square stays: %+v, %v", got.Shapes, err)
	}
}

// TestJoinKeepsLength: a ring cut into stretches in any order and direction comes back whole.
func TestJoinKeepsLength(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(3, 12).Draw(t, "corners")
		ring := make([]drawn.Place, n)
		for i := range ring {
			ring[i] = drawn.Place{X: float64(i) * 10, Y: float64(i*i) * 3}
		}
		var runs []drawn.Run
		for _, i := range rapid.Permutation(indices(n)).Draw(t, "order") {
			pts := []drawn.Place{ring[i], ring[(i+1)%n]}
			if rapid.Bool().Draw(t, "round") {
				pts[0], pts[1] = pts[1], pts[0]
			}
			pts[0].X += rapid.Float64Range(-0.01, 0.01).Draw(t, "off")
			runs = append(runs, drawn.Run{Points: pts})
		}
		out, forks := drawn.Join(runs, drawn.Near)
		if len(out) != 1 || !out[0].Closed || len(out[0].Points) != n || forks != 0 {
			t.Fatalf("%+v, %d forks", out, forks)
		}
	})
}

func indices(n int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = i
	}
	return out
}
