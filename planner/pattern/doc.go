// Package pattern answers one question: what does a pattern say? Its sizes, what
// each use asks of its fabric, the outlines of its pattern pieces, its edges to
// finish and the order of work.
//
// It holds records and what can be read off them; it must not know cloth on a
// shelf, layouts, or where a pattern came from. Open pattern.go first, then validate.go.
package pattern
