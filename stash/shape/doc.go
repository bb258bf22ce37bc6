// Package shape answers one question: what is an outline, and how do two of
// them lie to each other?
//
// # The frame
//
// There is one frame for cloth, pattern pieces and layouts:
//
//   - x runs lengthwise (along the selvedges) from the trued end;
//   - y runs crosswise from one selvedge to the other;
//   - lengths are whole micrometres, turns thousandths of a degree,
//     counter-clockwise from x to y;
//   - a Ring runs counter-clockwise round an outer boundary and clockwise round
//     a hole; its closing edge is implied, the first point is not repeated;
//   - touching is allowed: two outlines may share points and edges, only their
//     interiors may not meet.
//
// # Exact
//
// Coordinates stay within ±MaxCoordinate (under 2^29 µm, some 536 m), which
// Validate enforces. Differences then stay under 2^30, products under 2^60 and
// a cross product under 2^61, so every yes-or-no answer here is computed in
// integers and is exact. Only figures for people (Perimeter, Distance, Depth,
// OverlapArea) are floating point.
//
// Every function accepts nil, empty and degenerate outlines without panic; what
// it then says is in its comment. Functions whose comment asks for simple rings
// still end, but say nothing useful, on rings that cross themselves.
//
// The package imports nothing of this program and must not know fabrics,
// pattern pieces or layouts. Offsets, unions and no-fit polygons are in
// planner/geometry.
//
// Open shape.go first (the types), then ring.go and relate.go.
package shape
