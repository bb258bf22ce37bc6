package planner

import (
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// OutlineOf puts corners that a person marked, round the cloth first and then round each
// hole or flaw, together as an outline in the frame of cloth: its bounds begin at the
// origin, whichever way round the corners go. It refuses one whose sides cross and says so.
func OutlineOf(rings []shape.Ring) (shape.Polygon, error) {
	p := Wound(rings)
	if err := checkOutline(p); err != nil {
		return p, err
	}
	return p.Move(shape.Point{X: -p.Bounds().Min.X, Y: -p.Bounds().Min.Y}), nil
}

// Wound is the polygon of rings that may go either way round, the outer one first; nothing
// is checked.
func Wound(rings []shape.Ring) shape.Polygon {
	var p shape.Polygon
	for i, r := range rings {
		if r = r.Clean(); (r.Area2() < 0) == (i == 0) {
			r = r.Reverse()
		}
		if i == 0 {
			p.Outer = r
		} else {
			p.Holes = append(p.Holes, r)
		}
	}
	return p
}

// checkOutline says in a sentence what cannot be about an outline that was drawn.
func checkOutline(p shape.Polygon) error {
	switch {
	case len(p.Outer) < 3:
		return invalid("Mark at least three, round the cloth", "The outline has too few corners")
	case crossing(p.Outer):
		return invalid("Move or remove a corner so that no two sides cross", "The outline crosses itself")
	}
	for _, h := range p.Holes {
		switch {
		case len(h) < 3 || crossing(h):
			return invalid("Move its corners apart, or remove it", "A hole crosses itself")
		case !shape.Inside(h.Reverse(), shape.Polygon{Outer: p.Outer}):
			return invalid("Drag it onto the cloth, or remove it", "A hole lies off the cloth")
		}
	}
	if err := p.Validate(); err != nil {
		return &stash.Error{Kind: stash.Invalid, What: "The outline is not closed and simple", Do: "Move its corners apart, or draw it again", Err: err}
	}
	return nil
}

// crossing says whether two sides of a ring meet that are no neighbours.
func crossing(r shape.Ring) bool {
	n := len(r)
	for i := range n {
		for j := i + 2; j < n; j++ {
			if i == 0 && j == n-1 {
				continue
			}
			if m := shape.Meet(r[i], r[(i+1)%n], r[j], r[(j+1)%n]); m == shape.Crossing || m == shape.Along {
				return true
			}
		}
	}
	return false
}

// A side is taken for a selvedge where it runs within selvedgeOff of the edge for at least
// leastSelvedge (ours): what is traced or drawn is not straight to a hair.
const selvedgeOff, leastSelvedge = int64(measure.Centimetre), 2 * int64(measure.Centimetre)

// AlongEdge says whether a side of an outline runs along the grain at its low edge, or at
// its high one, so that it can be a selvedge.
func AlongEdge(p shape.Polygon, low bool) bool {
	box, sum := p.Bounds(), int64(0)
	near := func(q shape.Point) bool {
		if low {
			return q.Y-box.Min.Y <= selvedgeOff
		}
		return box.Max.Y-q.Y <= selvedgeOff
	}
	for i, a := range p.Outer {
		b := p.Outer[(i+1)%len(p.Outer)]
		if near(a) && near(b) {
			sum += max(a.X-b.X, b.X-a.X)
		}
	}
	return sum >= leastSelvedge
}
