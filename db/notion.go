package db

import (
	"context"
	"database/sql"

	"tallycloth/stash"
)

const notionColumns = `id, name, kind, quantity, unit, reorder, lines`

func scanNotion(rows *sql.Rows) (n stash.Notion, err error) {
	var lines sql.NullString
	if err = rows.Scan(&n.ID, &n.Name, &n.Kind, &n.Quantity, &n.Unit, &n.Reorder, &lines); err != nil {
		return n, err
	}
	return n, fromJSON(lines, &n.Lines)
}

func notionByID(ctx context.Context, q queryer, id stash.ID) (stash.Notion, error) {
	return one(ctx, q, "notion", `SELECT `+notionColumns+` FROM notion WHERE present = 1 AND id = ?`, []any{id[:]}, scanNotion)
}

func saveNotion(ctx context.Context, t *tx, n stash.Notion) error {
	if err := n.Validate(); err != nil {
		return err
	}
	lines, err := jsonOrNull(n.Lines)
	if err != nil {
		return err
	}
	return t.upsert(ctx, "notion", notionColumns, n.ID[:], n.Name, n.Kind, n.Quantity, n.Unit, n.Reorder, lines)
}
