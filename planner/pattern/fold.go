package pattern

import (
	"fmt"
	"slices"

	"tallycloth/stash/shape"
)

// foldSlack is how far the points of a drawn fold edge may lie off its line, in µm:
// editors round, a tenth of a millimetre is no cut.
const foldSlack = 100

// Side is where the fold edge of a drawn half lies, seen with the grain's top end up.
type Side int

// The sides. EitherSide takes the one that has a straight edge along the grain.
const (
	EitherSide Side = iota
	LeftSide        // towards −y
	RightSide       // towards +y
)

// PutOnFold makes a piece drawn as a half one that is cut on the fold: every outline is
// moved so that its straight edge along the grain on that side lies on y = 0, mirrored
// where it was on the right. Opened out, both are the same piece.
//
// The error names the size that has no such edge, or, with EitherSide, one on both sides;
// the piece then stays as it was.
func (q *Piece) PutOnFold(side Side) error {
	put := make(map[string]Outline, len(q.Outlines))
	for size, o := range q.Outlines {
		left, right := o.moved(false, -o.Cut.Bounds().Min.Y), o.moved(true, o.Cut.Bounds().Max.Y)
		a, b := left.snap() && side != RightSide, right.snap() && side != LeftSide
		switch {
		case a && b:
			return invalid(fmt.Sprintf("%s is straight on both sides in size %s", q.called(), size), "Say whether its left or its right edge lies on the fold.")
		case a:
			put[size] = left
		case b:
			put[size] = right
		default:
			return invalid(fmt.Sprintf("%s has no straight edge along the grain there in size %s", q.called(), size),
				"Draw the fold edge straight up the page, at the left or right of the piece, or cut the piece whole.")
		}
	}
	q.Outlines, q.OnFold = put, true
	return nil
}

// snap pulls points that nearly lie on the fold onto it and says whether there is one
// stretch of fold edge then.
func (o *Outline) snap() bool {
	for i := range o.Cut {
		if o.Cut[i].Y <= foldSlack {
			o.Cut[i].Y = 0
		}
	}
	o.Cut = o.Cut.Clean()
	return o.Cut.Validate() == nil && HasFoldEdge(o.Cut)
}

// moved returns a copy of everything on the outline, mirrored about y = 0 if mirror,
// then moved by dy.
func (o Outline) moved(mirror bool, dy int64) Outline {
	place := shape.Placement{Mirror: mirror, At: shape.Point{Y: dy}}
	line := func(pts []shape.Point) []shape.Point {
		out := make([]shape.Point, len(pts))
		for i, p := range pts {
			out[i] = place.ApplyPoint(p)
		}
		return out
	}
	out := o
	out.Cut = place.Apply(o.Cut)
	out.GrainTop, out.GrainFoot = place.ApplyPoint(o.GrainTop), place.ApplyPoint(o.GrainFoot)
	out.Notches, out.Inner, out.Edges = slices.Clone(o.Notches), slices.Clone(o.Inner), slices.Clone(o.Edges)
	if o.Dots != nil {
		out.Dots = line(o.Dots)
	}
	for i := range out.Notches {
		out.Notches[i].At = place.ApplyPoint(out.Notches[i].At)
	}
	for i := range out.Inner {
		out.Inner[i] = line(out.Inner[i])
	}
	for i := range out.Edges {
		out.Edges[i].Points = line(out.Edges[i].Points)
		if mirror { // the garment stays on the left of its direction, so the turning stays too
			slices.Reverse(out.Edges[i].Points)
		}
	}
	return out
}
