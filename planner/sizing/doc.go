// Package sizing answers one question: what does a change at one level do to the
// outlines and to the finished girths of a garment?
//
// Changes are pure: an outline in, another out, in the frame of a pattern piece (x
// down the garment, y outwards from the centre, µm). The package must not know cloth,
// layouts or who the garment is for. Open takein.go first.
package sizing
