package db

import (
	"context"
	"database/sql"
	"encoding/json"
	"strings"

	"tallycloth/planner/garment"
	"tallycloth/stash"
)

const garmentColumns = `id, name, pattern_id, size, variant, made_for, state, wanted, changed, notes, strips, stitches, record, adjustments`

const selectGarment = `SELECT ` + garmentColumns + ` FROM garment WHERE present = 1`

func scanGarment(rows *sql.Rows) (g garment.Garment, err error) {
	var strips, stitches, record, adjustments sql.NullString
	err = rows.Scan(&g.ID, &g.Name, &g.PatternID, &g.Size, &g.Variant, &g.For, &g.State, &g.Wanted, &g.Changed, &g.Notes, &strips, &stitches, &record, &adjustments)
	if err != nil {
		return g, err
	}
	if err = fromJSON(strips, &g.Strips); err != nil {
		return g, err
	}
	if err = fromJSON(adjustments, &g.Adjustments); err != nil {
		return g, err
	}
	if err = fromJSON(stitches, &g.Stitches); err != nil || !record.Valid {
		return g, err
	}
	return g, json.Unmarshal([]byte(record.String), &g.Record)
}

func garmentByID(ctx context.Context, q queryer, id stash.ID) (garment.Garment, error) {
	return one(ctx, q, "garment", selectGarment+` AND id = ?`, []any{id[:]}, scanGarment)
}

func saveGarment(ctx context.Context, t *tx, g garment.Garment) error {
	switch {
	case g.ID == stash.NoID:
		return &stash.Error{Kind: stash.Invalid, What: "The garment has no number of its own"}
	case strings.TrimSpace(g.Name) == "":
		return &stash.Error{Kind: stash.Invalid, What: "The garment has no name", Do: "Give it a name"}
	}
	strips, err := jsonOrNull(g.Strips)
	if err != nil {
		return err
	}
	stitches, err := jsonOrNull(g.Stitches)
	if err != nil {
		return err
	}
	adjustments, err := jsonOrNull(g.Adjustments)
	if err != nil {
		return err
	}
	record, err := json.Marshal(g.Record)
	if err != nil {
		return err
	}
	noted := any(string(record))
	if string(record) == "{}" {
		noted = nil
	}
	return t.upsert(ctx, "garment", garmentColumns, g.ID[:], g.Name, blob(g.PatternID), g.Size, g.Variant, g.For,
		string(g.State), string(g.Wanted), string(g.Changed), g.Notes, strips, stitches, noted, adjustments)
}
