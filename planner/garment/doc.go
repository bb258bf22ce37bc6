// Package garment answers one question: where is a garment in its life, and what
// comes next? And what follows from what is noted of it: which steps of the order of work
// are done, how much thread its seams take, which fibres are in it, which cautions apply?
//
// A garment goes from wanted by reserved, cut, sewing and fitted to finished, or is
// given up on the way. What happens to cloth at each step is decided elsewhere.
//
// The package must not know stores, layouts nor wording for the screen.
//
// Open garment.go first, then state.go and record.go.
package garment
