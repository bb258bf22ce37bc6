package adjust

import (
	"math"
	"slices"

	"tallycloth/planner/pattern"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// finest is how close points of a changed seam lie, so that its taper is smooth: 5 mm.
const finest = int64(5 * measure.Millimetre)

// line is a run of points that is not closed.
type line []shape.Point

func sortInts(v []int64) { slices.Sort(v) }

func (l line) length() float64 {
	sum := 0.0
	for i := 1; i < len(l); i++ {
		sum += Gap(l[i-1], l[i])
	}
	return sum
}

// middle is the point half-way along.
func (l line) middle() shape.Point {
	return l.inFrom(l.length() / 2)
}

// inFrom is the point so far along from the beginning, or the last.
func (l line) inFrom(far float64) shape.Point {
	for i := 1; i < len(l); i++ {
		d := Gap(l[i-1], l[i])
		if far <= d && d > 0 {
			return towards(l[i-1], l[i], far/d)
		}
		far -= d
	}
	return l[len(l)-1]
}

func towards(p, q shape.Point, k float64) shape.Point {
	return shape.Point{X: p.X + int64(math.Round(k*float64(q.X-p.X))), Y: p.Y + int64(math.Round(k*float64(q.Y-p.Y)))}
}

func (l line) reversed() line {
	out := slices.Clone(l)
	slices.Reverse(out)
	return out
}

// distance is how far a point lies from the line, in µm.
func (l line) distance(p shape.Point) float64 {
	best := math.Inf(1)
	for i := 1; i < len(l); i++ {
		best = min(best, fromSegment(p, l[i-1], l[i]))
	}
	return best
}

func fromSegment(p, a, b shape.Point) float64 {
	x, y := float64(b.X-a.X), float64(b.Y-a.Y)
	u, v := float64(p.X-a.X), float64(p.Y-a.Y)
	k := 0.0
	if d := x*x + y*y; d > 0 {
		k = min(1, max(0, (u*x+v*y)/d))
	}
	return math.Hypot(u-k*x, v-k*y)
}

// depths are the least and the greatest x.
func (l line) depths() (top, foot int64) {
	top, foot = l[0].X, l[0].X
	for _, p := range l {
		top, foot = min(top, p.X), max(foot, p.X)
	}
	return top, foot
}

// divided has points of the line at each of the depths as well.
func (l line) divided(depths []int64) line {
	out := line{l[0]}
	for i := 1; i < len(l); i++ {
		p, q := l[i-1], l[i]
		var mid line
		for _, x := range depths {
			if x > min(p.X, q.X) && x < max(p.X, q.X) {
				mid = append(mid, shape.Point{X: x, Y: between(p, q, x)})
			}
		}
		slices.SortFunc(mid, func(a, b shape.Point) int { return int(min(1, max(-1, a.X-b.X))) })
		if p.X > q.X {
			slices.Reverse(mid)
		}
		out = append(append(out, slices.Compact(mid)...), q)
	}
	return out
}

// at returns the y where the line passes a depth, and whether it does just once.
func (l line) at(x int64) (int64, bool) {
	n, y := 0, int64(0)
	for i := 1; i < len(l); i++ {
		p, q := l[i-1], l[i]
		if (p.X <= x) != (q.X <= x) {
			n, y = n+1, between(p, q, x)
		}
	}
	return y, n == 1
}

// runs parts a ring at its corners; each run begins where the one before ends. A ring with
// fewer than two corners is refused by nil.
func runs(r shape.Ring) []line {
	at := Corners(r)
	if len(at) < 2 {
		return nil
	}
	out := make([]line, len(at))
	for k, from := range at {
		to := at[(k+1)%len(at)]
		l := line{r[from]}
		for i := from; i != to; {
			i = (i + 1) % len(r)
			l = append(l, r[i])
		}
		out[k] = l
	}
	return out
}

// joined closes runs to a ring again.
func joined(all []line) shape.Ring {
	var out shape.Ring
	for _, l := range all {
		out = append(out, l[:len(l)-1]...)
	}
	return out.Clean()
}

// nearest is the run that a line lies along: the one nearest to its middle.
func nearest(all []line, p shape.Point) int {
	best, at := math.Inf(1), -1
	for k, l := range all {
		if d := l.distance(p); d < best {
			best, at = d, k
		}
	}
	return at
}

// path returns the edges of an outline that go by a name.
func paths(o pattern.Outline, name string) []pattern.EdgePath {
	var out []pattern.EdgePath
	for _, e := range o.Edges {
		if e.Name == name && len(e.Points) > 1 {
			out = append(out, e)
		}
	}
	return out
}
