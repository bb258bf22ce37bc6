package binding

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"tallycloth/stash/measure"
)

// BiasPlan is the share of area ÷ width to plan bias with: printed charts give 74–100 %
// of it, 85 % on average (see testdata/binding/bias_yield.csv).
const BiasPlan = 0.85

// BiasYield returns the length of bias strip of a cut width that a rectangle holds at
// most, area ÷ width, and what to plan with, BiasPlan of it. Zero where a side or the width is not more
// than zero. Derived here: a strip of length l and width w has the area l·w, of whatever shape.
func BiasYield(width, length, cutWidth measure.Length) (most, plan measure.Length) {
	if width <= 0 || length <= 0 || cutWidth <= 0 {
		return 0, 0
	}
	l := float64(width) * float64(length) / float64(cutWidth)
	return measure.Length(l), measure.Length(BiasPlan * l)
}

// Continuous is bias cut in one spiral from a rectangle: two of its sides are sewn together,
// shifted by one strip, and the tube is cut round and round.
type Continuous struct {
	Width, Length measure.Length // of the rectangle, seams included; a square where they are alike
	CutWidth      measure.Length
	Seam          measure.Length // of its two seams
}

// Yield returns the length of strip, (width − 2s) × (length − 2s) ÷ cut width. Derived here:
// a square is cut along its diagonal and joined to a parallelogram, which takes 2s of one side; the
// parallelogram is sewn to a tube, which takes 2s of the other. Never more than area ÷ width.
// Zero where nothing is left.
func (c Continuous) Yield() measure.Length {
	w, l := c.Width-2*c.Seam, c.Length-2*c.Seam
	if w <= 0 || l <= 0 || c.CutWidth <= 0 {
		return 0
	}
	return measure.Length(float64(w) * float64(l) / float64(c.CutWidth))
}

// SquareFor returns the side of the square that yields a length of continuous bias:
// √(length × width) + 2s, rounded up to a whole µm. Errors: a length or width that is not more than zero.
func SquareFor(length, cutWidth, seam measure.Length) (measure.Length, error) {
	if length <= 0 || cutWidth <= 0 || seam < 0 {
		return 0, invalid("the bias strip has no length or width", "Type how long and how wide it should be cut.")
	}
	side := measure.Length(math.Ceil(math.Sqrt(float64(length)*float64(cutWidth)))) + 2*seam
	if side > longestEdge {
		return 0, invalid(fmt.Sprintf("a square of %d m a side is no piece of cloth", side/measure.Metre), "Check the length and its unit.")
	}
	return side, nil
}

// OneBias returns the length of a single strip cut at 45° across a rectangle of a depth:
// depth × √2, as long as the rectangle is at least as wide as deep. The reverse is BiasDepth.
func OneBias(depth measure.Length) measure.Length { return rounded(float64(depth) * math.Sqrt2) }

// BiasDepth returns how deep a rectangle must be for one bias strip of a length: length ÷ √2.
func BiasDepth(length measure.Length) measure.Length { return rounded(float64(length) / math.Sqrt2) }

// BiasStrips returns the strips of a cut width that are cut at 45° side by side from a
// rectangle, the longest first, each as a Source for Plan. A strip that ends in a corner counts as long as its
// shorter edge; one of no more than its own width is left out. Derived here: a band of
// strips covers w√2 of the sum of both coordinates u, and the line at u is √2 × min(u,
// width, length, width + length − u) long. Nil where a side or the width is not more than zero.
func BiasStrips(width, length, cutWidth measure.Length) []Source {
	if width <= 0 || length <= 0 || cutWidth <= 0 {
		return nil
	}
	band := math.Sqrt2 * float64(cutWidth)
	total := float64(width) + float64(length)
	chord := func(u float64) float64 {
		return math.Sqrt2 * min(u, float64(width), float64(length), total-u)
	}
	var out []Source
	for u := 0.0; u+band <= total; u += band {
		if l := measure.Length(min(chord(u), chord(u+band))); l > cutWidth {
			out = append(out, Source{Across: l, Along: cutWidth})
		}
	}
	slices.SortStableFunc(out, func(a, b Source) int { return cmp.Compare(b.Across, a.Across) })
	return out
}

// RectangleFor returns how long a rectangle of a width must be to yield a length of
// continuous bias: length × cut width ÷ (width − 2s) + 2s, rounded up to a whole µm. The reverse of
// Continuous.Yield. Errors: a size that is not more than zero, a width that its seams use up.
func RectangleFor(length, width, cutWidth, seam measure.Length) (measure.Length, error) {
	switch {
	case length <= 0 || cutWidth <= 0 || seam < 0:
		return 0, invalid("the bias strip has no length or width", "Type how long and how wide it should be cut.")
	case width <= 2*seam:
		return 0, invalid("the rectangle has no width beside its seams", "Type how wide the cloth is, for instance 50 cm.")
	}
	side := measure.Length(math.Ceil(float64(length)*float64(cutWidth)/float64(width-2*seam))) + 2*seam
	if side > longestEdge {
		return 0, invalid(fmt.Sprintf("a rectangle %d m long is no piece of cloth", side/measure.Metre), "Check the length and its unit.")
	}
	return side, nil
}
