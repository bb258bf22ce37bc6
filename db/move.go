package db

import (
	"context"
	"database/sql"
	"errors"
	"io/fs"
	"os"
	"path/filepath"

	"tallycloth/stash"
)

// Move takes the closed library in a folder, with its back-ups, to another folder, which
// must be empty or not be there. The copy is looked through whole before anything is removed
// from where the library was; files of others stay there.
func Move(ctx context.Context, from, to string) (err error) {
	if to, err = NewHome(from, to); err != nil {
		return err
	}
	lock, err := takeLock(filepath.Join(from, lockName))
	if err != nil {
		return explainFolder(err)
	}
	defer func() { err = errors.Join(err, lock.release()) }()
	if err := os.MkdirAll(filepath.Join(to, backups), 0o755); err != nil {
		return explainFolder(err)
	}
	moved, err := copyLibrary(ctx, from, to)
	if err != nil {
		for _, path := range append(moved, filepath.Join(to, fileName)) {
			err = errors.Join(err, removeIfThere(path))
		}
		return errors.Join(err, removeIfThere(filepath.Join(to, backups)), removeIfThere(to))
	}
	return leave(from)
}

// NewHome is the folder to move to, where it may be one.
func NewHome(from, to string) (string, error) {
	to, err := filepath.Abs(to)
	if err != nil {
		return "", err
	}
	from, err = filepath.Abs(from)
	if err != nil {
		return "", err
	}
	if rel, err := filepath.Rel(from, to); err == nil && filepath.IsLocal(rel) {
		return "", &stash.Error{Kind: stash.Invalid, What: "The library cannot be moved into its own folder", Do: "Choose a folder elsewhere"}
	}
	entries, err := os.ReadDir(to)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return "", explainFolder(err)
	}
	if len(entries) > 0 {
		return "", &stash.Error{Kind: stash.Conflict, What: "The folder is not empty", Do: "Choose an empty folder, or name a new one"}
	}
	return to, nil
}

// copyLibrary copies the library and its back-ups, and says which files it wrote.
func copyLibrary(ctx context.Context, from, to string) (moved []string, err error) {
	old, err := BackupsIn(from)
	if err != nil {
		return nil, err
	}
	for _, b := range old {
		path := filepath.Join(to, backups, filepath.Base(b.Path))
		moved = append(moved, path)
		if err := errors.Join(ctx.Err(), explainCopy(copyFile(b.Path, path))); err != nil {
			return moved, err
		}
	}
	d, err := sql.Open("sqlite3", writeDSN(filepath.Join(from, fileName)))
	if err != nil {
		return moved, err
	}
	d.SetMaxOpenConns(1)
	return moved, errors.Join(backup(ctx, d, filepath.Join(to, fileName)), d.Close())
}

func explainCopy(err error) error {
	if err == nil {
		return nil
	}
	return explainTarget(err)
}

// leave removes what is the library's from the folder that it moved out of.
func leave(from string) error {
	old, err := BackupsIn(from)
	if err != nil {
		return err
	}
	for _, b := range old {
		err = errors.Join(err, removeIfThere(b.Path))
	}
	for _, end := range []string{"", "-wal", "-shm"} {
		err = errors.Join(err, removeIfThere(filepath.Join(from, fileName+end)))
	}
	return err
}
