package db

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"testing"

	"tallycloth/planner"
	"tallycloth/planner/pattern"
	"tallycloth/stash"

	"github.com/google/uuid"
	"github.com/mattn/go-sqlite3"
)

// TestDiskFull limits the file's size, as a full disk does, and writes a pattern too
// large for it: nothing of the act is saved, and smaller acts go on.
func TestDiskFull(t *testing.T) {
	ctx := t.Context()
	l, err := Open(ctx, t.TempDir(), Options{})
	if err != nil {
		t.Fatal(err)
	}
	var pages int
	if err := l.writer.QueryRowContext(ctx, `PRAGMA page_count`).Scan(&pages); err != nil {
		t.Fatal(err)
	}
	if _, err := l.writer.ExecContext(ctx, fmt.Sprintf(`PRAGMA max_page_count = %d`, pages+20)); err != nil {
		t.Fatal(err)
	}
	put := func(size int) error {
		_, err := l.Write(ctx, "Brought a pattern in", func(tx planner.Tx) error {
			return tx.PutPattern(ctx, pattern.Pattern{ID: uuid.Must(uuid.NewV7()), Name: "tank", Notes: strings.Repeat("x", size)})
		})
		return err
	}
	if err := put(1 << 20); !errors.Is(err, stash.ErrConflict) || !strings.Contains(err.Error(), "Make room") {
		t.Errorf("a full disk: %v", err)
	}
	if acts, err := l.Acts(ctx, 0); err != nil || len(acts) != 0 {
		t.Errorf("half an act was saved: %v, %v", acts, err)
	}
	if err := put(10); err != nil {
		t.Errorf("a small act afterwards: %v", err)
	}
	if err := l.Close(); err != nil {
		t.Error(err)
	}
}

// TestExplain: trouble with the file has a kind and says what to do; the cause stays.
func TestExplain(t *testing.T) {
	for code, kind := range map[sqlite3.ErrNo]*stash.Error{
		sqlite3.ErrCorrupt: stash.ErrUnsupported, sqlite3.ErrNotADB: stash.ErrUnsupported, sqlite3.ErrFull: stash.ErrConflict,
		sqlite3.ErrReadonly: stash.ErrConflict, sqlite3.ErrCantOpen: stash.ErrConflict, sqlite3.ErrBusy: stash.ErrConflict,
		sqlite3.ErrIoErr: stash.ErrConflict, sqlite3.ErrNomem: stash.ErrConflict, sqlite3.ErrPerm: stash.ErrConflict, sqlite3.ErrProtocol: stash.ErrConflict,
		sqlite3.ErrTooBig: stash.ErrInvalid, sqlite3.ErrNoLFS: stash.ErrUnsupported,
	} {
		cause := sqlite3.Error{Code: code}
		err := explain(fmt.Errorf("saving: %w", cause))
		var own *stash.Error
		if !errors.As(err, &own) || !errors.Is(err, kind) || own.Do == "" || !errors.Is(err, cause) {
			t.Errorf("%v: %v", code, err)
		}
	}
	for _, err := range []error{nil, context.Canceled, stash.ErrNothing, sqlite3.Error{Code: sqlite3.ErrInterrupt}} {
		if got := explain(err); got != err {
			t.Errorf("%v became %v", err, got)
		}
	}
}
