package db_test

import (
	"errors"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"tallycloth/db"
	"tallycloth/planner"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/stashtest"
)

// TestBackup checks that a back-up is a whole library, and that one is never written
// over another file or left half-written.
func TestBackup(t *testing.T) {
	l, ids := open(t)
	fill(t, l, ids)
	folder := t.TempDir()
	path := filepath.Join(folder, "library.db")
	if err := l.Backup(t.Context(), path); err != nil {
		t.Fatal(err)
	}
	if err := l.Backup(t.Context(), path); !errors.Is(err, stash.ErrConflict) || !strings.Contains(err.Error(), "another name") {
		t.Errorf("over a file: %v", err)
	}
	if err := l.Backup(t.Context(), filepath.Join(folder, "no", "such", "folder.db")); !errors.Is(err, stash.ErrConflict) {
		t.Errorf("into no folder: %v", err)
	}
	if names := files(t, folder); len(names) != 1 {
		t.Errorf("%d files beside the back-up", len(names)-1)
	}
	copied, err := db.Open(t.Context(), folder, db.Options{})
	if err != nil {
		t.Fatal(err)
	}
	if everything(t, copied) != everything(t, l) {
		t.Error("the back-up has something else")
	}
	if _, err := copied.Undo(t.Context()); err != nil {
		t.Errorf("the back-up cannot be worked with: %v", err)
	}
	if err := copied.Close(); err != nil {
		t.Error(err)
	}
}

var freeze = flag.String("freeze", "", "write a library of today's form to testdata/db under this name, v1: once per release")

// TestFreeze, with -freeze, writes a library of today's form with every kind of
// record and movement in it; without, it checks that such a library can be written.
func TestFreeze(t *testing.T) {
	folder := t.TempDir()
	ids := stashtest.IDs()
	l, err := db.Open(t.Context(), folder, db.Options{Now: stashtest.Clock(), NewID: ids})
	if err != nil {
		t.Fatal(err)
	}
	live(t, l, ids, fill(t, l, ids))
	into := t.TempDir()
	if *freeze != "" {
		into = filepath.Join("../testdata/db", *freeze)
		if err := errors.Join(os.RemoveAll(into), os.MkdirAll(into, 0o755)); err != nil {
			t.Fatal(err)
		}
	}
	if err := l.Backup(t.Context(), filepath.Join(into, "library.db")); err != nil {
		t.Fatal(err)
	}
	said := totals(t, l)
	write(t, filepath.Join(into, "totals.txt"), []byte(said))
	for _, k := range []stash.MovementKind{stash.Bought, stash.Cut, stash.LeftOver, stash.Discarded, stash.Washed, stash.Reversed, stash.Released} {
		if strings.Contains(said, fmt.Sprintf("%s: 0 lines", k)) {
			t.Errorf("nothing was %s", k)
		}
	}
	if err := l.Close(); err != nil {
		t.Error(err)
	}
}

// live works with the records of a sample: releases, washes, reserves, cuts, gives
// away, takes back and does again.
func live(t *testing.T, l *db.Library, ids func() stash.ID, s sample) {
	t.Helper()
	ctx := t.Context()
	do := func(sentence string, f func(planner.Tx, stash.ClothState) error) {
		t.Helper()
		_, err := l.Write(ctx, sentence, func(tx planner.Tx) error {
			c, err := tx.Cloth(ctx, s.cloth)
			return errors.Join(err, f(tx, c))
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	do("Released the front", func(tx planner.Tx, c stash.ClothState) error {
		line, r := stash.ReleasedLine(c.Reservations[0], "another fabric")
		return errors.Join(tx.PutReservation(ctx, r), tx.Append(ctx, line))
	})
	do("Measured again", func(tx planner.Tx, c stash.ClothState) error {
		after := c.Cloth
		after.Length -= 5 * measure.Millimetre
		return errors.Join(tx.PutCloth(ctx, after), tx.Append(ctx, stash.Resized(stash.MeasuredAgain, c.Cloth, after, "")))
	})
	do("Washed it", func(tx planner.Tx, c stash.ClothState) error {
		line, after, err := stash.Wash(c.Cloth, stash.AfterWashing(c.Cloth.Length, -600), stash.AfterWashing(c.Cloth.Width, -450), "30 °C")
		return errors.Join(err, tx.PutCloth(ctx, after), tx.Append(ctx, line))
	})
	do("Cut its ends straight", func(tx planner.Tx, c stash.ClothState) error {
		line, after, err := stash.True(c.Cloth, c.Cloth.UsableLength(stash.RawEndLoss), "")
		return errors.Join(err, tx.PutCloth(ctx, after), tx.Append(ctx, line))
	})
	r := stash.Reservation{ID: ids(), ClothID: s.cloth, GarmentID: s.garment, UsedFor: "main", Live: true, At: stashtest.Clock()(), Pieces: []stash.ReservedPiece{round(0, 0, 250_000), round(600_000, 0, 250_000)}}
	do("Reserved front and back", func(tx planner.Tx, c stash.ClothState) error {
		return errors.Join(tx.PutReservation(ctx, r), tx.Append(ctx, stash.ReservedLine(r, "")))
	})
	do("Cut front and back", func(tx planner.Tx, c stash.ClothState) error {
		rest := stashtest.SampleLength(ids(), c.Fabric.ID, "R4TT", 500*measure.Millimetre)
		rest.Width, rest.CutFrom = c.Cloth.Width, c.Cloth.ID
		lines, gone, cut, err := stash.CutUp(stash.Cutting{Cloth: c.Cloth, Cut: c.Reservations, Leftovers: []stash.Cloth{rest}, Note: "by rotary cutter"})
		err = errors.Join(err, tx.PutCloth(ctx, rest), tx.PutReservation(ctx, cut[0]), tx.PutCloth(ctx, gone))
		for _, line := range lines {
			err = errors.Join(err, tx.Append(ctx, line))
		}
		return err
	})
	_, err1 := l.Undo(ctx)
	_, err2 := l.Redo(ctx)
	if err := errors.Join(err1, err2); err != nil {
		t.Fatal(err)
	}
	s.cloth = s.leftover
	do("Gave the leftover away", func(tx planner.Tx, c stash.ClothState) error {
		line, gone := stash.Left(stash.GivenAway, c.Cloth, "to a friend")
		return errors.Join(tx.PutCloth(ctx, gone), tx.Append(ctx, line))
	})
}

// TestFrozen opens the libraries that earlier versions wrote (testdata/db/v*) and
// compares with what was in them: content for the form of today, totals for all.
func TestFrozen(t *testing.T) {
	frozen, err := filepath.Glob("../testdata/db/v*/library.db")
	if err != nil || len(frozen) == 0 {
		t.Fatalf("no frozen libraries: %v", err)
	}
	for _, path := range frozen {
		t.Run(filepath.Base(filepath.Dir(path)), func(t *testing.T) {
			b, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			folder := t.TempDir()
			write(t, filepath.Join(folder, "library.db"), b)
			l, err := db.Open(t.Context(), folder, db.Options{Now: stashtest.Clock()})
			if err != nil {
				t.Fatal(err)
			}
			want, err := os.ReadFile(filepath.Join(filepath.Dir(path), "totals.txt"))
			if err != nil {
				t.Fatal(err)
			}
			if got := totals(t, l); got != string(want) {
				t.Errorf("totals\n%s\nwant\n%s", got, want)
			}
			for range 3 {
				if _, err := l.Undo(t.Context()); err != nil {
					t.Errorf("an old act cannot be taken back: %v", err)
				}
			}
			if err := l.Close(); err != nil {
				t.Error(err)
			}
		})
	}
}

// totals is what a library's ledger and records come to.
func totals(t *testing.T, l *db.Library) string {
	t.Helper()
	var b strings.Builder
	ms, err1 := l.Movements(t.Context(), stash.NoID)
	cs, err2 := l.Cloths(t.Context())
	as, err3 := l.Acts(t.Context(), 0)
	ps, err4 := l.Patterns(t.Context())
	gs, err5 := l.Garments(t.Context())
	if err := errors.Join(err1, err2, err3, err4, err5); err != nil {
		t.Fatal(err)
	}
	byKind := map[stash.MovementKind][2]int64{}
	for _, m := range ms {
		x := byKind[m.Kind]
		byKind[m.Kind] = [2]int64{x[0] + 1, x[1] + int64(m.Area)}
	}
	for _, k := range []stash.MovementKind{stash.Bought, stash.Added, stash.MeasuredAgain, stash.Trued, stash.Washed, stash.Reserved, stash.Released, stash.Cut, stash.LeftOver, stash.GivenAway, stash.Discarded, stash.Reversed} {
		fmt.Fprintf(&b, "%s: %d lines, %d µm²\n", k, byKind[k][0], byKind[k][1])
	}
	for _, c := range cs {
		fmt.Fprintf(&b, "%s of %s: %d µm², %d free, %d µm long\n", c.Cloth.Code, c.Fabric.Name, c.Area, c.FreeArea, c.Cloth.Length)
	}
	fmt.Fprintf(&b, "%d acts, %d patterns, %d garments\n", len(as), len(ps), len(gs))
	return b.String()
}

// TestUpgrade brings a library of form 0 (nothing but its mark) up to date and finds
// the back-up that was made before.
func TestUpgrade(t *testing.T) {
	folder := t.TempDir()
	execute(t, filepath.Join(folder, "library.db"), `PRAGMA application_id = 1414285635;
		CREATE TABLE goose_db_version (id INTEGER PRIMARY KEY AUTOINCREMENT, version_id INTEGER NOT NULL, is_applied INTEGER NOT NULL, tstamp TIMESTAMP DEFAULT (datetime('now')));
		INSERT INTO goose_db_version (version_id, is_applied) VALUES (0, 1)`)
	refused(t, folder, db.Options{ReadOnly: true}, stash.ErrUnsupported, "older version")
	ids := stashtest.IDs()
	l, err := db.Open(t.Context(), folder, db.Options{Now: stashtest.Clock(), NewID: ids})
	if err != nil {
		t.Fatal(err)
	}
	fill(t, l, ids)
	if err := l.Close(); err != nil {
		t.Error(err)
	}
	kept, err := filepath.Glob(filepath.Join(folder, "backups", "before-form-*.db"))
	if err != nil || len(kept) != 1 {
		t.Errorf("back-ups: %v, %v", kept, err)
	}
}

// TestAtOnce writes and reads from many goroutines at once.
func TestAtOnce(t *testing.T) {
	l, ids := open(t)
	s := fill(t, l, ids)
	ctx := t.Context()
	var all sync.WaitGroup
	for range 8 {
		all.Go(func() {
			for range 10 {
				_, err := l.Write(ctx, "Counted one more", func(tx planner.Tx) error {
					ns, err := tx.Notions(ctx)
					if err != nil {
						return err
					}
					ns[0].Quantity++
					return tx.PutNotion(ctx, ns[0])
				})
				if err != nil {
					t.Error(err)
				}
				if _, err := l.Cloths(ctx); err != nil {
					t.Error(err)
				}
			}
		})
	}
	all.Wait()
	ns, err := l.Notions(ctx)
	if err != nil || ns[0].ID != s.notion || ns[0].Quantity != 84 {
		t.Errorf("four rings and eighty more: %+v, %v", ns, err)
	}
}
