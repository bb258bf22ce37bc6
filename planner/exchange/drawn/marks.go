package drawn

import (
	"tallycloth/planner/pattern"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// MarkKind is what something drawn on a pattern piece is taken for.
type MarkKind string

// The kinds of marks.
const (
	GrainMark MarkKind = "grain line"
	NotchMark MarkKind = "notch"
	DotMark   MarkKind = "dot"
	FoldMark  MarkKind = "fold"
)

// MarkName names a mark of a piece in every size it has: the third notch of piece A.
type MarkName struct {
	Piece  string // code
	Kind   MarkKind
	Number int // from 1: notches and dots clockwise from the top as drawn, grain lines the likeliest first
}

// Mark is something drawn on a pattern piece that is taken for more than a line, or that could be.
type Mark struct {
	MarkName
	Size string
	// Why says in words what it was known by.
	Why string
	// On says whether it is taken for that; one that is not is kept as it was drawn.
	On bool
	// At is its place in the frame of the piece that was made; for a grain line its middle.
	At shape.Point
	// Length is that of a grain line.
	Length measure.Length
	Double bool // a double notch
	// Side is where the edge of a piece drawn as a half lies that is on the fold, grain upright.
	Side pattern.Side
}

// Way says which way the grain of a piece runs.
type Way string

// The ways.
const (
	AsDrawn Way = ""       // along the line found, or Line
	UpPage  Way = "up"     // up the page, whatever lines there are
	AcrossP Way = "across" // from right to left over the page, the top end left
)

// GrainWish is what a person said about the grain of a piece.
type GrainWish struct {
	Way  Way
	Line int  // the number of its grain line; 0 the likeliest
	Turn bool // the other end is the top
}

// What tells marks from lines, in µm; see the doc comment of the package. What is not said to come
// from elsewhere is common practice, or follows from it.
const (
	onEdge     = 700    // off the cutting line and still on it
	clearEdge  = 2_000  // off the cutting line and clear of it
	markLeast  = 1_500  // a mark is at least so large
	notchMost  = 15_000 // and a notch at most
	dotMost    = 12_000
	nickMost   = 12_000 // a notch drawn into the outline is at most so wide
	pairNear   = 8_000  // two closer notches are one double one
	headMost   = 25_000 // an arrow head is at most so large
	grainLeast = 30_000 // a grain line is at least so long, and 5 cm without a head
	plainLeast = 50_000
	thinMost   = 15_000 // a closed outline no wider may be an arrow
)
