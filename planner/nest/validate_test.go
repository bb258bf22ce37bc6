package nest_test

import (
	"strings"
	"testing"

	"tallycloth/planner/nest"
	"tallycloth/planner/nest/nesttest"
	"tallycloth/stash/shape"
)

// TestValidateRefuses spoils a good question in one way at a time; each reason
// names the fabric or the item.
func TestValidateRefuses(t *testing.T) {
	square := shape.Box{Max: shape.Point{X: 1000, Y: 1000}}.Ring()
	for _, c := range []struct {
		name, says string
		spoil      func(*nest.Instance)
	}{
		{"no fabric", "no fabric", func(in *nest.Instance) { in.Fabrics = nil }},
		{"clearance", "clearance", func(in *nest.Instance) { in.Clearance = -1 }},
		{"huge clearance", "clearance", func(in *nest.Instance) { in.Clearance = 1 << 40 }},
		{"ask", "asked", func(in *nest.Instance) { in.Ask = 9 }},
		{"no width", "fabric 0", func(in *nest.Instance) { in.Fabrics[0].Width = 0 }},
		{"length below zero", "fabric 0", func(in *nest.Instance) { in.Fabrics[0].Length = -1 }},
		{"no length", "fabric 0", func(in *nest.Instance) { in.Fabrics[0].Length = 0 }},
		{"too long", "fabric 0", func(in *nest.Instance) { in.Fabrics[0].Length = 1 << 40 }},
		{"bad outline", "fabric 0", func(in *nest.Instance) { in.Fabrics[0].Outline.Outer = square[:2] }},
		{"bad obstacle", "obstacle 0", func(in *nest.Instance) { in.Fabrics[0].Obstacles[0].Outer = square.Reverse() }},
		{"bands overlap", "band 1", func(in *nest.Instance) { in.Fabrics[0].Bands[1].From = 5 }},
		{"band too wide", "band 1", func(in *nest.Instance) { in.Fabrics[0].Bands[1].To++ }},
		{"three layers", "band 0", func(in *nest.Instance) { in.Fabrics[0].Bands[0].Layers = 3 }},
		{"no such group", "item 0", func(in *nest.Instance) { in.Items[0].Group = 7 }},
		{"count", "item 0", func(in *nest.Instance) { in.Items[0].Count = -1 }},
		{"tilt", "item 1", func(in *nest.Instance) { in.Items[1].Tilt = 2001 }},
		{"repeat", "item 1", func(in *nest.Instance) { in.Items[1].Repeat = -1 }},
		{"mirror", "item 1", func(in *nest.Instance) { in.Items[1].Mirror = 5 }},
		{"layers", "item 1", func(in *nest.Instance) { in.Items[1].Layers = 3 }},
		{"no outline", "item 1: the outline has fewer than three points", func(in *nest.Instance) { in.Items[1].Outline = nil }},
		{"crossing", "item 1: the outline crosses itself", func(in *nest.Instance) {
			in.Items[1].Outline = shape.Ring{{X: 0, Y: 0}, {X: 10, Y: 10}, {X: 10, Y: 0}, {X: 0, Y: 10}}
		}},
		{"fold edge off y = 0", "item 1", func(in *nest.Instance) { in.Items[1].Outline = square.Move(shape.Point{Y: 1}) }},
		{"too many pins", "item 2", func(in *nest.Instance) { in.Items[2].Pinned = make([]nest.Pin, 2) }},
		{"pinned nowhere", "item 2", func(in *nest.Instance) { in.Items[2].Pinned[0].Fabric = 3 }},
	} {
		in, _ := valid()
		if err := in.Validate(); err != nil {
			t.Fatal("the question to start from: ", err)
		}
		c.spoil(&in)
		if err := in.Validate(); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: got %v, want something with %q", c.name, err, c.says)
		}
	}
}

func TestRandomQuestionsAreValid(t *testing.T) {
	for seed := range uint64(2000) {
		if err := nesttest.Random(seed).Validate(); err != nil {
			t.Errorf("seed %d: %v", seed, err)
		}
	}
}
