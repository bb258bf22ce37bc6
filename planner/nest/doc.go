// Package nest answers one question: how do these outlines lie on this cloth?
//
// An Instance names the fabrics (a strip, a rectangle or a free outline with holes,
// obstacles and folded bands), the items with the ways they may be laid, and what is
// asked: the least length, whether everything fits, or the most valuable subset.
// Solve answers it: bounds first, then a bottom-left fill over several orders, then
// a search by overlap minimisation within the budget given; at last what is left of
// the fabric is made one piece. Nothing leaves Solve that
// did not pass Check, which shares no code with the search and is exact.
//
// The package must not know fabrics, patterns, garments or the window, and takes
// clock and seed from outside, so that the same seed and steps with one worker give
// the same answer everywhere.
//
// Open nest.go first (the question), then solve.go, fill.go (the first answer),
// shrink.go and separate.go (the search), and check.go. Proofs start in bounds.go, with
// rooms.go, pair.go and floor.go; remainder.go draws together.
package nest
