// Package svg answers one question: which outlines does a drawing of a general
// vector editor hold, at what full size, and what in it was not understood?
//
// It reads Scalable Vector Graphics (W3C Recommendation, SVG 1.1 second edition of
// 2011, and what of SVG 2 editors write) into a Drawing: closed outlines and open
// lines in whole µm with their names and layers, squares to confirm the size by,
// and a warning for everything that was left out. ToPieces turns a drawn.Drawing into
// pattern pieces. Nothing is dropped or guessed in silence, and every file is read
// within limits.
//
// # The frame
//
// Editors draw with X to the right and Y down the page. Outlines come back in the
// frame of pattern pieces: x = Y down the page, y = X to the right, so that the top
// of the page is the top end of the grain and what is seen stays the face.
//
// It must not know the library, cloth or layouts. Open read.go first, then walk.go.
package svg
