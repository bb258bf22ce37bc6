package match

import (
	"context"
	"testing"

	"tallycloth/planner/draft"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// A cloth on which a garment is reserved is asked for the same garment again: the
// answer is a verdict, never an error, and a layout keeps clear of what is reserved.
func TestAskedAgainAfterReserving(t *testing.T) {
	p := draft.DemoPatterns(func() stash.ID { return stash.NoID })[0]
	f := stash.Fabric{Name: "rib", Construction: stash.Rib, Weight: 240 * measure.GramPerSquareMetre, FullWidth: 110 * measure.Centimetre, SelvedgeLoss: measure.Centimetre}
	f.Crosswise = stash.Grain{Stretch: stash.Measured(8500), Recovery: stash.Measured(9100)}
	for _, length := range []measure.Length{95 * measure.Centimetre, 130 * measure.Centimetre} {
		c := stash.ClothState{Fabric: f, Cloth: stash.Cloth{Length: length, Width: f.FullWidth, SelvedgeLow: true, SelvedgeHigh: true, Washed: true}}
		ask := Ask{Pattern: p, Size: "5", Role: "main", Fold: true, Clearance: 3 * measure.Millimetre, EndLoss: 2 * measure.Centimetre}
		first := verdict(t, ask, c)
		if first.Layout == nil {
			t.Fatalf("%d: no layout on the bare cloth", length)
		}
		var r stash.Reservation
		for _, q := range first.Layout.Pieces {
			r.Pieces = append(r.Pieces, stash.ReservedPiece{Name: q.Name, Outline: q.Outline})
		}
		c.Reservations = []stash.Reservation{r}
		again := verdict(t, ask, c)
		if again.Layout == nil {
			continue
		}
		for _, q := range again.Layout.Pieces {
			for _, kept := range r.Pieces {
				if shape.Overlaps(q.Outline, kept.Outline) {
					t.Errorf("%d: %s lies on what is reserved", length, q.Name)
				}
			}
		}
	}
}

func verdict(t *testing.T, a Ask, c stash.ClothState) Verdict {
	t.Helper()
	q, err := New(a)
	if err != nil {
		t.Fatal(err)
	}
	v, err := q.Check(context.Background(), c)
	if err != nil {
		t.Fatal(err)
	}
	return v
}
