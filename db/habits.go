package db

import (
	"context"
	"database/sql"
	"encoding/json"
	"fmt"

	"tallycloth/planner"
)

// Habits reads what was last chosen for paper; nothing where nothing was.
func (r reader) Habits(ctx context.Context) (planner.Habits, error) {
	return read(ctx, r, "reading what was chosen last", func(q queryer) (h planner.Habits, err error) {
		found, err := all(ctx, q, `SELECT document FROM habits WHERE id = 1`, nil, func(rows *sql.Rows) (b []byte, err error) {
			return b, rows.Scan(&b)
		})
		for _, b := range found {
			if err == nil {
				err = json.Unmarshal(b, &h)
			}
		}
		return h, err
	})
}

// KeepHabits keeps what was chosen for paper. It is no act.
func (l *Library) KeepHabits(ctx context.Context, h planner.Habits) error {
	doc, err := json.Marshal(h)
	if err != nil {
		return fmt.Errorf("keeping what was chosen: %w", err)
	}
	return l.remember(ctx, func(stx *sql.Tx) error {
		_, err := stx.ExecContext(ctx, `INSERT INTO habits (id, document) VALUES (1, ?) ON CONFLICT (id) DO UPDATE SET document = excluded.document`, string(doc))
		return err
	})
}
