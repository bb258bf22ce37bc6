// Package binding answers one question: which strips finish this edge, and how
// are they cut?
//
// A Job names an edge by its segments, measured on the stitching line, and how
// it is finished. Work turns it into a Strip: cut width, length, the ratio of
// every part to its edge, marks, and checks in words. Plan cuts strips from
// cloth with the fewest joins, then in the least fabric, then from the earlier
// source.
//
// # Signs
//
// L is the length of a segment on the stitching line, s in from the cut edge. θ is
// how far it turns, in radians, positive where the garment lies outside the curve
// (neckline, armhole), negative on an outside curve (rounded hem). h runs from the
// stitching line to the finished fold, positive for a finish that stands into the
// opening. Corners have no radius: the edge is split there.
//
// The package is pure and imports stash alone. It must not know patterns (the
// planner turns their edges into Jobs), cloth records, or screens.
//
// Open binding.go first (the types), then work.go and plan.go; how plans are found is told in
// search.go.
package binding
