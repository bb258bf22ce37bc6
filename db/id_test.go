package db_test

import (
	"testing"

	"tallycloth/stash"

	"github.com/google/uuid"
)

// stashID returns a new ID that no other program has.
func stashID(t *testing.T) stash.ID {
	t.Helper()
	id, err := uuid.NewV7()
	if err != nil {
		t.Fatal(err)
	}
	return id
}
