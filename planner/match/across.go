package match

import (
	"cmp"
	"slices"

	"tallycloth/stash/measure"
)

// across says what a layout takes of the width of the open cloth, from one usable edge up:
// the least width in which what is laid would lie just so, were the lanes that are free along
// all of it closed to the clearance, and the widest of those lanes.
func (q *Question) across(u usable, pieces []PlacedPiece) (need, lane measure.Length) {
	low := u.box.Min.Y
	taken := make([]stretchOf, 0, len(pieces)+1)
	for _, p := range pieces {
		b := p.Outline.Bounds()
		taken = append(taken, stretchOf{b.Min.Y - low, b.Max.Y - low})
	}
	slices.SortFunc(taken, func(a, b stretchOf) int { return cmp.Compare(a.from, b.from) })
	at, needed, widest := int64(0), int64(0), int64(0)
	for _, t := range append(taken, stretchOf{u.width, u.width}) {
		if gap := t.from - at; gap > 0 {
			widest = max(widest, gap)
			if at > 0 && t.from < u.width {
				needed += min(gap, int64(q.ask.Clearance))
			}
		}
		needed += max(min(t.to, u.width)-max(at, t.from), 0)
		at = max(at, t.to)
	}
	return measure.Length(needed), measure.Length(widest)
}
