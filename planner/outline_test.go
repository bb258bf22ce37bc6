package planner_test

import (
	"strings"
	"testing"

	"tallycloth/planner"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"

	"pgregory.net/rapid"
)

// TestOutlineOf: an outline may go either way round and lie anywhere; what cannot be is said
// in a sentence of its own.
func TestOutlineOf(t *testing.T) {
	square := shape.Ring{{X: 100, Y: 100}, {X: 900_100, Y: 100}, {X: 900_100, Y: 600_100}, {X: 100, Y: 600_100}}
	hole := shape.Ring{{X: 200_000, Y: 200_000}, {X: 250_000, Y: 200_000}, {X: 250_000, Y: 230_000}}
	for _, rings := range [][]shape.Ring{{square, hole}, {square.Reverse(), hole}, {square, hole.Reverse()}} {
		p, err := planner.OutlineOf(rings)
		if err != nil || p.Area() != 900_000*600_000-50_000*30_000/2 || p.Bounds().Min != (shape.Point{}) {
			t.Errorf("%v: %v, %v", rings, p, err)
		}
	}
	for words, rings := range map[string][]shape.Ring{
		"too few corners":       {{{X: 0, Y: 0}, {X: 10, Y: 0}}},
		"crosses itself":        {{{X: 0, Y: 0}, {X: 100_000, Y: 100_000}, {X: 100_000, Y: 0}, {X: 0, Y: 100_000}}},
		"lies off the cloth":    {square, hole.Move(shape.Point{X: 2_000_000})},
		"A hole crosses":        {square, {{X: 200_000, Y: 200_000}, {X: 300_000, Y: 300_000}, {X: 300_000, Y: 200_000}, {X: 200_000, Y: 300_000}}},
		"not closed and simple": {square, hole, hole},
	} {
		if _, err := planner.OutlineOf(rings); err == nil || !strings.Contains(err.Error(), words) {
			t.Errorf("%s: %v", words, err)
		}
	}
}

// TestAlongEdge: a rectangle has sides for both selvedges, a triangle standing on its base
// only the lower one; turned over it is the other.
func TestAlongEdge(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l, w := rapid.Int64Range(50_000, 900_000).Draw(t, "length"), rapid.Int64Range(50_000, 900_000).Draw(t, "width")
		off := rapid.Int64Range(0, 5_000).Draw(t, "not straight")
		r := shape.Polygon{Outer: shape.Ring{{X: 0, Y: off}, {X: l, Y: 0}, {X: l, Y: w}, {X: 0, Y: w - off}}}
		if !planner.AlongEdge(r, true) || !planner.AlongEdge(r, false) {
			t.Fatalf("%v has no selvedges", r)
		}
		tri := shape.Polygon{Outer: shape.Ring{{X: 0, Y: 0}, {X: l, Y: 0}, {X: l / 2, Y: w}}}
		if !planner.AlongEdge(tri, true) || planner.AlongEdge(tri, false) {
			t.Fatalf("%v: low %v, high %v", tri, planner.AlongEdge(tri, true), planner.AlongEdge(tri, false))
		}
	})
}

// TestLeftoverWithSelvedge: a leftover that is drawn keeps its selvedges where a side runs
// there, and is refused where none does.
func TestLeftoverWithSelvedge(t *testing.T) {
	s := studio(t)
	c := bought(t, s, measure.Metre)
	tri := shape.Polygon{Outer: shape.Ring{{X: 0, Y: 0}, {X: 600_000, Y: 0}, {X: 300_000, Y: 400_000}}}
	got, err := s.AddLeftover(ctx, planner.LeftoverForm{FabricID: c.Fabric.ID, Outline: tri, SelvedgeLow: true})
	if err != nil || !got.Cloth.SelvedgeLow {
		t.Errorf("%+v, %v", got.Cloth, err)
	}
	if _, err := s.AddLeftover(ctx, planner.LeftoverForm{FabricID: c.Fabric.ID, Outline: tri, SelvedgeHigh: true}); err == nil {
		t.Error("a selvedge at a point was taken")
	}
}
