package drawn

import "tallycloth/stash/shape"

// Plan says how the pages of a file lie beside each other.
type Plan struct {
	// Rows are numbers of pages, row by row from the top, 0 for an empty place. Nil puts
	// every page by itself, one below the other.
	Rows [][]int
	// Left, Top, Right and Low are cut off the edges of every page, in mm.
	Left, Top, Right, Low float64
	// Shared is how far neighbours lie over each other once their edges are cut off, in mm.
	Shared float64
}

// Pages is what is known of the pages of a file.
type Pages struct {
	Plan  Plan // by which they were laid
	Count int  // in the file
	// Sheets are the pages laid.
	Sheets []Sheet
	// Scans are pages that are pictures: trace them.
	Scans []int
	// Told says how the plan was found: "joined by their frames and marks".
	Told string
}

// Sheet is a page in its place, in the frame of pattern pieces.
type Sheet struct {
	Number   int
	Min, Max shape.Point
}

// Line says how a line is drawn in its file.
type Line struct {
	Colour string // "#rrggbb", "" where the file does not say
	Dash   string // lengths in mm: "3-1.5"; "" for a line drawn through
	Filled bool   // an area without an outline of its own
}

// AtPage is the box of a part of the page in mm, in the frame of pattern pieces.
func AtPage(left, top, right, low float64) (lo, hi shape.Point) {
	return shape.Point{X: Micro(top), Y: Micro(left)}, shape.Point{X: Micro(low), Y: Micro(right)}
}
