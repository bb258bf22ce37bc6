package db

import (
	"context"
	"database/sql"
	"encoding/json"
	"fmt"
	"slices"

	"tallycloth/planner/sizing"
	"tallycloth/stash"
)

const selectPerson = `SELECT document FROM person WHERE present = 1`

func scanPerson(rows *sql.Rows) (p sizing.Person, err error) {
	var doc []byte
	if err = rows.Scan(&doc); err != nil {
		return p, err
	}
	if err = json.Unmarshal(doc, &p); err != nil {
		return p, fmt.Errorf("reading a person: %w", err)
	}
	return p, nil
}

func personByID(ctx context.Context, q queryer, id stash.ID) (sizing.Person, error) {
	return one(ctx, q, "person", selectPerson+` AND id = ?`, []any{id[:]}, scanPerson)
}

func savePerson(ctx context.Context, t *tx, p sizing.Person) error {
	if p.ID == stash.NoID {
		return &stash.Error{Kind: stash.Invalid, What: "The person has no number of its own"}
	}
	doc, err := json.Marshal(p)
	if err != nil {
		return fmt.Errorf("writing a person: %w", err)
	}
	return t.upsert(ctx, "person", `id, name, document`, p.ID[:], p.Name, string(doc))
}

// PutPerson inserts or replaces a person.
func (t *tx) PutPerson(ctx context.Context, p sizing.Person) error {
	return t.change(ctx, personRecord, p.ID, func() error { return savePerson(ctx, t, p) })
}

// People returns the people who are on the list, by name.
func (r reader) People(ctx context.Context) ([]sizing.Person, error) {
	return read(ctx, r, "reading the people", func(q queryer) ([]sizing.Person, error) {
		ps, err := all(ctx, q, selectPerson+` AND document ->> '$.Removed' IS NOT 1`, nil, scanPerson)
		slices.SortFunc(ps, func(a, b sizing.Person) int { return stash.ByName(a.Name, b.Name, a.ID, b.ID) })
		return ps, err
	})
}

// Person returns one person.
func (r reader) Person(ctx context.Context, id stash.ID) (sizing.Person, error) {
	return read(ctx, r, "reading a person", func(q queryer) (sizing.Person, error) { return personByID(ctx, q, id) })
}
