package db

import (
	"bytes"
	"context"
	"database/sql"
	"fmt"
	"slices"
	"time"

	"tallycloth/stash"
)

const selectAct = `SELECT id, seq, at, sentence, undoes, undone FROM act`

func scanAct(rows *sql.Rows) (a stash.Act, err error) {
	var at int64
	err = rows.Scan(&a.ID, &a.Seq, &at, &a.Sentence, &a.Undoes, &a.Undone)
	a.At = time.UnixMicro(at).UTC()
	return a, err
}

func scanText(rows *sql.Rows) (s string, err error) { return s, rows.Scan(&s) }

// The three kinds of act. An act is what the person did; an undo takes one back; a
// redo takes an undo back.
const (
	kindAct  = "act"
	kindUndo = "undo"
	kindRedo = "redo"
)

// lastAct returns the act that Undo takes back.
func lastAct(ctx context.Context, q queryer) ([]stash.Act, error) {
	return all(ctx, q, selectAct+` WHERE kind = 'act' AND undone = 0 ORDER BY seq DESC LIMIT 1`, nil, scanAct)
}

// lastUndo returns the undo that Redo takes back: the last that stands, if no act
// was written since.
func lastUndo(ctx context.Context, q queryer) ([]stash.Act, error) {
	return all(ctx, q, selectAct+` WHERE kind = 'undo' AND undone = 0
		AND seq > (SELECT coalesce(max(seq), 0) FROM act WHERE kind = 'act') ORDER BY seq DESC LIMIT 1`, nil, scanAct)
}

// standing returns the act whose lines and changes stand for a: a itself, or the
// last redo that brought it back.
func standing(ctx context.Context, q queryer, a stash.Act) (stash.Act, error) {
	redone, err := all(ctx, q, selectAct+` WHERE kind = 'redo' AND undoes IN (SELECT id FROM act WHERE undoes = ?) ORDER BY seq DESC LIMIT 1`,
		[]any{a.ID[:]}, scanAct)
	if err != nil || len(redone) == 0 {
		return a, err
	}
	return redone[0], nil
}

// changeRow is what an act did to a record: its document before and after, nil for none.
type changeRow struct {
	key
	seq           int64
	before, after []byte
}

func scanChange(rows *sql.Rows) (c changeRow, err error) {
	return c, rows.Scan(&c.seq, &c.kind, &c.id)
}

// reverse takes back what the act target changed: its records get their state from
// before, in reverse order, and each of its lines a reversing line. It refuses when a
// later act built on it. sentence names what is taken back, for that refusal.
func (t *tx) reverse(ctx context.Context, target stash.Act, sentence string) error {
	changes, err := changesOf(ctx, t.sql, target.ID)
	if err != nil {
		return err
	}
	if err := t.checkUnchanged(ctx, changes, sentence); err != nil {
		return err
	}
	if err := t.checkNotMissed(ctx, changes, sentence); err != nil {
		return err
	}
	lines, err := movements(ctx, t.sql, ` WHERE act_id = ?`, target.ID[:])
	if err != nil {
		return fmt.Errorf("reading the lines to reverse: %w", err)
	}
	for _, c := range changes {
		if err := t.restore(ctx, c); err != nil {
			return err
		}
	}
	for _, m := range slices.Backward(lines) {
		if err := t.append(ctx, stash.Reversal(m)); err != nil {
			return err
		}
	}
	return nil
}

// restore gives a record the state it had before a change.
func (t *tx) restore(ctx context.Context, c changeRow) error {
	r, err := recordNamed(c.kind)
	if err != nil {
		return err
	}
	switch c.kind {
	case "cloth":
		t.cloths[c.id] = true
	case "reservation":
		now, err := t.liveNow(ctx, c.id)
		if err != nil {
			return err
		}
		t.cloths[now.ClothID] = true
	}
	return t.change(ctx, r, c.id, func() error {
		if c.before == nil {
			return t.exec(ctx, `UPDATE `+r.kind+` SET present = 0 WHERE id = ?`, c.id[:])
		}
		return r.put(ctx, t, c.before)
	})
}

// checkUnchanged says whether every changed record is still as the act left it.
// changes are newest first.
func (t *tx) checkUnchanged(ctx context.Context, changes []changeRow, sentence string) error {
	seen := map[key]bool{}
	for _, c := range changes {
		if seen[c.key] {
			continue
		}
		seen[c.key] = true
		r, err := recordNamed(c.kind)
		if err != nil {
			return err
		}
		now, err := r.doc(ctx, t.sql, c.id)
		if err != nil {
			return fmt.Errorf("reading a %s: %w", c.kind, err)
		}
		then := c.after
		if then != nil {
			if then, err = r.canon(then); err != nil {
				return err
			}
		}
		if !bytes.Equal(now, then) {
			return t.builtOn(ctx, c.key, sentence)
		}
	}
	return nil
}

// users finds, for a kind of record, the records that name it.
var users = map[string]string{
	"fabric": `SELECT 'cloth', id FROM cloth WHERE fabric_id = ?1 AND present = 1
		UNION ALL SELECT 'purchase', p.id FROM purchase p JOIN purchase_line l ON l.purchase_id = p.id WHERE l.fabric_id = ?1 AND p.present = 1
		UNION ALL SELECT 'photo', id FROM photo WHERE fabric_id = ?1 AND present = 1`,
	"cloth": `SELECT 'cloth', id FROM cloth WHERE cut_from = ?1 AND present = 1
		UNION ALL SELECT 'reservation', id FROM reservation WHERE cloth_id = ?1 AND present = 1
		UNION ALL SELECT 'purchase', p.id FROM purchase p JOIN purchase_line l ON l.purchase_id = p.id WHERE l.cloth_id = ?1 AND p.present = 1
		UNION ALL SELECT 'photo', id FROM photo WHERE cloth_id = ?1 AND present = 1`,
	"purchase": `SELECT 'cloth', id FROM cloth WHERE purchase_id = ?1 AND present = 1
		UNION ALL SELECT 'photo', id FROM photo WHERE purchase_id = ?1 AND present = 1`,
	"garment": `SELECT 'reservation', id FROM reservation WHERE garment_id = ?1 AND present = 1
		UNION ALL SELECT 'notion', id FROM notion WHERE present = 1 AND instr(replace(lines, '-', ''), lower(hex(?1))) > 0
		UNION ALL SELECT 'photo', id FROM photo WHERE garment_id = ?1 AND present = 1`,
	"pattern": `SELECT 'garment', id FROM garment WHERE pattern_id = ?1 AND present = 1`,
}

// checkNotMissed says whether no record that stays names one that an undo would
// take away.
func (t *tx) checkNotMissed(ctx context.Context, changes []changeRow, sentence string) error {
	leaving := map[key]bool{}
	for _, c := range changes { // newest first: the oldest decides
		leaving[c.key] = c.before == nil
	}
	for k, leaves := range leaving {
		if !leaves || users[k.kind] == "" {
			continue
		}
		by, err := all(ctx, t.sql, users[k.kind], []any{k.id[:]}, func(rows *sql.Rows) (u key, err error) { return u, rows.Scan(&u.kind, &u.id) })
		if err != nil {
			return fmt.Errorf("looking for what uses a %s: %w", k.kind, err)
		}
		for _, u := range by {
			if !leaving[u] {
				return t.builtOn(ctx, u, sentence)
			}
		}
	}
	return nil
}

// builtOn is the refusal to take an act back, naming the last act that changed a record.
func (t *tx) builtOn(ctx context.Context, k key, sentence string) error {
	later, err := all(ctx, t.sql, `SELECT a.sentence FROM change c JOIN act a ON a.id = c.act_id WHERE c.record = ? AND c.record_id = ?
		ORDER BY c.seq DESC LIMIT 1`, []any{k.kind, k.id[:]}, scanText)
	if err != nil {
		return fmt.Errorf("looking for the later act: %w", err)
	}
	if len(later) == 0 {
		return fmt.Errorf("a %s was changed without an act", k.kind)
	}
	return stash.BuiltOn(sentence, later[0])
}
