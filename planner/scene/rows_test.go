package scene_test

import (
	"fmt"
	"reflect"
	"testing"

	"tallycloth/planner/scene"
	"tallycloth/stash/shape"
)

// long is a cloth of so many mm by 1.5 m with pattern pieces of 700 × 480 mm all over it.
func long(length int64) scene.Layout {
	box := func(x, y, w, h int64) shape.Ring {
		return shape.Box{Min: shape.Point{X: x * 1000, Y: y * 1000}, Max: shape.Point{X: (x + w) * 1000, Y: (y + h) * 1000}}.Ring()
	}
	l := scene.Layout{Cloth: shape.Polygon{Outer: box(0, 0, length, 1500)}}
	for x := int64(0); x+700 <= length; x += 703 {
		for k := range int64(3) {
			n := len(l.Pieces) + 1
			l.Pieces = append(l.Pieces, scene.Placed{ID: fmt.Sprint(n), Name: fmt.Sprintf("part %d", n), Outline: box(x, k*490, 700, 480)})
		}
	}
	return l
}

// A cloth of 12 m stands in rows of one scale: each pattern piece is whole, with its name, on one of them
// at least, the rows go from end to end, and broken edges say where they go on.
func TestRows(t *testing.T) {
	l := long(12_000)
	rows := l.Rows(3_000_000)
	if len(rows) < 4 || len(rows) > 6 {
		t.Fatalf("%d rows", len(rows))
	}
	whole := map[string]bool{}
	for i, r := range rows {
		if !r.Cut || r.Bounds.Width() > 3_400 || i > 0 && r.Bounds.Min.X > rows[i-1].Bounds.Max.X {
			t.Errorf("row %d shows %+v", i+1, r.Bounds)
		}
		named := map[string]bool{}
		for _, it := range r.Items {
			if it.Text != "" {
				named[it.ID+it.Text] = true
				if it.Style == scene.Label && it.Size < 20 {
					t.Errorf("row %d writes %s %.0f mm high, on A4 less than 1.2 mm", i+1, it.Text, it.Size)
				}
			}
		}
		for _, it := range r.Items {
			b := it.Box()
			if it.Style == scene.Piece && b.Min.X >= r.Bounds.Min.X && b.Max.X <= r.Bounds.Max.X && named[it.ID+"part "+it.ID] {
				whole[it.ID] = true
			}
		}
	}
	if len(whole) != len(l.Pieces) {
		t.Errorf("%d of %d pattern pieces are whole somewhere", len(whole), len(l.Pieces))
	}
	if first, last := rows[0].Bounds.Min.X, rows[len(rows)-1].Bounds.Max.X; first > 0 || last < 12_000 {
		t.Errorf("from %.0f to %.0f mm", first, last)
	}
	short := long(3_500)
	if got := short.Rows(3_000_000); len(got) != 1 || !reflect.DeepEqual(got[0], short.Scene()) {
		t.Errorf("3.5 m stand in %d rows", len(got))
	}
}
