// Package drawn answers one question: which outlines and lines does a drawing hold,
// whatever kind of file it came in, and which pattern pieces do they make?
//
// The readers of files (svg, dxf) put points into a Collector, in mm on a page whose x
// runs to the right and y down from the top left corner. What comes out is a Drawing:
// closed outlines and open lines in whole µm with their names and layers, squares to
// confirm the size by, and a warning for everything that was left out. Pattern turns
// a Drawing into a pattern. Nothing is dropped or guessed in silence, and every file is
// read within Limits.
//
// # The frame
//
// Outlines come back in the frame of pattern pieces: x = y down the page, y = x to the
// right, so that the top of the page is the top end of the grain and what is seen
// stays the face.
//
// It must not know any kind of file, the library, cloth or layouts. Open drawing.go
// first, then collect.go and pieces.go.
package drawn
