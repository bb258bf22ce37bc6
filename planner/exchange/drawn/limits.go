package drawn

import (
	"fmt"

	"tallycloth/stash"
)

// Limits keep a file from taking the program's time and memory.
type Limits struct {
	Bytes    int64 // of the file, unpacked
	Elements int   // read, and drawn again through references
	Depth    int   // of elements inside each other
	Points   int   // of all outlines, curves flattened
	// Outline is the most points one outline may have; a larger one is left out
	// with a warning, because telling whether it crosses itself could take minutes.
	Outline int
}

// Or fills limits left at zero from others.
func (l Limits) Or(d Limits) Limits {
	if l.Bytes <= 0 {
		l.Bytes = d.Bytes
	}
	if l.Elements <= 0 {
		l.Elements = d.Elements
	}
	if l.Depth <= 0 {
		l.Depth = d.Depth
	}
	if l.Points <= 0 {
		l.Points = d.Points
	}
	if l.Outline <= 0 {
		l.Outline = d.Outline
	}
	return l
}

// TooLarge is the error for a file past this limit.
func (l Limits) TooLarge() error {
	return Unsupported(fmt.Sprintf("the drawing is larger than %d MB", l.Bytes>>20),
		"Take photos and other pictures out of it, or save the pattern pieces in several files.")
}

// TooManyElements is the error for a file past this limit.
func (l Limits) TooManyElements() error {
	return Unsupported(fmt.Sprintf("the drawing has more than %d objects", l.Elements),
		"Save only the pattern pieces, without pictures, hatching and effects.")
}

// TooDeep is the error for a file past this limit.
func (l Limits) TooDeep() error {
	return Unsupported(fmt.Sprintf("groups lie inside each other more than %d deep", l.Depth),
		"Ungroup the objects in the editor and save again.")
}

// TooManyPoints is the error for a file past this limit.
func (l Limits) TooManyPoints() error {
	return Unsupported(fmt.Sprintf("the outlines have more than %d points", l.Points),
		"Simplify the paths in the editor, or save the pattern pieces in several files.")
}

// Unsupported is the error for a file that cannot be read.
func Unsupported(what, do string) error {
	return &stash.Error{Kind: stash.Unsupported, What: what, Do: do}
}
