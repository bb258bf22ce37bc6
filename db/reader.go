package db

import (
	"bytes"
	"cmp"
	"context"
	"database/sql"
	"fmt"
	"slices"

	"tallycloth/planner"
	"tallycloth/planner/garment"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
)

// reader answers every question to a library, either from the pool, each answer
// from one snapshot, or from inside an act, where it sees what the act did so far.
type reader struct {
	pool *sql.DB
	act  queryer // not nil inside an act
	// still says whether the file lies where it lay; nil inside an act, which looks itself.
	still func() error
}

var _ planner.Reader = reader{}

// read runs f on one snapshot of the library and says what was being read if it fails.
func read[T any](ctx context.Context, r reader, doing string, f func(queryer) (T, error)) (out T, err error) {
	defer func() {
		if err != nil {
			err = fmt.Errorf("%s: %w", doing, explain(err))
		}
	}()
	if r.act != nil {
		return f(r.act)
	}
	if r.still != nil {
		if err := r.still(); err != nil {
			return out, err
		}
	}
	snapshot, err := r.pool.BeginTx(ctx, &sql.TxOptions{ReadOnly: true})
	if err != nil {
		return out, err
	}
	defer snapshot.Rollback() // nothing was written; it only ends the snapshot
	return f(snapshot)
}

// Fabrics returns all fabrics by name.
func (r reader) Fabrics(ctx context.Context) ([]stash.Fabric, error) {
	return read(ctx, r, "reading the fabrics", func(q queryer) ([]stash.Fabric, error) {
		fs, err := allFabrics(ctx, q)
		slices.SortFunc(fs, func(a, b stash.Fabric) int { return stash.ByName(a.Name, b.Name, a.ID, b.ID) })
		return fs, err
	})
}

// Fabric returns one fabric.
func (r reader) Fabric(ctx context.Context, id stash.ID) (stash.Fabric, error) {
	return read(ctx, r, "reading a fabric", func(q queryer) (stash.Fabric, error) { return fabricByID(ctx, q, id) })
}

// Cloths returns the cloth that is not gone, by fabric name then code.
func (r reader) Cloths(ctx context.Context) ([]stash.ClothState, error) {
	return read(ctx, r, "reading the cloth", func(q queryer) ([]stash.ClothState, error) { return allCloths(ctx, q) })
}

// Cloth returns one cloth, also one that is gone.
func (r reader) Cloth(ctx context.Context, id stash.ID) (stash.ClothState, error) {
	return read(ctx, r, "reading a cloth", func(q queryer) (stash.ClothState, error) {
		row, err := clothByID(ctx, q, id)
		return clothState(ctx, q, row, err)
	})
}

// ClothByCode returns the cloth with a code, also one that is gone.
func (r reader) ClothByCode(ctx context.Context, code string) (stash.ClothState, error) {
	return read(ctx, r, "reading cloth "+code, func(q queryer) (stash.ClothState, error) {
		row, err := one(ctx, q, "cloth", selectCloth+` AND code = ?`, []any{code}, scanCloth)
		return clothState(ctx, q, row, err)
	})
}

// ClothsOf is Cloths of one fabric.
func (r reader) ClothsOf(ctx context.Context, fabric stash.ID) ([]stash.ClothState, error) {
	return read(ctx, r, "reading the cloth of a fabric", func(q queryer) ([]stash.ClothState, error) { return clothsOf(ctx, q, fabric) })
}

// HasCode says whether a cloth has a code, gone ones included.
func (r reader) HasCode(ctx context.Context, code string) (bool, error) {
	return read(ctx, r, "looking for the code "+code, func(q queryer) (has bool, err error) {
		return has, q.QueryRowContext(ctx, `SELECT EXISTS (SELECT 1 FROM cloth WHERE present = 1 AND code = ?)`, code).Scan(&has)
	})
}

// Purchases returns all purchases, newest first.
func (r reader) Purchases(ctx context.Context) ([]stash.Purchase, error) {
	return read(ctx, r, "reading the purchases", func(q queryer) ([]stash.Purchase, error) {
		ps, err := purchases(ctx, q, "")
		stash.SortPurchases(ps)
		return ps, err
	})
}

// Purchase returns one purchase.
func (r reader) Purchase(ctx context.Context, id stash.ID) (stash.Purchase, error) {
	return read(ctx, r, "reading a purchase", func(q queryer) (stash.Purchase, error) { return purchaseByID(ctx, q, id) })
}

// Movements returns the history of one cloth, or all of it for NoID, oldest first.
func (r reader) Movements(ctx context.Context, id stash.ID) ([]stash.Movement, error) {
	return read(ctx, r, "reading the history", func(q queryer) ([]stash.Movement, error) {
		if id == stash.NoID {
			return movements(ctx, q, "")
		}
		return movements(ctx, q, ` WHERE cloth_id = ?`, id[:])
	})
}

// Reservations returns the live reservations for a garment, oldest first.
func (r reader) Reservations(ctx context.Context, g stash.ID) ([]stash.Reservation, error) {
	return read(ctx, r, "reading what is reserved", func(q queryer) ([]stash.Reservation, error) {
		return all(ctx, q, selectReservation+` AND live = 1 AND garment_id IS ? ORDER BY id`, []any{blob(g)}, scanReservation)
	})
}

// Reservation returns one reservation, live or not.
func (r reader) Reservation(ctx context.Context, id stash.ID) (stash.Reservation, error) {
	return read(ctx, r, "reading a reservation", func(q queryer) (stash.Reservation, error) { return reservationByID(ctx, q, id) })
}

// Notions returns all notions by name.
func (r reader) Notions(ctx context.Context) ([]stash.Notion, error) {
	return read(ctx, r, "reading the notions", func(q queryer) ([]stash.Notion, error) {
		ns, err := all(ctx, q, `SELECT `+notionColumns+` FROM notion WHERE present = 1`, nil, scanNotion)
		slices.SortFunc(ns, func(a, b stash.Notion) int { return stash.ByName(a.Name, b.Name, a.ID, b.ID) })
		return ns, err
	})
}

// Acts returns what was done, newest first, at most limit acts; all for limit ≤ 0.
func (r reader) Acts(ctx context.Context, limit int) ([]stash.Act, error) {
	return read(ctx, r, "reading what was done", func(q queryer) ([]stash.Act, error) {
		if limit <= 0 {
			limit = -1
		}
		return all(ctx, q, selectAct+` ORDER BY seq DESC LIMIT ?`, []any{limit}, scanAct)
	})
}

// Patterns returns all patterns by name.
func (r reader) Patterns(ctx context.Context) ([]pattern.Pattern, error) {
	return read(ctx, r, "reading the patterns", func(q queryer) ([]pattern.Pattern, error) {
		ps, err := all(ctx, q, selectPattern, nil, scanPattern)
		slices.SortFunc(ps, func(a, b pattern.Pattern) int { return stash.ByName(a.Name, b.Name, a.ID, b.ID) })
		return ps, err
	})
}

// Pattern returns one pattern.
func (r reader) Pattern(ctx context.Context, id stash.ID) (pattern.Pattern, error) {
	return read(ctx, r, "reading a pattern", func(q queryer) (pattern.Pattern, error) { return patternByID(ctx, q, id) })
}

// Garments returns all garments, newest change first.
func (r reader) Garments(ctx context.Context) ([]garment.Garment, error) {
	return read(ctx, r, "reading the garments", func(q queryer) ([]garment.Garment, error) {
		gs, err := all(ctx, q, selectGarment, nil, scanGarment)
		slices.SortFunc(gs, func(a, b garment.Garment) int {
			return cmp.Or(cmp.Compare(b.Changed, a.Changed), bytes.Compare(b.ID[:], a.ID[:]))
		})
		return gs, err
	})
}

// Garment returns one garment.
func (r reader) Garment(ctx context.Context, id stash.ID) (garment.Garment, error) {
	return read(ctx, r, "reading a garment", func(q queryer) (garment.Garment, error) { return garmentByID(ctx, q, id) })
}

// Settings returns the settings, the defaults where none were chosen.
func (r reader) Settings(ctx context.Context) (planner.Settings, error) {
	return read(ctx, r, "reading the settings", func(q queryer) (planner.Settings, error) { return settings(ctx, q) })
}
