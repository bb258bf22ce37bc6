package db_test

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"tallycloth/db"
	"tallycloth/planner"
	"tallycloth/stash"
	"tallycloth/stash/stashtest"
)

// photographed is a library with a photo of its fabric.
func photographed(t *testing.T) (*db.Library, sample, stash.Photo, stash.Picture) {
	t.Helper()
	l, ids := open(t)
	s := fill(t, l, ids)
	pic := stashtest.SamplePicture(1)
	p := stashtest.SamplePhoto(ids(), s.fabric, pic)
	_, err := l.Write(t.Context(), "Added a photo", func(tx planner.Tx) error {
		if err := tx.PutPicture(t.Context(), pic); err != nil {
			return err
		}
		return tx.PutPhoto(t.Context(), p)
	})
	if err != nil {
		t.Fatal(err)
	}
	return l, s, p, pic
}

// TestPhotosAreKept tries through plain SQL what the database must refuse of photos.
func TestPhotosAreKept(t *testing.T) {
	l, _, _, _ := photographed(t)
	d := raw(t, l.Folder())
	for _, c := range []struct{ sql, says string }{
		{`DELETE FROM photo`, "never deleted"},
		{`DELETE FROM picture`, "never deleted"},
		{`UPDATE picture SET full = x'00'`, "never edited"},
		{`INSERT OR REPLACE INTO picture SELECT * FROM picture`, "never deleted"},
		{`UPDATE photo SET digest = 'x'`, "FOREIGN KEY"},
		{`UPDATE photo SET fabric_id = NULL`, "CHECK"},
		{`UPDATE photo SET cloth_id = (SELECT id FROM cloth LIMIT 1)`, "CHECK"},
		{`UPDATE photo SET fabric_id = randomblob(16)`, "FOREIGN KEY"},
	} {
		if _, err := d.Exec(c.sql); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v", c.sql, err)
		}
	}
}

// TestBackupTakesPictures: a back-up put into another folder has the pictures.
func TestBackupTakesPictures(t *testing.T) {
	l, s, p, pic := photographed(t)
	folder := t.TempDir()
	if err := l.Backup(t.Context(), filepath.Join(folder, "library.db")); err != nil {
		t.Fatal(err)
	}
	back, err := db.Open(t.Context(), folder, db.Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer func() {
		if err := back.Close(); err != nil {
			t.Error(err)
		}
	}()
	photos, err := back.Photos(t.Context(), s.fabric)
	if err != nil || len(photos) != 1 || photos[0] != p {
		t.Fatalf("%+v, %v", photos, err)
	}
	if full, err := back.Picture(t.Context(), p.Digest, true); err != nil || !bytes.Equal(full, pic.Full) {
		t.Errorf("%q, %v", full, err)
	}
}

// TestListsLoadNoPictures takes the pictures out of a copy: every list still reads.
func TestListsLoadNoPictures(t *testing.T) {
	l, s, _, _ := photographed(t)
	want := everything(t, l)
	folder := t.TempDir()
	if err := l.Backup(t.Context(), filepath.Join(folder, "library.db")); err != nil {
		t.Fatal(err)
	}
	d := raw(t, folder)
	if _, err := d.Exec(`PRAGMA foreign_keys = OFF; ALTER TABLE picture RENAME TO elsewhere`); err != nil {
		t.Fatal(err)
	}
	if err := d.Close(); err != nil {
		t.Fatal(err)
	}
	bare, err := db.Open(t.Context(), folder, db.Options{ReadOnly: true})
	if err != nil {
		t.Fatal(err)
	}
	defer func() {
		if err := bare.Close(); err != nil {
			t.Error(err)
		}
	}()
	if everything(t, bare) != want {
		t.Error("the lists changed")
	}
	if photos, err := bare.Photos(t.Context(), s.fabric); err != nil || len(photos) != 1 {
		t.Errorf("%v, %v", photos, err)
	}
	if _, err := bare.Picture(t.Context(), strings.Repeat("0", 64), true); err == nil {
		t.Error("pictures were not taken out")
	}
}

// TestOldPhotoFolderIsNoHindrance: earlier versions made an empty folder for photos.
func TestOldPhotoFolderIsNoHindrance(t *testing.T) {
	folder := t.TempDir()
	if err := os.Mkdir(filepath.Join(folder, "photos"), 0o755); err != nil {
		t.Fatal(err)
	}
	l, err := db.Open(t.Context(), folder, db.Options{})
	if err != nil {
		t.Fatal(err)
	}
	if err := l.Close(); err != nil {
		t.Error(err)
	}
}
