package db

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"tallycloth/planner"
	"tallycloth/stash"
)

// counting writes one act.
func counting(t *testing.T, l *Library, name string) error {
	t.Helper()
	_, err := l.Write(t.Context(), "Counted "+name, func(tx planner.Tx) error {
		return tx.PutNotion(t.Context(), stash.Notion{ID: newID(), Name: name, Quantity: 3})
	})
	return err
}

// TestFileTakenAway moves, removes and replaces the file of a library that is open. Nothing
// more is written or read, the sentence says what to do, and a back-up written from what is
// open has all that was saved; once the file is back it goes on.
func TestFileTakenAway(t *testing.T) {
	for name, c := range map[string]struct {
		take, back func(path string) error
		says       string
	}{
		"moved": {func(p string) error { return os.Rename(p, p+".away") }, func(p string) error { return os.Rename(p+".away", p) }, "moved or removed"},
		"replaced": {func(p string) error {
			return errors.Join(os.Rename(p, p+".away"), os.WriteFile(p, []byte("SQLite format 3\x00 and something else"), 0o644))
		}, func(p string) error { return os.Rename(p+".away", p) }, "put in place of"},
		"folder moved": {func(p string) error { return os.Rename(filepath.Dir(p), filepath.Dir(p)+".away") },
			func(p string) error { return os.Rename(filepath.Dir(p)+".away", filepath.Dir(p)) }, "moved or removed"},
		"removed": {os.Remove, nil, "moved or removed"},
	} {
		t.Run(name, func(t *testing.T) {
			l, err := Open(t.Context(), filepath.Join(t.TempDir(), "library"), Options{})
			if err != nil {
				t.Fatal(err)
			}
			defer func() { l.Close() }()
			path := filepath.Join(l.Folder(), fileName)
			if err := errors.Join(counting(t, l, "rings"), c.take(path)); err != nil {
				t.Fatal(err)
			}
			_, reading := l.Notions(t.Context())
			_, undo := l.Undo(t.Context())
			for what, err := range map[string]error{"an act": counting(t, l, "hooks"), "undo": undo, "reading": reading} {
				var own *stash.Error
				if !errors.As(err, &own) || own.Kind != stash.Conflict || !strings.Contains(own.What, c.says) || !strings.Contains(own.Do, "back-up into another folder") {
					t.Errorf("%s: %v", what, err)
				}
			}
			rescued := t.TempDir()
			if err := l.Backup(t.Context(), filepath.Join(rescued, fileName)); err != nil {
				t.Fatalf("rescuing it: %v", err)
			}
			hasOnly(t, rescued, "rings")
			if c.back == nil {
				return
			}
			if err := errors.Join(c.back(path), counting(t, l, "sliders")); err != nil {
				t.Errorf("once it was back: %v", err)
			}
			if ns, err := l.Notions(t.Context()); err != nil || len(ns) != 2 {
				t.Errorf("once it was back: %v, %v", ns, err)
			}
		})
	}
}

// hasOnly opens a library and looks for one notion.
func hasOnly(t *testing.T, folder, name string) {
	t.Helper()
	l, err := Open(t.Context(), folder, Options{})
	if err != nil {
		t.Fatal(err)
	}
	ns, err := l.Notions(t.Context())
	if err := errors.Join(err, l.InOrder(t.Context()), l.Close()); err != nil || len(ns) != 1 || ns[0].Name != name {
		t.Errorf("it holds %v, %v", ns, err)
	}
}

// TestDamageWhileOpen spoils pages of a library that is open: reading and writing say that it
// is damaged and what to do.
func TestDamageWhileOpen(t *testing.T) {
	folder := t.TempDir()
	l, err := Open(t.Context(), folder, Options{})
	if err != nil {
		t.Fatal(err)
	}
	if err := errors.Join(counting(t, l, "rings"), l.Close()); err != nil {
		t.Fatal(err)
	}
	if l, err = Open(t.Context(), folder, Options{}); err != nil {
		t.Fatal(err)
	}
	defer func() { l.Close() }()
	f, err := os.OpenFile(filepath.Join(folder, fileName), os.O_RDWR, 0)
	if err != nil {
		t.Fatal(err)
	}
	info, err := f.Stat()
	if err != nil {
		t.Fatal(err)
	}
	for at := int64(4096); at < info.Size(); at += 4096 {
		if _, err := f.WriteAt([]byte(strings.Repeat("moth", 1024)), at); err != nil {
			t.Fatal(err)
		}
	}
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
	_, reading := l.Notions(t.Context())
	for what, err := range map[string]error{"reading": reading, "an act": counting(t, l, "hooks")} {
		var own *stash.Error
		if !errors.As(err, &own) || own.Kind != stash.Unsupported || !strings.Contains(own.What, "damaged") || !strings.Contains(own.Do, "back-up") {
			t.Errorf("%s: %v", what, err)
		}
	}
}
