package db_test

import (
	"database/sql"
	"path/filepath"
	"strings"
	"testing"
)

// raw opens the file of a library behind the library's back.
func raw(t *testing.T, folder string) *sql.DB {
	t.Helper()
	d, err := sql.Open("sqlite3", "file:"+filepath.Join(folder, "library.db")+"?_foreign_keys=on&_recursive_triggers=on&_busy_timeout=5000&_txlock=immediate")
	if err != nil {
		t.Fatal(err)
	}
	d.SetMaxOpenConns(1)
	t.Cleanup(func() {
		if err := d.Close(); err != nil {
			t.Error(err)
		}
	})
	return d
}

// TestDatabaseHolds tries through plain SQL what the database must refuse whatever a
// program does to it, and then looks that nothing changed.
func TestDatabaseHolds(t *testing.T) {
	l, ids := open(t)
	fill(t, l, ids)
	before := everything(t, l)
	d := raw(t, l.Folder())
	const (
		anAct     = `INSERT INTO act (id, at, sentence, kind) VALUES (randomblob(16), 1, 'raw', 'act');`
		lastAct   = `(SELECT id FROM act ORDER BY seq DESC LIMIT 1)`
		plain     = `(SELECT id FROM cloth WHERE code = 'K7PD')`
		newLine   = `INSERT INTO movement (id, act_id, at, kind, cloth_id, area, length, note) VALUES (randomblob(16), ` + lastAct + `, 1, `
		copyCloth = `INSERT INTO cloth (id, fabric_id, code, lot, place, length, width, raw_start, raw_end, selvedge_low, selvedge_high, washed, gone, notes) SELECT randomblob(16), `
		clothRest = `lot, place, length, width, raw_start, raw_end, selvedge_low, selvedge_high, washed, gone, notes FROM cloth WHERE code = 'K7PD'`
	)
	for _, c := range []struct{ what, sql, says string }{
		{"edit a line", `UPDATE movement SET note = 'x'`, "never edited"},
		{"edit a line's quantity", `UPDATE movement SET area = area + 1 WHERE seq = 1`, "never edited"},
		{"delete a line", `DELETE FROM movement WHERE seq = 1`, "never deleted"},
		{"replace a line", `INSERT OR REPLACE INTO movement SELECT * FROM movement WHERE seq = 1`, ""},
		{"replace a line of the last act", `INSERT OR REPLACE INTO movement SELECT * FROM movement WHERE act_id = ` + lastAct, "never deleted"},
		{"add a line to an old act", `INSERT INTO movement (id, act_id, at, kind, cloth_id, area, length, note) VALUES (randomblob(16), (SELECT id FROM act WHERE seq = 1), 1, 'bought', ` + plain + `, 0, 0, '')`, "belongs to the act that is being written"},
		{"edit an act", `UPDATE act SET sentence = 'x'`, "never edited"},
		{"delete an act", `DELETE FROM act`, "never deleted"},
		{"replace an act", `INSERT OR REPLACE INTO act SELECT * FROM act LIMIT 1`, "never deleted"},
		{"count an act as undone", `UPDATE act SET undone = 1`, "only while an act that undoes it stands"},
		{"edit a change", `UPDATE change SET before = NULL`, "never edited"},
		{"delete a change", `DELETE FROM change`, "never deleted"},
		{"delete a fabric", `DELETE FROM fabric`, "never deleted"},
		{"delete cloth", `DELETE FROM cloth`, "never deleted"},
		{"delete a purchase", `DELETE FROM purchase`, "never deleted"},
		{"delete a notion", `DELETE FROM notion`, "never deleted"},
		{"delete a pattern", `DELETE FROM pattern`, "never deleted"},
		{"delete a garment", `DELETE FROM garment`, "never deleted"},
		{"delete a reservation", `DELETE FROM reservation`, "never deleted"},
		{"delete the settings", `DELETE FROM settings`, "never deleted"},
		{"replace a fabric", `INSERT OR REPLACE INTO fabric SELECT * FROM fabric`, "never deleted"},

		{"lengthen cloth without a line", `UPDATE cloth SET length = length + 1000 WHERE id = ` + plain, "FOREIGN KEY"},
		{"widen cloth without a line", `UPDATE cloth SET width = width + 1 WHERE id = ` + plain, "FOREIGN KEY"},
		{"use cloth up without a line", `UPDATE cloth SET gone = 1 WHERE code = 'M3XW'`, "FOREIGN KEY"},
		{"change an outline's area without a line", `UPDATE cloth SET outline_area = outline_area - 1 WHERE code = 'M3XW'`, "FOREIGN KEY"},
		{"write a line that explains nothing", anAct + newLine + `'measured again', ` + plain + `, 5, 0, '')`, "FOREIGN KEY"},
		{"write a length that explains nothing", anAct + newLine + `'measured again', ` + plain + `, 0, 5, '')`, "FOREIGN KEY"},
		{"forge what the history adds up to", `UPDATE cloth SET ledger_area = ledger_area + 1000, width = width + 1 WHERE id = ` + plain, "what its history adds up to"},
		{"forge what is reserved", `UPDATE cloth SET reserved_area = 0 WHERE id = ` + plain, "what its reservations add up to"},
		{"add cloth without history", copyCloth + `fabric_id, 'Q9', ` + clothRest, "FOREIGN KEY"},
		{"add cloth with a forged history", strings.Replace(copyCloth, "notes)", "notes, ledger_area)", 1) + `fabric_id, 'Q9', ` + strings.Replace(clothRest, "notes FROM", "notes, length * width FROM", 1), "no history yet"},

		{"reserve more than there is", `UPDATE reservation SET area = 4000000000000`, "FOREIGN KEY"},
		{"reserve nothing", `UPDATE reservation SET area = 0`, "CHECK"},
		{"move a reservation to other cloth", `UPDATE reservation SET cloth_id = (SELECT id FROM cloth WHERE code = 'M3XW')`, "stays on its cloth"},
		{"give reserved cloth away", anAct + newLine + `'given away', ` + plain + `, -3100000000000, -2000000, ''); UPDATE cloth SET gone = 1 WHERE id = ` + plain, "FOREIGN KEY"},
		{"reserve a quantity", anAct + newLine + `'reserved', ` + plain + `, 5, 0, '')`, "CHECK"},

		{"cloth of no fabric", copyCloth + `randomblob(16), 'Q9', ` + clothRest, "not in the library"},
		{"two cloths of one code", copyCloth + `fabric_id, code, ` + clothRest, "UNIQUE"},
		{"cloth without width", `UPDATE cloth SET width = 0`, "CHECK"},
		{"cloth from no purchase", `UPDATE cloth SET purchase_id = randomblob(16)`, "FOREIGN KEY"},
		{"cloth cut from itself", `UPDATE cloth SET cut_from = id`, "CHECK"},
		{"text for a length", `UPDATE cloth SET length = 'long'`, "cannot store TEXT"},
		{"a short ID", `UPDATE notion SET id = x'00'`, "CHECK"},
		{"fibres that reach 97 %", `UPDATE fabric SET fibres = '[{"Name":"cotton","Share":9700}]'`, "must reach 100 %"},
		{"no fibres in a list", `UPDATE fabric SET fibres = '[]'`, "must reach 100 %"},
		{"selvedges wider than the fabric", `UPDATE fabric SET selvedge_loss = full_width`, "CHECK"},
		{"a recovery over 100 %", `UPDATE fabric SET cross_recovery = 10001`, "CHECK"},
		{"a fabric without a name", `UPDATE fabric SET name = ' '`, "CHECK"},
		{"a purchase on no day", `UPDATE purchase SET date = '2026-02-30'`, "CHECK"},
		{"a line of no cloth", `UPDATE purchase_line SET cloth_id = randomblob(16)`, "FOREIGN KEY"},
		{"fewer notions than none", `UPDATE notion SET quantity = -1`, "CHECK"},
		{"a state no garment has", `UPDATE garment SET state = 'lost'`, "CHECK"},
		{"a garment of no pattern", `UPDATE garment SET pattern_id = randomblob(16)`, "FOREIGN KEY"},
		{"settings that are no document", `UPDATE settings SET document = '{'`, "CHECK"},
		{"second settings", `INSERT INTO settings VALUES (2, '{}')`, "CHECK"},
		{"a kind of movement that is none", anAct + newLine + `'lost', ` + plain + `, 0, 0, '')`, "CHECK"},
		{"a reversal of nothing", anAct + newLine + `'reversed', ` + plain + `, 0, 0, '')`, "CHECK"},
		{"a reversal of something else", anAct + `INSERT INTO movement (id, act_id, at, kind, cloth_id, area, length, note, reverses) SELECT randomblob(16), ` + lastAct + `, 1, 'reversed', cloth_id, area, -length, '', id FROM movement WHERE seq = 1`, "exactly what it said"},
		{"an act without a sentence", `INSERT INTO act (id, at, sentence, kind) VALUES (randomblob(16), 1, '', 'act')`, "CHECK"},
		{"an undo of nothing", `INSERT INTO act (id, at, sentence, kind) VALUES (randomblob(16), 1, 'x', 'undo')`, "CHECK"},

		{"take back a fabric that has cloth", `UPDATE fabric SET present = 0`, "There is cloth of this fabric"},
		{"take back cloth that is reserved", `UPDATE cloth SET present = 0 WHERE id = ` + plain, "This cloth is reserved"},
		{"take back a pattern that has a garment", `UPDATE pattern SET present = 0`, "There is a garment of this pattern"},
		{"take back cloth without reversing its lines", `UPDATE cloth SET present = 0 WHERE code = 'M3XW'`, "FOREIGN KEY"},
		{"put something where nothing is", `INSERT INTO never VALUES (1)`, "CHECK"},
	} {
		tx, err := d.Begin()
		if err != nil {
			t.Fatal(err)
		}
		if _, err = tx.Exec(c.sql); err == nil {
			err = tx.Commit()
		}
		if err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v, want %q", c.what, err, c.says)
		}
		_ = tx.Rollback() // what was refused, also by the commit
		if after := everything(t, l); after != before {
			t.Fatalf("%s left a trace", c.what)
		}
	}
}
