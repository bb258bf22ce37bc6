package answer

import (
	"testing"

	"tallycloth/planner/match"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

func box(x, y, l, w int64) shape.Ring {
	return shape.Box{Min: shape.Point{X: x, Y: y}, Max: shape.Point{X: x + l, Y: y + w}}.Ring()
}

// Folds are drawn where they lie on the open cloth: the laid frame begins on the first
// one, and a second is its width further.
func TestFoldsLieWhereTheyAre(t *testing.T) {
	c := stash.ClothState{Cloth: stash.Cloth{Length: 2_000_000, Width: 1_600_000}}
	for _, f := range []struct {
		frame match.Frame
		want  []int64
	}{
		{match.Frame{Origin: shape.Point{Y: 10_000}, Width: 1_580_000}, nil},
		{match.Frame{Origin: shape.Point{Y: 800_000}, Width: 790_000, Folds: []measure.Length{790_000}}, []int64{800_000}},
		{match.Frame{Origin: shape.Point{Y: 405_000}, Width: 790_000, Folds: []measure.Length{395_000, 395_000}}, []int64{405_000, 1_195_000}},
	} {
		got := Picture(say.Voice{}, c, &match.Layout{Frame: f.frame}).Folds
		if len(got) != len(f.want) {
			t.Errorf("%d folds, want %d", len(got), len(f.want))
			continue
		}
		for i := range got {
			if got[i] != f.want[i] {
				t.Errorf("fold %d at %d, want %d", i, got[i], f.want[i])
			}
		}
	}
}

// What is free is the longest stretch along the cloth on which nothing lies.
func TestLongestFree(t *testing.T) {
	p := widgets.ClothPicture{Cloth: shape.Polygon{Outer: box(0, 0, 1000, 500)}}
	for _, c := range []struct {
		pieces   []shape.Ring
		from, to int64
	}{
		{nil, 0, 1000},
		{[]shape.Ring{box(0, 0, 300, 100)}, 300, 1000},
		{[]shape.Ring{box(700, 0, 300, 100)}, 0, 700},
		{[]shape.Ring{box(0, 0, 200, 100), box(100, 200, 200, 100), box(800, 0, 100, 100)}, 300, 800},
	} {
		p.Pieces = nil
		for _, r := range c.pieces {
			p.Pieces = append(p.Pieces, widgets.PicturePiece{Outline: r})
		}
		if from, to := longestFree(p); from != c.from || to != c.to {
			t.Errorf("%v: %d to %d, want %d to %d", c.pieces, from, to, c.from, c.to)
		}
	}
}
