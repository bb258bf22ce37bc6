package db

import (
	"context"
	"database/sql"
	"encoding/json"
	"fmt"
	"strings"

	"tallycloth/planner/pattern"
	"tallycloth/stash"
)

// patternVersion is the form of the pattern documents that this program writes.
// A change that encoding/json cannot read by itself takes the next number and a
// reader for the one before.
const patternVersion = 1

func scanPattern(rows *sql.Rows) (p pattern.Pattern, err error) {
	var version int
	var document []byte
	if err = rows.Scan(&version, &document); err != nil {
		return p, err
	}
	if version != patternVersion {
		return p, &stash.Error{Kind: stash.Unsupported, What: fmt.Sprintf("A pattern is kept in form %d, which this program does not read", version), Do: "Use a newer version of the program"}
	}
	if err = json.Unmarshal(document, &p); err != nil {
		return p, fmt.Errorf("reading a pattern document: %w", err)
	}
	return p, nil
}

const selectPattern = `SELECT version, document FROM pattern WHERE present = 1`

func patternByID(ctx context.Context, q queryer, id stash.ID) (pattern.Pattern, error) {
	return one(ctx, q, "pattern", selectPattern+` AND id = ?`, []any{id[:]}, scanPattern)
}

func savePattern(ctx context.Context, t *tx, p pattern.Pattern) error {
	switch {
	case p.ID == stash.NoID:
		return &stash.Error{Kind: stash.Invalid, What: "The pattern has no number of its own"}
	case strings.TrimSpace(p.Name) == "":
		return &stash.Error{Kind: stash.Invalid, What: "The pattern has no name", Do: "Give it a name"}
	}
	document, err := json.Marshal(p)
	if err != nil {
		return fmt.Errorf("writing a pattern document: %w", err)
	}
	return t.upsert(ctx, "pattern", `id, name, version, document`, p.ID[:], p.Name, patternVersion, string(document))
}
