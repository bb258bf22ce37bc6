package db_test

import (
	"bytes"
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"tallycloth/db"
	"tallycloth/planner"
	"tallycloth/stash"
	"tallycloth/stash/stashtest"
)

// closedLibrary returns the folder of a filled library that is closed, and its content.
func closedLibrary(t *testing.T) (folder, content string) {
	t.Helper()
	folder = t.TempDir()
	ids := stashtest.IDs()
	l, err := db.Open(t.Context(), folder, db.Options{Now: stashtest.Clock(), NewID: ids})
	if err != nil {
		t.Fatal(err)
	}
	fill(t, l, ids)
	content = everything(t, l)
	if err := l.Close(); err != nil {
		t.Fatal(err)
	}
	return folder, content
}

// files reads every file of a folder but the lock.
func files(t *testing.T, folder string) map[string]string {
	t.Helper()
	out := map[string]string{}
	err := filepath.WalkDir(folder, func(path string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() || e.Name() == "library.lock" {
			return err
		}
		b, err := os.ReadFile(path)
		out[path] = string(b)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// refused opens a folder that must be refused, with a sentence that has the words and
// says what to do, and checks that no file in it changed.
func refused(t *testing.T, folder string, o db.Options, kind *stash.Error, words ...string) {
	t.Helper()
	before := files(t, folder)
	l, err := db.Open(t.Context(), folder, o)
	if err == nil {
		t.Fatalf("opened; want %q; closing says %v", words, l.Close())
	}
	var e *stash.Error
	if !errors.As(err, &e) || !errors.Is(err, kind) || e.Do == "" {
		t.Errorf("%v is not an error of kind %d that says what to do", err, kind.Kind)
	}
	for _, w := range words {
		if !strings.Contains(err.Error(), w) {
			t.Errorf("%v does not say %q", err, w)
		}
	}
	after := files(t, folder)
	for name := range after {
		if _, ok := before[name]; !ok {
			t.Errorf("%s appeared", filepath.Base(name))
		}
	}
	for name, b := range before {
		if after[name] != b {
			t.Errorf("%s changed", filepath.Base(name))
		}
	}
}

func TestReopen(t *testing.T) {
	folder, content := closedLibrary(t)
	l, err := db.Open(t.Context(), folder, db.Options{})
	if err != nil {
		t.Fatal(err)
	}
	if everything(t, l) != content {
		t.Error("the library changed by closing and opening")
	}
	if a, err := l.Undo(t.Context()); err != nil || a.Sentence != stash.UndoSentence("Step 4") {
		t.Errorf("undo after opening: %+v, %v", a, err)
	}
	if err := l.Close(); err != nil {
		t.Error(err)
	}
}

// TestReadOnlyAlone opens a library read-only that no one has open, and afterwards
// for writing.
func TestReadOnlyAlone(t *testing.T) {
	folder, content := closedLibrary(t)
	before := files(t, folder)
	l, err := db.Open(t.Context(), folder, db.Options{ReadOnly: true})
	if err != nil {
		t.Fatal(err)
	}
	if everything(t, l) != content {
		t.Error("read-only it tells something else")
	}
	if err := l.Backup(t.Context(), filepath.Join(t.TempDir(), "copy.db")); err != nil {
		t.Errorf("back-up of a library open read-only: %v", err)
	}
	writer, err := db.Open(t.Context(), folder, db.Options{})
	if err != nil {
		t.Fatal(err)
	}
	if err := errors.Join(l.Close(), writer.Close()); err != nil {
		t.Error(err)
	}
	if path := filepath.Join(folder, "library.db"); files(t, folder)[path] != before[path] {
		t.Error("the library's file changed")
	}
}

func TestSecondWindow(t *testing.T) {
	l, ids := open(t)
	s := fill(t, l, ids)
	refused(t, l.Folder(), db.Options{}, stash.ErrConflict, "open already", fmt.Sprintf("process %d on ", os.Getpid()), "read-only")

	second, err := db.Open(t.Context(), l.Folder(), db.Options{ReadOnly: true})
	if err != nil {
		t.Fatal(err)
	}
	if second.ReadOnly() == "" || l.ReadOnly() != "" {
		t.Errorf("read-only: %q, the first: %q", second.ReadOnly(), l.ReadOnly())
	}
	if everything(t, second) != everything(t, l) {
		t.Error("the second window sees something else")
	}
	_, err = second.Write(t.Context(), "Try", func(tx planner.Tx) error { return nil })
	_, errUndo := second.Undo(t.Context())
	_, errRedo := second.Redo(t.Context())
	for _, err := range []error{err, errUndo, errRedo} {
		if !errors.Is(err, stash.ErrConflict) || !strings.Contains(err.Error(), "read-only") {
			t.Errorf("writing read-only: %v", err)
		}
	}
	_, err = l.Write(t.Context(), "Counted", func(tx planner.Tx) error {
		return tx.PutNotion(t.Context(), stash.Notion{ID: s.notion, Name: "rings", Quantity: 99})
	})
	if err != nil {
		t.Fatal(err)
	}
	if ns, err := second.Notions(t.Context()); err != nil || ns[0].Quantity != 99 {
		t.Errorf("the second window sees %v, %v after an act of the first", ns, err)
	}
	if err := second.Close(); err != nil {
		t.Error(err)
	}
}

func TestOpenRefuses(t *testing.T) {
	t.Run("a folder of other files", func(t *testing.T) {
		folder := t.TempDir()
		write(t, filepath.Join(folder, "letter.txt"), []byte("dear"))
		_, err := db.Open(t.Context(), folder, db.Options{})
		if !errors.Is(err, stash.ErrUnsupported) || !strings.Contains(err.Error(), "letter.txt") {
			t.Error(err)
		}
		if _, err := os.Stat(filepath.Join(folder, "library.db")); err == nil {
			t.Error("a library was made there")
		}
	})
	t.Run("nothing to read", func(t *testing.T) {
		refused(t, t.TempDir(), db.Options{ReadOnly: true}, stash.ErrNotFound, "no library")
	})
	t.Run("an empty file", func(t *testing.T) { withFile(t, nil, stash.ErrUnsupported, "damaged", "back-up") })
	t.Run("a text", func(t *testing.T) {
		withFile(t, bytes.Repeat([]byte("not a library "), 99), stash.ErrUnsupported, "damaged", "back-up")
	})
	t.Run("a folder in its place", func(t *testing.T) {
		folder := t.TempDir()
		if err := os.MkdirAll(filepath.Join(folder, "library.db"), 0o755); err != nil {
			t.Fatal(err)
		}
		if _, err := db.Open(t.Context(), folder, db.Options{}); !errors.Is(err, stash.ErrUnsupported) {
			t.Error(err)
		}
	})
	t.Run("another program's database", func(t *testing.T) {
		path := filepath.Join(t.TempDir(), "other.db")
		execute(t, path, `CREATE TABLE a (b)`)
		b, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		withFile(t, b, stash.ErrUnsupported, "not a library of this program")
	})
	t.Run("a newer version", func(t *testing.T) {
		folder, _ := closedLibrary(t)
		execute(t, filepath.Join(folder, "library.db"), `PRAGMA journal_mode = DELETE; INSERT INTO goose_db_version (version_id, is_applied) VALUES (9001, 1)`)
		refused(t, folder, db.Options{}, stash.ErrUnsupported, "newer version", "9001")
		refused(t, folder, db.Options{ReadOnly: true}, stash.ErrUnsupported, "newer version")
	})
}

func write(t *testing.T, path string, b []byte) {
	t.Helper()
	if err := os.WriteFile(path, b, 0o644); err != nil {
		t.Fatal(err)
	}
}

// withFile tries a folder whose library.db has the bytes given.
func withFile(t *testing.T, b []byte, kind *stash.Error, words ...string) {
	t.Helper()
	folder := t.TempDir()
	write(t, filepath.Join(folder, "library.db"), b)
	refused(t, folder, db.Options{}, kind, words...)
	refused(t, folder, db.Options{ReadOnly: true}, kind, words...)
}

// execute runs SQL on a file.
func execute(t *testing.T, path, query string) {
	t.Helper()
	d, err := sql.Open("sqlite3", path)
	if err != nil {
		t.Fatal(err)
	}
	d.SetMaxOpenConns(1)
	_, err = d.Exec(query)
	if err := errors.Join(err, d.Close()); err != nil {
		t.Fatal(err)
	}
}

// TestDamage spoils a library in many places and ways. Each time it must be refused
// with nothing changed, or open with its content whole.
func TestDamage(t *testing.T) {
	folder, content := closedLibrary(t)
	whole, err := os.ReadFile(filepath.Join(folder, "library.db"))
	if err != nil {
		t.Fatal(err)
	}
	const page = 4096
	refusals := 0
	for at := 0; at < len(whole); at += page {
		for name, spoil := range map[string]func([]byte) []byte{
			"cut short":      func(b []byte) []byte { return b[:at] },
			"zeroed":         func(b []byte) []byte { clear(b[at:min(at+page, len(b))]); return b },
			"page type":      func(b []byte) []byte { b[at] ^= 0x55; return b },
			"cell pointers":  func(b []byte) []byte { copy(b[min(at+108, len(b)):], "\xff\xff\xff\xff\xff\xff"); return b },
			"middle of page": func(b []byte) []byte { copy(b[min(at+page/2, len(b)):], bytes.Repeat([]byte{0xa5}, 600)); return b },
		} {
			spoilt := filepath.Join(t.TempDir(), "spoilt")
			if err := os.MkdirAll(spoilt, 0o755); err != nil {
				t.Fatal(err)
			}
			path := filepath.Join(spoilt, "library.db")
			write(t, path, spoil(bytes.Clone(whole)))
			before, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			l, err := db.Open(t.Context(), spoilt, db.Options{ReadOnly: true})
			if err == nil {
				openedDamaged(t, l, content, fmt.Sprintf("page %d %s", at/page, name))
				continue
			}
			refusals++
			var e *stash.Error
			if !errors.As(err, &e) || e.Kind != stash.Unsupported || e.Do == "" {
				t.Errorf("page %d %s: %v", at/page, name, err)
			}
			after, err := os.ReadFile(path)
			if err != nil || !bytes.Equal(before, after) {
				t.Errorf("page %d %s: the damaged file was changed, %v", at/page, name, err)
			}
		}
	}
	if refusals < len(whole)/page {
		t.Errorf("only %d spoilt libraries of %d pages were refused", refusals, len(whole)/page)
	}
}

// openedDamaged checks a library that opened although bytes of it were spoilt: in a
// place that holds no structure. What it tells is an error or text, never a crash.
func openedDamaged(t *testing.T, l *db.Library, content, what string) {
	t.Helper()
	if text, err := stashtest.Snapshot(context.Background(), l); err == nil && len(text) == 0 {
		t.Errorf("%s: it opened and tells nothing of %d letters", what, len(content))
	}
	if err := l.Close(); err != nil {
		t.Errorf("%s: %v", what, err)
	}
}

// TestFolderThatCannotBeWritten runs as a person who may only read the folder.
func TestFolderThatCannotBeWritten(t *testing.T) {
	if folder := os.Getenv("TALLYCLOTH_TEST_READ_ONLY_FOLDER"); folder != "" {
		readOnlyFolder(t, folder)
		return
	}
	folder, _ := closedLibrary(t)
	program := filepath.Join(t.TempDir(), "program")
	b, err := os.ReadFile(os.Args[0])
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(program, b, 0o755); err != nil {
		t.Fatal(err)
	}
	for _, path := range []string{folder, filepath.Dir(folder), filepath.Dir(program), filepath.Dir(filepath.Dir(program))} {
		if err := os.Chmod(path, 0o555); err != nil {
			t.Fatal(err)
		}
		t.Cleanup(func() {
			if err := os.Chmod(path, 0o755); err != nil {
				t.Error(err)
			}
		})
	}
	run := exec.Command(program, "-test.run=^TestFolderThatCannotBeWritten$", "-test.v")
	run.Dir = folder
	run.Env = append(os.Environ(), "TALLYCLOTH_TEST_READ_ONLY_FOLDER="+folder)
	asNobody(run)
	if out, err := run.CombinedOutput(); err != nil || !bytes.Contains(out, []byte("--- PASS: TestFolderThatCannotBeWritten")) {
		t.Errorf("%v\n%s", err, out)
	}
}

func readOnlyFolder(t *testing.T, folder string) {
	refused(t, folder, db.Options{}, stash.ErrConflict, "cannot be written", "read-only")
	l, err := db.Open(t.Context(), folder, db.Options{ReadOnly: true})
	if err != nil {
		t.Fatal(err)
	}
	if fs, err := l.Fabrics(t.Context()); err != nil || len(fs) != 1 {
		t.Errorf("fabrics: %v, %v", fs, err)
	}
	if err := l.Close(); err != nil {
		t.Error(err)
	}
}
