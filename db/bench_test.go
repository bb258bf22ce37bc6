package db_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"tallycloth/db"
	"tallycloth/planner"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
	"tallycloth/stash/stashtest"
)

// round returns a piece with many points, like a curved pattern piece.
func round(x, y, r int64) stash.ReservedPiece {
	const points = 60
	out := make(shape.Ring, points)
	for i := range out {
		turn := 2 * math.Pi * float64(i) / points
		out[i] = shape.Point{X: x + r + int64(float64(r)*math.Cos(turn)), Y: y + r + int64(float64(r)*math.Sin(turn))}
	}
	return stash.ReservedPiece{Name: "front", Outline: out}
}

// shelf fills a library with 1 000 cloths of 200 fabrics, a fifth of them leftovers,
// 300 with reservations of four curved pieces.
func shelf(b *testing.B, folder string) {
	b.Helper()
	ids := stashtest.IDs()
	l, err := db.Open(b.Context(), folder, db.Options{Now: stashtest.Clock(), NewID: ids})
	if err != nil {
		b.Fatal(err)
	}
	ctx := b.Context()
	_, err = l.Write(ctx, "Filled the shelf", func(tx planner.Tx) error {
		var fabric stash.ID
		for i := range 1000 {
			if i%5 == 0 {
				fabric = ids()
				if err := tx.PutFabric(ctx, stashtest.SampleFabric(fabric, fmt.Sprintf("fabric %03d", i))); err != nil {
					return err
				}
			}
			c := stashtest.SampleLength(ids(), fabric, fmt.Sprintf("C%04d", i), 2*measure.Metre)
			if i%5 == 4 {
				c = stashtest.SampleLeftover(c.ID, fabric, c.Code)
			}
			if err := errors.Join(tx.PutCloth(ctx, c), tx.Append(ctx, stash.Arrived(stash.Bought, c, ""))); err != nil {
				return err
			}
			if i%10 < 3 {
				r := stash.Reservation{ID: ids(), ClothID: c.ID, UsedFor: "main", Live: true}
				for k := range int64(4) {
					r.Pieces = append(r.Pieces, round(k*400_000, 0, 190_000))
				}
				if err := errors.Join(tx.PutReservation(ctx, r), tx.Append(ctx, stash.ReservedLine(r, ""))); err != nil {
					return err
				}
			}
		}
		return nil
	})
	if err := errors.Join(err, l.Close()); err != nil {
		b.Fatal(err)
	}
}

// BenchmarkOpen opens a library of 1 000 cloths, with all its checks, and closes it.
func BenchmarkOpen(b *testing.B) {
	folder := b.TempDir()
	shelf(b, folder)
	for b.Loop() {
		l, err := db.Open(b.Context(), folder, db.Options{})
		if err != nil {
			b.Fatal(err)
		}
		if err := l.Close(); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkCloths reads all 1 000 cloths with fabrics and reservations.
func BenchmarkCloths(b *testing.B) {
	folder := b.TempDir()
	shelf(b, folder)
	l, err := db.Open(b.Context(), folder, db.Options{})
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		cs, err := l.Cloths(b.Context())
		if err != nil || len(cs) != 1000 {
			b.Fatal(len(cs), err)
		}
	}
	if err := l.Close(); err != nil {
		b.Fatal(err)
	}
}

// BenchmarkWrite reserves and takes back, two acts with all checks, synced to disk.
func BenchmarkWrite(b *testing.B) {
	folder := b.TempDir()
	shelf(b, folder)
	l, err := db.Open(b.Context(), folder, db.Options{})
	if err != nil {
		b.Fatal(err)
	}
	c, err := l.ClothByCode(b.Context(), "C0003")
	if err != nil {
		b.Fatal(err)
	}
	ids := stashtest.IDs()
	for range 5000 {
		ids() // past those that the shelf has
	}
	for b.Loop() {
		r := stash.Reservation{ID: ids(), ClothID: c.Cloth.ID, UsedFor: "main", Live: true, Pieces: []stash.ReservedPiece{round(0, 0, 190_000)}}
		_, err := l.Write(b.Context(), "Reserved", func(tx planner.Tx) error {
			return errors.Join(tx.PutReservation(b.Context(), r), tx.Append(b.Context(), stash.ReservedLine(r, "")))
		})
		_, errUndo := l.Undo(b.Context())
		if err := errors.Join(err, errUndo); err != nil {
			b.Fatal(err)
		}
	}
	if err := l.Close(); err != nil {
		b.Fatal(err)
	}
}
