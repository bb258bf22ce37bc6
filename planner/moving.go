package planner

import (
	"context"
	"fmt"
	"strings"

	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// MoveCloth notes where a cloth is kept now.
func (s *Studio) MoveCloth(ctx context.Context, clothID stash.ID, place string) error {
	c, err := s.Cloth(ctx, clothID)
	if err != nil {
		return fmt.Errorf("moving cloth: %w", err)
	}
	place = strings.TrimSpace(place)
	switch {
	case c.Cloth.Gone:
		return refused("Look at its history", "%s is gone already", c.Cloth.Code)
	case place == "":
		return invalid("Say where it is kept, such as “hall cupboard”", "%s was moved nowhere", c.Cloth.Code)
	case place == c.Cloth.Place:
		return refused("Nothing needs to be noted", "%s is kept there already", c.Cloth.Code)
	}
	return s.act(ctx, fmt.Sprintf("Moved %s to %s", c.Cloth.Code, place), func(tx Tx) error {
		now, err := tx.Cloth(ctx, clothID)
		if err != nil {
			return err
		}
		line, after := stash.Move(now.Cloth, place)
		if err := tx.PutCloth(ctx, after); err != nil {
			return err
		}
		return tx.Append(ctx, line)
	})
}

// Flaw is a hole or a stain: its middle by the distance along the grain from the end
// where measuring starts and across from the low edge, and how large it is.
type Flaw struct {
	ClothID       stash.ID
	Along, Across measure.Length
	Length, Width measure.Length
	Note          string
}

// FlawFound notes a flaw in a cloth; nothing is cut over it from then on. What was
// reserved over it is laid again, or released where it finds no room.
func (s *Studio) FlawFound(ctx context.Context, f Flaw) (Resized, error) {
	c, err := s.Cloth(ctx, f.ClothID)
	if err != nil {
		return Resized{}, fmt.Errorf("noting a flaw: %w", err)
	}
	switch {
	case c.Cloth.Gone:
		return Resized{}, refused("Look at its history", "%s is gone already", c.Cloth.Code)
	case f.Length < measure.Millimetre || f.Width < measure.Millimetre:
		return Resized{}, invalid("Measure how large it is, with a little to spare", "A flaw is 1 mm long and wide at least")
	}
	line, after, err := stash.Flaw(c.Cloth, stash.FlawAt(shape.Point{X: int64(f.Along), Y: int64(f.Across)}, f.Length, f.Width), f.Note)
	if err != nil {
		return Resized{}, err
	}
	var out Resized
	err = s.resize(ctx, c, after, c.Fabric, line, fmt.Sprintf("Found a flaw in %s", c.Cloth.Code), &out, false)
	return out, err
}
