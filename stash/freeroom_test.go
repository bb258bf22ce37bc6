package stash_test

import (
	"testing"

	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// A length of 130 × 160 cm of which 75 cm are taken over the full width has no free metre, whatever its
// length is; what is taken at one selvedge alone leaves the metre beside it.
func TestFreeRoom(t *testing.T) {
	const cm = measure.Centimetre
	box := func(x, y, length, width measure.Length) shape.Ring {
		return shape.Box{Min: shape.Point{X: int64(x), Y: int64(y)}, Max: shape.Point{X: int64(x + length), Y: int64(y + width)}}.Ring()
	}
	on := func(rings ...shape.Ring) *stash.ClothState {
		s := &stash.ClothState{Cloth: stash.Cloth{Length: 130 * cm, Width: 160 * cm}}
		for _, r := range rings {
			s.Reservations = append(s.Reservations, stash.Reservation{Pieces: []stash.ReservedPiece{{Outline: r}}})
		}
		return s
	}
	for name, tt := range map[string]struct {
		cloth         *stash.ClothState
		length, width measure.Length
		want          bool
	}{
		"nothing taken":            {on(), 130 * cm, 0, true},
		"longer than it is":        {on(), 131 * cm, 0, false},
		"wider than it is":         {on(), 100 * cm, 161 * cm, false},
		"taken right across":       {on(box(0, 0, 75*cm, 160*cm)), 100 * cm, 0, false},
		"what is left behind it":   {on(box(0, 0, 75*cm, 160*cm)), 55 * cm, 160 * cm, true},
		"in the middle":            {on(box(50*cm, 0, 30*cm, 160*cm)), 51 * cm, 0, false},
		"at one selvedge":          {on(box(0, 0, 130*cm, 60*cm)), 130 * cm, 100 * cm, true},
		"at both selvedges":        {on(box(0, 0, 130*cm, 50*cm), box(0, 110*cm, 130*cm, 50*cm)), 100 * cm, 0, false},
		"narrow room between them": {on(box(0, 0, 130*cm, 50*cm), box(0, 110*cm, 130*cm, 50*cm)), 100 * cm, 60 * cm, true},
	} {
		if got := tt.cloth.FreeRoom(tt.length, tt.width); got != tt.want {
			t.Errorf("%s: %v", name, got)
		}
	}
}
