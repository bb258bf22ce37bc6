package verb_test

import (
	"os"
	"path/filepath"
	"testing"

	"tallycloth/cmd/tallycloth/verb"
)

// TestRestore: a list makes a back-up, the dry run says what would go and changes nothing,
// restore goes back and keeps what was there, and going back to that brings the list back.
func TestRestore(t *testing.T) {
	d := newDesk(t).withPatterns()
	d.log(jersey, "2 m", "--width", "150 cm")
	var none []struct{ File, Why, At string }
	if d.answer(&none, "restore"); len(none) != 0 {
		t.Errorf("back-ups of a new library: %v", none)
	}
	d.done("import", d.list(ownList), "--leave-out", "--write")
	after := d.done("list", "cloth", "--json")
	var all []struct {
		File, Why, At string
		Bytes         int64
	}
	if d.answer(&all, "restore"); len(all) != 1 || all[0].Why != "before-list" || all[0].Bytes == 0 {
		t.Fatalf("back-ups after a list: %+v", all)
	}
	type gone struct {
		File   string
		Gone   int
		Acts   []string `json:"gone_acts"`
		Back   int
		Counts []struct {
			Of        string
			Now, Then int
		}
		Compared, Saved bool
		Before          string
	}
	var would, did, forward gone
	if d.answer(&would, "restore", "newest", "--dry"); would.Gone != 1 || len(would.Acts) != 1 || would.Saved || would.Before != "" || !would.Compared {
		t.Errorf("the dry run: %+v", would)
	}
	if now := d.done("list", "cloth", "--json"); now != after {
		t.Error("the dry run changed the library")
	}
	if d.answer(&did, "restore", filepath.Base(all[0].File)); !did.Saved || did.Before == "" {
		t.Errorf("going back: %+v", did)
	}
	var cloths []any
	d.answer(new(any), "list", "patterns")
	if d.answer(&cloths, "list", "cloth"); len(cloths) != 1 {
		t.Errorf("%d cloths after going back", len(cloths))
	}
	if d.answer(&forward, "restore", did.Before); forward.Gone != 0 || forward.Back != 1 {
		t.Errorf("forward again: %+v", forward)
	}
	if now := d.done("list", "cloth", "--json"); now != after {
		t.Error("forward again is not as it was")
	}
	bad := filepath.Join(t.TempDir(), "notes.db")
	if err := os.WriteFile(bad, []byte("no back-up"), 0o644); err != nil {
		t.Fatal(err)
	}
	d.refused(verb.Failed, []string{"cannot be gone back to", "another"}, "restore", bad)
	d.refused(verb.Failed, []string{"no back-up at"}, "restore", filepath.Join(t.TempDir(), "none.db"))
}

// TestRestoreFromDamage: a library that nothing opens any more is put aside and replaced.
func TestRestoreFromDamage(t *testing.T) {
	d := newDesk(t).made()
	d.log(jersey, "2 m", "--width", "150 cm")
	copied := filepath.Join(t.TempDir(), "copy.db")
	d.done("backup", copied)
	before := d.done("list", "cloth", "--json")
	if err := os.WriteFile(d.file(), []byte("torn"), 0o644); err != nil {
		t.Fatal(err)
	}
	var did struct {
		File     string
		Gone     int
		Acts     []string `json:"gone_acts"`
		Back     int
		Counts   []any
		Compared bool
		Saved    bool
		Before   string
	}
	d.answer(&did, "restore", copied)
	if kept, err := os.ReadFile(did.Before); err != nil || string(kept) != "torn" || did.Compared {
		t.Errorf("%+v: %q, %v", did, kept, err)
	}
	if now := d.done("list", "cloth", "--json"); now != before {
		t.Errorf("after going back: %s", now)
	}
}
