package binding

import "tallycloth/stash/measure"

// loses says whether nothing that goes on from here can beat the best.
func (s *searcher) loses(sofar cost) bool {
	return s.losesWith(sofar, 0)
}

// losesWith is loses where at least so many joins are still to come.
func (s *searcher) losesWith(sofar cost, joins int64) bool {
	if !s.found {
		return false
	}
	c := s.bound()
	c.joins = max(c.joins, joins)
	return sofar.plus(c).compare(s.best.cost) >= 0
}

// bound is a cost that the strips left cannot do without: each strip needs at least as
// many pieces as on the widest source, and all together their own area, in whole
// cut-across lengths where all sources are alike. Where strips may be left without
// cloth only the length that exceeds all cloth is certain.
func (s *searcher) bound() cost {
	if s.leave {
		return s.leastShort()
	}
	var c cost
	var length int64
	for i, k := range s.kinds {
		n := int64(s.left[i])
		joins := n * k.leastJoins(s.widest)
		c.joins += joins
		length += n*int64(k.length) + joins*int64(k.take)
		if i+1 == len(s.kinds) || s.kinds[i+1].width != k.width {
			if across := int64(s.widest); s.alike && across > 0 {
				length = (length + across - 1) / across * across
			}
			c.area += length * int64(k.width)
			length = 0
		}
	}
	return c
}

// leastShort is the length by which the strips left exceed all cloth left; told
// only for strips of one width.
func (s *searcher) leastShort() cost {
	if len(s.kinds) == 0 {
		return cost{}
	}
	width := s.kinds[0].width
	if s.kinds[len(s.kinds)-1].width != width {
		return cost{}
	}
	var need, have int64
	for i, k := range s.kinds {
		need += int64(s.left[i]) * int64(k.length)
	}
	for i, src := range s.sources {
		have += int64(s.along[i]/width) * int64(src.Across)
	}
	return cost{short: max(0, need-have)}
}

// leastJoins is how many joins one strip needs on its own.
func (k kind) leastJoins(across measure.Length) int64 {
	if k.length <= across || across <= k.take {
		return 0
	}
	return int64((k.length-k.take+across-k.take-1)/(across-k.take)) - 1
}
