package db

import (
	"errors"
	"io/fs"
	"os"

	"tallycloth/stash"
)

// place is where a library's file lay when it was opened. SQLite goes on with a file that was
// taken away or replaced, and what it saved there would be lost: so it is looked at before
// every act is saved.
type place struct {
	path string
	file os.FileInfo
}

// placeOf looks at the file as it lies now.
func placeOf(path string) (place, error) {
	info, err := os.Stat(path)
	return place{path, info}, err
}

// still says whether the file lies where it lay, as an error that says what to do when not.
func (p place) still() error {
	if p.file == nil {
		return nil
	}
	now, err := os.Stat(p.path)
	switch {
	case err == nil && os.SameFile(p.file, now):
		return nil
	case err == nil:
		return movedAway("Another file was put in place of the library's while it was open; nothing was saved", nil)
	case errors.Is(err, fs.ErrNotExist):
		return movedAway("The library's file was moved or removed while it was open; nothing was saved", err)
	}
	return &stash.Error{Kind: stash.Conflict, What: "The library's folder cannot be reached any more; nothing was saved",
		Do: "Look whether its disk or network folder is still there, then try again", Err: err}
}

func movedAway(what string, cause error) error {
	return &stash.Error{Kind: stash.Conflict, What: what, Err: cause,
		Do: "Write a back-up into another folder now, which saves all that was there, then close the program and put the file back"}
}
