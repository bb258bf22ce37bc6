package db

import (
	"errors"
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
	switch e.Code {
	case sqlite3.ErrCorrupt, sqlite3.ErrNotADB:
		return damaged(err)
	case sqlite3.ErrFull:
		return &stash.Error{Kind: stash.Conflict, What: "The disk is full, nothing was saved", Do: "Make room and try again", Err: err}
	case sqlite3.ErrReadonly, sqlite3.ErrCantOpen, sqlite3.ErrPerm:
		return &stash.Error{Kind: stash.Conflict, What: "The library cannot be written", Do: "Check the permissions of its folder, or open it read-only", Err: err}
	case sqlite3.ErrBusy, sqlite3.ErrLocked:
		return &stash.Error{Kind: stash.Conflict, What: "Another program is writing to the library", Do: "Try again in a moment", Err: err}
	}
	return err
}

// damaged is the error for a library file that SQLite cannot make sense of.
func damaged(cause error) error {
	return &stash.Error{
		Kind: stash.Unsupported, What: "The library is damaged; nothing in it was changed",
		Do: "Copy its folder to a safe place, then put the newest back-up in place of library.db", Err: cause,
	}
}
