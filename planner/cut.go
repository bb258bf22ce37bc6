package planner

import (
	"cmp"
	"context"
	"fmt"
	"slices"

	"tallycloth/planner/garment"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// keptFrom is the shortest rest that is kept after cutting: long enough for two usual
// binding strips (ours).
const keptFrom = 10 * measure.Centimetre

// MarkCut notes that what was reserved for a garment is cut. Of each plain
// length the longest rest over the whole width is kept, when it is 10 cm or longer; what
// else is left is discarded: leftovers worth keeping are added by their outline.
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
	if rest, ok := s.straightRest(c); ok {
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

// straightRest is the longest plain length over the whole width that nothing was cut
// from, of a plain length; strips may lie at its far end.
func (s *Studio) straightRest(c stash.ClothState) (stash.Cloth, bool) {
	if !c.Cloth.Plain() {
		return stash.Cloth{}, false
	}
	var taken []shape.Box
	for _, r := range c.Reservations {
		for _, p := range r.Pieces {
			taken = append(taken, p.Outline.Bounds())
		}
	}
	slices.SortFunc(taken, func(a, b shape.Box) int { return cmp.Compare(a.Min.X, b.Min.X) })
	end := shape.Point{X: int64(c.Cloth.Length)}
	at, from, most := int64(0), int64(0), int64(0)
	for _, b := range append(taken, shape.Box{Min: end, Max: end}) {
		if gap := b.Min.X - at; gap > most {
			from, most = at, gap
		}
		at = max(at, b.Max.X)
	}
	rest := c.Cloth
	rest.ID, rest.CutFrom, rest.Length = s.newID(), c.Cloth.ID, measure.Length(most)
	rest.RawStart = rest.RawStart && from == 0
	rest.RawEnd = rest.RawEnd && from+most == end.X
	return rest, rest.Length >= keptFrom
}
