package binding

import (
	"cmp"
	"fmt"
	"slices"

	"tallycloth/stash/measure"
)

// candidates lists the groups on m bins that hold a strip of kind head.
func (s *searcher) candidates(head, m int) []candidate {
	var out []candidate
	s.forBins(head, m, func(bins []int, across measure.Length) {
		s.forFillings(head, across, m, func(counts []int, waste measure.Length) {
			if c, ok := s.candidate(head, bins, counts, waste); ok {
				out = append(out, c)
			}
		})
	})
	slices.SortStableFunc(out, func(a, b candidate) int { return cmp.Or(cmp.Compare(a.waste, b.waste), a.cost.compare(b.cost)) })
	return out
}

// forBins visits every choice of m bins from what the sources still have, by
// source in order, with their lengths' sum.
func (s *searcher) forBins(head, m int, visit func(bins []int, across measure.Length)) {
	width := s.kinds[head].width
	bins := make([]int, 0, m)
	var choose func(from int, across measure.Length)
	choose = func(from int, across measure.Length) {
		rest := measure.Length(m - len(bins))
		if rest == 0 {
			visit(bins, across)
			return
		}
		if across+rest*s.widest < s.kinds[head].length {
			return
		}
		for i := from; i < len(s.sources); i++ {
			taken := measure.Length(0)
			for _, b := range bins {
				if b == i {
					taken += width
				}
			}
			if s.along[i]-taken < width || s.sources[i].Across <= 0 {
				continue
			}
			bins = append(bins, i)
			choose(i, across+s.sources[i].Across)
			bins = bins[:len(bins)-1]
		}
	}
	choose(0, 0)
}

// forFillings visits the strips of head's width that fit into m bins of so much
// length together, with at least one of kind head. On one bin, only those to which
// nothing can be added.
func (s *searcher) forFillings(head int, across measure.Length, m int, visit func(counts []int, waste measure.Length)) {
	counts := make([]int, len(s.kinds))
	end := head
	least := s.kinds[head].take
	for ; end < len(s.kinds) && s.kinds[end].width == s.kinds[head].width; end++ {
		least = min(least, s.kinds[end].take)
	}
	var fill func(i int, free measure.Length)
	fill = func(i int, free measure.Length) {
		if i == end {
			if m > 1 || s.full(counts, head, end, free) {
				visit(counts, free)
			}
			return
		}
		most := min(s.left[i], int(free/s.kinds[i].length))
		low := 0
		if i == head {
			low = 1
		}
		for n := most; n >= low; n-- {
			counts[i] = n
			fill(i+1, free-measure.Length(n)*s.kinds[i].length)
		}
		counts[i] = 0
	}
	if free := across - measure.Length(m-1)*least; free > 0 {
		fill(head, free)
	}
}

// full says whether no strip that is left fits beside the counts.
func (s *searcher) full(counts []int, head, end int, free measure.Length) bool {
	for i := head; i < end; i++ {
		if counts[i] < s.left[i] && s.kinds[i].length <= free {
			return false
		}
	}
	return true
}

// candidate cuts a group, if it can be cut, and prices it. A group that can do without
// one of its bins is none.
func (s *searcher) candidate(head int, bins, counts []int, waste measure.Length) (candidate, bool) {
	if s.nodes++; s.nodes > mostNodes {
		s.cut = true
		return candidate{}, false
	}
	for i := range bins {
		if len(bins) > 1 && (i == 0 || bins[i] != bins[i-1]) && s.lay(slices.Delete(slices.Clone(bins), i, i+1), counts) != nil {
			return candidate{}, false
		}
	}
	chunks := s.lay(bins, counts)
	if chunks == nil {
		return candidate{}, false
	}
	width := s.kinds[head].width
	c := candidate{group: group{slices.Clone(bins), slices.Clone(counts), chunks}, waste: waste, cost: cost{joins: int64(len(bins) - 1)}}
	for _, b := range bins {
		c.cost.area += int64(s.sources[b].Across) * int64(width)
		c.cost.order += s.rank(b) * int64(width)
	}
	return c, true
}

// lay is layGroup, remembered.
func (s *searcher) lay(bins, counts []int) []chunk {
	key := fmt.Sprint(bins, counts)
	chunks, known := s.laid[key]
	if !known {
		if s.fits(bins, counts) {
			chunks = layGroup(s.kinds, s.sources, bins, counts)
		}
		s.laid[key] = chunks
	}
	return chunks
}

// fits says whether strips are at most as long as bins, joins aside.
func (s *searcher) fits(bins, counts []int) bool {
	room := measure.Length(0)
	for _, b := range bins {
		room += s.sources[b].Across
	}
	for i, n := range counts {
		room -= measure.Length(n) * s.kinds[i].length
	}
	return room >= 0
}
