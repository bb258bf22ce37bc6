package db

import (
	"context"
	"database/sql"
	"encoding/json"
	"fmt"

	"tallycloth/planner"
	"tallycloth/stash"
)

const selectBatch = `SELECT document FROM batch WHERE present = 1`

func scanBatch(rows *sql.Rows) (b planner.Batch, err error) {
	var doc []byte
	if err = rows.Scan(&doc); err != nil {
		return b, err
	}
	if err = json.Unmarshal(doc, &b); err != nil {
		return b, fmt.Errorf("reading a batch: %w", err)
	}
	return b, nil
}

func batchByID(ctx context.Context, q queryer, id stash.ID) (planner.Batch, error) {
	return one(ctx, q, "batch", selectBatch+` AND id = ?`, []any{id[:]}, scanBatch)
}

func saveBatch(ctx context.Context, t *tx, b planner.Batch) error {
	if b.ID == stash.NoID {
		return &stash.Error{Kind: stash.Invalid, What: "The batch has no number of its own"}
	}
	doc, err := json.Marshal(b)
	if err != nil {
		return fmt.Errorf("writing a batch: %w", err)
	}
	return t.upsert(ctx, "batch", `id, name, changed, document`, b.ID[:], b.Name, string(b.Changed), string(doc))
}

// PutBatch inserts or replaces a batch.
func (t *tx) PutBatch(ctx context.Context, b planner.Batch) error {
	return t.change(ctx, batchRecord, b.ID, func() error { return saveBatch(ctx, t, b) })
}

// Batches returns the batches that are kept, the newest change first.
func (r reader) Batches(ctx context.Context) ([]planner.Batch, error) {
	return read(ctx, r, "reading the batches", func(q queryer) ([]planner.Batch, error) {
		return all(ctx, q, selectBatch+` AND document ->> '$.Dropped' IS NOT 1 ORDER BY changed DESC, id DESC`, nil, scanBatch)
	})
}

// Batch returns one batch.
func (r reader) Batch(ctx context.Context, id stash.ID) (planner.Batch, error) {
	return read(ctx, r, "reading a batch", func(q queryer) (planner.Batch, error) { return batchByID(ctx, q, id) })
}
