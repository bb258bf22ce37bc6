package adjust

import (
	"slices"

	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// taper is a take-in with its levels found on one piece.
type taper struct {
	p            int64
	from, at, to int64
	up, down     bool // it has tapered to nothing at from, and at to
}

// by is how much is taken in at a depth: p·(3s² − 2s³), s the share of the way from the
// end of the taper.
func (t taper) by(x int64) int64 {
	var s float64
	switch {
	case x < t.at && t.up:
		s = float64(x-t.from) / float64(t.at-t.from)
	case x > t.at && t.down:
		s = float64(t.to-x) / float64(t.to-t.at)
	default:
		return t.p
	}
	if s <= 0 {
		return 0
	}
	return int64(float64(t.p) * s * s * (3 - 2*s))
}

// stops are the depths at which a seam needs points.
func (t taper) stops(top, foot int64) []int64 {
	out := []int64{t.at}
	if t.up {
		out, top = append(out, t.from), t.from
	}
	if t.down {
		out, foot = append(out, t.to), t.to
	}
	if t.up || t.down {
		for x := top; x < foot; x += finest {
			out = append(out, x)
		}
	}
	return out
}

// moved is a seam taken in; in is +1 where the piece lies towards −y.
func (t taper) moved(l line, in int64) line {
	top, foot := l.depths()
	out := l.divided(t.stops(top, foot))
	for i := range out {
		out[i].Y -= in * t.by(out[i].X)
	}
	return out
}

// taperOf finds the levels of a take-in on a piece.
func (b *body) taperOf(s Step) (taper, error) {
	t := taper{p: int64(s.Amount), up: s.From.Said(), down: s.To.Said()}
	for _, place := range []struct {
		of Place
		x  *int64
	}{{s.At, &t.at}, {s.From, &t.from}, {s.To, &t.to}} {
		if !place.of.Said() {
			continue
		}
		x, err := b.mustDepth(place.of)
		if err != nil {
			return t, err
		}
		*place.x = x
	}
	switch {
	case !s.At.Said() && (t.up || t.down):
		return t, invalid("it is not said at which level it is taken in", "Name the level between those where it has tapered to nothing.")
	case t.up && t.from >= t.at || t.down && t.at >= t.to:
		return t, invalid("the levels are not in order from top to bottom on "+b.called(), "Name a level above and one below the one that is taken in.")
	}
	return t, nil
}

// takeIn takes the side seams of a piece in, or those that are named.
func (b *body) takeIn(s Step) error {
	t, err := b.taperOf(s)
	if err != nil {
		return err
	}
	all := runs(b.o.Cut)
	at := b.sides(all, s.Seam)
	if len(at) == 0 {
		return invalid(b.called()+" has no seam that can be told for this", "Mark the edge of the seam on the pattern piece, or choose other pattern pieces.")
	}
	for _, k := range at {
		if err := b.mayTake(t, all[k], s.At.Said()); err != nil {
			return err
		}
	}
	return b.takeAll(t, all, at)
}

// mayTake refuses a level off the seam, and more than is there.
func (b *body) mayTake(t taper, side line, said bool) error {
	top, foot := side.depths()
	if !said {
		t.at = (top + foot) / 2
	}
	if t.at < top-b.seam || t.at > foot || t.up && t.from < top-b.hem || t.down && t.to > foot {
		return invalid(b.called()+" has no plain seam at all of these levels", "Choose levels between the underarm and the hem.")
	}
	x := min(max(t.at, top+1), foot-1)
	if _, ok := side.at(x); !ok {
		return invalid("the seam of "+b.called()+" turns back there", "Choose another level.")
	}
	ys := Crossings(b.o.Cut, x)
	if wide := ys[len(ys)-1] - ys[0]; b.OnFold && t.p >= wide || !b.OnFold && 2*t.p >= wide {
		return invalid("more is taken in than there is at this level", "Take in less.")
	}
	return nil
}

// takeAll moves the seams, trims or lengthens what they meet at their ends, and takes what is
// marked on the piece along.
func (b *body) takeAll(t taper, all []line, at []int) error {
	along := b.alongRuns(all)
	b.takeNotches(t, all, at)
	for _, k := range at {
		in := inwards(all[k])
		n := len(all)
		for i, e := range b.o.Edges {
			if along[i] == k {
				b.o.Edges[i].Points = t.moved(e.Points, in)
			}
		}
		side := t.moved(all[k], in)
		for _, end := range []struct {
			to    int
			first bool // the neighbour meets the end of the side with its own beginning
		}{{(k + 1) % n, true}, {(k + n - 1) % n, false}} {
			by := in * t.by(turnedUp(all[k], end.first)[0].X)
			if by == 0 {
				continue
			}
			if err := b.endAt(all, along, k, end.to, end.first, by, in); err != nil {
				return err
			}
			if next := all[end.to]; end.first {
				side = meeting(side, next[0])
			} else {
				side = meeting(side.reversed(), next[len(next)-1]).reversed()
			}
		}
		all[k] = side
	}
	do := "Take in less, or taper over a longer way."
	if t.p < 0 {
		do = "Let out less, or taper over a longer way."
	}
	return b.set(joined(all), do)
}

// trimmed is a line that meets a seam, cut off at y or run on straight to it. first says that
// it meets the seam with its beginning.
func (b *body) trimmed(l line, first bool, y, in int64) (line, error) {
	if !first {
		l = l.reversed()
	}
	out, ok := cutAt(l, y, in)
	if !ok {
		return nil, invalid("the edge of "+b.called()+" that the seam runs into cannot be lengthened that far", "Let it taper to nothing before the end of the seam.")
	}
	if !first {
		out = out.reversed()
	}
	return out, nil
}

// cutAt drops what of a line lies beyond y from its beginning, or runs it on to there.
func cutAt(l line, y, in int64) (line, bool) {
	if in*l[0].Y > in*y {
		for i := 1; i < len(l); i++ {
			if in*l[i].Y > in*y {
				continue
			}
			p, q := l[i-1], l[i]
			at := towards(p, q, float64(y-p.Y)/float64(q.Y-p.Y))
			at.Y = y
			return append(line{at}, l[i:]...), true
		}
		return nil, false
	}
	i := 1
	for i < len(l)-1 && Gap(l[0], l[i]) < cornerReach {
		i++
	}
	d := l[0].Sub(l[i])
	if in*d.Y <= 0 || float64(in*d.Y) < 0.3*Gap(l[0], l[i]) {
		return nil, false
	}
	on := towards(l[i], l[0], float64(y-l[i].Y)/float64(d.Y))
	on.Y = y
	return append(line{on}, l...), true
}

// meeting ends a seam at a point of what it meets: lengthened, or cut back where it would
// run beyond.
func meeting(side line, end shape.Point) line {
	down := side[len(side)-1].X > side[0].X
	n := len(side)
	for n > 1 && (side[n-1].X > end.X) == down && side[n-1].X != end.X {
		n--
	}
	return append(slices.Clone(side[:n]), end)
}

// endAt ends a seam that was moved by by on the run that it meets: the run and the stitching lines along
// it are trimmed at the corner, those of the seam joined to them. first says that the run begins there.
func (b *body) endAt(all []line, along []int, side, run int, first bool, by, in int64) error {
	corner, on := turnedUp(all[run], !first)[0], 1
	if !first {
		on = -1
	}
	next, err := b.trimmed(all[run], first, corner.Y-by, in)
	if err != nil {
		return err
	}
	ends, w, err := b.trimEdges(all, along, side, run, corner, by, in)
	if err != nil {
		return err
	}
	all[run] = next
	if w.d != 0 {
		b.lower(w, all, along, run, on, corner)
	}
	for _, e := range ends {
		b.rejoin(along, side, e.was, by, e.end(b))
	}
	return nil
}

// trimmedEnd is a stitching line that a seam ends at: which, at which end, and where that was.
type trimmedEnd struct {
	edge  int
	first bool
	was   shape.Point
}

func (e trimmedEnd) end(b *body) shape.Point {
	return turnedUp(b.o.Edges[e.edge].Points, !e.first)[0]
}

// trimEdges trims the stitching lines along the run that meets the seam, at their end
// nearest to the corner, and says how they are lowered to have lost just what the seam was moved by.
func (b *body) trimEdges(all []line, along []int, side, run int, corner shape.Point, by, in int64) ([]trimmedEnd, lowering, error) {
	var ends []trimmedEnd
	var w lowering
	for i, e := range b.o.Edges {
		if along[i] == side {
			continue
		}
		n := len(e.Points)
		first := Gap(e.Points[0], corner) < Gap(e.Points[n-1], corner)
		from := turnedUp(e.Points, !first)
		end := from[0]
		if Gap(end, corner) > float64(2*(b.seam+b.hem)+2*finest) || nearest(all, from.inFrom(float64(2*finest))) != run {
			continue // it ends before the seam, or runs elsewhere
		}
		pts, err := b.trimmed(e.Points, first, end.Y-by, in)
		if err != nil {
			return nil, w, err
		}
		b.o.Edges[i].Points = pts
		ends = append(ends, trimmedEnd{i, first, end})
		if slices.Contains(ended, e.Name) {
			var ok bool
			if w, ok = loweringOf(turnedUp(pts, !first), from.length()-float64(in*by)); !ok {
				return nil, w, invalid("the "+e.Name+" of "+b.called()+" cannot be drawn that much shorter or longer", "Take in less, or let it taper to nothing before the end of the seam.")
			}
		}
	}
	return ends, w, nil
}

// rejoin ends the stitching line of a seam where it meets another one now: it ended at end
// before, which was moved by by.
func (b *body) rejoin(along []int, side int, end shape.Point, by int64, now shape.Point) {
	moved := shape.Point{X: end.X, Y: end.Y - by}
	for i, e := range b.o.Edges {
		if along[i] != side {
			continue
		}
		switch n := len(e.Points); {
		case Gap(e.Points[0], moved) < float64(finest):
			b.o.Edges[i].Points = meeting(line(e.Points).reversed(), now).reversed()
		case Gap(e.Points[n-1], moved) < float64(finest):
			b.o.Edges[i].Points = meeting(e.Points, now)
		}
	}
}

// takeNotches moves the notches of the seams along.
func (b *body) takeNotches(t taper, all []line, at []int) {
	for i, n := range b.o.Notches {
		if k := nearest(all, n.At); slices.Contains(at, k) {
			b.o.Notches[i].At.Y -= inwards(all[k]) * t.by(n.At.X)
		}
	}
}

// intoSleeve is what of a take-in goes on into a sleeve that is sewn in one with the side: what
// is left of it at the underarm, tapering to the hem of the sleeve.
func (s Step) intoSleeve(bodies []*body) (Step, bool) {
	if s.Kind != TakeIn || s.Seam != "" || len(s.Pieces) > 0 {
		return s, false
	}
	for _, b := range bodies {
		arm, ok := b.levels[Underarm]
		if b.sleeve() || !ok {
			continue
		}
		if t, err := b.taperOf(s); err == nil && t.by(arm) != 0 {
			return Step{Kind: TakeIn, Amount: measure.Length(t.by(arm)), At: Place{Level: Underarm}, To: Place{Level: HemLevel}}, true
		}
	}
	return s, false
}

// takeInSleeve takes both seams of a sleeve in.
func (b *body) takeInSleeve(s Step) error {
	all := runs(b.o.Cut)
	caps := paths(b.o, "cap")
	k := nearest(all, line(caps[0].Points).middle())
	if n := len(all); k >= 0 && n >= 4 {
		t, err := b.taperOf(s)
		if err != nil {
			return err
		}
		return b.takeAll(t, all, []int{(k + 1) % n, (k + n - 1) % n})
	}
	return invalid(b.called()+" has no seams that can be told", "Name the pattern pieces that are taken in.")
}
