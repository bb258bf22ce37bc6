package drawn_test

import (
	"context"
	"math"
	"testing"

	"tallycloth/planner/exchange/drawn"
	"tallycloth/planner/pattern"
	"tallycloth/stash/shape"

	"pgregory.net/rapid"
)

// TestFrameOfThePage: down the page is the way of the grain, and what is seen stays the face, so
// that an outline keeps its area and a point to the right keeps to the right of the grain.
func TestFrameOfThePage(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x, y := rapid.Float64Range(-1000, 1000).Draw(t, "x"), rapid.Float64Range(-1000, 1000).Draw(t, "y")
		wide, tall := rapid.Float64Range(1, 500).Draw(t, "wide"), rapid.Float64Range(1, 500).Draw(t, "tall")
		c := drawn.Collector{Limits: drawn.Limits{Outline: 10}}
		c.Add([]drawn.Place{{X: x, Y: y}, {X: x + wide, Y: y}, {X: x + wide, Y: y + tall}, {X: x, Y: y + tall}}, true, drawn.Found{Name: "box", Group: []string{"layer"}})
		c.Add([]drawn.Place{{X: x + wide/4, Y: y + tall/2}, {X: x + wide/2, Y: y + tall/2}}, false, drawn.Found{Group: []string{"layer"}})
		d, err := c.Finish(context.Background(), drawn.Scale{Unit: 1})
		if err != nil || len(d.Shapes) != 2 {
			t.Fatalf("%v, %+v", err, d)
		}
		b := d.Shapes[0].Ring.Bounds()
		if math.Abs(float64(b.Length())/1000-tall) > 0.002 || math.Abs(float64(b.Width())/1000-wide) > 0.002 {
			t.Fatalf("%v is not %g long and %g wide", b, tall, wide)
		}
		if d.Shapes[1].Inside != 0 {
			t.Fatalf("the line lies in %d", d.Shapes[1].Inside)
		}
	})
}

func TestLayersAsSizes(t *testing.T) {
	c := drawn.Collector{Limits: drawn.Limits{Outline: 10}}
	for i, layer := range []string{"8", "10"} {
		side := 100 + 10*float64(i)
		c.Add([]drawn.Place{{}, {X: side}, {X: side, Y: 2 * side}, {Y: 2 * side}}, true, drawn.Found{Name: "Front", Group: []string{layer}, Object: i})
	}
	d, err := c.Finish(context.Background(), drawn.Scale{Unit: 1})
	if err != nil {
		t.Fatal(err)
	}
	p, _ := d.Pattern(drawn.Choice{Layers: true})
	if len(p.Sizes) != 2 || p.Sizes[1].Name != "10" || len(p.Pieces) != 1 || p.Pieces[0].Outlines["10"].Cut.Bounds().Width() != 110_000 {
		t.Errorf("%+v", p)
	}
	if p, _ = d.Pattern(drawn.Choice{}); len(p.Sizes) != 1 || p.Sizes[0].Name != drawn.OneSize || len(p.Pieces) != 2 {
		t.Errorf("without sizes: %+v", p)
	}
}

// TestStatedPattern: what a file says of its pattern is handed on as a copy.
func TestStatedPattern(t *testing.T) {
	d := drawn.Drawing{Stated: &pattern.Pattern{Name: "Bib", Pieces: []pattern.Piece{{Code: "A", Cut: 2}}, Roles: []pattern.Role{{Name: "main"}}}}
	p, _ := d.Pattern(drawn.Choice{Size: "other"})
	p.Pieces[0].Cut, p.Roles[0].Knit = 9, true
	if again, _ := d.Pattern(drawn.Choice{}); p.Name != "Bib" || again.Pieces[0].Cut != 2 || again.Roles[0].Knit {
		t.Errorf("%+v", again)
	}
}

func TestPart(t *testing.T) {
	square := pattern.Outline{Cut: shape.Ring{{}, {X: 9}, {X: 9, Y: 9}}}
	p := pattern.Pattern{Name: "Bib", Sizes: []pattern.Size{{Name: "1"}, {Name: "2"}}, Pieces: []pattern.Piece{
		{Code: "A", Outlines: map[string]pattern.Outline{"1": square, "2": square}}, {Code: "B", Outlines: map[string]pattern.Outline{"2": square}}, {Code: "C"}}}
	for name, c := range map[string]struct {
		part          drawn.Part
		pieces, sizes int
	}{
		"all":      {drawn.Part{}, 2, 2},
		"a size":   {drawn.Part{Sizes: []string{"1"}}, 1, 1},
		"a piece":  {drawn.Part{Pieces: []string{"B"}}, 1, 1},
		"nothing":  {drawn.Part{Sizes: []string{"1"}, Pieces: []string{"B"}}, 0, 0},
		"no size":  {drawn.Part{Sizes: []string{"3"}}, 0, 0},
		"no piece": {drawn.Part{Pieces: []string{"D"}}, 0, 0},
		"bare":     {drawn.Part{Pieces: []string{"C"}}, 0, 0},
	} {
		got, err := c.part.Of(p)
		if (err != nil) != (c.pieces == 0) || err == nil && (len(got.Pieces) != c.pieces || len(got.Sizes) != c.sizes) {
			t.Errorf("%s: %v, %+v", name, err, got)
		}
	}
	if len(p.Pieces[0].Outlines) != 2 {
		t.Error("the pattern itself was changed")
	}
}
