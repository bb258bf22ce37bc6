package adjust

import (
	"math"

	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// A strap is at most so wide where it begins, and the neck lies so far below it (ours).
const (
	strapWide = int64(9 * measure.Centimetre)
	strapLong = int64(4 * measure.Centimetre)
)

// pull moves the top of a piece, fading to nothing at a depth: w = 1 − s²(3 − 2s), s the share of
// the way down. Above, everything is moved by the whole.
type pull struct {
	top, until, out, down int64
	middle                int64 // of a piece with two straps: outwards is away from it
}

func (p pull) share(x int64) float64 {
	switch {
	case x <= p.top:
		return 1
	case x >= p.until:
		return 0
	}
	s := float64(x-p.top) / float64(p.until-p.top)
	return 1 - s*s*(3-2*s)
}

func (p pull) point(q shape.Point) shape.Point {
	w := p.share(q.X)
	out := p.out
	if q.Y < p.middle {
		out = -out
	}
	return shape.Point{X: q.X + int64(math.Round(w*float64(p.down))), Y: q.Y + int64(math.Round(w*float64(out)))}
}

func (p pull) depth(x int64) int64 { return x + int64(math.Round(p.share(x)*float64(p.down))) }

func (p pull) line(l line) line {
	if len(l) == 0 {
		return l
	}
	var stops []int64
	for x := p.top; x <= p.until; x += finest {
		stops = append(stops, x)
	}
	out := l.divided(stops)
	for i := range out {
		out[i] = p.point(out[i])
	}
	return out
}

// strap moves the top that a strap grows from, neck and armhole running over to it smoothly.
func (b *body) strap(s Step) error {
	neck, err := b.strapNeck()
	if err != nil {
		return err
	}
	p := pull{top: b.levels[Top], until: neck, out: int64(s.Out), down: int64(s.Down)}
	if arm, ok := b.levels[Underarm]; ok {
		p.until = min(p.until, arm)
	}
	if !b.OnFold {
		box := b.o.Cut.Bounds()
		p.middle = (box.Min.Y + box.Max.Y) / 2
	}
	if 3*abs(p.down) > 2*(p.until-p.top)*9/10 {
		return invalid("the strap point of "+b.called()+" would be moved farther than the neck is deep", "Move it by less.")
	}
	return b.move(p, "Move the strap point by less.")
}

// strapNeck is how deep the neck lies in the middle of a piece with straps.
func (b *body) strapNeck() (int64, error) {
	none := invalid(b.called()+" has no strap that can be told", "Choose the pattern pieces that straps grow from.")
	box := b.o.Cut.Bounds()
	middle := int64(0)
	if !b.OnFold {
		if middle = (box.Min.Y + box.Max.Y) / 2; !mirrors(b.o.Cut) {
			return 0, none
		}
	}
	neck := box.Max.X
	for _, p := range b.o.Cut {
		if abs(p.Y-middle) <= int64(measure.Millimetre) {
			neck = min(neck, p.X)
		}
	}
	top := b.levels[Top]
	ys := Crossings(b.o.Cut, max(top, box.Min.X)+strapLong/4)
	if neck-top < strapLong || len(ys) < 2 || ys[len(ys)-1]-ys[len(ys)-2] > strapWide || len(paths(b.o, "shoulder")) > 0 {
		return 0, none
	}
	return neck, nil
}

// straps gives every free strap of an edge a length.
func (w *work) straps(long measure.Length) error {
	some := false
	for _, e := range w.p.Edges {
		for k := range e.Segments {
			if s := &e.Segments[k]; s.Piece == "" && s.Free[w.size] > 0 {
				s.Free[w.size], some = long, true
			}
		}
	}
	if !some {
		return invalid("no edge of "+w.p.Name+" runs on as a strap", "Move the strap point of a pattern piece, or choose another pattern.")
	}
	return nil
}

// longerStraps makes free straps of edges that run along a piece longer by what its strap point
// is moved down.
func (w *work) longerStraps(b *body, down measure.Length) {
	for i := range w.p.Edges {
		e := &w.p.Edges[i]
		along := false
		for _, s := range e.Segments {
			along = along || s.Piece == b.Code
		}
		if !along {
			continue
		}
		for k := range e.Segments {
			if s := &e.Segments[k]; s.Piece == "" && s.Free[w.size] > 0 {
				s.Free[w.size] = max(s.Free[w.size]+down, measure.Millimetre)
			}
		}
	}
}
