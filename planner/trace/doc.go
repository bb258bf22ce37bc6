// Package trace answers one question: what outline lies in this picture?
//
// A person photographs a leftover on a mat or a table, beside something of known
// size: a sheet of paper, or lines that are printed on the mat. She marks the four
// corners of that rectangle. The picture is straightened as if seen from right above
// (homography.go, straighten.go), cloth is told from its background (background.go,
// cloth.go) and its boundary becomes an outline in whole micrometres (outline.go).
//
// What was found comes with doubts in words (doubt.go). An answer with doubts is a
// proposal to correct or to draw anew; one without is still shown before it is used.
//
// # Frames
//
// Dot is a place in the picture: pixels from its top left corner, x to the right, y
// down; the middle of the first pixel is (0.5, 0.5). The plane is what lies on the
// table, in micrometres: the marked rectangle spans (0, 0) to (Along, Across), its
// first corner is at the top left, so y points up, as in package shape.
//
// The package must not know files, photos that are kept, fabrics, windows or clocks.
// Equal pictures and marks give equal answers.
//
// Open trace.go first (what is asked and answered), then homography.go and cloth.go.
package trace
