package planner

import (
	"context"
	"fmt"

	"tallycloth/planner/garment"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// keptFrom is the shortest end that is kept after cutting: long enough for two usual
// binding strips (ours).
const keptFrom = 10 * measure.Centimetre

// MarkCut notes that what was reserved for a garment is cut. Of each cloth the straight
// end beyond everything cut is kept as a length of its own, when it is 10 cm or longer;
// what else is left is discarded: leftovers worth keeping are added by their outline.
// Cloth on which something is reserved for another garment is refused: release that
// first, for its place would be gone with the cloth.
func (s *Studio) MarkCut(ctx context.Context, garmentID stash.ID) error {
	g, err := s.Garment(ctx, garmentID)
	if err != nil {
		return fmt.Errorf("marking a garment cut: %w", err)
	}
	return s.act(ctx, "Cut "+g.Name, func(tx Tx) error {
		now, err := tx.Garment(ctx, garmentID)
		if err != nil {
			return err
		}
		if now.State != garment.Reserved {
			return refused("Reserve its cloth first", "%s is %s", now.Name, now.State)
		}
		live, err := tx.Reservations(ctx, garmentID)
		if err != nil {
			return err
		}
		done := map[stash.ID]bool{}
		for _, r := range live {
			if done[r.ClothID] {
				continue
			}
			done[r.ClothID] = true
			if err := s.cutUp(ctx, tx, r.ClothID, garmentID); err != nil {
				return err
			}
		}
		return tx.PutGarment(ctx, s.changed(now, garment.Cut))
	})
}

// cutUp cuts all that is reserved on one cloth.
func (s *Studio) cutUp(ctx context.Context, tx Tx, clothID, garmentID stash.ID) error {
	c, err := tx.Cloth(ctx, clothID)
	if err != nil {
		return err
	}
	for _, r := range c.Reservations {
		if r.GarmentID != garmentID {
			return refused("Release that, or cut both together", "On %s something is reserved for another garment", c.Cloth.Code)
		}
	}
	cutting := stash.Cutting{Cloth: c.Cloth, Cut: c.Reservations}
	if rest, ok := s.straightEnd(c); ok {
		code, err := stash.NewCode(ctx, tx, rest.ID)
		if err != nil {
			return err
		}
		rest.Code = code
		cutting.Leftovers = append(cutting.Leftovers, rest)
	}
	lines, cloth, cut, err := stash.CutUp(cutting)
	if err != nil {
		return err
	}
	for _, r := range cut {
		if err := tx.PutReservation(ctx, r); err != nil {
			return err
		}
	}
	for _, k := range append([]stash.Cloth{cloth}, cutting.Leftovers...) {
		if err := tx.PutCloth(ctx, k); err != nil {
			return err
		}
	}
	for _, l := range lines {
		if err := tx.Append(ctx, l); err != nil {
			return err
		}
	}
	return nil
}

// straightEnd is the plain length beyond everything cut from a plain length.
func (s *Studio) straightEnd(c stash.ClothState) (stash.Cloth, bool) {
	var end int64
	for _, r := range c.Reservations {
		for _, p := range r.Pieces {
			end = max(end, p.Outline.Bounds().Max.X)
		}
	}
	rest := c.Cloth
	rest.Length -= measure.Length(end)
	if !c.Cloth.Plain() || rest.Length < keptFrom {
		return stash.Cloth{}, false
	}
	rest.ID, rest.CutFrom, rest.RawStart, rest.Outline = s.newID(), c.Cloth.ID, false, shape.Polygon{}
	return rest, true
}
