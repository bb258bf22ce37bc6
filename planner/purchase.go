package planner

import (
	"context"
	"fmt"
	"strings"

	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// arrive puts a new cloth with a code of its own and its line of history.
func arrive(ctx context.Context, tx Tx, kind stash.MovementKind, c stash.Cloth, note string) error {
	code, err := stash.NewCode(ctx, tx, c.ID)
	if err != nil {
		return err
	}
	c.Code = code
	if err := tx.PutCloth(ctx, c); err != nil {
		return err
	}
	return tx.Append(ctx, stash.Arrived(kind, c, note))
}

// widthSlack is the part of its fabric's width that a leftover may be wider than that: it
// relaxes, and no two readings agree (ours: 2 %).
const widthSlack = 50

// AddLeftover adds a leftover that was there before the library, by its outline or by
// length and width. One that is wider than its fabric is refused.
func (s *Studio) AddLeftover(ctx context.Context, f LeftoverForm) (stash.ClothState, error) {
	fab, err := s.leftoverFabric(ctx, f)
	if err != nil {
		return stash.ClothState{}, fmt.Errorf("adding a leftover: %w", err)
	}
	c := stash.Cloth{ID: s.newID(), FabricID: fab.ID, Lot: f.Lot, Place: f.Place, Length: f.Length, Width: f.Width,
		SelvedgeLow: f.SelvedgeLow, SelvedgeHigh: f.SelvedgeHigh, Washed: f.Washed, Notes: f.Notes}
	if len(f.Outline.Outer) > 0 {
		if err := checkOutline(f.Outline); err != nil {
			return stash.ClothState{}, err
		}
		if f.SelvedgeLow && !AlongEdge(f.Outline, true) || f.SelvedgeHigh && !AlongEdge(f.Outline, false) {
			return stash.ClothState{}, invalid("Say again which sides are selvedges", "No side of the leftover runs along the grain where its selvedge should be")
		}
		c = c.Shaped(f.Outline)
	}
	if c.Length <= 0 || c.Width <= 0 {
		return stash.ClothState{}, invalid("Measure its length and width, or trace its outline", "The leftover has no size")
	}
	wide := s.style(ctx, measure.Width)
	if full := fab.OpenWidth(); c.Width > full+full/widthSlack {
		return stash.ClothState{}, invalid("Is the full width right? Correct that of the fabric, or look which side runs along the selvedge",
			"%s is %s wide from selvedge to selvedge, and this leftover would be %s wide", fab.Name, wide.Format(full), wide.Format(c.Width))
	}
	sentence := fmt.Sprintf("Added a leftover of %s, %s × %s", fab.Name, wide.Format(c.Length), wide.Format(c.Width))
	err = s.act(ctx, sentence, func(tx Tx) error {
		if f.FabricID == stash.NoID {
			if err := tx.PutFabric(ctx, fab); err != nil {
				return err
			}
		}
		return arrive(ctx, tx, stash.Added, c, f.Notes)
	})
	if err != nil {
		return stash.ClothState{}, err
	}
	return s.Cloth(ctx, c.ID)
}

// leftoverFabric is the fabric a leftover is of: a known one, or a new one that is described.
func (s *Studio) leftoverFabric(ctx context.Context, f LeftoverForm) (stash.Fabric, error) {
	if f.FabricID != stash.NoID {
		return s.Fabric(ctx, f.FabricID)
	}
	fab := f.Fabric
	if fab.Name = strings.TrimSpace(fab.Name); fab.Name == "" {
		return fab, invalid("Choose the fabric it is of, or describe it", "The leftover has no fabric")
	}
	fab.ID = s.newID()
	return fab, fab.Validate()
}

// TrueEnds notes that both ends of a plain length were straightened, and what is left of it.
func (s *Studio) TrueEnds(ctx context.Context, clothID stash.ID, newLength measure.Length) error {
	c, err := s.Cloth(ctx, clothID)
	if err != nil {
		return fmt.Errorf("cutting ends straight: %w", err)
	}
	sentence := fmt.Sprintf("Cut the ends of %s straight, %s of %s is left", c.Cloth.Code, s.long(ctx, newLength), c.Fabric.Name)
	return s.act(ctx, sentence, func(tx Tx) error {
		now, err := tx.Cloth(ctx, clothID)
		if err != nil {
			return err
		}
		line, after, err := stash.True(now.Cloth, newLength, "")
		if err != nil {
			return err
		}
		if err := stash.CheckCloth(after, now.Reservations); err != nil {
			return err
		}
		if err := tx.PutCloth(ctx, after); err != nil {
			return err
		}
		return tx.Append(ctx, line)
	})
}

// GiveAway notes that a cloth was given away whole. Cloth with reserved parts stays.
func (s *Studio) GiveAway(ctx context.Context, clothID stash.ID, note string) error {
	return s.leave(ctx, clothID, stash.GivenAway, "Gave %s away, %s", note)
}

// Discard notes that a cloth was thrown away whole. Cloth with reserved parts stays.
func (s *Studio) Discard(ctx context.Context, clothID stash.ID, note string) error {
	return s.leave(ctx, clothID, stash.Discarded, "Discarded %s, %s", note)
}

func (s *Studio) leave(ctx context.Context, clothID stash.ID, kind stash.MovementKind, sentence, note string) error {
	c, err := s.Cloth(ctx, clothID)
	if err != nil {
		return fmt.Errorf("taking cloth off the shelf: %w", err)
	}
	return s.act(ctx, fmt.Sprintf(sentence, c.Cloth.Code, c.Fabric.Name), func(tx Tx) error {
		now, err := tx.Cloth(ctx, clothID)
		switch {
		case err != nil:
			return err
		case now.Cloth.Gone:
			return refused("Look at its history", "%s is gone already", now.Cloth.Code)
		case len(now.Reservations) > 0:
			return refused("Release what is reserved first", "Part of %s is reserved", now.Cloth.Code)
		}
		line, after := stash.Left(kind, now.Cloth, note)
		if err := tx.PutCloth(ctx, after); err != nil {
			return err
		}
		return tx.Append(ctx, line)
	})
}
