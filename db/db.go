package db

import (
	"context"
	"database/sql"
	"encoding/hex"
	"slices"

	"tallycloth/stash"
)

// queryer is what a reader needs: a pool or a transaction.
type queryer interface {
	QueryContext(ctx context.Context, query string, args ...any) (*sql.Rows, error)
	QueryRowContext(ctx context.Context, query string, args ...any) *sql.Row
}

// blob returns an ID as SQLite keeps it: 16 bytes, or NULL for NoID.
func blob(id stash.ID) any {
	if id == stash.NoID {
		return nil
	}
	return id[:]
}

// block is how many rows are gathered at a time: of many, each is then moved once only.
const block = 1024

// all runs a query and scans every row with scan.
func all[T any](ctx context.Context, q queryer, query string, args []any, scan func(*sql.Rows) (T, error)) ([]T, error) {
	rows, err := q.QueryContext(ctx, query, args...)
	if err != nil {
		return nil, explain(err)
	}
	defer rows.Close()
	var full [][]T
	var out []T
	for rows.Next() {
		v, err := scan(rows)
		if err != nil {
			return nil, explain(err)
		}
		if len(out) == block {
			full, out = append(full, out), make([]T, 0, block)
		}
		out = append(out, v)
	}
	if full != nil {
		out = slices.Concat(append(full, out)...)
	}
	return out, explain(rows.Err())
}

// one returns the only row of a query, or a NotFound error that names what was looked for.
func one[T any](ctx context.Context, q queryer, what, query string, args []any, scan func(*sql.Rows) (T, error)) (T, error) {
	found, err := all(ctx, q, query, args, scan)
	if err == nil && len(found) == 0 {
		err = &stash.Error{Kind: stash.NotFound, What: "There is no such " + what + " in the library"}
	}
	if err != nil {
		var none T
		return none, err
	}
	return found[0], nil
}

// amongIDs is the set that idList writes, where a query has it as its first argument.
const amongIDs = `(SELECT unhex(value) FROM json_each(?1))`

// idList writes IDs for amongIDs.
func idList(ids []stash.ID) string {
	b := []byte{'['}
	for i, id := range ids {
		if i > 0 {
			b = append(b, ',')
		}
		b = append(b, '"')
		b = hex.AppendEncode(b, id[:])
		b = append(b, '"')
	}
	return string(append(b, ']'))
}
