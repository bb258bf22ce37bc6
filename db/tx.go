package db

import (
	"bytes"
	"context"
	"fmt"
	"strings"

	"tallycloth/planner"
	"tallycloth/planner/garment"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
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
	names := strings.Split(columns, ",")
	sets := make([]string, len(names))
	for i, n := range names {
		n = strings.TrimSpace(n)
		sets[i] = n + " = excluded." + n
	}
	return t.exec(ctx, fmt.Sprintf(`INSERT INTO %s (%s, present) VALUES (?%s, 1) ON CONFLICT (id) DO UPDATE SET %s, present = 1`,
		table, columns, strings.Repeat(", ?", len(names)-1), strings.Join(sets, ", ")), values...)
}

// change runs write, which changes one record, and keeps the record as it was
// before and after. A change that changes nothing leaves no trace.
func (t *tx) change(ctx context.Context, r record, id stash.ID, write func() error) error {
	before, err := r.doc(ctx, t.sql, id)
	if err == nil {
		err = write()
	}
	if err != nil {
		return fmt.Errorf("writing a %s: %w", r.kind, err)
	}
	after, err := r.doc(ctx, t.sql, id)
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
	return t.change(ctx, clothRecord, c.ID, func() error { return saveCloth(ctx, t, c) })
}

// PutPurchase inserts or replaces a purchase.
func (t *tx) PutPurchase(ctx context.Context, p stash.Purchase) error {
	return t.change(ctx, purchaseRecord, p.ID, func() error { return savePurchase(ctx, t, p) })
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
