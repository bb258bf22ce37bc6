// Package tracing answers one question: how does a person take an outline from a picture?
//
// The corners of a rectangle of known size are marked in the picture, it is straightened, the outline
// found in it is corrected, an arrow turned. What becomes of the outline, a leftover or a pattern
// piece, is the business of the place that shows the view. It must not know places or the library.
// Open view.go first, then outline.go.
package tracing
