package db_test

import (
	"context"
	"errors"
	"fmt"
	"testing"

	"tallycloth/planner"
	"tallycloth/planner/garment"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/stashtest"
)

// sample names the records that fill writes.
type sample struct {
	fabric, cloth, leftover, purchase, notion, pattern, garment, reservation stash.ID
}

// fill writes one of every kind of record, in several acts.
func fill(t testing.TB, l planner.Store, ids func() stash.ID) sample {
	t.Helper()
	ctx := t.Context()
	s := sample{ids(), ids(), ids(), ids(), ids(), ids(), ids(), ids()}
	f := stashtest.SampleFabric(s.fabric, "brick jersey")
	c := stashtest.SampleLength(s.cloth, s.fabric, "K7PD", 2*measure.Metre)
	c.PurchaseID = s.purchase
	left := stashtest.SampleLeftover(s.leftover, s.fabric, "M3XW")
	r := stash.Reservation{
		ID: s.reservation, ClothID: s.cloth, GarmentID: s.garment, UsedFor: "main", Live: true, At: stashtest.Clock()(),
		Pieces: []stash.ReservedPiece{stashtest.SamplePiece("front", 0, 0, 600_000, 500_000)},
	}
	settings := planner.DefaultSettings()
	settings.Units = measure.Imperial
	steps := []func(planner.Tx) error{
		func(tx planner.Tx) error {
			return errors.Join(tx.PutFabric(ctx, f), tx.PutCloth(ctx, c), tx.Append(ctx, stash.Arrived(stash.Bought, c, "")),
				tx.PutPurchase(ctx, stash.Purchase{ID: s.purchase, Date: "2026-01-05", Lines: []stash.PurchaseLine{{FabricID: s.fabric, ClothID: s.cloth, Quantity: c.Length, Price: measure.Money{Minor: 2400, Currency: "EUR"}}}}))
		},
		func(tx planner.Tx) error {
			return errors.Join(tx.PutCloth(ctx, left), tx.Append(ctx, stash.Arrived(stash.Added, left, "")), tx.PutNotion(ctx, stash.Notion{ID: s.notion, Name: "rings", Quantity: 4, Unit: "pieces"}))
		},
		func(tx planner.Tx) error {
			return errors.Join(tx.PutPattern(ctx, pattern.Pattern{ID: s.pattern, Name: "harbour tank"}), tx.PutSettings(ctx, settings),
				tx.PutGarment(ctx, garment.Garment{ID: s.garment, Name: "a tank", PatternID: s.pattern, State: garment.Wanted, Size: "M"}))
		},
		func(tx planner.Tx) error {
			return errors.Join(tx.PutReservation(ctx, r), tx.Append(ctx, stash.ReservedLine(r, "")))
		},
	}
	for i, step := range steps {
		if _, err := l.Write(ctx, fmt.Sprintf("Step %d", i+1), step); err != nil {
			t.Fatal(err)
		}
	}
	return s
}

// everything is all a library can tell, as text.
func everything(t testing.TB, l planner.Reader) string {
	t.Helper()
	ctx := context.WithoutCancel(t.Context())
	text, err := stashtest.Snapshot(ctx, l)
	if err != nil {
		t.Fatal(err)
	}
	ps, err1 := l.Patterns(ctx)
	gs, err2 := l.Garments(ctx)
	set, err3 := l.Settings(ctx)
	if err := errors.Join(err1, err2, err3); err != nil {
		t.Fatal(err)
	}
	return fmt.Sprintf("%s\n%+v\n%+v\n%+v", text, ps, gs, set)
}
