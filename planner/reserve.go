package planner

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"reflect"
	"slices"

	"tallycloth/planner/garment"
	"tallycloth/planner/match"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/shape"
)

// Reserve keeps the cloth of a finding for a garment, as its layout lies, or by the
// yardage table the length it says, over the whole width; strips that the layout holds
// are reserved apart, as binding. The library is looked at again in
// the same act: when the cloth changed since the finding, a part of it was reserved, or the
// layout breaks a rule of cutting, it is refused with the reason. A garment that was wanted is then reserved.
func (s *Studio) Reserve(ctx context.Context, garmentID stash.ID, f Finding, usedFor string) ([]stash.Reservation, error) {
	g, err := s.Garment(ctx, garmentID)
	if err != nil {
		return nil, fmt.Errorf("reserving cloth: %w", err)
	}
	code := f.Cloth.Cloth.Code
	switch {
	case f.Verdict.Grade > match.EnoughIf || f.Verdict.Layout == nil && len(f.Verdict.Keep) == 0:
		return nil, refused("Choose cloth that is enough", "There is no layout on %s to reserve", code)
	}
	set, err := s.Settings(ctx)
	if err != nil {
		return nil, fmt.Errorf("reserving cloth: %w", err)
	}
	usedFor = cmp.Or(usedFor, pattern.Main)
	made := s.reservations(garmentID, f, usedFor)
	err = s.act(ctx, fmt.Sprintf("Reserved %s of %s for %s", code, f.Cloth.Fabric.Name, g.Name), func(tx Tx) error {
		now, err := tx.Garment(ctx, garmentID)
		if err != nil {
			return err
		}
		if err := mayReserve(ctx, tx, now, made); err != nil {
			return err
		}
		if err := unchanged(ctx, tx, f.Cloth); err != nil {
			return err
		}
		if err := holds(ctx, tx, set, f, now, usedFor); err != nil {
			return err
		}
		for _, r := range made {
			if err := keep(ctx, tx, r); err != nil {
				return err
			}
		}
		return tx.PutGarment(ctx, s.changed(now, garment.Reserved))
	})
	if err != nil {
		return nil, err
	}
	return made, nil
}

// mayReserve says whether a garment can take cloth now for what it is used for.
func mayReserve(ctx context.Context, tx Tx, g garment.Garment, made []stash.Reservation) error {
	if g.State != garment.Wanted && g.State != garment.Reserved {
		return refused("Add another garment for it", "%s is %s already", g.Name, g.State)
	}
	live, err := tx.Reservations(ctx, g.ID)
	if err != nil {
		return err
	}
	for _, r := range live {
		if slices.ContainsFunc(made, func(m stash.Reservation) bool { return m.UsedFor == r.UsedFor }) {
			return refused("Release that first", "%s has cloth reserved as %s already", g.Name, r.UsedFor)
		}
	}
	return nil
}

// unchanged refuses cloth that is no longer as it was looked at. What was reserved on
// it meanwhile matters only where it overlaps, which the store checks.
func unchanged(ctx context.Context, tx Tx, seen stash.ClothState) error {
	now, err := tx.Cloth(ctx, seen.Cloth.ID)
	if errors.Is(err, stash.ErrNotFound) {
		return refused("Choose another cloth", "%s is not in the library any more", seen.Cloth.Code)
	}
	if err != nil {
		return err
	}
	return changedSince(seen, now)
}

// changedSince refuses cloth that is gone or of another size than it was seen as.
func changedSince(seen, now stash.ClothState) error {
	switch a, b := seen.Cloth, now.Cloth; {
	case b.Gone:
		return refused("Choose another cloth", "%s is gone", b.Code)
	case a.Length != b.Length || a.Width != b.Width || a.Washed != b.Washed || !sameOutline(a.Outline, b.Outline):
		return refused("Look again whether it is enough", "%s has changed since it was looked at", b.Code)
	}
	return nil
}

func sameOutline(a, b shape.Polygon) bool {
	return len(a.Outer) == 0 && len(b.Outer) == 0 || reflect.DeepEqual(a.Outer, b.Outer) && len(a.Holes) == len(b.Holes)
}

// keep puts a reservation with its line of history.
func keep(ctx context.Context, tx Tx, r stash.Reservation) error {
	if err := tx.PutReservation(ctx, r); err != nil {
		return err
	}
	return tx.Append(ctx, stash.ReservedLine(r, r.UsedFor))
}

// reservations turns a layout into what is kept: pattern pieces for the use, strips as
// binding.
func (s *Studio) reservations(garmentID stash.ID, f Finding, usedFor string) []stash.Reservation {
	byUse := map[string]*stash.Reservation{}
	var order []string
	if f.Verdict.Layout == nil {
		return []stash.Reservation{{ID: s.newID(), ClothID: f.Cloth.Cloth.ID, GarmentID: garmentID, UsedFor: usedFor, Live: true, At: s.now(),
			Pieces: []stash.ReservedPiece{{Name: "by the yardage table", Outline: f.Verdict.Keep, GrainTo: grainTop(shape.Placement{})}}}}
	}
	for _, p := range f.Verdict.Layout.Pieces {
		use := usedFor
		if p.Role == pattern.Binding {
			use = pattern.Binding
		}
		r := byUse[use]
		if r == nil {
			r = &stash.Reservation{ID: s.newID(), ClothID: f.Cloth.Cloth.ID, GarmentID: garmentID, UsedFor: use, Live: true, At: s.now()}
			byUse[use] = r
			order = append(order, use)
		}
		r.Pieces = append(r.Pieces, stash.ReservedPiece{Name: p.Name, Outline: p.Outline, GrainTo: grainTop(p.Place)})
	}
	var out []stash.Reservation
	for _, use := range order {
		out = append(out, *byUse[use])
	}
	return out
}

// grainTop points where the top of a placed piece's grain arrow points, 1 mm long. In
// the piece's own frame the top is towards −x.
func grainTop(p shape.Placement) shape.Point {
	p.At = shape.Point{}
	return p.ApplyPoint(shape.Point{X: -1000})
}

// Release gives all cloth reserved for a garment back, and says how many reservations
// that were. A garment that was reserved is wanted again. Nothing reserved is no error.
func (s *Studio) Release(ctx context.Context, garmentID stash.ID) (int, error) {
	g, err := s.Garment(ctx, garmentID)
	if err != nil {
		return 0, fmt.Errorf("releasing cloth: %w", err)
	}
	n := 0
	err = s.act(ctx, "Released what was reserved for "+g.Name, func(tx Tx) error {
		now, err := tx.Garment(ctx, garmentID)
		if err != nil {
			return err
		}
		if n, err = s.giveBack(ctx, tx, garmentID); err != nil {
			return err
		}
		if now.State == garment.Reserved {
			return tx.PutGarment(ctx, s.changed(now, garment.Wanted))
		}
		return nil
	})
	return n, err
}

// giveBack releases every live reservation of a garment inside an act.
func (s *Studio) giveBack(ctx context.Context, tx Tx, garmentID stash.ID) (int, error) {
	live, err := tx.Reservations(ctx, garmentID)
	if err != nil {
		return 0, err
	}
	for _, r := range live {
		line, after := stash.ReleasedLine(r, "")
		if err := tx.PutReservation(ctx, after); err != nil {
			return 0, err
		}
		if err := tx.Append(ctx, line); err != nil {
			return 0, err
		}
	}
	return len(live), nil
}
