package adjust

import (
	"math"
	"slices"

	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// steepest is how far out a seam that is run on goes for each unit down: what flares or
// narrows more is not meant to go on so (ours).
const steepest = 0.1

// reachUp is how much of a seam says in which direction it is run on.
const reachUp = 20_000.0

// hemming moves the hem of a piece down by d. Seams that flare come out by wide more at the
// foot, evenly from the depth from on, and rise there by rise, so that they are no longer than what runs
// straight down.
type hemming struct {
	d, rise, from int64
	wide          float64
}

// seam is a seam from the hem up, with its foot moved; foot is where the hem is folded now. out
// is +1 where outwards is towards +y, −1 towards −y, and 0 for what does not flare.
func (h hemming) seam(l line, out, foot int64, slope float64) (line, bool) {
	l, ok := runOn(l, h.d, slope)
	if !ok || out == 0 || h.wide == 0 {
		return l, ok
	}
	l = l.divided([]int64{h.from})
	for i, p := range l {
		if p.X > h.from {
			l[i].Y += out * int64(math.Round(h.wide*float64(p.X-h.from)/float64(foot+h.d-h.rise-h.from)))
		}
	}
	return runOn(l, -h.rise, 0)
}

// slopeOf is in which direction a seam goes on below its foot: y for each unit of x.
func slopeOf(l line) float64 {
	i := 1
	for i < len(l)-1 && Gap(l[0], l[i]) < reachUp {
		i++
	}
	d := l[0].Sub(l[i])
	if d.X <= 0 {
		return 0
	}
	return min(steepest, max(-steepest, float64(d.Y)/float64(d.X)))
}

// runOn is a seam from the hem up, its foot lower by d: cut off, or run on straight.
func runOn(l line, d int64, slope float64) (line, bool) {
	if d >= 0 {
		on := shape.Point{X: l[0].X + d, Y: l[0].Y + int64(math.Round(slope*float64(d)))}
		return append(line{on}, l...), true
	}
	x := l[0].X + d
	for i := 1; i < len(l); i++ {
		if l[i].X <= x {
			return append(line{{X: x, Y: between(l[i-1], l[i], x)}}, l[i:]...), true
		}
	}
	return nil, false
}

// hemRun finds the hem among the runs of the cutting line: that along its edge, or else
// the lowest that goes across.
func (b *body) hemRun(all []line) int {
	if e := paths(b.o, "hem"); len(e) > 0 {
		return nearest(all, line(e[0].Points).middle())
	}
	low, at := int64(math.MinInt64), -1
	for k, l := range all {
		a, z := l[0], l[len(l)-1]
		if abs(a.Y-z.Y) > abs(a.X-z.X) && a.X+z.X > low {
			low, at = a.X+z.X, k
		}
	}
	return at
}

func abs(v int64) int64 { return max(v, -v) }

// changeHem moves the hem of a piece.
func (b *body) changeHem(h hemming) error {
	all := runs(b.o.Cut)
	k, n := b.hemRun(all), len(all)
	if k < 0 || n < 3 {
		return invalid(b.called()+" has no hem that can be told", "Mark the edge of its hem on the pattern piece.")
	}
	hem := all[k]
	along := b.alongRuns(all)
	ends := newEnds{}
	for _, side := range []struct {
		at   int
		turn bool
	}{{(k + n - 1) % n, true}, {(k + 1) % n, false}} {
		l := all[side.at]
		out := inwards(l)
		if b.OnFold && l[0].Y == 0 && l[len(l)-1].Y == 0 {
			out = 0
		}
		up := turnedUp(l, side.turn)
		foot, slope := up[0].X-b.hem, slopeOf(up)
		moved, ok := h.seam(up, out, foot, slope)
		if !ok {
			return invalid("the hem of "+b.called()+" would lie above the seam that ends at it", "Shorten it by less.")
		}
		all[side.at] = turnedUp(moved, side.turn)
		if err := b.seamEdges(h, along, side.at, foot, out, slope, ends); err != nil {
			return err
		}
	}
	before, after := all[(k+n-1)%n], all[(k+1)%n]
	to := h.drawnOut(hem, before[len(before)-1], after[0], b.OnFold)
	all[k] = to(hem)
	for i, e := range b.o.Edges {
		if along[i] == k {
			b.o.Edges[i].Points = ends.joined(e.Points, to(e.Points))
		}
	}
	for i, m := range b.o.Notches {
		if hem.distance(m.At) <= onCut {
			b.o.Notches[i].At = to(line{m.At})[0]
		}
	}
	if err := b.set(joined(all), "Change the hem by less."); err != nil {
		return err
	}
	b.levels[HemLevel] += h.d
	b.keepGrain()
	return nil
}

func turnedUp(l line, turn bool) line {
	if turn {
		return l.reversed()
	}
	return l
}

// drawnOut moves what runs along a hem down and draws it out between the new ends a and z of
// the hem.
func (h hemming) drawnOut(hem line, a, z shape.Point, onFold bool) func(line) line {
	first, last := hem[0], hem[len(hem)-1]
	wide := float64(last.Y - first.Y)
	return func(l line) line {
		out := slices.Clone(l)
		for i, p := range out {
			u := float64(p.Y-first.Y) / wide
			t := math.Abs(2*u - 1)
			if onFold {
				t = u // the fold is where the hem begins
			}
			out[i].Y += int64(math.Round(float64(a.Y-first.Y) + u*float64((z.Y-last.Y)-(a.Y-first.Y))))
			out[i].X += h.d - int64(math.Round(float64(h.rise)*t*t))
		}
		if p := l[0]; p == first && l[len(l)-1] == last {
			out[0], out[len(out)-1] = a, z
		}
		return out
	}
}

// seamEdges moves the foot of the stitching lines along a seam with it.
func (b *body) seamEdges(h hemming, along []int, run int, foot, out int64, slope float64, ends newEnds) error {
	for i, e := range b.o.Edges {
		n := len(e.Points)
		if along[i] != run || n < 2 {
			continue
		}
		up := e.Points[0].X > e.Points[n-1].X // it runs from the hem up
		l := turnedUp(e.Points, !up)
		if abs(l[0].X-foot) > b.hem+2*finest {
			continue
		}
		moved, ok := h.seam(l, out, foot, slope)
		if !ok {
			return invalid("the hem of "+b.called()+" would lie above the seam that ends at it", "Shorten it by less.")
		}
		ends[l[0]] = moved[0]
		b.o.Edges[i].Points = turnedUp(moved, !up)
	}
	return nil
}

// newEnds are where the feet of stitching lines lie now.
type newEnds map[shape.Point]shape.Point

// joined ends a hem that was moved where the seams end that it ran between.
func (n newEnds) joined(was, now line) line {
	for _, i := range []int{0, len(was) - 1} {
		if to, ok := n[was[i]]; ok {
			now[i] = to
		}
	}
	return now
}

// alongRuns is the run that each edge lies along.
func (b *body) alongRuns(all []line) []int {
	out := make([]int, len(b.o.Edges))
	for i, e := range b.o.Edges {
		out[i] = nearest(all, line(e.Points).middle())
	}
	return out
}

// keepGrain keeps the grain line on the piece.
func (b *body) keepGrain() {
	if box := b.o.Cut.Bounds(); b.o.GrainFoot.X > box.Max.X {
		b.o.GrainFoot.X = box.Max.X
		b.o.GrainTop.X = min(b.o.GrainTop.X, box.Max.X-box.Length()/4)
	}
}

// hemsOf changes the hems of pieces of a garment alike.
func (w *work) hems(s Step, bodies []*body) error {
	h := hemming{d: int64(s.Amount)}
	if s.Length > 0 {
		h.d = int64(s.Length - w.longNow(bodies[0]))
	}
	if s.Round == 0 {
		return each(bodies, func(b *body) error { return b.changeHem(h) })
	}
	if err := h.flare(s.Round, bodies); err != nil {
		return err
	}
	return each(bodies, func(b *body) error {
		mine := h
		mine.from = b.flareFrom(h.d)
		l := float64(b.levels[HemLevel] + h.d - mine.from)
		if math.Abs(h.wide) > 0.8*l {
			return invalid("such a hem is cut as a part of a circle, which is not drawn here", "Make it longer, or less wide.")
		}
		mine.rise = int64(math.Round(l - math.Sqrt(l*l-h.wide*h.wide)))
		return b.changeHem(mine)
	})
}

// flare finds how far each seam comes out for a hem of a girth.
func (h *hemming) flare(round measure.Length, bodies []*body) error {
	girth, seams := 0.0, 0
	for _, b := range bodies {
		try := b.copy()
		if err := try.changeHem(*h); err != nil {
			return err
		}
		wide, n := try.hemBreadth()
		girth += wide
		seams += n
	}
	if seams == 0 {
		return invalid("there is no seam that could flare", "Say how much longer or shorter the hem becomes.")
	}
	h.wide = (float64(round) - girth) / float64(seams)
	return nil
}

// hemBreadth is what the pieces cut of this one measure along the hem, stitched, and how many of their
// seams flare. Of two legs it is that of one.
func (b *body) hemBreadth() (float64, int) {
	wide := 0.0
	if e := paths(b.o, "hem"); len(e) > 0 {
		pts := e[0].Points
		wide = float64(abs(pts[0].Y - pts[len(pts)-1].Y))
	} else if all := runs(b.o.Cut); b.hemRun(all) >= 0 {
		l := all[b.hemRun(all)]
		wide = float64(abs(l[0].Y-l[len(l)-1].Y) - b.seam)
		if !b.OnFold {
			wide -= float64(b.seam)
		}
	}
	n := max(b.Cut, 1) * 2
	if b.OnFold {
		wide *= 2
	}
	if _, legs := b.levels[Crotch]; legs {
		return wide * float64(n) / 4, n / 2
	}
	return wide * float64(n) / 2, n
}

// flareFrom is the depth from which seams flare: the hip, or else the waist or the top of the seam.
func (b *body) flareFrom(d int64) int64 {
	foot := b.levels[HemLevel] + d
	for _, name := range []string{HipLevel, Waist, Underarm} {
		if x, ok := b.levels[name]; ok && x < foot-2*step {
			return x
		}
	}
	return b.levels[Top]
}
