package stash

import "errors"

// Kind says what sort of trouble an Error is.
type Kind int

// The kinds of trouble.
const (
	Invalid     Kind = iota // what was given cannot be
	NotFound                // no such record
	Conflict                // it contradicts what is there (overlap, changed since)
	Unsupported             // a file or library this program does not read
)

// Error is trouble that a person can do something about.
type Error struct {
	Kind Kind
	What string // what is wrong, a plain sentence without its full stop
	Do   string // what to do about it, a plain sentence
	Err  error  // the cause, or nil
}

// Error gives both sentences.
func (e *Error) Error() string {
	s := e.What
	if e.Do != "" {
		s += ". " + e.Do
	}
	if e.Err != nil {
		s += ": " + e.Err.Error()
	}
	return s
}

// Unwrap returns the cause.
func (e *Error) Unwrap() error { return e.Err }

// Is makes errors.Is(err, ErrNotFound) and its like look at the kind alone.
func (e *Error) Is(target error) bool {
	t, ok := target.(*Error)
	return ok && t.What == "" && t.Kind == e.Kind
}

// Kinds to compare with errors.Is.
var (
	ErrInvalid     = &Error{Kind: Invalid}
	ErrNotFound    = &Error{Kind: NotFound}
	ErrConflict    = &Error{Kind: Conflict}
	ErrUnsupported = &Error{Kind: Unsupported}
	// ErrNothing is returned by Undo and Redo when there is nothing to do.
	ErrNothing = errors.New("nothing to undo")
)
