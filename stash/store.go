package stash

import (
	"context"
	"tallycloth/stash/measure"
)

// ClothState is a cloth with what follows from its history.
type ClothState struct {
	Cloth        Cloth
	Fabric       Fabric
	Reservations []Reservation // live ones
	Area         measure.Area  // what is there, as the ledger says
	FreeArea     measure.Area  // there minus reserved
}

// Reader is what can be asked of a library. Every method wraps its errors with
// what was being read. Records that do not exist give an error for which
// errors.Is(err, ErrNotFound) holds.
type Reader interface {
	Fabrics(ctx context.Context) ([]Fabric, error) // by name
	Fabric(ctx context.Context, id ID) (Fabric, error)
	// Cloths returns the cloth that is not gone, with its fabric and live reservations, by fabric name then code.
	Cloths(ctx context.Context) ([]ClothState, error)
	Cloth(ctx context.Context, id ID) (ClothState, error)
	ClothByCode(ctx context.Context, code string) (ClothState, error)
	// ClothsOf is Cloths of one fabric.
	ClothsOf(ctx context.Context, fabric ID) ([]ClothState, error)
	// HasCode says whether a cloth has a code, gone ones included.
	HasCode(ctx context.Context, code string) (bool, error)
	Purchases(ctx context.Context) ([]Purchase, error) // newest first
	Purchase(ctx context.Context, id ID) (Purchase, error)
	// Movements returns the history of one cloth, or of all when id is NoID, oldest first.
	Movements(ctx context.Context, id ID) ([]Movement, error)
	Reservations(ctx context.Context, garment ID) ([]Reservation, error) // live ones
	Reservation(ctx context.Context, id ID) (Reservation, error)
	Notions(ctx context.Context) ([]Notion, error)
	Acts(ctx context.Context, limit int) ([]Act, error) // newest first
	// Photos returns the photos of a fabric, cloth, purchase or garment that are not gone,
	// oldest first, without their pictures; Photo one, also when it is gone.
	Photos(ctx context.Context, of ID) ([]Photo, error)
	Photo(ctx context.Context, id ID) (Photo, error)
	// Picture returns the JPEG file that a photo names, full or as a thumbnail.
	Picture(ctx context.Context, digest string, full bool) ([]byte, error)
}

// Tx is what a rule may do inside one act. Nothing is visible outside before
// the act is committed as a whole; an error leaves no trace.
type Tx interface {
	Reader
	PutFabric(ctx context.Context, f Fabric) error // insert or replace by ID
	PutCloth(ctx context.Context, c Cloth) error
	PutPurchase(ctx context.Context, p Purchase) error
	PutNotion(ctx context.Context, n Notion) error
	// PutPhoto refuses one whose picture is not kept, or that is of nothing in the library.
	PutPhoto(ctx context.Context, p Photo) error
	// PutPicture keeps a picture under its digest, for good; on its own it is no change.
	PutPicture(ctx context.Context, p Picture) error
	// PutReservation refuses one that overlaps a live one on its cloth or leaves the cloth.
	PutReservation(ctx context.Context, r Reservation) error
	// Append adds a line of history; ActID, Seq and At are filled in by the store.
	Append(ctx context.Context, m Movement) error
}

// Store keeps a stash.
type Store interface {
	Reader
	// Write runs f as one act with the sentence given. f may be called again if the library was busy.
	Write(ctx context.Context, sentence string, f func(Tx) error) (Act, error)
	// Undo takes the last act back that is neither undone nor an undo itself, by a
	// reversing act whose sentence says what was undone; ErrNothing when there is none.
	Undo(ctx context.Context) (Act, error)
	// Redo does again what the last Undo took back, as long as nothing was written since; ErrNothing otherwise.
	Redo(ctx context.Context) (Act, error)
}
