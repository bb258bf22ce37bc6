package db_test

import (
	"testing"

	"tallycloth/db"
	"tallycloth/planner"
	"tallycloth/planner/garment"
	"tallycloth/stash"
	"tallycloth/stash/stashtest"
)

// open opens a new library in a folder of its own.
func open(t testing.TB) (*db.Library, func() stash.ID) {
	t.Helper()
	ids := stashtest.IDs()
	l, err := db.Open(t.Context(), t.TempDir(), db.Options{Now: stashtest.Clock(), NewID: ids})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := l.Close(); err != nil {
			t.Error(err)
		}
	})
	return l, ids
}

// makeGarment writes a garment that reservations may name.
func makeGarment(t testing.TB, l planner.Store, id stash.ID) stash.ID {
	t.Helper()
	_, err := l.Write(t.Context(), "Wanted a garment", func(tx planner.Tx) error {
		return tx.PutGarment(t.Context(), garment.Garment{ID: id, Name: "a tank", State: garment.Wanted})
	})
	if err != nil {
		t.Fatal(err)
	}
	return id
}

func TestStore(t *testing.T) {
	stashtest.Run(t, func(t *testing.T) stashtest.Subject {
		l, ids := open(t)
		g := makeGarment(t, l, ids())
		return stashtest.Subject{Store: l.Stash(), NewID: ids, Garment: func() stash.ID { return g }}
	})
}
