// Package draft answers one question: what do believable outlines of a simple
// knit garment look like for these measurements?
//
// It drafts whole pattern records (tank, tee, shorts) in graded sizes from a body
// chart, and approximate ones of seven kinds from what a finished garment measures
// (Quick). Drafting works in millimetres on the stitching line, in the frame of a
// pattern piece: x down the garment from its top end, y outwards from the centre;
// allowances are added by moving each edge outwards. It must not know cloth,
// layouts or the person's library. Open tank.go first, then outline.go; for
// approximate outlines quick.go, then quickkind.go.
package draft
