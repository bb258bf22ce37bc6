package drawn

import (
	"errors"

	"tallycloth/planner/pattern"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// ErrNoUnits is wrapped by the error for a drawing that does not say how large it is.
// Ask what one unit measures and read it again with that.
var ErrNoUnits = errors.New("no unit is given")

// Drawing is what a file holds.
type Drawing struct {
	Scale Scale
	// Squares are shapes that may be a test square, to confirm the size by.
	Squares  []Square
	Shapes   []Found // in the order drawn
	Warnings []Warning
	Words    []Word // what is written, outlines named by it already
	// Stated is the pattern that the file itself describes piece by piece, nil for a
	// plain drawing. Shapes and Squares are empty then.
	Stated *pattern.Pattern
	// Pages says how the pages of the file lie; nil where it has none of its own.
	Pages *Pages
}

// Scale says how the drawing's size was found.
type Scale struct {
	Unit          float64        // mm in one unit of the drawing
	Width, Height measure.Length // of the page, zero when the file does not say
	// From says it in words: "its width is 210 mm".
	From string
	// Given is true when the unit came from Options and not from the file.
	Given bool
}

// Found is one outline or line.
type Found struct {
	// Name is its label or title; the one of the named group it lies in, where its
	// ID is one that editors give by themselves; what is written in it; or its ID; ""
	// when it has none.
	Name string
	// Given says that a person named it or its group; Written that Name is what is written in it.
	Given, Written bool

	ID    string   // as in the file
	Group []string // names of the layers and groups it lies in, outermost first
	// Ring is a closed outline: valid and counter-clockwise when Fault is nil, as
	// drawn when not. Nil for an open line.
	Ring  shape.Ring
	Fault error // why the outline cannot be cut, a *shape.Fault, or nil
	// Open is an open line; nil for an outline.
	Open []shape.Point
	Area measure.Area // of a valid outline
	// Length is the way round an outline, or along an open line.
	Length measure.Length
	// Inside is the index of the smallest outline of the same group or path that it
	// lies in, or -1.
	Inside int
	Object int // number of the object of the file that it came from
	// Heads says whether the file ends an open line in an arrow head, at its first and its last point.
	Heads [2]bool
	Line  Line
}

// Usable says whether it is an outline that can be cut.
func (f Found) Usable() bool { return f.Ring != nil && f.Fault == nil }

// Square is a shape that may be a test square.
type Square struct {
	Shape int            // index into Shapes
	Side  measure.Length // as read, the mean of its four sides
	// Likely is the usual test square that it nearly is, 0 when none is near:
	// "this square measures 10 cm: right?".
	Likely measure.Length
}

// Reason says what a warning is about.
type Reason string

// The reasons of warnings.
const (
	OpenPath    Reason = "open path"
	Crossing    Reason = "crosses itself"
	NoOutline   Reason = "no outline" // encloses nothing, too few points, reaches too far
	Hidden      Reason = "hidden"
	Text        Reason = "text"
	Picture     Reason = "picture"
	NotRead     Reason = "not understood" // an object, a path, a transform
	Clipped     Reason = "clipped"
	Reference   Reason = "reference" // to what is not in the file
	Proportions Reason = "proportions"
	Grain       Reason = "grain"
	Unit        Reason = "unit"   // doubtful
	Marks       Reason = "marks"  // notches, drill holes, lines and words on a piece
	Counts      Reason = "counts" // how many are cut, from what, in which sizes
	Double      Reason = "twice"
)

// Warning is something the person should know: what, and what to do.
type Warning struct {
	Reason Reason
	Name   string // of the object, as shown in the editor
	What   string // a plain sentence without its full stop
	Do     string
	// At is the place on the page, X to the right and Y down from its top left
	// corner, in µm; Placed says whether there is one.
	At     shape.Point
	Placed bool
}
