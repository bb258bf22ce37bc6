package match

import (
	"cmp"
	"math"
	"slices"
	"sync"

	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/shape"
)

// Gauge is a quantity of which a cloth has so much, and each garment of a share takes at
// least so much, however they are laid: garments that take more together cannot lie there.
// Area is one; others count lines across or along the cloth by what one line can hold.
type Gauge struct {
	Have  int64
	Takes []int64 // by share, for one garment
}

// Gauger works gauges out, and keeps what it worked out about outlines. It may be used by
// several goroutines.
//
// Along any line the segments in which pattern pieces lie are apart, by the clearance, so
// that with a function that is superadditive, f(a)+f(b) ≤ f(a+b), what f says of the segments
// of all pieces never sums to more than what it says of the cloth's own segments; and so do
// the integrals over all parallel lines. (Dual feasible functions as for bin packing: Fekete
// and Schepers, "New classes of fast lower bounds for bin packing problems", 2001; used here
// on lines through outlines, which is our own.) Strips and pattern pieces on the bias are not
// counted, nor is what is reserved.
type Gauger struct {
	mu   sync.Mutex
	cuts map[gaugeKey][2][]segment
}

type gaugeKey struct {
	q      *Question
	scale  scale
	turned bool
}

// segment is a share of lines that are cut in so long a segment: over is how far the lines
// reach, side by side.
type segment struct{ long, over int64 }

// NewGauger returns a gauger that knows nothing yet.
func NewGauger() *Gauger { return &Gauger{cuts: map[gaugeKey][2][]segment{}} }

// gaugeStep is how far apart lines are looked at where no corner lies between, in µm.
const gaugeStep = 10_000

// Of lists gauges of a cloth for shares of garments; all questions must be of the same settings.
func (g *Gauger) Of(c stash.ClothState, shares []Share) []Gauge {
	if len(shares) == 0 {
		return nil
	}
	u := usableOf(c, shares[0].Q.ask.EndLoss)
	cloth := shape.Polygon{Outer: shape.Box{Max: shape.Point{X: u.length, Y: u.width}}.Ring()}
	var s scale
	if !c.Cloth.Plain() {
		cloth, s = c.Cloth.Outline, scale{u.dcLength, u.dcWid}
	}
	takes := make([][2][]segment, len(shares))
	for i, share := range shares {
		if !share.Q.ByYardage() {
			takes[i] = g.takes(c, u, s, share)
		}
	}
	clearance := int64(shares[0].Q.ask.Clearance)
	var out []Gauge
	for way := range 2 {
		have := cutAcross(turned(cloth.Outer, way), turnedAll(cloth.Holes, way), false)
		longest := int64(0)
		for i := range have {
			have[i].long += clearance
			longest = max(longest, have[i].long)
		}
		for _, f := range counts(longest) {
			one := Gauge{Have: int64(math.Ceil(sum(have, f))), Takes: make([]int64, len(shares))}
			for i := range shares {
				one.Takes[i] = int64(math.Floor(sum(takes[i][way], f)))
			}
			out = append(out, one)
		}
	}
	return out
}

// counts are superadditive functions of a length up to the longest.
func counts(longest int64) []func(int64) int64 {
	if longest <= 0 {
		return nil
	}
	out := []func(int64) int64{func(x int64) int64 { return x }}
	for k := int64(1); k <= 4; k++ { // how many times longer than a part
		part := (longest + k) / (k + 1)
		out = append(out, func(x int64) int64 { return (x - 1) / part })
	}
	for _, k := range []int64{3, 4, 6} { // short ones are nothing, and what leaves room for those alone is all
		short := longest / k
		out = append(out, func(x int64) int64 {
			switch {
			case x < short:
				return 0
			case x > longest-short:
				return longest
			}
			return x
		})
	}
	return out
}

// sum integrates a function of the segments, over lines a millimetre apart.
func sum(all []segment, f func(int64) int64) float64 {
	total := 0.0
	for _, s := range all {
		total += float64(s.over) * float64(f(max(s.long, 1)))
	}
	return total / 1000
}

// takes are the segments in which lines cut the pattern pieces of one garment: lines across
// the cloth, then lines along it.
func (g *Gauger) takes(c stash.ClothState, u usable, s scale, share Share) [2][]segment {
	key := gaugeKey{share.Q, s, share.Crosswise}
	g.mu.Lock()
	out, known := g.cuts[key]
	g.mu.Unlock()
	if known {
		return out
	}
	b := bedOf(u, c.Fabric)
	b.turned, b.strips = share.Crosswise, 0
	for _, it := range share.Q.items(b, s) {
		base := baseAngle(it.part.piece.Grain, b)
		if it.part.piece.Grain == pattern.Bias || it.item.Tilt > 0 || it.item.OnFold || it.item.Layers > 1 {
			continue
		}
		for way := range 2 {
			across := way
			if base == shape.Turn90 || base == shape.Turn270 {
				across = 1 - way
			}
			cut := cutAcross(turned(it.item.Outline, across), nil, true)
			for i := range cut {
				cut[i].over *= int64(max(it.item.Count, 1))
			}
			out[way] = append(out[way], cut...)
		}
	}
	for way := range out {
		grow(out[way], int64(share.Q.ask.Clearance))
	}
	g.mu.Lock()
	g.cuts[key] = out
	g.mu.Unlock()
	return out
}

// grow adds the clearance to segments of which each stands for a piece on its lines: those
// that cutAcross marked by a negative reach are further segments on the same lines.
func grow(all []segment, clearance int64) {
	for i := range all {
		if all[i].over < 0 {
			all[i].over = -all[i].over
		} else {
			all[i].long += clearance
		}
	}
}

// turned exchanges the axes of a ring, so that lines along it become lines across.
func turned(r shape.Ring, way int) shape.Ring {
	if way == 0 {
		return r
	}
	out := make(shape.Ring, len(r))
	for i, p := range r {
		out[i] = shape.Point{X: p.Y, Y: p.X}
	}
	return out
}

func turnedAll(rings []shape.Ring, way int) []shape.Ring {
	var out []shape.Ring
	for _, r := range rings {
		out = append(out, turned(r, way))
	}
	return out
}

// cutAcross lists the segments in which lines x = const cut a polygon: never more than they
// are where it is a part to lay, and then second and further segments of a line have a negative
// reach; never less where it is cloth.
func cutAcross(outer shape.Ring, holes []shape.Ring, part bool) []segment {
	rings := append([]shape.Ring{outer}, holes...)
	var out []segment
	at := lines(rings)
	for i := 1; i < len(at); i++ {
		var ends [][2]float64 // of each edge over the whole slab, y at its start and its end
		for _, r := range rings {
			for k, p := range r {
				q := r[(k+1)%len(r)]
				if p.X > q.X {
					p, q = q, p
				}
				if p.X <= at[i-1] && q.X >= at[i] && p.X < q.X {
					slope := float64(q.Y-p.Y) / float64(q.X-p.X)
					ends = append(ends, [2]float64{float64(p.Y) + slope*float64(at[i-1]-p.X), float64(p.Y) + slope*float64(at[i]-p.X)})
				}
			}
		}
		slices.SortFunc(ends, func(a, b [2]float64) int { return cmp.Compare(a[0]+a[1], b[0]+b[1]) })
		for k := 0; k+1 < len(ends); k += 2 {
			a, b := ends[k+1][0]-ends[k][0], ends[k+1][1]-ends[k][1]
			s := segment{long: int64(math.Ceil(max(a, b))) + 1, over: at[i] - at[i-1]}
			if part {
				s.long = max(int64(math.Floor(min(a, b)))-1, 0)
				if k > 0 {
					s.over = -s.over
				}
			}
			out = append(out, s)
		}
	}
	return out
}

// lines are the places between which no ring has a corner, never far apart.
func lines(rings []shape.Ring) []int64 {
	var at []int64
	for _, r := range rings {
		for _, p := range r {
			at = append(at, p.X)
		}
	}
	slices.Sort(at)
	at = slices.Compact(at)
	var out []int64
	for i, x := range at {
		if i > 0 {
			n := (x - at[i-1] + gaugeStep - 1) / gaugeStep
			for k := int64(1); k < n; k++ {
				out = append(out, at[i-1]+(x-at[i-1])*k/n)
			}
		}
		out = append(out, x)
	}
	return out
}
