package nest

import (
	"math"
	"math/rand/v2"
)

// turnOne turns one group, chosen at random, to another of its angles and lays its
// copies about where they lie; it says whether there was a group to turn. Moves of
// single copies cannot do this, as a group's copies share their turn.
func (b *board) turnOne(rng *rand.Rand) bool {
	var free [][2]int
	for g := range b.turn {
		for k := range b.g.p.in.Groups[g].Angles {
			if k != b.turn[g] && b.turnable(g, k) {
				free = append(free, [2]int{g, k})
			}
		}
	}
	if len(free) == 0 {
		return false
	}
	to := free[rng.IntN(len(free))]
	b.turn[to[0]] = to[1]
	for i, c := range b.g.copies {
		if b.g.p.in.Items[c.Item].Group == to[0] {
			b.put(i, b.about(i, b.at[i]))
		}
	}
	return true
}

// turnable says whether a group moves in this game and all of it can lie within
// the limit at the k-th of its angles.
func (b *board) turnable(group, k int) bool {
	moves := false
	for i, c := range b.g.copies {
		if b.g.p.in.Items[c.Item].Group != group {
			continue
		}
		if b.g.fixed[i] || !anyOpen(b.g.sites[c.Item][k], b.limit) {
			return false
		}
		moves = true
	}
	return moves
}

func anyOpen(ways []site, limit float64) bool {
	for k := range ways {
		if ways[k].open(limit) {
			return true
		}
	}
	return false
}

// about is the place nearest to an old one, among the ways copy i may lie now, that
// covers about what the old one covers. Another fabric is as far as its own width.
func (b *board) about(i int, old place) place {
	var best place
	least := math.Inf(1)
	ways := b.ways(i)
	for k := range ways {
		s := &ways[k]
		if !s.open(b.limit) {
			continue
		}
		r, q := old.site.reach, s.reach
		x, y := old.x+(r.x0+r.x1-q.x0-q.x1)/2, old.y+(r.y0+r.y1-q.y0-q.y1)/2
		cx, cy := s.clamp(b.limit, x, y)
		far := math.Hypot(cx-x, cy-y)
		if s.fabric != old.site.fabric {
			far += b.g.width
		}
		if far < least {
			best, least = place{s, cx, cy}, far
		}
	}
	return best
}
