package planner

import (
	"cmp"
	"context"
	"fmt"
	"slices"

	"tallycloth/planner/match"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/shape"
)

// CutAnew is where a spoiled pattern piece is cut again.
type CutAnew struct {
	Cloth   stash.ClothState // with the new outline reserved
	Outline shape.Ring
	// Elsewhere says that what is left of its own cloth was not enough.
	Elsewhere bool
}

// CutAgain notes that one outline of a reservation was spoiled in cutting, and lays it out again
// on what is left of its cloth, the same way round; where there is no room, on other cloth of
// the fabric that is washed, or not, as that is, of the same lot and leftovers first. The spoiled outline stays reserved as such and
// is gone with the rest when the garment is marked cut. It is refused, and nothing noted,
// where no cloth has room.
func (s *Studio) CutAgain(ctx context.Context, reservation stash.ID, piece int) (CutAnew, error) {
	was, err := s.spoilable(ctx, reservation, piece)
	if err != nil {
		return CutAnew{}, err
	}
	g, err := s.Garment(ctx, was.GarmentID)
	if err != nil {
		return CutAnew{}, fmt.Errorf("cutting a pattern piece again: %w", err)
	}
	p := was.Pieces[piece]
	on, made, err := s.roomAgain(ctx, was, p)
	if err != nil {
		return CutAnew{}, err
	}
	out := CutAnew{Outline: made.Outline, Elsewhere: on.Cloth.ID != was.ClothID}
	err = s.act(ctx, fmt.Sprintf("Spoiled %s of %s, cut again from %s", p.Name, g.Name, on.Cloth.Code), func(tx Tx) error {
		if err := unchanged(ctx, tx, on); err != nil {
			return err
		}
		line, gone := stash.ReleasedLine(was, p.Name+" was spoiled")
		if err := tx.PutReservation(ctx, gone); err != nil {
			return err
		}
		if err := tx.Append(ctx, line); err != nil {
			return err
		}
		now := was
		now.ID, now.At, now.Pieces = s.newID(), s.now(), slices.Clone(was.Pieces)
		now.Pieces[piece].Spoiled = true
		if !out.Elsewhere {
			now.Pieces = append(now.Pieces, made)
		}
		if err := keep(ctx, tx, now); err != nil {
			return err
		}
		if out.Elsewhere {
			return keep(ctx, tx, stash.Reservation{ID: s.newID(), ClothID: on.Cloth.ID, GarmentID: was.GarmentID, UsedFor: was.UsedFor,
				Pieces: []stash.ReservedPiece{made}, Live: true, At: s.now()})
		}
		return nil
	})
	if err != nil {
		return CutAnew{}, err
	}
	out.Cloth, err = s.Cloth(ctx, on.Cloth.ID)
	return out, err
}

// spoilable finds a reservation with an outline that may be noted as spoiled.
func (s *Studio) spoilable(ctx context.Context, id stash.ID, piece int) (stash.Reservation, error) {
	all, err := s.Cloths(ctx)
	if err != nil {
		return stash.Reservation{}, fmt.Errorf("cutting a pattern piece again: %w", err)
	}
	for _, c := range all {
		for _, r := range c.Reservations {
			switch {
			case r.ID != id:
			case piece < 0 || piece >= len(r.Pieces):
				return r, invalid("Choose one of them", "There are only %d outlines", len(r.Pieces))
			case r.Pieces[piece].Spoiled:
				return r, refused("Choose the one that was cut for it", "%s is noted as spoiled already", r.Pieces[piece].Name)
			case r.Pieces[piece].GrainTo == (shape.Point{}):
				return r, refused("Release the cloth and reserve it again", "It is not known how %s lies on the grain", r.Pieces[piece].Name)
			default:
				return r, nil
			}
		}
	}
	return stash.Reservation{}, &stash.Error{Kind: stash.NotFound, What: "It is not reserved any more", Do: "Look at the garment again"}
}

// roomAgain finds cloth for an outline that lies on it as the spoiled one did.
func (s *Studio) roomAgain(ctx context.Context, was stash.Reservation, p stash.ReservedPiece) (stash.ClothState, stash.ReservedPiece, error) {
	own, err := s.Cloth(ctx, was.ClothID)
	if err != nil {
		return own, p, fmt.Errorf("cutting a pattern piece again: %w", err)
	}
	set, err := s.Settings(ctx)
	if err != nil {
		return own, p, fmt.Errorf("cutting a pattern piece again: %w", err)
	}
	q, err := alone(p, set)
	if err != nil {
		return own, p, err
	}
	all, err := s.Cloths(ctx)
	if err != nil {
		return own, p, fmt.Errorf("cutting a pattern piece again: %w", err)
	}
	for _, c := range nearestFirst(own, all) {
		if c.Cloth.Washed != own.Cloth.Washed {
			continue // it would shrink, or not, unlike the rest of the garment
		}
		v, err := q.Check(ctx, asItLies(c))
		if err != nil {
			return own, p, fmt.Errorf("cutting a pattern piece again: %w", err)
		}
		if v.Grade > match.EnoughIf || v.Layout == nil || len(v.Layout.Pieces) != 1 {
			continue
		}
		laid := v.Layout.Pieces[0]
		turn := laid.Place
		turn.At = shape.Point{}
		return c, stash.ReservedPiece{Name: p.Name, Outline: laid.Outline, GrainTo: turn.ApplyPoint(p.GrainTo)}, nil
	}
	washed, do := "unwashed", "Buy more of it, or find other fabric for the garment"
	if own.Cloth.Washed {
		washed, do = "washed", "Wash some, buy more of it, or find other fabric for the garment"
	}
	return own, p, refused(do, "No %s cloth of %s has room for another %s, as the rest of the garment is %s",
		washed, own.Fabric.Name, p.Name, washed)
}

// alone is the question whether one outline lies on a cloth in one layer, as it was laid.
func alone(p stash.ReservedPiece, set Settings) (*match.Question, error) {
	const size = "as laid"
	low := p.Outline.Bounds().Min
	pat := pattern.Pattern{Name: p.Name, Sizes: []pattern.Size{{Name: size}}, Roles: []pattern.Role{{Name: pattern.Main}},
		Pieces: []pattern.Piece{{Code: p.Name, Name: p.Name, Role: pattern.Main, Cut: 1, Fixed: true,
			Outlines: map[string]pattern.Outline{size: {Cut: p.Outline.Move(shape.Point{X: -low.X, Y: -low.Y})}}}}}
	return match.New(match.Ask{Pattern: pat, Size: size, Role: pattern.Main, Clearance: set.Clearance, EndLoss: set.EndLoss, Tilt: set.Tilt})
}

// asItLies is a cloth for an outline that was laid already: its size before washing is in it, and
// it may not be turned round among others that lie the same way.
func asItLies(c stash.ClothState) stash.ClothState {
	c.Cloth.Washed = true
	if c.Fabric.Direction == stash.SameWayInGarment {
		c.Fabric.Direction = stash.SameWayForAll
	}
	return c
}

// nearestFirst are a cloth and others of its fabric: the same lot first, then the smallest.
func nearestFirst(own stash.ClothState, all []stash.ClothState) []stash.ClothState {
	out := []stash.ClothState{own}
	for _, c := range all {
		if c.Fabric.ID == own.Fabric.ID && c.Cloth.ID != own.Cloth.ID && !c.Cloth.Gone {
			out = append(out, c)
		}
	}
	slices.SortStableFunc(out[1:], func(a, b stash.ClothState) int {
		other := func(c stash.ClothState) int {
			if c.Cloth.Lot == own.Cloth.Lot {
				return 0
			}
			return 1
		}
		return cmp.Or(cmp.Compare(other(a), other(b)), cmp.Compare(a.FreeArea, b.FreeArea))
	})
	return out
}
