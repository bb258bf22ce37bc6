package stashtest

import (
	"context"
	"encoding/json"
	"errors"
	"strings"
	"testing"

	"tallycloth/stash"
)

// Subject is an empty store to test.
type Subject struct {
	Store stash.Store
	NewID func() stash.ID
	// Garment returns the ID of a garment that reservations may name.
	Garment func() stash.ID
}

// Run runs the suite that every Store must pass. open returns a new empty store
// each time.
func Run(t *testing.T, open func(t *testing.T) Subject) {
	for _, c := range []struct {
		name string
		run  func(b *bench)
	}{
		{"an empty library", emptyLibrary},
		{"records come back whole", roundTrips},
		{"order of lists", orderOfLists},
		{"acts", acts},
		{"an error leaves no trace", noTrace},
		{"an act sees itself, others do not", isolation},
		{"the history explains every quantity", balance},
		{"reservations fit", reservations},
		{"lines tell what reservations became", turnsAreTold},
		{"cutting adds up", cutting},
		{"names refer to what is there", references},
		{"bad records", badRecords},
		{"undo and redo", undoRedo},
		{"undo of an act in the middle", undoInTheMiddle},
		{"washing", washing},
		{"photos", photos},
	} {
		t.Run(c.name, func(t *testing.T) {
			c.run(&bench{T: t, Subject: open(t), ctx: t.Context()})
		})
	}
}

// bench is a store on the bench with short ways to work it.
type bench struct {
	*testing.T
	Subject
	ctx context.Context
}

// must stops the test on an error.
func (b *bench) must(err error) {
	b.Helper()
	if err != nil {
		b.Fatal(err)
	}
}

// write runs an act that must pass.
func (b *bench) write(sentence string, f func(stash.Tx) error) stash.Act {
	b.Helper()
	a, err := b.Store.Write(b.ctx, sentence, f)
	b.must(err)
	return a
}

// refused runs an act that must fail with the kind given, in a sentence that has
// the words, and leave the library as it was.
func (b *bench) refused(kind *stash.Error, words string, f func(stash.Tx) error) {
	b.Helper()
	before := b.snapshot()
	_, err := b.Store.Write(b.ctx, "Try what cannot be", f)
	if !errors.Is(err, kind) || !strings.Contains(err.Error(), words) {
		b.Errorf("got %v, want an error of kind %d with %q", err, kind.Kind, words)
	}
	if after := b.snapshot(); after != before {
		b.Errorf("it left a trace: before\n%s\nafter\n%s", before, after)
	}
}

// same compares two values as documents.
func (b *bench) same(what string, got, want any) {
	b.Helper()
	if g, w := document(got), document(want); g != w {
		b.Errorf("%s: got\n%s\nwant\n%s", what, g, w)
	}
}

func document(v any) string {
	d, err := json.MarshalIndent(v, "", " ")
	if err != nil {
		return err.Error()
	}
	return string(d)
}

// snapshot is all of a library as one text.
func (b *bench) snapshot() string {
	b.Helper()
	text, err := Snapshot(b.ctx, b.Store)
	b.must(err)
	return text
}

// Snapshot returns everything a Reader can tell as one text, JSON on one line, to compare.
func Snapshot(ctx context.Context, r stash.Reader) (string, error) {
	fabrics, err1 := r.Fabrics(ctx)
	cloths, err2 := r.Cloths(ctx)
	purchases, err3 := r.Purchases(ctx)
	movements, err4 := r.Movements(ctx, stash.NoID)
	notions, err5 := r.Notions(ctx)
	acts, err6 := r.Acts(ctx, 0)
	var shown []stash.Photo
	var err7 error
	for _, f := range fabrics {
		ps, err := r.Photos(ctx, f.ID)
		shown, err7 = append(shown, ps...), errors.Join(err7, err)
	}
	text, err := json.Marshal([]any{fabrics, cloths, purchases, movements, notions, acts, shown})
	return string(text), errors.Join(err, err1, err2, err3, err4, err5, err6, err7)
}

// buy logs a purchase of one length of a new fabric.
func (b *bench) buy(code string, length int64) (stash.Fabric, stash.Cloth) {
	b.Helper()
	f := SampleFabric(b.NewID(), "jersey "+code)
	c := SampleLength(b.NewID(), f.ID, code, lengthOf(length))
	p := stash.Purchase{
		ID: b.NewID(), Date: "2026-01-05", Supplier: "the corner stall", Notes: "two for one",
		Lines:   []stash.PurchaseLine{{FabricID: f.ID, ClothID: c.ID, Quantity: c.Length, Price: euros(1250)}},
		Postage: euros(490), Tax: euros(331),
	}
	c.PurchaseID = p.ID
	b.write("Bought "+code, func(t stash.Tx) error {
		return firstError(t.PutFabric(b.ctx, f), t.PutCloth(b.ctx, c), t.PutPurchase(b.ctx, p), t.Append(b.ctx, stash.Arrived(stash.Bought, c, "")))
	})
	return f, c
}

// reserve keeps pieces of a cloth for a garment.
func (b *bench) reserve(c stash.Cloth, pieces ...stash.ReservedPiece) stash.Reservation {
	b.Helper()
	r := b.reservation(c, pieces...)
	b.write("Reserved "+c.Code, func(t stash.Tx) error {
		return firstError(t.PutReservation(b.ctx, r), t.Append(b.ctx, stash.ReservedLine(r, "")))
	})
	return r
}

func (b *bench) reservation(c stash.Cloth, pieces ...stash.ReservedPiece) stash.Reservation {
	return stash.Reservation{ID: b.NewID(), ClothID: c.ID, GarmentID: b.Garment(), UsedFor: "main", Pieces: pieces, Live: true, At: Clock()()}
}

// cloth reads a cloth.
func (b *bench) cloth(id stash.ID) stash.ClothState {
	b.Helper()
	s, err := b.Store.Cloth(b.ctx, id)
	b.must(err)
	return s
}
