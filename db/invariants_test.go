package db

import (
	"bytes"
	"context"
	"fmt"

	"tallycloth/stash"
)

// nothingOf are questions that have no answer in a library that is in order.
var nothingOf = map[string]string{
	"cloth whose history does not explain it":    `SELECT code FROM cloth WHERE ledger_area <> area_there OR ledger_length <> length_there`,
	"cloth whose sum is not that of its lines":   `SELECT code FROM cloth c WHERE ledger_area <> (SELECT coalesce(sum(area), 0) FROM movement WHERE cloth_id = c.id) OR ledger_length <> (SELECT coalesce(sum(length), 0) FROM movement WHERE cloth_id = c.id)`,
	"cloth with more reserved than there is":     `SELECT code FROM cloth c WHERE reserved_area > area_there OR reserved_area <> (SELECT coalesce(sum(area), 0) FROM reservation WHERE cloth_id = c.id AND live = 1 AND present = 1)`,
	"acts that leave leftovers from nowhere":     `SELECT hex(act_id) FROM movement WHERE kind = 'returned as leftover' GROUP BY act_id HAVING sum(area) <> 0`,
	"acts that did nothing":                      `SELECT sentence FROM act a WHERE NOT EXISTS (SELECT 1 FROM change WHERE act_id = a.id) AND NOT EXISTS (SELECT 1 FROM movement WHERE act_id = a.id)`,
	"acts taken back by nothing":                 `SELECT sentence FROM act a WHERE undone = 1 AND NOT EXISTS (SELECT 1 FROM act u WHERE u.undoes = a.id)`,
	"reservations without their line":            `SELECT hex(id) FROM reservation r WHERE live = 1 AND present = 1 AND NOT EXISTS (SELECT 1 FROM movement WHERE reservation_id = r.id)`,
	"cloth of a fabric that is not there":        `SELECT code FROM cloth c JOIN fabric f ON f.id = c.fabric_id WHERE c.present = 1 AND f.present = 0`,
	"cloth of a purchase that is not there":      `SELECT code FROM cloth c JOIN purchase p ON p.id = c.purchase_id WHERE c.present = 1 AND p.present = 0`,
	"bought cloth that no line of one names":     `SELECT code FROM cloth c WHERE present = 1 AND cut_from IS NULL AND purchase_id IS NOT NULL AND NOT EXISTS (SELECT 1 FROM purchase_line l WHERE l.purchase_id = c.purchase_id AND l.cloth_id = c.id)`,
	"purchases of cloth that is not there":       `SELECT hex(p.id) FROM purchase p JOIN purchase_line l ON l.purchase_id = p.id JOIN cloth c ON c.id = l.cloth_id WHERE p.present = 1 AND c.present = 0`,
	"photos without a picture":                   `SELECT hex(id) FROM photo WHERE present = 1 AND digest NOT IN (SELECT digest FROM picture)`,
	"cut garments with something reserved still": `SELECT name FROM garment g JOIN reservation r ON r.garment_id = g.id WHERE g.state = 'cut' AND r.live = 1 AND r.present = 1`,
}

// InOrder checks all that must hold in a library, whatever was done to it: the file, the
// sums, the outlines, what refers to what, and that every record is as its last change left it.
func (l *Library) InOrder(ctx context.Context) error {
	if err := soundness(ctx, l.pool, "integrity_check"); err != nil {
		return err
	}
	for what, query := range nothingOf {
		found, err := all(ctx, l.pool, query, nil, scanText)
		if err != nil {
			return fmt.Errorf("looking for %s: %w", what, err)
		}
		if len(found) > 0 {
			return fmt.Errorf("there are %s: %q", what, found)
		}
	}
	cloths, err := l.Cloths(ctx)
	if err != nil {
		return err
	}
	for _, c := range cloths {
		if err := stash.CheckBalance(c.Cloth, c.Area, c.Cloth.Length); err != nil {
			return err
		}
		if err := stash.CheckCloth(c.Cloth, c.Reservations); err != nil {
			return err
		}
	}
	return l.asChanged(ctx)
}

// asChanged says whether every record is as the last act that changed it left it.
func (l *Library) asChanged(ctx context.Context) error {
	last, err := all(ctx, l.pool, `SELECT max(seq), record, record_id FROM change GROUP BY record, record_id`, nil, scanChange)
	if err != nil {
		return err
	}
	for _, c := range last {
		if err := c.rebuild(ctx, l.pool); err != nil {
			return err
		}
		r, err := recordNamed(c.kind)
		if err != nil {
			return err
		}
		now, err := r.doc(ctx, l.pool, c.id)
		if err != nil {
			return err
		}
		then := c.after
		if then != nil {
			if then, err = r.canon(then); err != nil {
				return err
			}
		}
		if !bytes.Equal(now, then) {
			return fmt.Errorf("a %s is %s, and its last change left %s", c.kind, now, then)
		}
	}
	return nil
}
