package verb_test

import (
	"bytes"
	"context"
	"database/sql"
	"os"
	"path/filepath"
	"testing"

	"tallycloth/cmd/tallycloth/verb"
	"tallycloth/db"
)

// openLibrary opens the desk's library as another program would.
func (d *desk) openLibrary() *db.Library {
	d.t.Helper()
	l, err := db.Open(context.Background(), d.folder, db.Options{})
	if err != nil {
		d.t.Fatal(err)
	}
	return l
}

// made makes an empty library on the desk.
func (d *desk) made() *desk {
	d.t.Helper()
	if err := d.openLibrary().Close(); err != nil {
		d.t.Fatal(err)
	}
	return d
}

func (d *desk) file() string { return filepath.Join(d.folder, "library.db") }

// readFile returns the library's bytes, to see that a refusal left them alone.
func (d *desk) readFile() []byte {
	d.t.Helper()
	b, err := os.ReadFile(d.file())
	if err != nil {
		d.t.Fatal(err)
	}
	return b
}

func TestOpenInAnotherWindow(t *testing.T) {
	d := newDesk(t)
	window := d.openLibrary()
	defer window.Close()
	d.done("list", "cloth") // reading goes on beside the window
	d.done("backup", filepath.Join(t.TempDir(), "copy.db"))
	d.refused(verb.NoAccess, []string{"open", d.folder}, "undo")
}

func TestDamagedLibrary(t *testing.T) {
	for name, spoil := range map[string]func([]byte) []byte{
		"not a database": func([]byte) []byte { return []byte("a shopping list, not a library") },
		"cut off":        func(b []byte) []byte { return b[:len(b)/2] },
		"scribbled over": func(b []byte) []byte {
			b = bytes.Clone(b)
			for i := 4096; i < len(b); i += 3 {
				b[i] ^= 0x5a
			}
			return b
		},
	} {
		t.Run(name, func(t *testing.T) {
			d := newDesk(t).made()
			if err := os.WriteFile(d.file(), spoil(d.readFile()), 0o644); err != nil {
				t.Fatal(err)
			}
			before := d.readFile()
			for _, args := range [][]string{{"list", "cloth"}, {"undo"}} {
				d.refused(verb.NoAccess, []string{d.folder}, args...)
			}
			if !bytes.Equal(before, d.readFile()) {
				t.Error("the damaged library was written to")
			}
		})
	}
}

func TestNewerLibrary(t *testing.T) {
	d := newDesk(t).made()
	raw, err := sql.Open("sqlite3", d.file())
	if err != nil {
		t.Fatal(err)
	}
	if _, err := raw.Exec(`INSERT INTO goose_db_version (version_id, is_applied) VALUES (99999, 1)`); err != nil {
		t.Fatal(err)
	}
	if err := raw.Close(); err != nil {
		t.Fatal(err)
	}
	before := d.readFile()
	for _, args := range [][]string{{"list", "cloth"}, {"undo"}} {
		d.refused(verb.NoAccess, []string{"newer"}, args...)
	}
	if !bytes.Equal(before, d.readFile()) {
		t.Error("the newer library was written to")
	}
}

// TestFolderThatCannotBeWritten uses a folder where not even root makes files.
func TestFolderThatCannotBeWritten(t *testing.T) {
	d := newDesk(t)
	d.folder = "/proc/tallycloth"
	d.refused(verb.NoAccess, []string{"cannot be written", d.folder}, "demo")
}

func TestBackupDoesNotReplace(t *testing.T) {
	d := newDesk(t).made()
	path := filepath.Join(t.TempDir(), "copy.db")
	if err := os.WriteFile(path, []byte("something dear"), 0o644); err != nil {
		t.Fatal(err)
	}
	d.refused(verb.Failed, []string{"name"}, "backup", path)
	if b, err := os.ReadFile(path); err != nil || string(b) != "something dear" {
		t.Errorf("the file there now holds %q, %v", b, err)
	}
}

// TestBackupIsALibrary puts a copy in the place of a library.
func TestBackupIsALibrary(t *testing.T) {
	d := newDesk(t).made()
	other := newDesk(t)
	if err := os.MkdirAll(other.folder, 0o755); err != nil {
		t.Fatal(err)
	}
	var said struct{ File string }
	d.answer(&said, "backup", other.file())
	if said.File != other.file() {
		t.Errorf("backed up to %q", said.File)
	}
	other.done("list", "cloth")
}
