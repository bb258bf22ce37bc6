package db

import (
	"context"
	"database/sql"
	"time"

	"tallycloth/stash"
)

const movementColumns = `id, act_id, seq, at, kind, cloth_id, area, length, garment_id, reservation_id, reverses, note`

func scanMovement(rows *sql.Rows) (m stash.Movement, err error) {
	var at int64
	err = rows.Scan(&m.ID, &m.ActID, &m.Seq, &at, &m.Kind, &m.ClothID, &m.Area, &m.Length, &m.GarmentID, &m.ReservationID, &m.Reverses, &m.Note)
	m.At = time.UnixMicro(at).UTC()
	return m, err
}

func movements(ctx context.Context, q queryer, where string, args ...any) ([]stash.Movement, error) {
	return all(ctx, q, `SELECT `+movementColumns+` FROM movement`+where+` ORDER BY seq`, args, scanMovement)
}

func insertMovement(ctx context.Context, t *tx, m stash.Movement) error {
	return t.exec(ctx, `INSERT INTO movement (id, act_id, at, kind, cloth_id, area, length, garment_id, reservation_id, reverses, note)
		VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`,
		m.ID[:], t.act.ID[:], t.act.At.UnixMicro(), string(m.Kind), m.ClothID[:], int64(m.Area), int64(m.Length),
		blob(m.GarmentID), blob(m.ReservationID), blob(m.Reverses), m.Note)
}
