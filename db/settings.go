package db

import (
	"context"
	"database/sql"
	"encoding/json"
	"fmt"

	"tallycloth/planner"
	"tallycloth/stash"
)

// settings reads the settings; those never set are the defaults.
func settings(ctx context.Context, q queryer) (planner.Settings, error) {
	s := planner.DefaultSettings()
	found, err := all(ctx, q, `SELECT document FROM settings WHERE id = 1`, nil, func(rows *sql.Rows) (b []byte, err error) {
		return b, rows.Scan(&b)
	})
	if err != nil {
		return s, fmt.Errorf("reading the settings: %w", err)
	}
	for _, b := range found {
		if err := json.Unmarshal(b, &s); err != nil {
			return s, fmt.Errorf("reading the settings: %w", err)
		}
	}
	return s, nil
}

func settingsByID(ctx context.Context, q queryer, _ stash.ID) (planner.Settings, error) {
	return settings(ctx, q)
}

func saveSettings(ctx context.Context, t *tx, s planner.Settings) error {
	b, err := json.Marshal(s)
	if err != nil {
		return fmt.Errorf("writing the settings: %w", err)
	}
	return t.exec(ctx, `INSERT INTO settings (id, document) VALUES (1, ?) ON CONFLICT (id) DO UPDATE SET document = excluded.document`, string(b))
}
