package pattern

import (
	"fmt"
	"maps"
	"math"
	"slices"

	"tallycloth/stash/shape"
)

// reach is how far off the cutting line a notch may be set and still be taken to it, in µm.
const reach = 20_000

// Change is what is done to the outline of a pattern piece in one size. It gets a copy.
type Change func(Outline) (Outline, error)

// Edited returns a copy of the pattern in which a piece is changed in some sizes, all it has where none
// are named. A change after which an outline could not be cut, such as one that crosses itself, is
// refused with the reason and the size; the pattern itself is left alone.
func (p Pattern) Edited(code string, sizes []string, c Change) (Pattern, error) {
	return p.EditedPiece(code, func(q *Piece) error {
		if len(sizes) == 0 {
			for _, z := range p.Sizes {
				sizes = append(sizes, z.Name)
			}
		}
		for _, z := range sizes {
			o, ok := q.Outlines[z]
			if !ok {
				continue
			}
			o, err := c(o.copied())
			if err != nil {
				return fmt.Errorf("%s in size %s: %w", q.called(), z, err)
			}
			q.Outlines[z] = o.notched()
		}
		return nil
	})
}

// EditedPiece returns a copy of the pattern in which a piece is changed as a whole: its name, how
// many are cut, what from. It is refused like Edited.
func (p Pattern) EditedPiece(code string, change func(*Piece) error) (Pattern, error) {
	i := slices.IndexFunc(p.Pieces, func(q Piece) bool { return q.Code == code })
	if i < 0 {
		return p, invalid(fmt.Sprintf("there is no pattern piece %s", code), "Choose one of the pattern pieces.")
	}
	q := p.Pieces[i]
	q.Outlines = maps.Clone(q.Outlines)
	if err := change(&q); err != nil {
		return p, err
	}
	out := p
	out.Pieces = slices.Clone(p.Pieces)
	out.Pieces[i] = q
	if err := out.Validate(); err != nil {
		return p, err
	}
	return out, nil
}

// copied is a copy that shares nothing.
func (o Outline) copied() Outline {
	o.Cut, o.Notches, o.Dots = slices.Clone(o.Cut), slices.Clone(o.Notches), slices.Clone(o.Dots)
	o.MatchMarks, o.Inner, o.Edges = slices.Clone(o.MatchMarks), slices.Clone(o.Inner), slices.Clone(o.Edges)
	for i := range o.Inner {
		o.Inner[i] = slices.Clone(o.Inner[i])
	}
	for i := range o.Edges {
		o.Edges[i].Points = slices.Clone(o.Edges[i].Points)
	}
	return o
}

// notched brings notches that a change left beside the cutting line back onto it.
func (o Outline) notched() Outline {
	for i, n := range o.Notches {
		o.Notches[i].At = Onto(o.Cut, n.At)
	}
	return o
}

// Onto is the place on a ring that is nearest to a point.
func Onto(r shape.Ring, p shape.Point) shape.Point {
	if len(r) == 0 {
		return p
	}
	side, part, _ := NearestSide(r, p)
	a := r[side]
	ab := r[(side+1)%len(r)].Sub(a)
	return shape.Point{X: a.X + int64(math.Round(part*float64(ab.X))), Y: a.Y + int64(math.Round(part*float64(ab.Y)))}
}

// NearestSide is the side of a ring that is nearest to a point, by the index of its first point, which
// part of it lies before the place there, and how far away that is in µm.
func NearestSide(r shape.Ring, p shape.Point) (side int, part, gap float64) {
	gap = math.Inf(1)
	for i, a := range r {
		ab, ap := r[(i+1)%len(r)].Sub(a), p.Sub(a)
		x, y := float64(ab.X), float64(ab.Y)
		k := 0.0
		if l := x*x + y*y; l > 0 {
			k = min(1, max(0, (float64(ap.X)*x+float64(ap.Y)*y)/l))
		}
		if d := math.Hypot(float64(ap.X)-k*x, float64(ap.Y)-k*y); d < gap {
			side, part, gap = i, k, d
		}
	}
	return side, part, gap
}

// nearest is how far a point lies from a ring.
func nearest(r shape.Ring, p shape.Point) float64 {
	_, _, gap := NearestSide(r, p)
	return gap
}

func nearestCorner(r shape.Ring, p shape.Point) int {
	best, at := math.Inf(1), 0
	for i, q := range r {
		if d := math.Hypot(float64(q.X-p.X), float64(q.Y-p.Y)); d < best {
			best, at = d, i
		}
	}
	return at
}

// AddPoint adds a corner to the cutting line, on it where a place is nearest.
func AddPoint(near shape.Point) Change {
	return func(o Outline) (Outline, error) {
		at := Onto(o.Cut, near)
		for i, a := range o.Cut {
			b := o.Cut[(i+1)%len(o.Cut)]
			if at != a && at != b && nearest(shape.Ring{a, b}, at) < 1.5 {
				o.Cut = slices.Insert(o.Cut, i+1, at)
				return o, nil
			}
		}
		return o, invalid("there is a corner already", "Choose a place between two corners.")
	}
}

// RemovePoint takes the corner nearest to a place away.
func RemovePoint(near shape.Point) Change {
	return func(o Outline) (Outline, error) {
		if len(o.Cut) < 4 {
			return o, invalid("an outline has three corners at least", "Move the corner instead.")
		}
		k := nearestCorner(o.Cut, near)
		o.Cut = slices.Delete(o.Cut, k, k+1)
		return o, nil
	}
}

// AddNotch sets a notch on the cutting line where a place is nearest to it, within 2 cm.
func AddNotch(at shape.Point, kind string) Change {
	return func(o Outline) (Outline, error) {
		if nearest(o.Cut, at) > reach {
			return o, invalid("the place is more than 2 cm off the cutting line", "Choose a place on the line.")
		}
		o.Notches = append(o.Notches, Notch{At: Onto(o.Cut, at), Kind: kind})
		return o, nil
	}
}

// RemoveNotch takes away the notch nearest to a place, within 2 cm.
func RemoveNotch(at shape.Point) Change {
	return func(o Outline) (Outline, error) {
		best, k := float64(reach), -1
		for i, n := range o.Notches {
			if d := math.Hypot(float64(n.At.X-at.X), float64(n.At.Y-at.Y)); d <= best {
				best, k = d, i
			}
		}
		if k < 0 {
			return o, invalid("there is no notch within 2 cm", "Choose a place nearer to one.")
		}
		o.Notches = slices.Delete(o.Notches, k, k+1)
		return o, nil
	}
}

// SetGrain makes a line from foot to top the grain line: the piece is turned so that it runs along x, the
// top end towards −x.
func SetGrain(foot, top shape.Point) Change {
	return func(o Outline) (Outline, error) {
		d := top.Sub(foot)
		if d == (shape.Point{}) {
			return o, invalid("the grain line has no length", "Draw it from its lower to its top end.")
		}
		o.GrainFoot, o.GrainTop = foot, top
		degrees := math.Atan2(float64(d.Y), float64(d.X)) * 180 / math.Pi
		return o.placed(shape.Placement{Angle: shape.Angle(math.Round((180 - degrees) * 1000))}), nil
	}
}

// TurnGrain turns the grain line by so much against the piece, counter-clockwise.
func TurnGrain(by shape.Angle) Change {
	return func(o Outline) (Outline, error) {
		sin, cos := math.Sincos(float64(by) / 1000 * math.Pi / 180)
		d := o.GrainTop.Sub(o.GrainFoot)
		if d == (shape.Point{}) {
			d = shape.Point{X: -100_000}
		}
		x, y := float64(d.X), float64(d.Y)
		top := o.GrainFoot.Add(shape.Point{X: int64(math.Round(x*cos - y*sin)), Y: int64(math.Round(x*sin + y*cos))})
		return SetGrain(o.GrainFoot, top)(o)
	}
}

// Mirror turns the piece over, left for right.
func Mirror(o Outline) (Outline, error) { return o.placed(shape.Placement{Mirror: true}), nil }

// placed moves all that is drawn, its box then beginning at the origin.
func (o Outline) placed(p shape.Placement) Outline {
	b := p.Apply(o.Cut).Bounds()
	p.At = p.At.Sub(b.Min)
	return o.at(p)
}

// at moves all that is drawn.
func (o Outline) at(p shape.Placement) Outline {
	line := func(pts []shape.Point) []shape.Point {
		out := make([]shape.Point, len(pts))
		for i, q := range pts {
			out[i] = p.ApplyPoint(q)
		}
		return out
	}
	o.Cut = p.Apply(o.Cut)
	o.GrainFoot, o.GrainTop = p.ApplyPoint(o.GrainFoot), p.ApplyPoint(o.GrainTop)
	if o.Dots != nil {
		o.Dots = line(o.Dots)
	}
	for i := range o.Notches {
		o.Notches[i].At = p.ApplyPoint(o.Notches[i].At)
	}
	for i := range o.Inner {
		o.Inner[i] = line(o.Inner[i])
	}
	for i := range o.MatchMarks {
		o.MatchMarks[i].X += p.At.X
	}
	for i := range o.Edges {
		o.Edges[i].Points = line(o.Edges[i].Points)
		if p.Mirror { // the garment stays on the left of its direction, so the turning stays too
			slices.Reverse(o.Edges[i].Points)
		}
	}
	return o
}
