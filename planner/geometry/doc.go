// Package geometry answers one question: where may one outline lie beside
// another, and beside the edge of the cloth?
//
// It holds the polygon algorithms the layout engine stands on: no-fit and
// inner-fit regions by convolution, outward simplification, outward offset, and
// an exact test of overlap. It works on package shape and knows nothing of
// items, fabrics or searching.
//
// Rings are counter-clockwise, in whole µm, with coordinates under 2^28 in size,
// so that every product of two differences fits an int64 exactly. Clean brings a
// ring into the form all functions here expect.
//
// Open convolution.go first, then arrangement.go and nofit.go.
package geometry
