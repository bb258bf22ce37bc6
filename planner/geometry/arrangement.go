package geometry

import (
	"math"
	"slices"

	"tallycloth/stash/shape"
)

// Vec is a place in µm with fractions.
type Vec struct{ X, Y float64 }

// Segment is a directed piece of a region's boundary: the region lies to its left.
type Segment struct{ A, B Vec }

const (
	// snap is the grid to which crossings of edges are rounded, 1/64 µm: the same
	// crossing found through different pairs of edges differs by far less.
	snap = 1.0 / 64
	// onLine is how near, in µm, a point counts as lying on an edge: above every
	// rounding of a crossing, below everything that can be cut.
	onLine = 0.05
	// raySlabs is how many slabs of equal height the edges are sorted into for
	// counting the crossings of a ray: a few edges remain in each.
	raySlabs = 48
)

// boundary returns the pieces of the edges that separate the places whose winding
// number is over the threshold from those whose number isn't. Edges are cut where
// they meet; each piece is kept if its two sides differ, coincident pieces once.
func boundary(edges []edge, threshold int) []Segment {
	cuts := cutAll(edges)
	level, steep := newRays(edges, false), newRays(edges, true)
	out := make([]Segment, 0, len(edges))
	for i, e := range edges {
		rays := level
		if abs64(e.to.X-e.from.X) > abs64(e.to.Y-e.from.Y) {
			rays = steep
		}
		for k := 0; k+1 < len(cuts[i]); k++ {
			a, b := cuts[i][k], cuts[i][k+1]
			if s, ok := rays.separates(a, b, threshold); ok {
				out = append(out, s)
			}
		}
	}
	return closeGaps(distinct(out))
}

func abs64(v int64) int64 { return max(v, -v) }

// cutAll lists for each edge its ends and the places where others meet it, in order.
func cutAll(edges []edge) [][]Vec {
	cuts := make([][]Vec, len(edges))
	order := make([]int, len(edges))
	for i, e := range edges {
		order[i] = i
		cuts[i] = append(make([]Vec, 0, 6), vec(e.from), vec(e.to))
	}
	slices.SortFunc(order, func(i, j int) int {
		return cmp64(min(edges[i].from.X, edges[i].to.X), min(edges[j].from.X, edges[j].to.X))
	})
	for k, i := range order {
		e := edges[i]
		right := max(e.from.X, e.to.X)
		low, high := min(e.from.Y, e.to.Y), max(e.from.Y, e.to.Y)
		for _, j := range order[k+1:] {
			f := edges[j]
			if min(f.from.X, f.to.X) > right {
				break
			}
			if max(f.from.Y, f.to.Y) < low || min(f.from.Y, f.to.Y) > high {
				continue
			}
			cutPair(e, f, &cuts[i], &cuts[j])
		}
	}
	for i, e := range edges {
		sortAlong(cuts[i], e)
		cuts[i] = slices.Compact(cuts[i])
	}
	return cuts
}

func vec(p shape.Point) Vec { return Vec{float64(p.X), float64(p.Y)} }

func sortAlong(cuts []Vec, e edge) {
	dx, dy := float64(e.to.X-e.from.X), float64(e.to.Y-e.from.Y)
	slices.SortFunc(cuts, func(a, b Vec) int {
		switch d := (a.X-b.X)*dx + (a.Y-b.Y)*dy; {
		case d < 0:
			return -1
		case d > 0:
			return 1
		}
		return 0
	})
}

// cutPair adds to both edges the places where they meet. Which side an end lies
// on is decided exactly; only the crossing itself is rounded.
func cutPair(e, f edge, ce, cf *[]Vec) {
	d := sub(e.to, e.from)
	g := sub(f.to, f.from)
	p, q := vcross(d, sub(f.from, e.from)), vcross(d, sub(f.to, e.from))
	r, s := vcross(g, sub(e.from, f.from)), vcross(g, sub(e.to, f.from))
	if p == 0 && within(e, f.from) {
		*ce = append(*ce, vec(f.from))
	}
	if q == 0 && within(e, f.to) {
		*ce = append(*ce, vec(f.to))
	}
	if r == 0 && within(f, e.from) {
		*cf = append(*cf, vec(e.from))
	}
	if s == 0 && within(f, e.to) {
		*cf = append(*cf, vec(e.to))
	}
	if sign(p)*sign(q) < 0 && sign(r)*sign(s) < 0 {
		t := float64(r) / (float64(r) - float64(s))
		at := Vec{snapped(float64(e.from.X) + t*float64(d.X)), snapped(float64(e.from.Y) + t*float64(d.Y))}
		*ce, *cf = append(*ce, at), append(*cf, at)
	}
}

func snapped(v float64) float64 { return math.Round(v/snap) * snap }

// within says whether a point known to lie on the edge's line lies strictly inside it.
func within(e edge, v shape.Point) bool {
	d := sub(e.to, e.from)
	t := vdot(d, sub(v, e.from))
	return t > 0 && t < vdot(d, d)
}

// rays counts winding numbers along rays of one direction: to the right, or
// upwards if swapped, when x and y have changed places.
type rays struct {
	swapped    bool
	low, scale float64
	first      []int32
	list       []rayEdge
}

// rayEdge is an edge as a ray meets it: from v0 to v1 > v0, at u0 + slope·(v−v0).
type rayEdge struct {
	v0, v1, u0, slope float64
	dir               int
}

func newRays(edges []edge, swapped bool) *rays {
	r := &rays{swapped: swapped}
	all := make([]rayEdge, 0, len(edges))
	low, high := math.Inf(1), math.Inf(-1)
	for _, e := range edges {
		a, b, dir := vec(e.from), vec(e.to), 1
		if swapped {
			a, b, dir = Vec{a.Y, a.X}, Vec{b.Y, b.X}, -1
		}
		low, high = min(low, a.Y, b.Y), max(high, a.Y, b.Y)
		if a.Y == b.Y {
			continue
		}
		if a.Y > b.Y {
			a, b, dir = b, a, -dir
		}
		all = append(all, rayEdge{a.Y, b.Y, a.X, (b.X - a.X) / (b.Y - a.Y), dir})
	}
	r.low, r.scale = low, raySlabs/max(high-low, 1)
	r.first, r.list = bySlab(all, raySlabs, func(e rayEdge) (int, int) { return r.slab(e.v0), r.slab(e.v1) })
	return r
}

func (r *rays) slab(v float64) int { return min(max(int((v-r.low)*r.scale), 0), raySlabs-1) }

// bySlab sorts things into the slabs they reach: slab k holds list[first[k]:first[k+1]].
func bySlab[T any](all []T, slabs int, reach func(T) (int, int)) ([]int32, []T) {
	first := make([]int32, slabs+1)
	for _, t := range all {
		a, b := reach(t)
		for k := a; k <= b; k++ {
			first[k+1]++
		}
	}
	for k := range slabs {
		first[k+1] += first[k]
	}
	list := make([]T, first[slabs])
	next := slices.Clone(first)
	for _, t := range all {
		a, b := reach(t)
		for k := a; k <= b; k++ {
			list[next[k]] = t
			next[k]++
		}
	}
	return first, list
}

// separates says whether the piece from a to b parts places over the threshold
// from others, and returns it with those over it to its left.
func (r *rays) separates(a, b Vec, threshold int) (Segment, bool) {
	u, v, rising := (a.X+b.X)/2, (a.Y+b.Y)/2, b.Y > a.Y
	if r.swapped {
		u, v, rising = v, u, b.X > a.X
	}
	k := r.slab(v)
	after, on := 0, 0
	for i := r.first[k]; i < r.first[k+1]; i++ {
		e := &r.list[i]
		if e.v0 > v || e.v1 <= v {
			continue
		}
		switch d := e.u0 + e.slope*(v-e.v0) - u; {
		case d > onLine:
			after += e.dir
		case d >= -onLine:
			on += e.dir
		}
	}
	over, overBefore := after > threshold, after+on > threshold
	if over == overBefore {
		return Segment{}, false
	}
	// Rising, the left side is before the ray's start; swapping x and y swaps sides.
	if left := overBefore != r.swapped; left == rising {
		return Segment{a, b}, true
	}
	return Segment{b, a}, true
}

// distinct drops repeated pieces.
func distinct(s []Segment) []Segment {
	slices.SortFunc(s, func(a, b Segment) int {
		for _, d := range [4]float64{a.A.X - b.A.X, a.A.Y - b.A.Y, a.B.X - b.B.X, a.B.Y - b.B.Y} {
			if d < 0 {
				return -1
			} else if d > 0 {
				return 1
			}
		}
		return 0
	})
	return slices.Compact(s)
}

// closeGaps joins loose ends, which rounding leaves where three edges meet nearly
// in one point, so that every loop is closed and rays count right.
func closeGaps(s []Segment) []Segment {
	balance := make(map[Vec]int, len(s))
	for _, g := range s {
		balance[g.A]++
		balance[g.B]--
	}
	var starts, ends []Vec
	for _, g := range s {
		for ; balance[g.A] > 0; balance[g.A]-- {
			starts = append(starts, g.A)
		}
		for ; balance[g.B] < 0; balance[g.B]++ {
			ends = append(ends, g.B)
		}
	}
	for _, e := range ends {
		if len(starts) == 0 {
			break
		}
		near := 0
		for k, t := range starts {
			if dist2(e, t) < dist2(e, starts[near]) {
				near = k
			}
		}
		s = append(s, Segment{e, starts[near]})
		starts = slices.Delete(starts, near, near+1)
	}
	return s
}

func dist2(a, b Vec) float64 { return (a.X-b.X)*(a.X-b.X) + (a.Y-b.Y)*(a.Y-b.Y) }
