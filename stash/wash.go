package stash

import (
	"fmt"

	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// True returns a plain length with straight ends, length long, and its line. It
// cannot be longer than it was.
func True(c Cloth, length measure.Length, note string) (Movement, Cloth, error) {
	after := c
	after.Length, after.RawStart, after.RawEnd = length, false, false
	switch {
	case !c.Plain():
		return Movement{}, c, invalid("Draw its outline again", "%s has an outline and no ends to cut straight", c.Code)
	case length <= 0 || length > c.Length:
		return Movement{}, c, invalid("Measure it again", "%s cannot be longer after its ends are cut straight", c.Code)
	}
	return Resized(Trued, c, after, note), after, nil
}

// Wash returns a cloth after washing, length by width, and its line. An outline is
// stretched or shrunk along both grains with its bounds; corners are rounded to
// whole µm. Washing is one event per cloth: a washed cloth is refused.
func Wash(c Cloth, length, width measure.Length, note string) (Movement, Cloth, error) {
	if c.Washed {
		return Movement{}, c, &Error{Kind: Conflict, What: fmt.Sprintf("%s is washed already", c.Code), Do: "Measure it again instead"}
	}
	if length <= 0 || width <= 0 {
		return Movement{}, c, invalid("Measure it after washing", "Length and width of %s must be more than zero", c.Code)
	}
	after := c
	after.Length, after.Width, after.Washed = length, width, true
	if !c.Plain() {
		after.Outline = scaled(c.Outline, c, after)
	}
	if err := after.Validate(); err != nil {
		return Movement{}, c, fmt.Errorf("washing %s: %w", c.Code, err)
	}
	return Resized(Washed, c, after, note), after, nil
}

// scaled returns an outline with its bounds brought from one size to another, its
// lower corner kept.
func scaled(p shape.Polygon, from, to Cloth) shape.Polygon {
	low := p.Bounds().Min
	ring := func(r shape.Ring) shape.Ring {
		out := make(shape.Ring, len(r))
		for i, q := range r {
			out[i] = shape.Point{
				X: low.X + part(q.X-low.X, to.Length, from.Length),
				Y: low.Y + part(q.Y-low.Y, to.Width, from.Width),
			}
		}
		return out
	}
	out := shape.Polygon{Outer: ring(p.Outer)}
	for _, h := range p.Holes {
		out.Holes = append(out.Holes, ring(h))
	}
	return out
}

// part returns x·num/den rounded half up; x ≥ 0, all under 2^30.
func part(x int64, num, den measure.Length) int64 {
	return (2*x*int64(num) + int64(den)) / (2 * int64(den))
}

// StillHold parts the live reservations on a cloth whose size changed into those
// that still lie on it and those that must be laid again, each in the order given.
func StillHold(c Cloth, live []Reservation) (held, lost []Reservation) {
	for _, r := range live {
		if CheckReservation(r, c, held) == nil {
			held = append(held, r)
		} else {
			lost = append(lost, r)
		}
	}
	return held, lost
}
