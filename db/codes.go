package db

import (
	"context"
	"database/sql"

	"tallycloth/stash"
)

// codes are the codes of cloth during an act. A list of a hundred thousand rows asks a million
// times whether a code is taken: from the second dozen on they are all in memory.
type codes struct {
	asked int
	taken map[string]bool
	of    map[stash.ID]string
}

// askedOneByOne is how often an act may ask before all codes are read.
const askedOneByOne = 24

// HasCode says whether a cloth has a code, gone ones included.
func (t *tx) HasCode(ctx context.Context, code string) (bool, error) {
	if t.codes.asked++; t.codes.asked <= askedOneByOne {
		return t.reader.HasCode(ctx, code)
	}
	if t.codes.taken == nil {
		t.codes.taken, t.codes.of = map[string]bool{}, map[stash.ID]string{}
		_, err := all(ctx, t.sql, `SELECT code, id FROM cloth WHERE present = 1`, nil, func(rows *sql.Rows) (none struct{}, err error) {
			var code string
			var id stash.ID
			if err = rows.Scan(&code, &id); err == nil {
				t.codes.taken[code], t.codes.of[id] = true, code
			}
			return none, err
		})
		if err != nil {
			t.codes.taken = nil
			return false, err
		}
	}
	return t.codes.taken[code], nil
}

// put notes the code of a cloth that is written; the one that it had before is free again.
func (c *codes) put(cloth stash.Cloth) {
	if c.taken == nil {
		return
	}
	delete(c.taken, c.of[cloth.ID])
	c.taken[cloth.Code], c.of[cloth.ID] = true, cloth.Code
}
