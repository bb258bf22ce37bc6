package stashtest

import (
	"context"
	"time"

	"tallycloth/stash"
)

// Store is a stash.Store in memory. Reading is reading the last committed state.
type Store struct{ core *Core }

var _ stash.Store = Store{}

// New returns an empty Store with a clock and a source of IDs.
func New(now func() time.Time, newID func() stash.ID) Store {
	return Store{NewCore(now, newID)}
}

// Write runs f as one act.
func (s Store) Write(ctx context.Context, sentence string, f func(stash.Tx) error) (stash.Act, error) {
	if err := ctx.Err(); err != nil {
		return stash.Act{}, err
	}
	return s.core.Write(sentence, func(t *Tx) error { return f(t) })
}

// Undo takes back the last act that stands.
func (s Store) Undo(ctx context.Context) (stash.Act, error) { return s.core.Undo() }

// UndoAct takes back one act, which need not be the last.
func (s Store) UndoAct(ctx context.Context, id stash.ID) (stash.Act, error) {
	return s.core.UndoAct(id)
}

// Redo does again what the last Undo took back.
func (s Store) Redo(ctx context.Context) (stash.Act, error) { return s.core.Redo() }

// Fabrics returns all fabrics by name.
func (s Store) Fabrics(ctx context.Context) ([]stash.Fabric, error) {
	return s.core.View().Fabrics(ctx)
}

// Fabric returns one fabric.
func (s Store) Fabric(ctx context.Context, id stash.ID) (stash.Fabric, error) {
	return s.core.View().Fabric(ctx, id)
}

// Cloths returns the cloth that is not gone.
func (s Store) Cloths(ctx context.Context) ([]stash.ClothState, error) {
	return s.core.View().Cloths(ctx)
}

// Cloth returns one cloth.
func (s Store) Cloth(ctx context.Context, id stash.ID) (stash.ClothState, error) {
	return s.core.View().Cloth(ctx, id)
}

// ClothByCode returns the cloth with a code.
func (s Store) ClothByCode(ctx context.Context, code string) (stash.ClothState, error) {
	return s.core.View().ClothByCode(ctx, code)
}

// ClothsOf is Cloths of one fabric.
func (s Store) ClothsOf(ctx context.Context, fabric stash.ID) ([]stash.ClothState, error) {
	return s.core.View().ClothsOf(ctx, fabric)
}

// HasCode says whether a cloth has a code.
func (s Store) HasCode(ctx context.Context, code string) (bool, error) {
	return s.core.View().HasCode(ctx, code)
}

// Purchases returns all purchases, newest first.
func (s Store) Purchases(ctx context.Context) ([]stash.Purchase, error) {
	return s.core.View().Purchases(ctx)
}

// Purchase returns one purchase.
func (s Store) Purchase(ctx context.Context, id stash.ID) (stash.Purchase, error) {
	return s.core.View().Purchase(ctx, id)
}

// Movements returns the history of one cloth, or all of it for NoID.
func (s Store) Movements(ctx context.Context, id stash.ID) ([]stash.Movement, error) {
	return s.core.View().Movements(ctx, id)
}

// Reservations returns the live reservations for a garment.
func (s Store) Reservations(ctx context.Context, garment stash.ID) ([]stash.Reservation, error) {
	return s.core.View().Reservations(ctx, garment)
}

// Reservation returns one reservation.
func (s Store) Reservation(ctx context.Context, id stash.ID) (stash.Reservation, error) {
	return s.core.View().Reservation(ctx, id)
}

// Notions returns all notions by name.
func (s Store) Notions(ctx context.Context) ([]stash.Notion, error) {
	return s.core.View().Notions(ctx)
}

// Photos returns the photos of a record that are not gone.
func (s Store) Photos(ctx context.Context, of stash.ID) ([]stash.Photo, error) {
	return s.core.View().Photos(ctx, of)
}

// Photo returns one photo.
func (s Store) Photo(ctx context.Context, id stash.ID) (stash.Photo, error) {
	return s.core.View().Photo(ctx, id)
}

// Picture returns a picture, full or as a thumbnail.
func (s Store) Picture(ctx context.Context, digest string, full bool) ([]byte, error) {
	return s.core.View().Picture(ctx, digest, full)
}

// Acts returns what was done, newest first.
func (s Store) Acts(ctx context.Context, limit int) ([]stash.Act, error) {
	return s.core.View().Acts(ctx, limit)
}

// Over returns a Store on a Core that keeps more than the stash.
func Over(c *Core) Store { return Store{c} }
