package scene_test

import (
	"testing"

	"tallycloth/planner/scene"
	"tallycloth/stash/shape"
)

// Words of a pattern piece on the fold stand beside the fold line, not on it.
func TestWordsBesideTheFold(t *testing.T) {
	box := func(x0, y0, x1, y1 int64) shape.Ring {
		return shape.Box{Min: shape.Point{X: x0, Y: y0}, Max: shape.Point{X: x1, Y: y1}}.Ring()
	}
	l := scene.Layout{Cloth: shape.Polygon{Outer: box(0, 0, 1_800_000, 1_600_000)}, Folds: []int64{800_000},
		Pieces: []scene.Placed{{ID: "A", Name: "Front", Size: "size 4", Count: "cut 1 on the fold", Outline: box(100_000, 550_000, 800_000, 1_050_000)}}}
	n := 0
	for _, it := range l.Scene().Items {
		if it.Style != scene.Label || it.ID != "A" || it.Text == "" {
			continue
		}
		n++
		if b := it.Box(); b.Min.Y < 800 && b.Max.Y > 800 {
			t.Errorf("%q stands on the fold, from %.0f to %.0f mm", it.Text, b.Min.Y, b.Max.Y)
		}
	}
	if n != 2 {
		t.Errorf("%d lines of words", n)
	}
}
