package stash

import (
	"fmt"

	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// Move returns a cloth that is kept elsewhere now, and its line.
func Move(c Cloth, place string) (Movement, Cloth) {
	after := c
	after.Place = place
	note := "to " + place
	if place == "" {
		note = "nobody knows where to"
	}
	return Movement{Kind: Moved, ClothID: c.ID, Note: note}, after
}

// Flaw returns a cloth with a flaw, a hole or a stain that nothing may be cut over, and
// its line, which takes the flaw's area off. A flaw lies within the cloth and away from
// its edges and other flaws; one at the edge is measured away instead. A plain length
// has an outline from then on.
func Flaw(c Cloth, flaw shape.Ring, note string) (Movement, Cloth, error) {
	if err := flaw.Validate(); err != nil {
		return Movement{}, c, &Error{Kind: Invalid, What: "The flaw has no closed and simple outline", Do: "Draw it again", Err: err}
	}
	if !shape.Inside(flaw, c.Polygon()) {
		return Movement{}, c, invalid("Measure where it lies again; at the edge, measure the cloth without it", "The flaw does not lie within %s", c.Code)
	}
	after := c
	p := c.Polygon()
	after.Outline = shape.Polygon{Outer: p.Outer, Holes: append(append([]shape.Ring{}, p.Holes...), flaw.Reverse())}
	after.RawStart, after.RawEnd = false, false
	if err := after.Validate(); err != nil {
		return Movement{}, c, fmt.Errorf("noting a flaw in %s: %w", c.Code, err)
	}
	return Resized(FlawFound, c, after, note), after, nil
}

// FlawAt is the outline of a flaw about a place: an upright rectangle with its corners
// cut.
func FlawAt(at shape.Point, length, width measure.Length) shape.Ring {
	l, w := int64(length)/2, int64(width)/2
	dl, dw := l*3/10, w*3/10
	return shape.Ring{
		{X: at.X - l + dl, Y: at.Y - w}, {X: at.X + l - dl, Y: at.Y - w}, {X: at.X + l, Y: at.Y - w + dw}, {X: at.X + l, Y: at.Y + w - dw},
		{X: at.X + l - dl, Y: at.Y + w}, {X: at.X - l + dl, Y: at.Y + w}, {X: at.X - l, Y: at.Y + w - dw}, {X: at.X - l, Y: at.Y - w + dw},
	}
}
