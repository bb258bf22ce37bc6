package db

import (
	"database/sql"
	"encoding/json"
	"errors"
	"os"
	"path/filepath"
	"reflect"
	"testing"

	"tallycloth/planner"
	"tallycloth/stash"

	"github.com/google/uuid"
	"pgregory.net/rapid"
)

// TestDelta: whatever a document becomes, following its delta gives that, fields that are
// not said any more among it.
func TestDelta(t *testing.T) {
	values := rapid.SampledFrom([]any{nil, "", "moss", 0.0, 7.0, true, []any{}, []any{"a", nil}, map[string]any{"x": nil}})
	docs := rapid.MapOf(rapid.SampledFrom([]string{"A", "B", "C", "null", "["}), values)
	rapid.Check(t, func(t *rapid.T) {
		from, to := docs.Draw(t, "from"), docs.Draw(t, "to")
		b, err1 := json.Marshal(from)
		a, err2 := json.Marshal(to)
		delta, err3 := deltaOf(b, a)
		got, err4 := followed(b, sql.NullString{}, sql.NullString{String: string(delta), Valid: true})
		var back map[string]any
		if err := errors.Join(err1, err2, err3, err4, json.Unmarshal(got, &back)); err != nil {
			t.Fatal(err)
		}
		for name, v := range to { // null and not said are the same to a record
			if v == nil {
				delete(to, name)
			}
		}
		for name, v := range back {
			if v == nil {
				delete(back, name)
			}
		}
		if !reflect.DeepEqual(back, to) {
			t.Errorf("%s and %s give %s", b, delta, got)
		}
	})
}

// TestDamageFoundLater: a large library opens before it was looked through. Once damage is
// found, nothing more is written to it.
func TestDamageFoundLater(t *testing.T) {
	size, wait := atOnce, grace
	atOnce, grace = 0, 0
	t.Cleanup(func() { atOnce, grace = size, wait })
	folder := t.TempDir()
	path := filepath.Join(folder, fileName)
	l, err := Open(t.Context(), folder, Options{})
	if err != nil {
		t.Fatal(err)
	}
	put := func(l *Library) error {
		_, err := l.Write(t.Context(), "Bought rings", func(tx planner.Tx) error {
			return tx.PutNotion(t.Context(), stash.Notion{ID: uuid.Must(uuid.NewV7()), Name: "rings"})
		})
		return err
	}
	<-l.watch.done
	var page int
	asked := l.writer.QueryRowContext(t.Context(), `SELECT rootpage FROM sqlite_schema WHERE name = 'photo'`).Scan(&page)
	if err := errors.Join(asked, put(l), l.Close()); err != nil {
		t.Fatalf("a sound one: %v", err)
	}
	whole, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	clear(whole[4096*(page-1) : 4096*page])
	if err := os.WriteFile(path, whole, 0o644); err != nil {
		t.Fatal(err)
	}
	if l, err = Open(t.Context(), folder, Options{}); err != nil {
		t.Fatal(err)
	}
	<-l.watch.done
	if err := put(l); !errors.Is(err, stash.ErrUnsupported) || l.ReadOnly() == "" {
		t.Errorf("writing to a damaged library: %v, read-only because %q", err, l.ReadOnly())
	}
	if err := l.Close(); err != nil {
		t.Error(err)
	}
}
