package db_test

import (
	"flag"
	"os"
	"path/filepath"
	"testing"

	"tallycloth/db"
	"tallycloth/stash/stashtest"

	"pgregory.net/rapid"
)

// TestLikeMemory compares the library with the store in memory on 200 random
// sequences of acts, undo and redo.
func TestLikeMemory(t *testing.T) {
	if err := flag.Set("rapid.checks", "200"); err != nil {
		t.Fatal(err)
	}
	empty, _ := open(t)
	template := filepath.Join(t.TempDir(), "empty.db")
	if err := empty.Backup(t.Context(), template); err != nil {
		t.Fatal(err)
	}
	blank, err := os.ReadFile(template)
	if err != nil {
		t.Fatal(err)
	}
	rapid.Check(t, func(rt *rapid.T) {
		folder, err := os.MkdirTemp(t.TempDir(), "library-*")
		if err != nil {
			rt.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(folder, "library.db"), blank, 0o644); err != nil {
			rt.Fatal(err)
		}
		l, err := db.Open(t.Context(), folder, db.Options{Now: stashtest.Clock(), NewID: stashtest.IDs()})
		if err != nil {
			rt.Fatal(err)
		}
		defer func() {
			if err := l.Close(); err != nil {
				rt.Error(err)
			}
		}()
		stashtest.Compare(rt, t.Context(), stashtest.New(stashtest.Clock(), stashtest.IDs()), l.Stash())
	})
}
