package stashtest

import (
	"bytes"
	"context"
	"slices"

	"tallycloth/stash"
)

// View is a state of a Core as a stash.Reader.
type View struct{ s *state }

var _ stash.Reader = View{}

// Get returns a record of any kind.
func Get[T any](v View, kind string, id stash.ID) (T, error) {
	doc, ok := v.s.records[Ref{kind, id}]
	if !ok {
		var none T
		return none, notFound(kind)
	}
	return decode[T](doc)
}

// List returns all records of a kind in the order given.
func List[T any](v View, kind string, order func(a, b T) int) ([]T, error) {
	var out []T
	for r, doc := range v.s.records {
		if r.Kind != kind {
			continue
		}
		x, err := decode[T](doc)
		if err != nil {
			return nil, err
		}
		out = append(out, x)
	}
	slices.SortFunc(out, order)
	return out, nil
}

// Fabrics returns all fabrics by name.
func (v View) Fabrics(ctx context.Context) ([]stash.Fabric, error) {
	return List(v, fabric, func(a, b stash.Fabric) int { return stash.ByName(a.Name, b.Name, a.ID, b.ID) })
}

// Fabric returns one fabric.
func (v View) Fabric(ctx context.Context, id stash.ID) (stash.Fabric, error) {
	return Get[stash.Fabric](v, fabric, id)
}

// live returns the live reservations that a condition chooses, oldest first.
func (v View) live(wanted func(stash.Reservation) bool) ([]stash.Reservation, error) {
	all, err := List(v, reservation, func(a, b stash.Reservation) int { return bytes.Compare(a.ID[:], b.ID[:]) })
	return slices.DeleteFunc(all, func(r stash.Reservation) bool { return !r.Live || !wanted(r) }), err
}

// state puts a cloth together with what follows from its history.
func (v View) state(c stash.Cloth) (stash.ClothState, error) {
	f, err := Get[stash.Fabric](v, fabric, c.FabricID)
	if err != nil {
		return stash.ClothState{}, err
	}
	live, err := v.live(func(r stash.Reservation) bool { return r.ClothID == c.ID })
	if len(live) == 0 {
		live = nil
	}
	area, _ := stash.Balance(v.s.lines, c.ID)
	return stash.StateOf(c, f, live, area), err
}

// Cloths returns the cloth that is not gone, by fabric name then code.
func (v View) Cloths(ctx context.Context) ([]stash.ClothState, error) {
	all, err := List(v, cloth, func(a, b stash.Cloth) int { return 0 })
	if err != nil {
		return nil, err
	}
	var out []stash.ClothState
	for _, c := range all {
		if c.Gone {
			continue
		}
		s, err := v.state(c)
		if err != nil {
			return nil, err
		}
		out = append(out, s)
	}
	stash.SortCloths(out)
	return out, nil
}

// ClothsOf is Cloths of one fabric.
func (v View) ClothsOf(ctx context.Context, fabric stash.ID) ([]stash.ClothState, error) {
	all, err := v.Cloths(ctx)
	all = slices.DeleteFunc(all, func(c stash.ClothState) bool { return c.Cloth.FabricID != fabric })
	if len(all) == 0 {
		all = nil
	}
	return all, err
}

// HasCode says whether a cloth has a code, gone ones included.
func (v View) HasCode(ctx context.Context, code string) (bool, error) {
	all, err := List(v, cloth, func(a, b stash.Cloth) int { return 0 })
	return slices.ContainsFunc(all, func(c stash.Cloth) bool { return c.Code == code }), err
}

// Cloth returns one cloth, also one that is gone.
func (v View) Cloth(ctx context.Context, id stash.ID) (stash.ClothState, error) {
	c, err := Get[stash.Cloth](v, cloth, id)
	if err != nil {
		return stash.ClothState{}, err
	}
	return v.state(c)
}

// ClothByCode returns the cloth with a code, also one that is gone.
func (v View) ClothByCode(ctx context.Context, code string) (stash.ClothState, error) {
	all, err := List(v, cloth, func(a, b stash.Cloth) int { return 0 })
	if err != nil {
		return stash.ClothState{}, err
	}
	for _, c := range all {
		if c.Code == code {
			return v.state(c)
		}
	}
	return stash.ClothState{}, notFound(cloth)
}

// Purchases returns all purchases, newest first.
func (v View) Purchases(ctx context.Context) ([]stash.Purchase, error) {
	ps, err := List(v, purchase, func(a, b stash.Purchase) int { return 0 })
	stash.SortPurchases(ps)
	return ps, err
}

// Purchase returns one purchase.
func (v View) Purchase(ctx context.Context, id stash.ID) (stash.Purchase, error) {
	return Get[stash.Purchase](v, purchase, id)
}

// Movements returns the history of one cloth, or all of it for NoID, oldest first.
func (v View) Movements(ctx context.Context, id stash.ID) ([]stash.Movement, error) {
	var out []stash.Movement
	for _, m := range v.s.lines {
		if id == stash.NoID || m.ClothID == id {
			out = append(out, m)
		}
	}
	return out, nil
}

// Reservations returns the live reservations for a garment, oldest first.
func (v View) Reservations(ctx context.Context, garment stash.ID) ([]stash.Reservation, error) {
	return v.live(func(r stash.Reservation) bool { return r.GarmentID == garment })
}

// Reservation returns one reservation, live or not.
func (v View) Reservation(ctx context.Context, id stash.ID) (stash.Reservation, error) {
	return Get[stash.Reservation](v, reservation, id)
}

// Notions returns all notions by name.
func (v View) Notions(ctx context.Context) ([]stash.Notion, error) {
	return List(v, notion, func(a, b stash.Notion) int { return stash.ByName(a.Name, b.Name, a.ID, b.ID) })
}

// Photos returns the photos of a record that are not gone, oldest first.
func (v View) Photos(ctx context.Context, of stash.ID) ([]stash.Photo, error) {
	all, err := List(v, photo, func(a, b stash.Photo) int { return bytes.Compare(a.ID[:], b.ID[:]) })
	all = slices.DeleteFunc(all, func(p stash.Photo) bool { return p.Gone || p.OfID != of })
	if len(all) == 0 {
		all = nil
	}
	return all, err
}

// Photo returns one photo, also one that is gone.
func (v View) Photo(ctx context.Context, id stash.ID) (stash.Photo, error) {
	return Get[stash.Photo](v, photo, id)
}

// Picture returns a picture, full or as a thumbnail.
func (v View) Picture(ctx context.Context, digest string, full bool) ([]byte, error) {
	p, ok := v.s.pictures[digest]
	switch {
	case !ok:
		return nil, notFound("picture")
	case full:
		return bytes.Clone(p.Full), nil
	}
	return bytes.Clone(p.Thumb), nil
}

// Acts returns what was done, newest first, at most limit acts; all for limit ≤ 0.
func (v View) Acts(ctx context.Context, limit int) ([]stash.Act, error) {
	var out []stash.Act
	for _, a := range slices.Backward(v.s.acts) {
		if limit > 0 && len(out) == limit {
			break
		}
		out = append(out, a.Act)
	}
	return out, nil
}
