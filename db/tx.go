package db

import (
	"bytes"
	"context"
	"database/sql"
	"encoding/json"
	"fmt"
	"strings"
	"sync"

	"tallycloth/planner"
	"tallycloth/planner/garment"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/shape"
)

// tx is one act while it is being written.
type tx struct {
	reader
	sql   *statements
	act   stash.Act
	newID func() stash.ID

	// what the act touched, for the checks before it is committed
	changed int
	lines   []stash.Movement
	cloths  map[stash.ID]bool
	wasLive map[stash.ID]bool // by reservation, before the act
	puts    map[key]bool

	newest map[string]stash.ID // by kind of record: no record has a later ID
	codes  codes
}

// key names a record.
type key struct {
	kind string
	id   stash.ID
}

var _ planner.Tx = (*tx)(nil)

// exec runs a statement and explains what goes wrong.
func (t *tx) exec(ctx context.Context, query string, args ...any) error {
	_, err := t.sql.ExecContext(ctx, query, args...)
	return explain(err)
}

// upsert inserts a row or replaces it by its ID, and makes it present.
func (t *tx) upsert(ctx context.Context, table, columns string, values ...any) error {
	return t.exec(ctx, upserting(table, columns), values...)
}

// upserts are the texts of upsert by table: an act may write a hundred thousand rows.
var upserts sync.Map

func upserting(table, columns string) string {
	if known, ok := upserts.Load(table); ok {
		return known.(string)
	}
	names := strings.Split(columns, ",")
	sets := make([]string, len(names))
	for i, n := range names {
		n = strings.TrimSpace(n)
		sets[i] = n + " = excluded." + n
	}
	made := fmt.Sprintf(`INSERT INTO %s (%s, present) VALUES (?%s, 1) ON CONFLICT (id) DO UPDATE SET %s, present = 1`,
		table, columns, strings.Repeat(", ?", len(names)-1), strings.Join(sets, ", "))
	upserts.Store(table, made)
	return made
}

// change runs write, which changes one record, and keeps the record as it was
// before and after. A change that changes nothing leaves no trace.
func (t *tx) change(ctx context.Context, r record, id stash.ID, write func() error) error {
	return t.changeTo(ctx, r, id, nil, write)
}

// changeTo is change where it is known beforehand how a new record will be read back: as is.
// Nil: it is read back.
func (t *tx) changeTo(ctx context.Context, r record, id stash.ID, as any, write func() error) error {
	fresh, err := t.isNew(ctx, r.kind, id)
	var before, after []byte
	if err == nil && !fresh {
		before, err = r.doc(ctx, t.sql, id)
	}
	if err == nil {
		err = write()
	}
	if err != nil {
		return fmt.Errorf("writing a %s: %w", r.kind, err)
	}
	if fresh && as != nil {
		after, err = json.Marshal(as)
	} else {
		after, err = r.doc(ctx, t.sql, id)
	}
	if err != nil {
		return fmt.Errorf("reading a %s back: %w", r.kind, err)
	}
	if bytes.Equal(before, after) {
		return nil
	}
	t.changed++
	t.puts[key{r.kind, id}] = true
	if before, after, err = t.kept(ctx, key{r.kind, id}, before, after); err != nil {
		return err
	}
	return t.exec(ctx, `INSERT INTO change (act_id, record, record_id, before, after) VALUES (?, ?, ?, ?, ?)`,
		t.act.ID[:], r.kind, id[:], text(before), text(after))
}

// isNew says whether a record cannot be there yet, not even as one that was taken back,
// because its ID is later than any of its kind. IDs are in the order of their birth, so that
// this holds for nearly all new ones; false says nothing.
func (t *tx) isNew(ctx context.Context, kind string, id stash.ID) (bool, error) {
	last, known := t.newest[kind]
	if !known && kind != settingsRecord.kind {
		found, err := all(ctx, t.sql, `SELECT id FROM `+kind+` ORDER BY id DESC LIMIT 1`, nil, func(rows *sql.Rows) (id stash.ID, err error) { return id, rows.Scan(&id) })
		if err != nil {
			return false, err
		}
		if len(found) > 0 {
			last = found[0]
		}
	}
	if kind == settingsRecord.kind || bytes.Compare(id[:], last[:]) <= 0 {
		t.newest[kind] = last
		return false, nil
	}
	t.newest[kind] = id
	return true, nil
}

// text returns a document as SQLite keeps it, NULL for none.
func text(doc []byte) any {
	if doc == nil {
		return nil
	}
	return string(doc)
}

// PutFabric inserts or replaces a fabric.
func (t *tx) PutFabric(ctx context.Context, f stash.Fabric) error {
	return t.change(ctx, fabricRecord, f.ID, func() error { return saveFabric(ctx, t, f) })
}

// PutCloth inserts or replaces a cloth.
func (t *tx) PutCloth(ctx context.Context, c stash.Cloth) error {
	t.cloths[c.ID] = true
	t.codes.put(c)
	var as any
	if c.Plain() { // an outline is kept as text and read back
		c.Outline = shape.Polygon{}
		as = c
	}
	return t.changeTo(ctx, clothRecord, c.ID, as, func() error { return saveCloth(ctx, t, c) })
}

// PutPurchase inserts or replaces a purchase.
func (t *tx) PutPurchase(ctx context.Context, p stash.Purchase) error {
	if len(p.Lines) == 0 {
		p.Lines = nil
	}
	return t.changeTo(ctx, purchaseRecord, p.ID, p, func() error { return savePurchase(ctx, t, p) })
}

// PutNotion inserts or replaces a notion; the garment it was last used for must be there.
func (t *tx) PutNotion(ctx context.Context, n stash.Notion) error {
	if k := len(n.Lines); k > 0 && n.Lines[k-1].GarmentID != stash.NoID {
		if _, err := garmentByID(ctx, t.sql, n.Lines[k-1].GarmentID); err != nil {
			return &stash.Error{Kind: stash.Conflict, What: "The notion names a garment that is not in the library", Do: "Add that one first", Err: err}
		}
	}
	return t.change(ctx, notionRecord, n.ID, func() error { return saveNotion(ctx, t, n) })
}

// PutReservation inserts or replaces a reservation; a live one must lie on its
// cloth, clear of the other live ones.
func (t *tx) PutReservation(ctx context.Context, r stash.Reservation) error {
	row, err := clothByID(ctx, t.sql, r.ClothID)
	if err != nil {
		return fmt.Errorf("reserving cloth: %w", err)
	}
	live, err := liveOn(ctx, t.sql, r.ClothID)
	if err != nil {
		return fmt.Errorf("reserving %s: %w", row.Code, err)
	}
	if err := stash.CheckReservation(r, row.Cloth, live); err != nil {
		return fmt.Errorf("reserving %s: %w", row.Code, err)
	}
	if err := t.touchReservation(ctx, r.ID); err != nil {
		return err
	}
	r.At = stash.Stamp(r.At)
	t.cloths[r.ClothID] = true
	return t.change(ctx, reservationRecord, r.ID, func() error { return saveReservation(ctx, t, r) })
}

// touchReservation notes whether a reservation was live before the act.
func (t *tx) touchReservation(ctx context.Context, id stash.ID) error {
	if _, seen := t.wasLive[id]; seen {
		return nil
	}
	was, err := t.liveNow(ctx, id)
	t.wasLive[id] = was.Live
	return err
}

// PutPattern inserts or replaces a pattern.
func (t *tx) PutPattern(ctx context.Context, p pattern.Pattern) error {
	return t.change(ctx, patternRecord, p.ID, func() error { return savePattern(ctx, t, p) })
}

// PutGarment inserts or replaces a garment.
func (t *tx) PutGarment(ctx context.Context, g garment.Garment) error {
	return t.change(ctx, garmentRecord, g.ID, func() error { return saveGarment(ctx, t, g) })
}

// PutSettings replaces the settings.
func (t *tx) PutSettings(ctx context.Context, s planner.Settings) error {
	return t.change(ctx, settingsRecord, stash.NoID, func() error { return saveSettings(ctx, t, s) })
}

// Append adds a line of history.
func (t *tx) Append(ctx context.Context, m stash.Movement) error {
	if err := stash.CheckMovement(m); err != nil {
		return fmt.Errorf("adding a line of history: %w", err)
	}
	m.Reverses = stash.NoID
	return t.append(ctx, m)
}

func (t *tx) append(ctx context.Context, m stash.Movement) error {
	if m.ID == stash.NoID {
		m.ID = t.newID()
	}
	t.changed++
	t.cloths[m.ClothID] = true
	t.lines = append(t.lines, m)
	if err := insertMovement(ctx, t, m); err != nil {
		return fmt.Errorf("adding a line of history: %w", err)
	}
	return nil
}
