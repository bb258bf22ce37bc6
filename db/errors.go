package db

import (
	"errors"
	"slices"
	"strings"

	"tallycloth/stash"

	"github.com/mattn/go-sqlite3"
)

// explain turns an error of SQLite into one that says what to do. Errors of the
// domain and nil pass as they are.
func explain(err error) error {
	var own *stash.Error
	var e sqlite3.Error
	if errors.As(err, &own) || !errors.As(err, &e) {
		return err
	}
	switch e.ExtendedCode {
	case sqlite3.ErrConstraintTrigger:
		return &stash.Error{Kind: stash.Conflict, What: strings.TrimSuffix(e.Error(), ".")}
	case sqlite3.ErrConstraintUnique, sqlite3.ErrConstraintPrimaryKey:
		if strings.Contains(e.Error(), "cloth.code") {
			return &stash.Error{Kind: stash.Conflict, What: "Another cloth has this code", Do: "Choose another code for its label"}
		}
		return &stash.Error{Kind: stash.Conflict, What: "The library has this record already", Err: err}
	case sqlite3.ErrConstraintForeignKey:
		return &stash.Error{Kind: stash.Conflict, What: "A record names another that is not in the library", Do: "Add that one first", Err: err}
	case sqlite3.ErrConstraintCheck, sqlite3.ErrConstraintNotNull:
		return &stash.Error{Kind: stash.Invalid, What: "The library does not accept one of the values", Do: "Look at what was entered", Err: err}
	}
	return explainFile(err, e)
}

// explainFile is explain for trouble with the file rather than with what is in it.
func explainFile(err error, e sqlite3.Error) error {
	if e.ExtendedCode == sqlite3.ErrReadonlyDbMoved {
		return movedAway("The library's file was moved or removed while it was open; nothing was saved", err)
	}
	if e.ExtendedCode == sqlite3.ErrIoErrNoMem {
		e.Code = sqlite3.ErrNomem
	}
	for _, t := range fileTroubles {
		if slices.Contains(t.codes, e.Code) {
			return &stash.Error{Kind: t.kind, What: t.what, Do: t.do, Err: err}
		}
	}
	return err
}

// fileTroubles is what to say of trouble with the file.
var fileTroubles = []struct {
	codes    []sqlite3.ErrNo
	kind     stash.Kind
	what, do string
}{
	{[]sqlite3.ErrNo{sqlite3.ErrCorrupt, sqlite3.ErrNotADB, sqlite3.ErrFormat}, stash.Unsupported, isDamaged, goBack},
	{[]sqlite3.ErrNo{sqlite3.ErrFull}, stash.Conflict, "The disk is full, nothing was saved", "Make room and try again"},
	{[]sqlite3.ErrNo{sqlite3.ErrReadonly, sqlite3.ErrPerm, sqlite3.ErrAuth}, stash.Conflict, "The library cannot be written, nothing was saved",
		"Check the permissions of its folder and that its disk is not write-protected, or open it read-only"},
	{[]sqlite3.ErrNo{sqlite3.ErrCantOpen}, stash.Conflict, "A file of the library cannot be opened, nothing was saved",
		"Look whether its folder is still there and may be written, then try again"},
	{[]sqlite3.ErrNo{sqlite3.ErrIoErr}, stash.Conflict, "The disk does not read or write as it should, nothing was saved",
		"Look whether the disk or network folder is still there and has room, and write a back-up to another disk; then try again"},
	{[]sqlite3.ErrNo{sqlite3.ErrNomem}, stash.Conflict, "The computer's memory does not suffice, nothing was saved", "Close other programs and try again"},
	{[]sqlite3.ErrNo{sqlite3.ErrTooBig}, stash.Invalid, "Something is too large for the library, nothing was saved", "Bring it in in smaller parts"},
	{[]sqlite3.ErrNo{sqlite3.ErrBusy, sqlite3.ErrLocked, sqlite3.ErrProtocol}, stash.Conflict, "Another program is writing to the library", "Try again in a moment"},
	{[]sqlite3.ErrNo{sqlite3.ErrNoLFS}, stash.Unsupported, "The library is too large for the disk it is on", "Copy its folder to another disk and open it there"},
}

const (
	isDamaged = "The library is damaged; nothing in it was changed"
	goBack    = "Copy its folder to a safe place, then put the newest back-up in place of library.db"
)

// damaged is the error for a library file that SQLite cannot make sense of.
func damaged(cause error) error {
	return &stash.Error{
		Kind: stash.Unsupported, What: isDamaged, Do: goBack, Err: cause,
	}
}
