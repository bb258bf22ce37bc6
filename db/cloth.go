package db

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"slices"

	"tallycloth/stash"
	"tallycloth/stash/measure"
)

const clothColumns = `id, fabric_id, code, lot, place, length, width, outline, outline_area,
	raw_start, raw_end, selvedge_low, selvedge_high, washed, cut_from, purchase_id, gone, notes`

// clothRow is a cloth with the sums its row carries.
type clothRow struct {
	stash.Cloth
	area   measure.Area
	length measure.Length
}

func scanCloth(rows *sql.Rows) (r clothRow, err error) {
	var outline sql.NullString
	var outlineArea sql.NullInt64
	c := &r.Cloth
	err = rows.Scan(&c.ID, &c.FabricID, &c.Code, &c.Lot, &c.Place, &c.Length, &c.Width, &outline, &outlineArea,
		&c.RawStart, &c.RawEnd, &c.SelvedgeLow, &c.SelvedgeHigh, &c.Washed, &c.CutFrom, &c.PurchaseID, &c.Gone, &c.Notes,
		&r.area, &r.length)
	if err == nil && outline.Valid {
		c.Outline, err = parsePolygon(outline.String)
	}
	return r, err
}

const selectCloth = `SELECT ` + clothColumns + `, ledger_area, ledger_length FROM cloth WHERE present = 1`

func clothByID(ctx context.Context, q queryer, id stash.ID) (clothRow, error) {
	return one(ctx, q, "cloth", selectCloth+` AND id = ?`, []any{id[:]}, scanCloth)
}

// clothState adds fabric and live reservations to a cloth.
func clothState(ctx context.Context, q queryer, r clothRow, err error) (stash.ClothState, error) {
	if err != nil {
		return stash.ClothState{}, fmt.Errorf("reading a cloth: %w", err)
	}
	f, err := fabricByID(ctx, q, r.FabricID)
	if err != nil {
		return stash.ClothState{}, fmt.Errorf("reading the fabric of %s: %w", r.Code, err)
	}
	live, err := liveOn(ctx, q, r.ID)
	if err != nil {
		return stash.ClothState{}, fmt.Errorf("reading what is reserved on %s: %w", r.Code, err)
	}
	return stash.StateOf(r.Cloth, f, live, r.area), nil
}

// allCloths reads all cloth that is there in three queries, however much it is.
func allCloths(ctx context.Context, q queryer) ([]stash.ClothState, error) {
	fabrics, err := allFabrics(ctx, q)
	if err != nil {
		return nil, fmt.Errorf("reading the fabrics: %w", err)
	}
	byID := make(map[stash.ID]stash.Fabric, len(fabrics))
	for _, f := range fabrics {
		byID[f.ID] = f
	}
	return cloths(ctx, q, byID, ``, ``)
}

// clothsOf is allCloths of one fabric.
func clothsOf(ctx context.Context, q queryer, fabric stash.ID) ([]stash.ClothState, error) {
	f, err := fabricByID(ctx, q, fabric)
	if errors.Is(err, stash.ErrNotFound) {
		return nil, nil
	}
	if err != nil {
		return nil, fmt.Errorf("reading the fabric: %w", err)
	}
	return cloths(ctx, q, map[stash.ID]stash.Fabric{fabric: f}, ` AND fabric_id = ?`,
		` AND cloth_id IN (SELECT id FROM cloth WHERE fabric_id = ?)`, fabric[:])
}

// cloths reads the cloth that a condition chooses, and the reservations on it.
func cloths(ctx context.Context, q queryer, byID map[stash.ID]stash.Fabric, which, onWhich string, args ...any) ([]stash.ClothState, error) {
	reserved, err := all(ctx, q, selectReservation+` AND live = 1`+onWhich+` ORDER BY id`, args, scanReservation)
	if err != nil {
		return nil, fmt.Errorf("reading what is reserved: %w", err)
	}
	on := map[stash.ID][]stash.Reservation{}
	for _, r := range reserved {
		on[r.ClothID] = append(on[r.ClothID], r)
	}
	rows, err := all(ctx, q, selectCloth+` AND gone = 0`+which, args, scanCloth)
	if err != nil {
		return nil, fmt.Errorf("reading the cloth: %w", err)
	}
	out := slices.Grow([]stash.ClothState(nil), len(rows)) // nil when there is none
	for _, r := range rows {
		out = append(out, stash.StateOf(r.Cloth, byID[r.FabricID], on[r.ID], r.area))
	}
	stash.SortCloths(out)
	return out, nil
}

func saveCloth(ctx context.Context, t *tx, c stash.Cloth) error {
	if err := c.Validate(); err != nil {
		return err
	}
	var outline, area any
	if !c.Plain() {
		outline, area = polygonText(c.Outline), c.Outline.Area()
	}
	return t.upsert(ctx, "cloth", clothColumns, c.ID[:], c.FabricID[:], c.Code, c.Lot, c.Place, int64(c.Length), int64(c.Width), outline, area,
		c.RawStart, c.RawEnd, c.SelvedgeLow, c.SelvedgeHigh, c.Washed, blob(c.CutFrom), blob(c.PurchaseID), c.Gone, c.Notes)
}

// clothsByIDs returns those of the cloths that are there.
func clothsByIDs(ctx context.Context, q queryer, ids []stash.ID) ([]clothRow, error) {
	return all(ctx, q, selectCloth+` AND id IN `+amongIDs, []any{idList(ids)}, scanCloth)
}
