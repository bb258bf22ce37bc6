package nest

import (
	"cmp"
	"math/rand/v2"
	"slices"
)

// genome is one way to fill: the order of the copies and the turn of each group
// (−1 leaves it to the first item laid).
type genome struct {
	order []Copy
	turn  []int
	score score
}

// firstGenomes are the orders worth trying first: largest area, longest, widest
// and largest hull first, each with the groups' turns free and fixed.
func firstGenomes(p *problem) []genome {
	measures := []func(pose) int64{
		func(q pose) int64 { return q.ring.Area() },
		func(q pose) int64 { return q.box.Length() },
		func(q pose) int64 { return q.box.Width() },
		func(q pose) int64 { return q.ring.Hull().Area() },
	}
	var out []genome
	for _, m := range measures {
		key := make([]int64, len(p.in.Items))
		for i := range p.in.Items {
			if ids := p.byItem[i][0]; len(ids) > 0 {
				key[i] = m(p.poses[ids[0]])
			}
		}
		g := genome{order: copies(p.in), turn: make([]int, len(p.in.Groups))}
		for i := range g.turn {
			g.turn[i] = -1
		}
		slices.SortStableFunc(g.order, func(a, b Copy) int {
			x, y := p.in.Items[a.Item], p.in.Items[b.Item]
			if p.in.Ask == BestSubset && x.Value != y.Value {
				return cmp.Compare(y.Value, x.Value)
			}
			return cmp.Compare(key[b.Item], key[a.Item])
		})
		if !slices.ContainsFunc(out, func(h genome) bool { return slices.Equal(h.order, g.order) }) {
			out = append(out, g)
		}
	}
	return out
}

// disturbed is the genome with two copies exchanged or one moved, and now and
// then a group turned.
func (g genome) disturbed(rng *rand.Rand, p *problem) genome {
	out := genome{order: slices.Clone(g.order), turn: slices.Clone(g.turn)}
	n := len(out.order)
	if n > 1 {
		i, j := rng.IntN(n), rng.IntN(n)
		if rng.IntN(2) == 0 {
			out.order[i], out.order[j] = out.order[j], out.order[i]
		} else {
			c := out.order[i]
			out.order = slices.Insert(slices.Delete(out.order, i, i+1), j, c)
		}
	}
	if len(out.turn) > 0 && rng.IntN(4) == 0 {
		k := rng.IntN(len(out.turn))
		out.turn[k] = rng.IntN(len(p.in.Groups[k].Angles)+1) - 1
	}
	return out
}
