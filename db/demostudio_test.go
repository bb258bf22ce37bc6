package db_test

import (
	"testing"

	"tallycloth/db"
	"tallycloth/planner"
	"tallycloth/planner/demo"
	"tallycloth/stash"
	"tallycloth/stash/stashtest"

	"github.com/google/uuid"
)

// TestDemoStudio: the demo studio goes into a library as it goes into memory, what is
// reserved in it lies where it should, and its last act can be undone and done again.
func TestDemoStudio(t *testing.T) {
	ctx, now := t.Context(), stashtest.Clock()
	newID := func() stash.ID { return uuid.Must(uuid.NewV7()) }
	l, err := db.Open(ctx, t.TempDir(), db.Options{Now: now, NewID: newID})
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	s := planner.NewStudio(planner.Config{Store: l, Now: now, NewID: newID, Workers: 2})
	if err := demo.Fill(ctx, s); err != nil {
		t.Fatal(err)
	}
	cloths, err := s.Cloths(ctx)
	if err != nil || len(cloths) < 40 {
		t.Fatalf("%d cloths, %v", len(cloths), err)
	}
	for _, c := range cloths {
		if err := stash.CheckCloth(c.Cloth, c.Reservations); err != nil {
			t.Error(err)
		}
	}
	if _, err := s.Undo(ctx); err != nil {
		t.Error(err)
	}
	if _, err := s.Redo(ctx); err != nil {
		t.Error(err)
	}
}
