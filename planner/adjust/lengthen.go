package adjust

import (
	"math"
	"slices"

	"tallycloth/stash/shape"
)

// spread moves everything below a line down by d. What crosses the line runs straight
// down between: all breadths stay, those below so much lower.
type spread struct{ at, d int64 }

// depth is where a depth lies after.
func (s spread) depth(x int64) int64 {
	if x > s.at {
		return x + s.d
	}
	return x
}

// line moves a run of points; the seam between is straight.
func (s spread) line(l line) line {
	var out line
	for i, p := range l {
		if i > 0 {
			if q := l[i-1]; (q.X > s.at) != (p.X > s.at) {
				upper := shape.Point{X: s.at, Y: between(q, p, s.at)}
				lower := shape.Point{X: s.at + s.d, Y: upper.Y}
				if q.X > s.at {
					upper, lower = lower, upper
				}
				out = append(out, upper, lower)
			}
		}
		out = append(out, shape.Point{X: s.depth(p.X), Y: p.Y})
	}
	return slices.Compact(out)
}

// squeeze makes a stretch of a piece shorter, evenly, and moves what lies below it up.
type squeeze struct{ from, to, d int64 }

func (s squeeze) depth(x int64) int64 {
	switch {
	case x <= s.from:
		return x
	case x >= s.to:
		return x - s.d
	}
	k := float64(s.to-s.from-s.d) / float64(s.to-s.from)
	return s.from + int64(math.Round(k*float64(x-s.from)))
}

func (s squeeze) line(l line) line {
	if len(l) == 0 {
		return l
	}
	out := l.divided([]int64{s.from, s.to})
	for i := range out {
		out[i].X = s.depth(out[i].X)
	}
	return out
}

// mover moves depths and lines alike.
type mover interface {
	depth(x int64) int64
	line(line) line
}

// lengthen makes a piece longer, or shorter, at a line. Made longer, it is spread at the line.
// Made shorter, the way from so much above the line to so much below is drawn together,
// twice what is taken out either way where there is room, so that seams stay smooth.
func (b *body) lengthen(s Step) error {
	at, err := b.mustDepth(s.At)
	if err != nil {
		return err
	}
	box := b.o.Cut.Bounds()
	if at <= box.Min.X || at >= box.Max.X {
		return invalid("the line lies off "+b.called(), "Choose a line between its top and its hem.")
	}
	if s.Amount > 0 {
		return b.move(spread{at, int64(s.Amount)}, "Make it longer by less.")
	}
	d := -int64(s.Amount)
	from, to := max(box.Min.X, at-2*d), min(box.Max.X, at+2*d)
	if low, ok := b.levels[Underarm]; ok && at > low {
		from = max(from, low)
	}
	if hem := b.levels[HemLevel]; at < hem {
		to = min(to, hem)
	}
	if to-from <= d+d/4 {
		return invalid(b.called()+" has no room to be so much shorter there", "Shorten it by less, or at a line farther from its ends.")
	}
	return b.move(squeeze{from, to, d}, "Shorten it by less, or at another line.")
}

// move moves everything on a piece.
func (b *body) move(m mover, do string) error {
	ring := append(line(nil), b.o.Cut...)
	moved := m.line(append(ring, ring[0]))
	if err := b.set(shape.Ring(moved[:len(moved)-1]), do); err != nil {
		return err
	}
	for i := range b.o.Notches {
		b.o.Notches[i].At.X = m.depth(b.o.Notches[i].At.X)
	}
	for i := range b.o.Dots {
		b.o.Dots[i].X = m.depth(b.o.Dots[i].X)
	}
	for i := range b.o.Inner {
		b.o.Inner[i] = m.line(b.o.Inner[i])
	}
	for i := range b.o.Edges {
		b.o.Edges[i].Points = m.line(b.o.Edges[i].Points)
	}
	for i := range b.o.MatchMarks {
		b.o.MatchMarks[i].X = m.depth(b.o.MatchMarks[i].X)
	}
	b.o.GrainTop.X, b.o.GrainFoot.X = m.depth(b.o.GrainTop.X), m.depth(b.o.GrainFoot.X)
	for name, x := range b.levels {
		b.levels[name] = m.depth(x)
	}
	return nil
}
