package nest

import (
	"math"
	"slices"

	"tallycloth/planner/geometry"
	"tallycloth/stash/shape"
)

// newGame makes the search for a set of copies ready; nil if it ended meanwhile.
func newGame(p *problem, set []Copy) *game {
	bodies, grown := make([]shape.Ring, len(p.poses)), make([]shape.Ring, len(p.poses))
	for i, q := range p.poses {
		if p.stopped() {
			return nil
		}
		bodies[i] = q.body
		if k := p.same[i]; k < i {
			grown[i] = grown[k]
		} else {
			grown[i] = geometry.Grow(q.body, p.in.Clearance)
		}
	}
	g := &game{p: p, t: newTable(bodies, grown, p.same, p.stopped), copies: set}
	if g.sites = p.sites(g.t); g.sites == nil {
		return nil
	}
	widest := 0.0
	for _, c := range p.cloths {
		widest = max(widest, float64(c.box.Width()))
	}
	g.width = widest
	g.contact = max(1, contactShare*widest)
	for _, c := range set {
		it := p.in.Items[c.Item]
		area := float64(it.Outline.Area())
		g.fixed = append(g.fixed, c.Copy < len(it.Pinned))
		g.factor = append(g.factor, math.Sqrt(math.Sqrt(area)))
		g.size = append(g.size, math.Sqrt(area))
	}
	return g
}

// takeUp lays a solution on the board, pinned copies where they are pinned; copies
// that it left out get any place. It returns false if some copy has no way to lie at all.
func (b *board) takeUp(sol Solution, anyPlace func(i int) (place, bool)) bool {
	index := map[Copy]Laid{}
	laid := withPins(b.g.p.in, sol.Laid)
	for _, l := range laid {
		index[Copy{l.Item, l.Copy}] = l
	}
	b.takeTurns(laid)
	for i, c := range b.g.copies {
		l, ok := index[c]
		if ok {
			if pl, found := b.find(i, l); found {
				b.put(i, pl)
				continue
			}
		}
		pl, found := anyPlace(i)
		if !found {
			return false
		}
		b.put(i, pl)
	}
	return true
}

// takeTurns sets each group's turn to one that explains all of it that is laid, or else
// all of it that is pinned.
func (b *board) takeTurns(laid []Laid) {
	for g := range b.turn {
		explained := false
		for k := range b.g.p.in.Groups[g].Angles {
			b.turn[g] = k
			if explained = !slices.ContainsFunc(laid, func(l Laid) bool {
				return b.g.p.in.Items[l.Item].Group == g && b.siteOf(l) == nil
			}); explained {
				break
			}
		}
		if !explained {
			b.turn[g] = b.g.p.turnPinned(g, b.turn[g])
		}
	}
}

// siteOf finds the way in which a copy lies, if its group is turned so.
func (b *board) siteOf(l Laid) *site {
	turn := 0
	if g := b.g.p.in.Items[l.Item].Group; g != NoGroup {
		turn = b.turn[g]
	}
	ways := b.g.sites[l.Item][turn]
	for k := range ways {
		s := &ways[k]
		q := b.g.p.poses[s.pose]
		if s.fabric == l.Fabric && q.angle == l.Place.Angle.Norm() && q.mirror == l.Place.Mirror {
			if y := float64(l.Place.At.Y); y >= s.lowY && y <= s.highY {
				return s
			}
		}
	}
	return nil
}

func (b *board) find(i int, l Laid) (place, bool) {
	s := b.siteOf(l)
	if s == nil {
		return place{}, false
	}
	return place{s, float64(l.Place.At.X), float64(l.Place.At.Y)}, true
}
