package db

import (
	"context"
	"database/sql"
	"encoding/json"
	"fmt"

	"tallycloth/planner"
)

// KnownUses returns what was kept for a cloth, by the key of the pattern.
func (r reader) KnownUses(ctx context.Context, cloth planner.Key) (map[planner.Key][]planner.Use, error) {
	return read(ctx, r, "reading what cloth is good for", func(q queryer) (map[planner.Key][]planner.Use, error) {
		out := map[planner.Key][]planner.Use{}
		_, err := all(ctx, q, `SELECT pattern, uses FROM good_for WHERE cloth = ?`, []any{cloth[:]}, func(rows *sql.Rows) (none struct{}, err error) {
			var key, doc []byte
			var uses []planner.Use
			if err = rows.Scan(&key, &doc); err == nil {
				err = json.Unmarshal(doc, &uses)
			}
			out[planner.Key(key)] = uses
			return none, err
		})
		return out, err
	})
}

// UsesKept lists for which cloth and patterns something is kept.
func (r reader) UsesKept(ctx context.Context) (map[planner.Key][]planner.Key, error) {
	return read(ctx, r, "reading what cloth is good for", func(q queryer) (map[planner.Key][]planner.Key, error) {
		out := map[planner.Key][]planner.Key{}
		_, err := all(ctx, q, `SELECT cloth, pattern FROM good_for`, nil, func(rows *sql.Rows) (none struct{}, err error) {
			var cloth, pattern []byte
			if err = rows.Scan(&cloth, &pattern); err == nil {
				out[planner.Key(cloth)] = append(out[planner.Key(cloth)], planner.Key(pattern))
			}
			return none, err
		})
		return out, err
	})
}

// KeepUses keeps what was found out for a cloth. It is no act: nobody is told, and there is
// nothing to undo.
func (l *Library) KeepUses(ctx context.Context, cloth planner.Key, found map[planner.Key][]planner.Use) error {
	return l.remember(ctx, func(stx *sql.Tx) error {
		for pattern, uses := range found {
			doc, err := json.Marshal(uses)
			if err != nil {
				return err
			}
			if _, err := stx.ExecContext(ctx, `INSERT INTO good_for (cloth, pattern, uses) VALUES (?, ?, ?)
				ON CONFLICT (cloth, pattern) DO UPDATE SET uses = excluded.uses`, cloth[:], pattern[:], string(doc)); err != nil {
				return err
			}
		}
		return nil
	})
}

// ForgetUses drops what is kept for cloth or patterns that are not wanted.
func (l *Library) ForgetUses(ctx context.Context, cloths, patterns map[planner.Key]bool) error {
	kept, err := l.UsesKept(ctx)
	if err != nil {
		return err
	}
	return l.remember(ctx, func(stx *sql.Tx) error {
		for cloth, of := range kept {
			for _, pattern := range of {
				if cloths[cloth] && patterns[pattern] {
					continue
				}
				if _, err := stx.ExecContext(ctx, `DELETE FROM good_for WHERE cloth = ? AND pattern = ?`, cloth[:], pattern[:]); err != nil {
					return err
				}
			}
		}
		return nil
	})
}

// remember writes what is no record, as a whole or not at all. A library that cannot be
// written remembers nothing.
func (l *Library) remember(ctx context.Context, f func(*sql.Tx) error) error {
	if l.ReadOnly() != "" {
		return nil
	}
	l.writing.Lock()
	defer l.writing.Unlock()
	stx, err := l.writer.BeginTx(ctx, nil)
	if err == nil {
		defer stx.Rollback() // does nothing once it is committed
		if err = f(stx); err == nil {
			err = stx.Commit()
		}
	}
	if err != nil {
		return fmt.Errorf("remembering: %w", explain(err))
	}
	return nil
}
