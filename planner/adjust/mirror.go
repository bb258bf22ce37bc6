package adjust

import (
	"slices"

	"tallycloth/planner/pattern"
	"tallycloth/stash/shape"
)

// mirror makes a whole piece of one of its halves, cut on the fold, or opens one on the fold out.
func (w *work) mirror(s Step, b *body) error {
	switch {
	case s.Half == "" && b.OnFold:
		return b.openOut()
	case s.Half == "":
		return invalid(b.called()+" is not cut on the fold", "Say which half is mirrored: the left or the right one.")
	case b.OnFold || b.Pairs:
		return invalid(b.called()+" is a half already", "Choose a pattern piece that is drawn whole.")
	}
	return w.halve(s.Half, b)
}

// openOut makes a piece on the fold one that is cut whole from a single layer. Edges to finish
// go on counting both of its halves by the one that is drawn.
func (b *body) openOut() error {
	b.o.Cut = pattern.Unfold(b.o.Cut)
	b.OnFold = false
	flip := func(p shape.Point) shape.Point { return shape.Point{X: p.X, Y: -p.Y} }
	for _, n := range slices.Clone(b.o.Notches) {
		if n.At.Y != 0 {
			b.o.Notches = append(b.o.Notches, pattern.Notch{At: flip(n.At), Kind: n.Kind})
		}
	}
	for _, d := range slices.Clone(b.o.Dots) {
		if d.Y != 0 {
			b.o.Dots = append(b.o.Dots, flip(d))
		}
	}
	for _, in := range slices.Clone(b.o.Inner) {
		other := make([]shape.Point, len(in))
		for i, p := range in {
			other[i] = flip(p)
		}
		b.o.Inner = append(b.o.Inner, other)
	}
	return b.set(b.o.Cut, "Leave it on the fold.")
}

// halve keeps a half of a piece about the middle of its breadth and lays it on the fold.
func (w *work) halve(half string, b *body) error {
	box := b.o.Cut.Bounds()
	mid := (box.Min.Y + box.Max.Y) / 2
	l := line{{X: box.Min.X - int64(overEdge), Y: mid}, {X: box.Max.X + int64(overEdge), Y: mid}}
	left := half == RightHalf // of the middle line, which runs down: y grows to its left
	ring, ok := cutOff(b.o.Cut, l, left)
	if !ok || ring.Validate() != nil {
		return invalid("a line down the middle of "+b.called()+" does not part it in two", "Choose a pattern piece whose middle is one straight line.")
	}
	q := b.copy()
	q.o.Cut = ring
	q.partMarks(b, l, left)
	if err := w.bothHalves(b, q); err != nil {
		return err
	}
	lay := func(p shape.Point) shape.Point {
		if left {
			return shape.Point{X: p.X, Y: p.Y - mid}
		}
		return shape.Point{X: p.X, Y: mid - p.Y}
	}
	q.each(lay, !left)
	q.OnFold = true
	if !left {
		q.o.Cut = q.o.Cut.Reverse()
	}
	if err := q.set(q.o.Cut, "Draw the half anew."); err != nil {
		return err
	}
	*b = *q
	return nil
}

// each moves every point of a piece; mirrored turns the stitching lines round, so that the
// garment stays on their left.
func (b *body) each(move func(shape.Point) shape.Point, mirrored bool) {
	all := [][]shape.Point{b.o.Cut, b.o.Dots}
	all = append(all, b.o.Inner...)
	for _, e := range b.o.Edges {
		all = append(all, e.Points)
	}
	for _, pts := range all {
		for i := range pts {
			pts[i] = move(pts[i])
		}
	}
	for i := range b.o.Notches {
		b.o.Notches[i].At = move(b.o.Notches[i].At)
	}
	b.o.GrainTop, b.o.GrainFoot = move(b.o.GrainTop), move(b.o.GrainFoot)
	if mirrored {
		for _, e := range b.o.Edges {
			slices.Reverse(e.Points)
		}
	}
}

// bothHalves counts edges to finish twice that run on over the middle. It refuses a half that
// lacks one of them.
func (w *work) bothHalves(b, half *body) error {
	for i := range w.p.Edges {
		for k := range w.p.Edges[i].Segments {
			s := &w.p.Edges[i].Segments[k]
			if s.Piece != b.Code {
				continue
			}
			was, now := paths(b.o, s.Path), paths(half.o, s.Path)
			if len(now) == 0 {
				return invalid("the edge "+s.Path+" of "+b.called()+" lies on its other half", "Mirror the other half.")
			}
			if len(was) == 1 && line(now[0].Points).length() < line(was[0].Points).length()-float64(finest) {
				s.Times = 2 * max(s.Times, 1)
			}
		}
	}
	return nil
}
