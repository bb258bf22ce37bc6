// Package garment answers one question: where is a garment in its life, and what
// comes next?
//
// A garment goes from wanted by reserved, cut, sewing and fitted to finished, or is
// given up on the way. What happens to cloth at each step is decided elsewhere.
//
// The package must not know stores, cloth nor layouts.
//
// Open garment.go first, then state.go.
package garment
