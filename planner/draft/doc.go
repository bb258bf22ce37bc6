// Package draft answers one question: what do believable outlines of a simple
// knit garment look like for these body measurements?
//
// It drafts whole pattern records (tank, tee, shorts) in graded sizes from a body
// chart. Drafting works in millimetres on the stitching line, in the frame of a
// pattern piece: x down the garment from its top end, y outwards from the centre;
// allowances are added by moving each edge outwards. It must not know cloth,
// layouts or the person's library. Open tank.go first, then outline.go.
package draft
