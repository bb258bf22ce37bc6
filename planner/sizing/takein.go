package sizing

import (
	"fmt"

	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// TakeIn is a side seam taken in at one level and tapering to nothing at two others.
type TakeIn struct {
	From, At, To measure.Length // levels down the piece: the seam is as it was at From and To
	Amount       measure.Length // p, measured level from the seam inwards; negative lets out
}

// finest is how close points of a changed seam lie, so that its taper is smooth: 5 mm.
const finest = int64(5 * measure.Millimetre)

// Girth is what a take-in at both side seams removes from the girth of the garment at
// its level: p of the front and p of the back at each seam, 4p (derived here).
func (t TakeIn) Girth() measure.Length { return 4 * t.Amount }

// Apply changes half a piece on the fold (the fold on y = 0, the side seam outside),
// or the side of a half front or back. Exactly p is removed at the level At, nothing
// at From and To nor beyond them; between, the seam runs over smoothly (a cubic that
// is level at both ends). It refuses levels out of order, a level at which the outline
// has more than a fold and a side seam, and more than is there.
func (t TakeIn) Apply(half shape.Ring) (shape.Ring, error) {
	if t.From >= t.At || t.At >= t.To {
		return nil, invalid("the levels are not in order from top to bottom", "Name a level above and one below the one that is taken in.")
	}
	for _, level := range []measure.Length{t.From, t.At, t.To} {
		if n := len(Crossings(half, level)); n != 2 {
			return nil, invalid(fmt.Sprintf("the outline has no plain side seam at %.1f cm", level.Millimetres()/10),
				"Choose levels between the underarm and the hem.")
		}
	}
	if side := Crossings(half, t.At)[1]; t.Amount >= side {
		return nil, invalid("more is taken in than there is at this level", "Take in less.")
	}
	out := make(shape.Ring, 0, 2*len(half))
	for i, p := range half {
		for _, q := range t.divided(p, half[(i+1)%len(half)]) {
			if q.Y > 0 {
				q.Y -= t.at(q.X)
			}
			out = append(out, q)
		}
	}
	if out = out.Clean(); out.Validate() != nil {
		return nil, invalid("the outline would cross itself", "Take in less, or taper over a longer way.")
	}
	return out, nil
}

func invalid(what, do string) error { return &stash.Error{Kind: stash.Invalid, What: what, Do: do} }

// at is how much is removed at x: p·(3s² − 2s³), s the share of the way from the
// nearer end of the taper.
func (t TakeIn) at(x int64) int64 {
	from, at, to := int64(t.From), int64(t.At), int64(t.To)
	var s float64
	switch {
	case x <= from || x >= to:
		return 0
	case x <= at:
		s = float64(x-from) / float64(at-from)
	default:
		s = float64(to-x) / float64(to-at)
	}
	return int64(float64(t.Amount) * s * s * (3 - 2*s))
}

// divided is the edge p → q without q, with points at the three levels and no further
// apart than finest where the seam is changed.
func (t TakeIn) divided(p, q shape.Point) []shape.Point {
	out := []shape.Point{p}
	if p.Y <= 0 && q.Y <= 0 || p.X == q.X {
		return out
	}
	stops := []int64{int64(t.From), int64(t.At), int64(t.To)}
	for x := int64(t.From); x < int64(t.To); x += finest {
		stops = append(stops, x)
	}
	var between []shape.Point
	for _, x := range stops {
		if (x > p.X) != (x > q.X) && x != p.X && x != q.X {
			between = append(between, shape.Point{X: x, Y: p.Y + (q.Y-p.Y)*(x-p.X)/(q.X-p.X)})
		}
	}
	sortAlong(between, p.X < q.X)
	return append(out, between...)
}

// Crossings are the y at which the boundary crosses a level, from the fold outwards.
func Crossings(r shape.Ring, level measure.Length) []measure.Length {
	var out []shape.Point
	x := int64(level)
	for i, p := range r {
		q := r[(i+1)%len(r)]
		if (p.X <= x) == (q.X <= x) {
			continue
		}
		out = append(out, shape.Point{X: p.Y + (q.Y-p.Y)*(x-p.X)/(q.X-p.X)})
	}
	sortAlong(out, true)
	ys := make([]measure.Length, len(out))
	for i, p := range out {
		ys[i] = measure.Length(p.X)
	}
	return ys
}
