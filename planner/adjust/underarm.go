package adjust

import (
	"math"
	"slices"

	"tallycloth/stash/shape"
)

// ended are the edges whose length follows a take-in exactly where the seam ends at them: p at
// the underarm makes each armhole edge 2p shorter, p in front and p behind, and the cap
// of a sleeve as much.
var ended = []string{"armhole", "cap"}

// lowering draws what runs up from the end of a seam longer or shorter by moving it down: by d at
// the end, by nothing at its top, w = s²(3 − 2s) between, s the share of the way down. An edge that
// leaves the seam level keeps its end; one that runs up from it would lose more than p when it is
// trimmed by p measured level, and so has its end a little lower.
type lowering struct {
	top, foot int64
	d         float64
}

func (w lowering) depth(x int64) int64 {
	s := min(1, max(0, float64(x-w.top)/float64(w.foot-w.top)))
	return x + int64(math.Round(w.d*s*s*(3-2*s)))
}

// line moves a line, given from its end at the seam on, as far as its top; what runs down
// again behind it stays.
func (w lowering) line(l line) line {
	var stops []int64
	for x := w.top + finest; x < w.foot; x += finest {
		stops = append(stops, x)
	}
	out := l.divided(stops)
	for i, p := range out {
		if p.X <= w.top {
			break
		}
		out[i].X = w.depth(p.X)
	}
	return out
}

// closest is how many steps find a lowering: halving 30 cm that often leaves less than 1 µm.
const closest = 40

// loweringOf finds the lowering that gives a line, from its end at a seam on, a length; false
// where it cannot have that one.
func loweringOf(l line, length float64) (lowering, bool) {
	top, _ := l.depths()
	w := lowering{top: top, foot: l[0].X}
	if w.foot-w.top < 4*finest {
		return w, false
	}
	// More than half of its depth would fold the line: 1 + d·dw/dx stays above 1/4.
	low, high := -float64(w.foot-w.top)/2, float64(w.foot-w.top)/2
	best := math.Inf(1)
	out := w
	for range closest {
		w.d = (low + high) / 2
		off := w.line(l).length() - length
		if math.Abs(off) < best {
			best, out = math.Abs(off), w
		}
		if off > 0 {
			high = w.d
		} else {
			low = w.d
		}
	}
	return out, best <= float64(onCut)/10
}

// lower moves the runs from one on that a seam ends at, as far as the top, the edges along them and their
// notches. on is +1 where they follow one another in the direction of the cutting line, else −1.
func (b *body) lower(w lowering, all []line, along []int, run, on int, end shape.Point) {
	from := func(l line, first bool) line { return turnedUp(w.line(turnedUp(l, !first)), !first) }
	var moved []int
	for k, n := run, len(all); len(moved) < n-1; k = (k + n + on) % n {
		l := turnedUp(all[k], on < 0)
		top := slices.IndexFunc(l, func(p shape.Point) bool { return p.X <= w.top })
		for i, m := range b.o.Notches {
			if l[:top+1].distance(m.At) <= onCut || top < 0 && l.distance(m.At) <= onCut {
				b.o.Notches[i].At.X = w.depth(m.At.X)
			}
		}
		all[k] = from(all[k], on > 0)
		moved = append(moved, k)
		if top >= 0 {
			break
		}
	}
	for i, e := range b.o.Edges {
		if slices.Contains(moved, along[i]) {
			b.o.Edges[i].Points = from(e.Points, Gap(e.Points[0], end) < Gap(e.Points[len(e.Points)-1], end))
		}
	}
}
