package drawn_test

import (
	"context"
	"strings"
	"testing"

	"tallycloth/planner/exchange/drawn"
	"tallycloth/planner/pattern"
	"tallycloth/stash/shape"

	"pgregory.net/rapid"
)

// half is half a front of 230 by 600 mm with its fold on the left at x, or mirrored with it on the right.
func half(x float64, right bool) []drawn.Place {
	out := []drawn.Place{{X: 0, Y: 170}, {X: 70, Y: 100}, {X: 85, Y: 0}, {X: 140, Y: 8}, {X: 170, Y: 200}, {X: 230, Y: 232}, {X: 236, Y: 600}, {X: 0, Y: 600}}
	for i, p := range out {
		if right {
			p.X = 236 - p.X
		}
		out[i] = drawn.Place{X: p.X + x, Y: p.Y}
	}
	return out
}

// foldIn is the mark of a fold on the only piece of a drawing, and what its pattern warns of.
func foldIn(t interface {
	Fatal(...any)
	Helper()
}, c *drawn.Collector, choice drawn.Choice) (pattern.Piece, []drawn.Mark, string) {
	t.Helper()
	d, err := c.Finish(context.Background(), drawn.Scale{Unit: 1})
	if err != nil {
		t.Fatal(err)
	}
	p, marks, warnings := d.MarkedPattern(choice)
	if len(p.Pieces) != 1 {
		t.Fatal("pieces:", len(p.Pieces))
	}
	told := ""
	for _, w := range append(d.Warnings, warnings...) {
		told += w.Name + ": " + w.What + "\n"
	}
	return p.Pieces[0], marks, told
}

// TestWordsAtAFold: words about a fold stand for the edge that they are written at, wherever along it, on the
// piece or beside it; they name no piece, and are told nowhere else.
func TestWordsAtAFold(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		right := rapid.Bool().Draw(t, "right")
		x, y := rapid.Float64Range(0, 500).Draw(t, "x"), rapid.Float64Range(190, 590).Draw(t, "y")
		in := rapid.Float64Range(-15, 50).Draw(t, "in")
		text := rapid.SampledFrom([]string{"place on fold", "FOLD", "Cut 1 on the fold!", "fold edge"}).Draw(t, "text")
		c := drawn.Collector{Limits: drawn.Limits{Outline: 100}}
		c.Add(half(x, right), true, drawn.Found{})
		at := drawn.Place{X: x + in, Y: y}
		want := pattern.LeftSide
		if right {
			at.X, want = x+236-in, pattern.RightSide
		}
		c.Write(text, at, at, 12, nil)
		c.Write("Front", drawn.Place{X: x + 118, Y: 300}, drawn.Place{X: x + 120, Y: 300}, 5, nil)
		q, marks, told := foldIn(t, &c, drawn.Choice{})
		m, ok := drawn.FoldOf(marks, "A")
		if !ok || m.Side != want || !strings.Contains(m.Why, text) || q.Name != "Front" || strings.Contains(told, "left out") || q.OnFold {
			t.Fatalf("%+v, %s, told %q", marks, q.Name, told)
		}
		if err := q.PutOnFold(m.Side); err != nil {
			t.Fatal(err)
		}
	})
}

// TestBentArrow: a bent arrow that points to the fold edge, its tips on it or a little off it, with heads or
// without, stands for that edge and is the grain line; no notch comes of its heads.
func TestBentArrow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		right, heads := rapid.Bool().Draw(t, "right"), rapid.Bool().Draw(t, "heads")
		off, arm := rapid.Float64Range(0, 8).Draw(t, "off"), rapid.Float64Range(12, 60).Draw(t, "arm")
		from, to := rapid.Float64Range(190, 300).Draw(t, "from"), rapid.Float64Range(350, 580).Draw(t, "to")
		c := drawn.Collector{Limits: drawn.Limits{Outline: 100}}
		c.Add(half(0, right), true, drawn.Found{Name: "Front", Given: true})
		side := func(in float64) float64 {
			if right {
				return 236 - in
			}
			return in
		}
		c.Add([]drawn.Place{{X: side(off), Y: from}, {X: side(off + arm), Y: from}, {X: side(off + arm), Y: to}, {X: side(off), Y: to}}, false, drawn.Found{})
		if heads {
			for _, y := range []float64{from, to} {
				c.Add([]drawn.Place{{X: side(off + 6), Y: y - 4}, {X: side(off), Y: y}, {X: side(off + 6), Y: y + 4}}, false, drawn.Found{})
			}
		}
		q, marks, told := foldIn(t, &c, drawn.Choice{})
		m, ok := drawn.FoldOf(marks, "A")
		if want := map[bool]pattern.Side{false: pattern.LeftSide, true: pattern.RightSide}[right]; !ok || m.Side != want {
			t.Fatalf("%+v", marks)
		}
		o := q.Outlines[drawn.OneSize]
		if len(o.Notches) != 0 || len(o.Inner) != 0 || strings.Contains(told, "grain") || o.GrainFoot.X-o.GrainTop.X < 49_000 {
			t.Fatalf("%+v, told %q", o, told)
		}
	})
}

// TestFoldThatCannotBe: a sign at an edge that is not straight is told and does nothing; one that is said to be
// only a line, and words that only sound alike, do nothing either.
func TestFoldThatCannotBe(t *testing.T) {
	draw := func(text string, x float64) *drawn.Collector {
		c := &drawn.Collector{Limits: drawn.Limits{Outline: 100}}
		c.Add(half(0, false), true, drawn.Found{Name: "Front", Given: true})
		c.Write(text, drawn.Place{X: x, Y: 400}, drawn.Place{X: x, Y: 400}, 8, nil)
		return c
	}
	if _, marks, told := foldIn(t, draw("fold", 225), drawn.Choice{}); len(marks) != 1 || marks[0].On || !strings.Contains(told, "no edge there runs straight") {
		t.Errorf("%+v, told %q", marks, told)
	}
	if _, marks, told := foldIn(t, draw("folded hem", 10), drawn.Choice{}); len(marks) != 0 || !strings.Contains(told, "words were left out") {
		t.Errorf("%+v, told %q", marks, told)
	}
	plain := drawn.Choice{Plain: map[drawn.MarkName]bool{{Piece: "A", Kind: drawn.FoldMark, Number: 1}: true}}
	if _, marks, told := foldIn(t, draw("fold", 10), plain); len(marks) != 1 || marks[0].On || strings.Contains(told, "fold") {
		t.Errorf("%+v, told %q", marks, told)
	}
	if _, marks, _ := foldIn(t, draw("cut 1 on fold", 118), drawn.Choice{}); len(marks) != 1 || marks[0].Side != pattern.LeftSide {
		t.Errorf("in the middle of a piece with one straight side: %+v", marks)
	}
	two := &drawn.Collector{Limits: drawn.Limits{Outline: 100}}
	two.Add([]drawn.Place{{}, {X: 300}, {X: 300, Y: 400}, {Y: 400}}, true, drawn.Found{Name: "Yoke", Given: true})
	two.Write("on fold", drawn.Place{X: 150, Y: 200}, drawn.Place{X: 150, Y: 200}, 8, nil)
	if q, marks, told := foldIn(t, two, drawn.Choice{}); marks[0].On || !strings.Contains(told, "both its sides are straight") || q.Outlines[drawn.OneSize].Cut.Bounds() != (shape.Box{Max: shape.Point{X: 400_000, Y: 300_000}}) {
		t.Errorf("%+v, told %q", marks, told)
	}
}
