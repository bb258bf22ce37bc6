package binding

import (
	"fmt"

	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// Technique is a way to finish an edge with a strip.
type Technique string

// The techniques, by the trade's words. Their cut widths are in Finish.CutWidth.
const (
	WrappedTurned Technique = "wrapped, both edges turned"
	WrappedFlat   Technique = "wrapped, inner edge flat"
	DoubleWrap    Technique = "double-layer wrap"
	FoldedBand    Technique = "folded band"
	FoldedFacing  Technique = "folded facing turned in"
	Prefinished   Technique = "prefinished band"
	// FoldOver is bought by its width, folded over the edge; nothing is cut from cloth.
	FoldOver Technique = "fold-over elastic"
)

// Techniques lists the techniques known by themselves, in the order to offer them.
func Techniques() []Technique {
	return []Technique{WrappedTurned, WrappedFlat, FoldedBand, DoubleWrap, FoldedFacing, Prefinished, FoldOver}
}

// Bought says that the strip is bought by its width and not cut from cloth.
func (t Technique) Bought() bool { return t == FoldOver }

// Allowances for the flat inner edge of WrappedFlat: x to be caught by the second row,
// or under a coverstitch (`common practice`).
const (
	CaughtPlain = measure.Inch / 4
	CaughtCover = measure.Inch / 8
)

// recipes are the techniques as layers. Sources: four widths for a strip that wraps
// with both edges turned (f = s, c = 0), 2f + 2s for a rib band and f + s for a
// prefinished one are printed in the sewing handbook chapter "Ribbed Edges" and in bias
// binding guides; the general forms are derived here by counting layers in the section.
var recipes = map[Technique]Recipe{
	WrappedTurned: {Widths: 2, Seams: 2, Turns: 1, Lies: Wraps},
	WrappedFlat:   {Widths: 2, Seams: 1, Caughts: 1, Lies: Wraps},
	DoubleWrap:    {Widths: 4, Seams: 2, Turns: 1, Lies: Wraps},
	FoldedBand:    {Widths: 2, Seams: 2, Lies: Stands},
	FoldedFacing:  {Widths: 2, Seams: 2, Lies: TurnsIn},
	Prefinished:   {Widths: 1, Seams: 1, Lies: Stands},
	FoldOver:      {Widths: 2, Lies: Wraps},
}

// Recipe returns the layers of the finish; ok is false for an unknown technique.
func (f Finish) Recipe() (r Recipe, ok bool) {
	if r, ok = recipes[f.Technique]; ok {
		return r, true
	}
	return f.Own, f.Own.Widths > 0
}

// CutWidth returns the width to cut a strip that is not stretched while it is sewn:
//
//	wrapped, both edges turned   2f + 2s + c
//	wrapped, inner edge flat     s + 2f + x
//	double-layer wrap            4f + 2s + c
//	folded band                  2(f + s)
//	folded facing turned in      2(f + s), f its depth
//	prefinished band             f + s
//	fold-over elastic            2f, bought
//
// Errors: an unknown technique, a width or seam that is not more than zero.
func (f Finish) CutWidth() (measure.Length, error) {
	r, ok := f.Recipe()
	if !ok {
		return 0, invalid(fmt.Sprintf("%q is no technique for a strip", f.Technique), "Choose one from the list, or add your own with its layers.")
	}
	if f.Width <= 0 {
		return 0, invalid("the finished width is missing", "Type how wide the finished edge is, for instance 1 cm or 3/8 in.")
	}
	if f.Seam <= 0 && r.Seams > 0 {
		return 0, invalid("the seam of the strip is missing", "Type the distance from the edge to the stitching, for instance 1 cm or 3/8 in.")
	}
	if f.Turn < 0 || f.Caught < 0 || f.SecondRow < 0 {
		return 0, invalid("a negative width makes no strip", "Type zero or more for turn-of-cloth, the caught edge and the second row.")
	}
	return r.Width(f), nil
}

// Reach returns h: from the stitching line to the finished fold, positive into
// the opening, negative for a strip turned in.
func (f Finish) Reach() measure.Length {
	if r, _ := f.Recipe(); r.Lies == TurnsIn {
		return -f.Width
	}
	return f.Width
}

// Lengthens returns what the finish adds to an edge that crosses it, at that end:
// f for a band that stands above the edge; f − s for one that wraps it, which is
// nothing where f = s; nothing for one turned in. Derived here: it is how far the
// finished edge lies beyond the line the crossing edge was measured to, the stitching
// line for a band and the cut edge for a wrap. Negative where f < s.
func (f Finish) Lengthens() measure.Length {
	switch r, _ := f.Recipe(); r.Lies {
	case Stands:
		return f.Width
	case Wraps:
		return f.Width - f.Seam
	}
	return 0
}

// Hem returns what a hem turned up needs below its fold: its depth for a single turn
// (1 in takes 1 in), depth and the turned-in edge for a double one. `common practice`.
func Hem(depth, turnedIn measure.Length) measure.Length { return depth + turnedIn }

// OnStitchingLine returns the length of an edge on its stitching line, seam in from
// the cut edge, where the edge turns by θ: L_cut + θs. Derived here: an arc of radius
// R has the length θR, its neighbour at R + s the length θ(R + s); a sum of arcs and
// straight stretches likewise.
func OnStitchingLine(cutEdge measure.Length, turning float64, seam measure.Length) measure.Length {
	return cutEdge + rounded(turning*float64(seam))
}

func invalid(what, do string) error {
	return &stash.Error{Kind: stash.Invalid, What: what, Do: do}
}
