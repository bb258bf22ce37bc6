// Package sizing answers one question: which size is hers?
//
// It knows published tables of bodies, people with what was measured of them on which day
// and the adjustments kept for them, proposes a size with its grounds (Choose), blends
// the outlines of sizes by level (Blend) and carries a change of the outline of one size
// over to the others (Alike).
// The package must not know cloth, layouts or wording. Open choose.go first, then blend.go.
package sizing
