package db_test

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"tallycloth/db"
	"tallycloth/planner"
	"tallycloth/stash"
	"tallycloth/stash/stashtest"
)

// filled is a library that the test closes itself.
func filled(t *testing.T) *db.Library {
	t.Helper()
	ids := stashtest.IDs()
	l, err := db.Open(t.Context(), t.TempDir(), db.Options{Now: stashtest.Clock(), NewID: ids})
	if err != nil {
		t.Fatal(err)
	}
	fill(t, l, ids)
	return l
}

// oneMore is one act that can be told from others.
func oneMore(t *testing.T, l *db.Library, sentence string) {
	t.Helper()
	_, err := l.Write(t.Context(), sentence, func(tx planner.Tx) error {
		ns, err := tx.Notions(t.Context())
		if err != nil {
			return err
		}
		ns[0].Name += "!"
		return tx.PutNotion(t.Context(), ns[0])
	})
	if err != nil {
		t.Fatal(err)
	}
}

// TestReturn goes back to a back-up, sees beforehand what that takes away, and goes forward
// again with the back-up that was made on the way.
func TestReturn(t *testing.T) {
	l := filled(t)
	folder, was := l.Folder(), everything(t, l)
	kept, err := l.KeepBackup(t.Context(), planner.EachDay)
	if err != nil || kept.Bytes == 0 {
		t.Fatal(kept, err)
	}
	oneMore(t, l, "Counted one more")
	oneMore(t, l, "Counted another")
	later := everything(t, l)
	r, err := l.Compare(t.Context(), kept.Path)
	if err != nil || r.GoneAll != 2 || r.Back != 0 || r.OtherOrigin || r.Gone[0].Sentence != "Counted another" || r.Gone[1].Sentence != "Counted one more" {
		t.Errorf("compared: %+v, %v", r, err)
	}
	for _, c := range r.Counts {
		if c.Now != c.Then || c.One == "fabric" && c.Now == 0 {
			t.Errorf("%s: %d now, %d then", c.Many, c.Now, c.Then)
		}
	}
	if _, err := db.Return(t.Context(), folder, kept.Path, time.Now()); !errors.Is(err, stash.ErrConflict) || !strings.Contains(err.Error(), "open already") {
		t.Errorf("going back while it is open: %v", err)
	}
	if err := l.Close(); err != nil {
		t.Fatal(err)
	}
	before, err := db.Return(t.Context(), folder, kept.Path, time.Now())
	if err != nil {
		t.Fatal(err)
	}
	if got := reopened(t, folder); got != was {
		t.Errorf("after going back:\n%s\nbut it was\n%s", got, was)
	}
	if _, err := db.Return(t.Context(), folder, before, time.Now().Add(time.Second)); err != nil {
		t.Fatal(err)
	}
	if got := reopened(t, folder); got != later {
		t.Errorf("forward again:\n%s\nbut it was\n%s", got, later)
	}
}

func reopened(t *testing.T, folder string) string {
	t.Helper()
	l, err := db.Open(t.Context(), folder, db.Options{})
	if err != nil {
		t.Fatal(err)
	}
	said := everything(t, l)
	if err := l.Close(); err != nil {
		t.Fatal(err)
	}
	return said
}

// TestReturnFromDamage puts a back-up in the place of a library that nobody can open any
// more; what was there is put aside. A back-up that is damaged is refused and changes nothing.
func TestReturnFromDamage(t *testing.T) {
	l := filled(t)
	folder, was := l.Folder(), everything(t, l)
	kept, err := l.KeepBackup(t.Context(), planner.EachDay)
	if err := errors.Join(err, l.Close()); err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(folder, "library.db")
	bad := filepath.Join(t.TempDir(), "bad.db")
	whole, err := os.ReadFile(kept.Path)
	if err != nil {
		t.Fatal(err)
	}
	torn := append([]byte{}, whole[:len(whole)/2]...)
	for _, path := range []string{bad, file} {
		if err := os.WriteFile(path, torn, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if _, err := db.Return(t.Context(), folder, bad, time.Now()); !errors.Is(err, stash.ErrUnsupported) || !strings.Contains(err.Error(), "cannot be gone back to") {
		t.Errorf("a damaged back-up: %v", err)
	}
	if now, err := os.ReadFile(file); err != nil || string(now) != string(torn) {
		t.Errorf("a refused back-up changed the library, %v", err)
	}
	aside, err := db.Return(t.Context(), folder, kept.Path, time.Now())
	if err != nil {
		t.Fatal(err)
	}
	if put, err := os.ReadFile(aside); err != nil || string(put) != string(torn) || !strings.Contains(aside, "damaged") {
		t.Errorf("put aside as %s: %v", aside, err)
	}
	if got := reopened(t, folder); got != was {
		t.Errorf("after going back:\n%s\nbut it was\n%s", got, was)
	}
}

// TestMove takes a library elsewhere with its back-ups, and leaves what is not its own.
func TestMove(t *testing.T) {
	l := filled(t)
	folder, was := l.Folder(), everything(t, l)
	kept, err := l.KeepBackup(t.Context(), planner.EachDay)
	if err != nil {
		t.Fatal(err)
	}
	to := filepath.Join(t.TempDir(), "new", "home")
	if err := db.Move(t.Context(), folder, to); !errors.Is(err, stash.ErrConflict) {
		t.Errorf("while it is open: %v", err)
	}
	if err := l.Close(); err != nil {
		t.Fatal(err)
	}
	own := filepath.Join(folder, "my notes.txt")
	if err := os.WriteFile(own, []byte("dear"), 0o644); err != nil {
		t.Fatal(err)
	}
	for _, no := range []string{folder, filepath.Join(folder, "inside")} {
		if err := db.Move(t.Context(), folder, no); !errors.Is(err, stash.ErrInvalid) {
			t.Errorf("to %s: %v", no, err)
		}
	}
	full := t.TempDir()
	if err := os.WriteFile(filepath.Join(full, "something"), nil, 0o644); err != nil {
		t.Fatal(err)
	}
	if err := db.Move(t.Context(), folder, full); !errors.Is(err, stash.ErrConflict) || !strings.Contains(err.Error(), "not empty") {
		t.Errorf("over something: %v", err)
	}
	if err := db.Move(t.Context(), folder, to); err != nil {
		t.Fatal(err)
	}
	if got := reopened(t, to); got != was {
		t.Errorf("moved:\n%s\nbut it was\n%s", got, was)
	}
	moved, err := db.BackupsIn(to)
	if err != nil || len(moved) != 1 || filepath.Base(moved[0].Path) != filepath.Base(kept.Path) {
		t.Errorf("back-ups moved: %v, %v", moved, err)
	}
	if _, err := os.Stat(filepath.Join(folder, "library.db")); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("the library is still where it was: %v", err)
	}
	if b, err := os.ReadFile(own); err != nil || string(b) != "dear" {
		t.Errorf("what is not the library's is gone: %v", err)
	}
}

// TestDropBackups removes what it is told to, and nothing that is no back-up.
func TestDropBackups(t *testing.T) {
	l, ids := open(t)
	fill(t, l, ids)
	first, err1 := l.KeepBackup(t.Context(), planner.EachDay)
	second, err2 := l.KeepBackup(t.Context(), planner.BeforeList)
	if err := errors.Join(err1, err2); err != nil {
		t.Fatal(err)
	}
	if err := l.DropBackups(t.Context(), []planner.Backup{first, {Path: filepath.Join(l.Folder(), "library.db")}}); err != nil {
		t.Fatal(err)
	}
	all, err := l.Backups(t.Context())
	if err != nil || len(all) != 1 || all[0] != second {
		t.Errorf("%+v, %v", all, err)
	}
	if _, err := os.Stat(filepath.Join(l.Folder(), "library.db")); err != nil {
		t.Error(err)
	}
}
