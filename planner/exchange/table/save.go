package table

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"syscall"

	"tallycloth/stash"
	"tallycloth/stash/list"
)

// Save writes tables to a path: a file whose ending says how (see WriteAs), or a folder,
// which gets a CSV file for each. It returns the files written. Nothing that is there is
// replaced, and a file that cannot be written whole is not left behind.
func Save(path string, tables []list.Table, o CSV) ([]string, error) {
	path, err := filepath.Abs(path)
	if err != nil {
		return nil, fmt.Errorf("finding %s: %w", path, err)
	}
	if info, e := os.Stat(path); e == nil && info.IsDir() || filepath.Ext(path) == "" {
		return saveFolder(path, tables, o)
	}
	if err := SaveNew(path, func(w io.Writer) error { return WriteAs(w, filepath.Ext(path), tables, o) }); err != nil {
		return nil, err
	}
	return []string{path}, nil
}

// saveFolder writes a CSV file for each table into a folder, or none of them.
func saveFolder(folder string, tables []list.Table, o CSV) (files []string, err error) {
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return nil, cannotSave(folder, err)
	}
	for _, t := range tables {
		path := filepath.Join(folder, FileName(t)+".csv")
		if err := SaveNew(path, func(w io.Writer) error { return WriteCSV(w, t, o) }); err != nil {
			for _, f := range files {
				err = errors.Join(err, os.Remove(f))
			}
			return nil, err
		}
		files = append(files, path)
	}
	return files, nil
}

// SaveNew writes a file that is not there yet, whole or not at all: what is written gets its name
// once all of it is on the disk, so that nobody finds half a file, not after a power cut either.
func SaveNew(path string, write func(io.Writer) error) error {
	if _, err := os.Lstat(path); err == nil {
		return alreadyThere(path)
	}
	f, err := unfinished(filepath.Dir(path))
	if err != nil {
		return cannotSave(path, err)
	}
	defer os.Remove(f.Name()) // gone already where all went well
	err = write(f)
	if err == nil {
		err = f.Sync()
	}
	if err = errors.Join(err, f.Close()); err == nil {
		err = giveName(f.Name(), path)
	}
	var own *stash.Error
	if err == nil || errors.As(err, &own) {
		return err
	}
	return cannotSave(path, err)
}

// unfinished is a file in a folder that nothing else writes to.
func unfinished(folder string) (f *os.File, err error) {
	for n := range 1000 { // more than ever were left behind by a computer that was switched off
		f, err = os.OpenFile(filepath.Join(folder, fmt.Sprintf(".unfinished-%d", n+1)), os.O_CREATE|os.O_EXCL|os.O_WRONLY, 0o644)
		if !errors.Is(err, fs.ErrExist) {
			break
		}
	}
	return f, err
}

// giveName names a file that is written, but never over another one. A hard link does both at
// once; where the file system has none it is looked for first.
func giveName(written, path string) error {
	err := os.Link(written, path)
	if errors.Is(err, fs.ErrExist) {
		return alreadyThere(path)
	}
	if err == nil || errors.Is(err, syscall.ENAMETOOLONG) {
		return err
	}
	if _, err := os.Lstat(path); err == nil {
		return alreadyThere(path)
	}
	return os.Rename(written, path)
}

func alreadyThere(path string) error {
	return refused("Choose another name, or move that file away", "%s is there already", path)
}

// cannotSave says why a file cannot be written, and what to do.
func cannotSave(path string, err error) error {
	out := &stash.Error{Kind: stash.Conflict, What: path + " cannot be written", Do: "Choose another place, or look at its permissions and room", Err: err}
	switch {
	case errors.Is(err, syscall.ENOSPC), errors.Is(err, syscall.EDQUOT):
		out.What, out.Do = "There is no room left on the disk for "+path, "Make room, or choose a folder on another disk"
	case errors.Is(err, fs.ErrNotExist):
		out.What, out.Do = "There is no folder "+filepath.Dir(path), "Make it first, or choose another folder"
	case errors.Is(err, syscall.EFBIG):
		out.What, out.Do = path+" is too large to be kept there", "Choose a folder on another disk"
	case errors.Is(err, fs.ErrPermission), errors.Is(err, syscall.EROFS):
		out.What, out.Do = "You may not write into "+filepath.Dir(path), "Choose another folder, or look at its permissions"
	case errors.Is(err, syscall.ENAMETOOLONG):
		out.What, out.Do = "The name of the file is too long", "Choose a shorter one"
	}
	return out
}
