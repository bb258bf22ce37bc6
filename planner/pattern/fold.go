package pattern

import (
	"fmt"

	"tallycloth/stash/shape"
)

// foldSlack is how far the points of a drawn fold edge may lie off its line, in µm:
// editors round, a tenth of a millimetre is no cut.
const foldSlack = 100

// tracedSlack is the same for a fold edge taken from a picture.
const tracedSlack = 4_000

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
func (q *Piece) PutOnFold(side Side) error { return q.putOnFold(side, foldSlack) }

// PutTracedOnFold does the same for a piece taken from a picture, whose fold edge is only nearly
// straight and nearly along the grain: it may lie off by 4 mm.
func (q *Piece) PutTracedOnFold(side Side) error { return q.putOnFold(side, tracedSlack) }

func (q *Piece) putOnFold(side Side, slack int64) error {
	put := make(map[string]Outline, len(q.Outlines))
	for size, o := range q.Outlines {
		left, right := o.moved(false, -o.Cut.Bounds().Min.Y), o.moved(true, o.Cut.Bounds().Max.Y)
		a, b := left.snap(slack) && side != RightSide, right.snap(slack) && side != LeftSide
		switch {
		case a && b:
			return invalid(fmt.Sprintf("%s is straight on both sides in size %s", q.called(), size), "Say whether its left or its right edge lies on the fold.")
		case a:
			put[size] = left
		case b:
			put[size] = right
		default:
			return invalid(fmt.Sprintf("%s has no straight edge along the grain there in size %s", q.called(), size),
				"Draw the fold edge straight up the page at one side of the pattern piece, or cut it whole.")
		}
	}
	q.Outlines, q.OnFold = put, true
	return nil
}

// snap pulls points that nearly lie on the fold onto it and says whether there is one
// stretch of fold edge then.
func (o *Outline) snap(slack int64) bool {
	for i := range o.Cut {
		if o.Cut[i].Y <= slack {
			o.Cut[i].Y = 0
		}
	}
	o.Cut = o.Cut.Clean()
	return o.Cut.Validate() == nil && HasFoldEdge(o.Cut)
}

// moved returns a copy of everything on the outline, mirrored about y = 0 if mirror,
// then moved by dy.
func (o Outline) moved(mirror bool, dy int64) Outline {
	return o.copied().at(shape.Placement{Mirror: mirror, At: shape.Point{Y: dy}})
}

// OpenOut makes a piece on the fold a whole one, mirrored about its fold edge. Notches and dots come on
// both halves; edges to finish stay on the half on which they are measured. Errors: an outline that
// cannot be cut then.
func (q *Piece) OpenOut() error {
	if !q.OnFold {
		return nil
	}
	put := make(map[string]Outline, len(q.Outlines))
	for size, o := range q.Outlines {
		other := o.moved(true, 0)
		whole := o.copied()
		whole.Cut = Unfold(o.Cut)
		if err := whole.Cut.Validate(); err != nil {
			return invalid(fmt.Sprintf("%s cannot be opened out in size %s", q.called(), size), "Look at its fold edge first.")
		}
		for _, n := range other.Notches {
			if n.At.Y != 0 {
				whole.Notches = append(whole.Notches, n)
			}
		}
		for _, d := range other.Dots {
			if d.Y != 0 {
				whole.Dots = append(whole.Dots, d)
			}
		}
		whole.Inner = append(whole.Inner, other.Inner...)
		put[size] = whole
	}
	q.Outlines, q.OnFold = put, false
	return nil
}
