package stash

import (
	"time"

	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// Reservation is cloth kept for one garment: outlines as they are laid on it.
type Reservation struct {
	ID        ID              `json:",omitzero"`
	ClothID   ID              `json:",omitzero"`
	GarmentID ID              `json:",omitzero"`
	UsedFor   string          `json:",omitzero"` // main, contrast, binding, lining
	Pieces    []ReservedPiece `json:",omitzero"`
	Live      bool            `json:",omitzero"` // false once released or cut
	At        time.Time       `json:",omitzero"`
}

// ReservedPiece is one placed outline in the cloth's frame.
type ReservedPiece struct {
	Name    string
	Outline shape.Ring
	GrainTo shape.Point // where the top of its grain arrow points: a unit-ish vector, µm
	Spoiled bool        `json:",omitzero"` // cut and of no use: another is cut for it
}

// Area returns the area that the reservation's outlines cover together.
func (r Reservation) Area() measure.Area {
	var sum measure.Area
	for _, p := range r.Pieces {
		sum += measure.Area(p.Outline.Area())
	}
	return sum
}
