// Package adjust answers one question: what becomes of the pattern pieces of a size when a
// garment is adjusted?
//
// An adjustment is a recorded Step: taken in or let out at a level, longer or shorter at a
// line, another hem, strap point or neckline, a piece parted into panels or mirrored. Steps
// name places as a person does (the waist, 5 cm below the hip), so that the same steps are
// replayed on the outlines of any size, blends included. Apply is pure: a pattern in, one of
// the adjusted size alone out, the same for the same steps. Outlines that would cross
// themselves are refused with what to do.
//
// A take-in of p moves a seam by p measured level: p at both side seams takes 4p of the girth. An
// armhole or a cap that the seam ends at becomes p shorter along its stitching line, however
// it runs up from there: an end that rises is drawn a little lower, by what the slope would take more.
//
// Outlines lie in the frame of package pattern: x down the garment, y outwards from the
// centre, µm. The package must not know cloth, garments or people. Open step.go first, then
// apply.go.
package adjust
