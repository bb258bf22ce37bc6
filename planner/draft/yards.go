package draft

import (
	"cmp"
	"slices"

	"tallycloth/planner/binding"
	"tallycloth/planner/pattern"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// What the yardage tables of the demo patterns allow for (common practice): clearance
// between pieces, loss at each selvedge and at each raw end, and lengths in eighths of
// a yard as shops sell them.
const (
	clearance    = 3 * measure.Millimetre
	selvedgeLoss = measure.Centimetre
	endLoss      = 2 * measure.Centimetre
	eighth       = measure.Yard / 8
)

// widths are the columns of the tables of the demo patterns.
var widths = []measure.Length{45 * measure.Inch, 60 * measure.Inch}

// Shop is how a shop sells cloth: the widths that are usual there, and lengths by steps.
type Shop struct {
	Widths []measure.Length
	Step   measure.Length
}

// ShopOf is a shop that measures in a system: knits of 45, 54 and 58 to 60 in by eighths of a yard (widths of the
// usual conversion chart), or of 115, 140, 150 and 160 cm by 10 cm (common practice).
func ShopOf(s measure.System) Shop {
	if s == measure.Imperial {
		return Shop{[]measure.Length{45 * measure.Inch, 54 * measure.Inch, 58 * measure.Inch}, eighth}
	}
	const cm = measure.Centimetre
	return Shop{[]measure.Length{115 * cm, 140 * cm, 150 * cm, 160 * cm}, 10 * cm}
}

// yards estimates the yardage table of a pattern for its main fabric, strips included:
// the pieces laid whole, heads one way, each in a box of its own, in rows. A true
// layout needs no more than that, with or without nap, and often much less.
func yards(p pattern.Pattern, s Shop) []pattern.YardageRow {
	return table(p, s.Widths, func(column, size int) measure.Length {
		width, name := s.Widths[column], p.Sizes[size].Name
		return roundUp(inRows(boxes(p, name), width-2*selvedgeLoss)+besides(p, name, width), s.Step)
	})
}

// besides is the length taken by strips and raw ends.
func besides(p pattern.Pattern, size string, width measure.Length) measure.Length {
	return strips(p, size, width) + 2*endLoss
}

// boxes are the bounds of every piece to cut from the main fabric, opened out and
// with clearance.
func boxes(p pattern.Pattern, size string) []shape.Box {
	var out []shape.Box
	for _, q := range p.PiecesOf(pattern.Main, size) {
		b := q.Whole(size).Bounds()
		b.Max = b.Max.Add(shape.Point{X: int64(clearance), Y: int64(clearance)})
		for range q.Cut {
			out = append(out, b)
		}
	}
	return out
}

// inRows is the length of boxes laid in rows across a width, the longest first, each in
// the first row with room.
//
// Source: first fit by decreasing height (E. Coffman, M. Garey, D. Johnson and R. Tarjan, 1980).
func inRows(boxes []shape.Box, width measure.Length) measure.Length {
	slices.SortStableFunc(boxes, func(a, b shape.Box) int { return cmp.Compare(b.Length(), a.Length()) })
	var left []int64
	var sum measure.Length
	for _, b := range boxes {
		row := slices.IndexFunc(left, func(room int64) bool { return b.Width() <= room })
		if row < 0 {
			row, sum = len(left), sum+measure.Length(b.Length())
			left = append(left, int64(width+clearance)) // none is needed beside the last
		}
		left[row] -= b.Width()
	}
	return sum
}

// strips is the length that a pattern's strips take when cut across a width: as many
// as their lengths fill, a seam for every join, at the width of their finish with a
// turn of cloth.
func strips(p pattern.Pattern, size string, width measure.Length) measure.Length {
	var sum measure.Length
	for _, e := range p.Edges {
		f := binding.Finish{Technique: binding.Technique(e.Finish), Width: e.Width, Seam: length(bindingSeam), Turn: 2 * measure.Millimetre}
		cut, err := f.CutWidth()
		if err != nil {
			continue // an edge without a strip
		}
		segments, _ := p.Measure(e, size)
		long := 2 * binding.FreeEndExtra
		for _, s := range segments {
			long += s.Length
		}
		usable := width - 2*selvedgeLoss - 2*f.Seam
		sum += (long*measure.Length(e.Count) + usable - 1) / usable * (cut + measure.Millimetre)
	}
	return sum
}

func roundUp(l, step measure.Length) measure.Length { return (l + step - 1) / step * step }
