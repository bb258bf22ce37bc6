package match

import (
	"cmp"
	"math"
	"slices"

	"tallycloth/planner/binding"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// Bounds on how many places are looked at.
const (
	mostCorners  = 48   // above that many edges places are ruled instead of worked out from pairs
	ruledPlaces  = 240  // places ruled over a cloth of many edges
	mostPlaces   = 4000 // places looked at in all
	mostStacked  = 12   // strips side by side from one place on
	mostTogether = 40   // strips wanted of all lengths that are looked at for that
)

// lanes lists the free lanes of a width. A lane can be pushed towards the ground's start until it
// touches a corner or another strip, or until just so much is free as a strip wants; places
// of that kind are looked at, and where two edges give most between them. Derived here. With
// many edges places are ruled instead, 240 of them, and those beside each outline as a whole.
func (g *Ground) lanes(width measure.Length, lengths, counts []measure.Length, taken []binding.Piece) []binding.Lane {
	b := *g
	b.bounds, b.kept, b.keptBoxes = slices.Clone(g.bounds), slices.Clone(g.kept), slices.Clone(g.keptBoxes)
	for _, p := range taken {
		r := g.Outline(p)
		b.keep(r)
		for i, a := range r {
			b.bounds = append(b.bounds, g.run(a, r[(i+1)%len(r)], false))
		}
	}
	least := slices.Min(lengths) / 4 // shorter is not worth a join
	var out []binding.Lane
	for _, u := range b.places(float64(width), lengths, counts) {
		free := slices.DeleteFunc(b.free(u, float64(width)), func(r binding.Reach) bool { return r.Long() < least })
		if len(free) > 0 {
			out = append(out, binding.Lane{At: measure.Length(u - g.u0), Free: free})
		}
	}
	return out
}

// places are where lanes are looked at, in order.
func (g *Ground) places(width float64, lengths, counts []measure.Length) []float64 {
	var out []float64
	add := func(u float64) {
		if u >= g.u0 && u+width <= g.u1+0.5 && len(out) < mostPlaces {
			out = append(out, u)
		}
	}
	wanted := measure.Length(0)
	for _, n := range counts {
		wanted += n
	}
	stacked := float64(min(wanted, mostStacked))
	if wanted > mostTogether {
		stacked = math.Ceil((g.u1 - g.u0) / width)
	}
	starts := g.starts(width)
	if len(g.bounds) <= mostCorners {
		g.pairs(width, lengths, func(u float64) {
			add(math.Floor(u))
			add(math.Ceil(u))
		})
	} else {
		starts = g.sides(width)
		for i := range ruledPlaces + 1 {
			add(math.Floor(g.u0 + (g.u1-g.u0-width)*float64(i)/ruledPlaces))
		}
	}
	for k := 0.0; k <= stacked; k++ {
		for _, u := range starts {
			add(u + k*width)
			add(u - k*width)
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// starts are where a lane touches a corner, with its one side or the other.
func (g *Ground) starts(width float64) []float64 {
	var out []float64
	for _, e := range g.bounds {
		for _, u := range []float64{e.u0, e.u1} {
			c := g.margin
			if e.kept {
				c += g.clearance
			}
			out = append(out, math.Ceil(u+c), math.Floor(u-width-c))
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// sides are where a lane touches an outline as a whole.
func (g *Ground) sides(width float64) []float64 {
	var out []float64
	for _, of := range []struct {
		rings []shape.Ring
		c     float64
	}{{g.within, g.margin}, {g.holes, g.margin}, {g.kept, g.margin + g.clearance}} {
		for _, r := range of.rings {
			lo, hi := math.Inf(1), math.Inf(-1)
			for _, p := range r {
				u, _ := g.to(p)
				lo, hi = min(lo, u), max(hi, u)
			}
			for _, u := range []float64{lo, hi} {
				out = append(out, math.Ceil(u+of.c), math.Floor(u-width-of.c))
			}
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// limit is what bounds a lane from below or above, by where the lane begins: an edge met
// by one of its sides, or a corner within it.
type limit struct{ u0, u1, v, slope, extra float64 }

// limits lists them for a width.
func (g *Ground) limits(width float64) []limit {
	var out []limit
	for _, e := range g.bounds {
		c := g.margin
		if e.kept {
			c += g.clearance
		}
		out = append(out, limit{e.u0 - width - c, e.u0 + c, e.v0, 0, c}, limit{e.u1 - width - c, e.u1 + c, e.v1, 0, c})
		if e.u1 > e.u0 && e.v0 != e.v1 {
			slope := (e.v1 - e.v0) / (e.u1 - e.u0)
			for _, d := range []float64{-c, width + c} {
				out = append(out, limit{e.u0 - d, e.u1 - d, e.v0, slope, c})
			}
		}
	}
	slices.SortFunc(out, func(a, b limit) int {
		return cmp.Or(cmp.Compare(a.u0, b.u0), cmp.Compare(a.u1, b.u1), cmp.Compare(a.v, b.v), cmp.Compare(a.slope, b.slope))
	})
	return slices.Compact(out)
}

// pairs visits where between two limits just so much is free as a length wants, and where
// one takes over from the other.
func (g *Ground) pairs(width float64, lengths []measure.Length, visit func(u float64)) {
	all := g.limits(width)
	for i, a := range all {
		for _, b := range all[i+1:] {
			if a.slope == b.slope || a.u1 < b.u0 || b.u1 < a.u0 {
				continue
			}
			off := (b.v - b.slope*b.u0) - (a.v - a.slope*a.u0)
			solve := func(much float64) {
				u := (much - off) / (b.slope - a.slope)
				if u >= max(a.u0, b.u0)-1 && u <= min(a.u1, b.u1)+1 {
					visit(u)
				}
			}
			solve(0)
			for _, l := range lengths {
				much := float64(l) + a.extra + b.extra + 2 // whole µm on both sides
				solve(much)
				solve(-much)
			}
		}
	}
}
