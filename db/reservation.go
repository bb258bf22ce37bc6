package db

import (
	"context"
	"database/sql"
	"encoding/json"
	"fmt"
	"time"

	"tallycloth/stash"
	"tallycloth/stash/shape"
)

const reservationColumns = `id, cloth_id, garment_id, used_for, live, at, pieces, area`

const selectReservation = `SELECT ` + reservationColumns + ` FROM reservation WHERE present = 1`

// pieceText is a reserved piece as the library keeps it.
type pieceText struct {
	Name    string `json:"name"`
	Outline string `json:"outline"`
	Grain   [2]int64
	Spoiled bool `json:"spoiled,omitempty"`
}

func scanReservation(rows *sql.Rows) (r stash.Reservation, err error) {
	var at, area int64
	var pieces []byte
	if err = rows.Scan(&r.ID, &r.ClothID, &r.GarmentID, &r.UsedFor, &r.Live, &at, &pieces, &area); err != nil {
		return r, err
	}
	r.At = time.UnixMicro(at).UTC()
	var texts []pieceText
	if err = json.Unmarshal(pieces, &texts); err != nil {
		return r, fmt.Errorf("reading reserved outlines: %w", err)
	}
	for _, t := range texts {
		ring, err := parseRing(t.Outline)
		if err != nil {
			return r, err
		}
		r.Pieces = append(r.Pieces, stash.ReservedPiece{Name: t.Name, Outline: ring, GrainTo: shape.Point{X: t.Grain[0], Y: t.Grain[1]}, Spoiled: t.Spoiled})
	}
	return r, nil
}

func reservationByID(ctx context.Context, q queryer, id stash.ID) (stash.Reservation, error) {
	return one(ctx, q, "reservation", selectReservation+` AND id = ?`, []any{id[:]}, scanReservation)
}

// liveOn returns the live reservations on a cloth, oldest first.
func liveOn(ctx context.Context, q queryer, cloth stash.ID) ([]stash.Reservation, error) {
	return all(ctx, q, selectReservation+` AND live = 1 AND cloth_id = ? ORDER BY id`, []any{cloth[:]}, scanReservation)
}

func saveReservation(ctx context.Context, t *tx, r stash.Reservation) error {
	texts := make([]pieceText, len(r.Pieces))
	for i, p := range r.Pieces {
		texts[i] = pieceText{p.Name, ringText(p.Outline), [2]int64{p.GrainTo.X, p.GrainTo.Y}, p.Spoiled}
	}
	pieces, err := json.Marshal(texts)
	if err != nil {
		return err
	}
	return t.upsert(ctx, "reservation", reservationColumns, r.ID[:], r.ClothID[:], blob(r.GarmentID), r.UsedFor, r.Live,
		r.At.UnixMicro(), string(pieces), int64(r.Area()))
}
