package db

import (
	"context"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
)

// Look says what Open would find in a folder, without changing anything: a library of this
// or an older form (found), or room for a new one. Anything else is an error that says what
// to do.
func Look(ctx context.Context, folder string) (found bool, err error) {
	path := filepath.Join(folder, fileName)
	if _, err := os.Stat(path); err == nil {
		_, err := inspect(ctx, path, readDSN(path))
		return err == nil, err
	}
	entries, err := os.ReadDir(folder)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return false, nil
	case err != nil:
		return false, explainFolder(err)
	}
	return false, onlyOurs(entries)
}
