package match

import (
	"cmp"
	"slices"

	"tallycloth/stash/measure"
)

// block is strips cut side by side across the whole width.
type block struct {
	length int64 // lengthwise, all rows together
	joined bool
	cuts   []stripCut
}

// stripCut is one length of strip in a block: where it lies from the block's start
// and from the low usable edge.
type stripCut struct {
	strip      *StripAsk
	copy, part int
	x, from    int64
	length     int64
}

// blocks lists the ways to cut the strips as a block on cloth so wide: whole strips
// where the width allows, then joined ones if that takes fewer rows. None when a
// strip is longer than the cloth is wide and may not be joined. No strips are one
// empty block.
func (q *Question) blocks(width int64) []block {
	if len(q.ask.Strips) == 0 {
		return []block{{}}
	}
	var out []block
	for _, joinAll := range []bool{false, true} {
		if b, ok := q.blockOf(width, joinAll); ok && (len(out) == 0 || b.length < out[0].length) {
			out = append(out, b)
		}
	}
	return out
}

// blockOf fills rows of one strip width at a time: whole strips longest first into
// the first row with room (first fit decreasing; Johnson 1973), strips to be joined
// from row to row as they come.
func (q *Question) blockOf(width int64, joinAll bool) (block, bool) {
	var b block
	for _, w := range q.stripWidths() {
		rows := rows{width: width}
		for _, r := range q.runs(w) {
			length := int64(r.strip.Length)
			switch {
			case length <= width && !(joinAll && r.strip.MayJoin):
				rows.whole(r, length)
			case !r.strip.MayJoin:
				return block{}, false
			default:
				rows.joined(r, length)
				b.joined = true
			}
		}
		for i := range rows.cuts {
			rows.cuts[i].x = b.length + rows.cuts[i].x*int64(w)
		}
		b.cuts = append(b.cuts, rows.cuts...)
		b.length += int64(len(rows.used)) * int64(w)
	}
	b.joined = slices.ContainsFunc(b.cuts, func(c stripCut) bool { return c.part > 0 })
	return b, true
}

func (q *Question) stripWidths() []measure.Length {
	var ws []measure.Length
	for _, s := range q.ask.Strips {
		if !slices.Contains(ws, s.Width) {
			ws = append(ws, s.Width)
		}
	}
	slices.Sort(ws)
	slices.Reverse(ws)
	return ws
}

// runs lists every strip of one width, the longest first.
func (q *Question) runs(w measure.Length) []stripCut {
	var out []stripCut
	for i := range q.ask.Strips {
		s := &q.ask.Strips[i]
		for k := 0; s.Width == w && k < max(s.Count, 1); k++ {
			out = append(out, stripCut{strip: s, copy: k})
		}
	}
	slices.SortStableFunc(out, func(a, b stripCut) int { return cmp.Compare(b.strip.Length, a.strip.Length) })
	return out
}

// rows are strips across the cloth; used is how far each is filled. A cut's x
// counts rows.
type rows struct {
	width int64
	used  []int64
	cuts  []stripCut
}

func (r *rows) whole(c stripCut, length int64) {
	row := slices.IndexFunc(r.used, func(u int64) bool { return u+length <= r.width })
	if row < 0 {
		row, r.used = len(r.used), append(r.used, 0)
	}
	r.put(c, row, length)
}

// joined fills what is left of the last row and goes on in new ones; each join
// takes its loss. A rest shorter than three times that is not worth a join (ours).
func (r *rows) joined(c stripCut, length int64) {
	loss := int64(c.strip.JoinLoss)
	for length > 0 {
		row := len(r.used) - 1
		if row < 0 || r.width-r.used[row] < min(length, max(3*loss, 1)) {
			r.used = append(r.used, 0)
			row++
		}
		take := min(length, r.width-r.used[row])
		r.put(c, row, take)
		c.part++
		if length -= take; length > 0 {
			length += loss
		}
	}
}

func (r *rows) put(c stripCut, row int, length int64) {
	c.x, c.from, c.length = int64(row), r.used[row], length
	r.used[row] += length
	r.cuts = append(r.cuts, c)
}
