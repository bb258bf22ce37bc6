package pattern_test

import (
	"math"
	"slices"
	"testing"

	"tallycloth/planner/pattern"
	"tallycloth/stash/shape"

	"pgregory.net/rapid"
)

// TestMoveCorners: corners go where they are moved to, by the same for all it is a move of the whole,
// what lies between goes along, and an outline of another number of points is refused.
func TestMoveCorners(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(3, 60).Draw(t, "points")
		var r shape.Ring
		for i := range n {
			s, c := math.Sincos(2 * math.Pi * float64(i) / float64(n))
			r = append(r, shape.Point{X: int64(100_000 * c), Y: int64(150_000 * s)})
		}
		p := apron(r)
		corners := pattern.Corners(r, rapid.IntRange(8, 30).Draw(t, "most"))
		if !slices.IsSorted(corners) || len(corners) < min(n, 2) {
			t.Fatalf("corners %v of %d", corners, n)
		}
		d := shape.Point{X: rapid.Int64Range(-9_000, 9_000).Draw(t, "dx"), Y: rapid.Int64Range(-9_000, 9_000).Draw(t, "dy")}
		all := make([]shape.Point, len(corners))
		for i := range all {
			all[i] = d
		}
		got, err := p.Edited("A", []string{"S"}, pattern.MoveCorners(n, corners, all))
		if err != nil || !slices.Equal(got.Pieces[0].Outlines["S"].Cut, r.Move(d)) {
			t.Fatalf("%v: %v", err, got.Pieces[0].Outlines["S"].Cut)
		}
		one := make([]shape.Point, len(corners))
		k := rapid.IntRange(0, len(corners)-1).Draw(t, "corner")
		one[k] = d
		if got, err = p.Edited("A", []string{"S"}, pattern.MoveCorners(n, corners, one)); err == nil {
			o := got.Pieces[0].Outlines["S"].Cut
			for i, c := range corners {
				if want := r[c].Add(one[i]); o[c] != want {
					t.Fatalf("corner %d lies at %v, want %v", c, o[c], want)
				}
			}
		}
		if _, err := p.Edited("A", nil, pattern.MoveCorners(n+1, corners, one)); err == nil {
			t.Fatal("points that do not correspond were moved")
		}
	})
}
