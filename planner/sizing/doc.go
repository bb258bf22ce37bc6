// Package sizing answers one question: which size is hers, and what does a change at one
// level do to the outlines and to the finished girths of a garment?
//
// It knows published tables of bodies, people with what was measured of them on which day,
// and proposes a size with its grounds (Choose). Changes are pure: an outline in, another
// out, in the frame of a pattern piece (x down the garment, y outwards from the centre, µm).
// The package must not know cloth, layouts or wording. Open choose.go first, then takein.go.
package sizing
