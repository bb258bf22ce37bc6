package db

import (
	"bytes"
	"context"
	"database/sql"
	"encoding/json"
	"errors"
	"fmt"

	"tallycloth/stash"
)

// What an act did to a record is kept short, or the history would be most of a library:
// the document is kept whole where the record is new (after) or taken away (before). Else
// after is an array of one object, the fields that are another than before, null for those
// that are not said any more. The documents of a record are rebuilt by following its
// changes from the first; one that was there before its first change, as settings are, has
// its document in before. Rows that earlier versions wrote have whole documents in both places.

// kept returns before and after as the change table keeps them; nil is no document.
func (t *tx) kept(ctx context.Context, k key, before, after []byte) (b, a []byte, err error) {
	if before == nil || after == nil {
		return before, after, nil
	}
	a, err = deltaOf(before, after)
	if err != nil {
		return nil, nil, fmt.Errorf("comparing a %s with what it was: %w", k.kind, err)
	}
	var known bool
	err = t.sql.QueryRowContext(ctx, `SELECT EXISTS (SELECT 1 FROM change WHERE record = ? AND record_id = ?)`, k.kind, k.id[:]).Scan(&known)
	if err != nil || known {
		before = nil
	}
	return before, a, err
}

// deltaOf returns how one document becomes another.
func deltaOf(before, after []byte) ([]byte, error) {
	var from, to map[string]json.RawMessage
	if err := errors.Join(json.Unmarshal(before, &from), json.Unmarshal(after, &to)); err != nil {
		return nil, err
	}
	delta := map[string]json.RawMessage{}
	for name, value := range to {
		if !bytes.Equal(from[name], value) {
			delta[name] = value
		}
	}
	for name := range from {
		if _, said := to[name]; !said {
			delta[name] = json.RawMessage("null")
		}
	}
	return json.Marshal([]any{delta})
}

// followed returns the document after a change: doc is the one before it, nil for none.
func followed(doc []byte, before, after sql.NullString) ([]byte, error) {
	switch {
	case !after.Valid:
		return nil, nil
	case len(after.String) == 0 || after.String[0] != '[':
		return []byte(after.String), nil
	}
	if before.Valid {
		doc = []byte(before.String)
	}
	var fields map[string]json.RawMessage
	var delta []map[string]json.RawMessage
	if err := json.Unmarshal([]byte(after.String), &delta); err != nil || len(delta) != 1 {
		return nil, fmt.Errorf("reading what was changed: %d parts, %w", len(delta), err)
	}
	if err := json.Unmarshal(doc, &fields); err != nil {
		return nil, fmt.Errorf("reading what was there before a change: %w", err)
	}
	for name, value := range delta[0] {
		if string(value) == "null" {
			delete(fields, name)
			continue
		}
		fields[name] = value
	}
	return json.Marshal(fields)
}

// keptChange is one row of the change table as it is kept.
type keptChange struct {
	seq           int64
	before, after sql.NullString
}

func scanKept(rows *sql.Rows) (k keptChange, err error) {
	return k, rows.Scan(&k.seq, &k.before, &k.after)
}

// changesOf returns what an act changed, newest first, with whole documents.
func changesOf(ctx context.Context, q queryer, act stash.ID) ([]changeRow, error) {
	found, err := all(ctx, q, `SELECT seq, record, record_id FROM change WHERE act_id = ? ORDER BY seq DESC`, []any{act[:]}, scanChange)
	if err != nil {
		return nil, fmt.Errorf("reading what was changed: %w", err)
	}
	for i := range found {
		if err := found[i].rebuild(ctx, q); err != nil {
			return nil, fmt.Errorf("reading what was changed: %w", err)
		}
	}
	return found, nil
}

// rebuild follows the record of a change up to it.
func (c *changeRow) rebuild(ctx context.Context, q queryer) error {
	steps, err := all(ctx, q, `SELECT seq, before, after FROM change WHERE record = ? AND record_id = ? AND seq <= ? ORDER BY seq`,
		[]any{c.kind, c.id[:], c.seq}, scanKept)
	if err != nil {
		return err
	}
	for _, s := range steps {
		c.before = c.after
		if s.before.Valid {
			c.before = []byte(s.before.String)
		}
		if c.after, err = followed(c.before, s.before, s.after); err != nil {
			return err
		}
	}
	return nil
}
