package db

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"syscall"

	"tallycloth/stash"

	"github.com/mattn/go-sqlite3"
)

// Backup writes a whole copy of the library as a new file at path, consistent as of
// one moment, photos and all, and opens it to see that it is sound before it gets its name. A
// file that is there already is refused.
func (l *Library) Backup(ctx context.Context, path string) error {
	from := l.pool
	if l.writer != nil && l.place.still() != nil {
		// What was saved is in the file that the writer still holds, and nowhere else.
		l.writing.Lock()
		defer l.writing.Unlock()
		from = l.writer
	}
	if err := backup(ctx, from, path); err != nil {
		return fmt.Errorf("backing up to %s: %w", path, err)
	}
	return nil
}

// backup copies d into a file beside path, verifies it, and names it path.
func backup(ctx context.Context, d *sql.DB, path string) error {
	path, err := filepath.Abs(path)
	if err != nil {
		return err
	}
	if _, err := os.Lstat(path); !errors.Is(err, fs.ErrNotExist) {
		return &stash.Error{Kind: stash.Conflict, What: "There is a file of that name already", Do: "Choose another name for the back-up"}
	}
	part := path + ".part"
	if err := os.Remove(part); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return explainTarget(err)
	}
	if err := copyTo(ctx, d, part); err != nil {
		return errors.Join(err, removeIfThere(part))
	}
	if err := os.Rename(part, path); err != nil {
		return errors.Join(explainTarget(err), removeIfThere(part))
	}
	return syncFolder(filepath.Dir(path))
}

// copyTo copies d into a new file, syncs and verifies it.
func copyTo(ctx context.Context, d *sql.DB, part string) error {
	if _, err := d.ExecContext(ctx, `VACUUM INTO ?`, part); err != nil {
		return explainTarget(err)
	}
	f, err := os.OpenFile(part, os.O_RDWR, 0)
	if err != nil {
		return explainTarget(err)
	}
	if err := errors.Join(f.Sync(), f.Close()); err != nil {
		return explainTarget(err)
	}
	return verify(ctx, part)
}

// verify opens a copy and has SQLite check all of it.
func verify(ctx context.Context, path string) (err error) {
	dsn := readDSN(path) + "&immutable=1"
	if _, err := inspect(ctx, path, dsn); err != nil {
		return fmt.Errorf("checking the copy: %w", err)
	}
	d, err := sql.Open("sqlite3", dsn)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, d.Close()) }()
	return soundness(ctx, d, "integrity_check")
}

// explainTarget says what to do when the copy cannot be written. What was stopped passes as it is.
func explainTarget(err error) error {
	var e sqlite3.Error
	switch {
	case errors.Is(err, context.Canceled):
		return err
	case errors.As(err, &e) && (e.Code == sqlite3.ErrCorrupt || e.Code == sqlite3.ErrNotADB):
		return damaged(err)
	case errors.Is(err, syscall.ENOSPC), errors.As(err, &e) && e.Code == sqlite3.ErrFull:
		return &stash.Error{Kind: stash.Conflict, What: "The disk is full, so that no back-up was made; the library is as it was", Do: "Make room on the disk, then try again", Err: err}
	}
	return &stash.Error{Kind: stash.Conflict, What: "The back-up cannot be written there", Do: "Choose a folder you may write to, with room for the library", Err: err}
}

func removeIfThere(path string) error {
	if err := os.Remove(path); !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	return nil
}
