package db

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"maps"
	"slices"

	"tallycloth/stash"
)

// compareIDs orders records as they lie in the file: an act may have written many.
func compareIDs(a, b stash.ID) int { return bytes.Compare(a[:], b[:]) }

// check is what must hold before an act is committed; see stash/invariant.go. The
// triggers and deferred references of the migrations hold as much of it as they
// can on their own; what is here has the better sentences, and the exact outlines.
func (t *tx) check(ctx context.Context) error {
	for some := range slices.Chunk(slices.SortedFunc(maps.Keys(t.cloths), compareIDs), atATime) {
		if err := t.checkCloths(ctx, some); err != nil {
			return err
		}
	}
	if err := t.checkReferences(ctx); err != nil {
		return err
	}
	if t.act.Undoes != stash.NoID {
		return nil // its lines mirror those of an act that was in order
	}
	var turns []stash.Turn
	for id, was := range t.wasLive {
		r, err := t.liveNow(ctx, id)
		if err != nil {
			return err
		}
		turns = append(turns, stash.Turn{Reservation: r, WasLive: was})
	}
	return stash.CheckLines(t.lines, turns)
}

// liveNow returns a reservation, or one that is not live when there is none.
func (t *tx) liveNow(ctx context.Context, id stash.ID) (stash.Reservation, error) {
	r, err := reservationByID(ctx, t.sql, id)
	if errors.Is(err, stash.ErrNotFound) {
		return stash.Reservation{ID: id}, nil
	}
	return r, err
}

// atATime is how many records are checked with one question: an act may write very many.
const atATime = 500

// checkCloths says whether the history explains cloths and their reservations fit.
// A cloth that was taken back must be explained as gone, by the deferred rule.
func (t *tx) checkCloths(ctx context.Context, ids []stash.ID) error {
	rows, err := clothsByIDs(ctx, t.sql, ids)
	if err != nil {
		return fmt.Errorf("checking cloth: %w", err)
	}
	reserved, err := all(ctx, t.sql, selectReservation+` AND live = 1 AND cloth_id IN `+amongIDs+` ORDER BY id`, []any{idList(ids)}, scanReservation)
	if err != nil {
		return fmt.Errorf("checking what is reserved: %w", err)
	}
	live := map[stash.ID][]stash.Reservation{}
	for _, r := range reserved {
		live[r.ClothID] = append(live[r.ClothID], r)
	}
	for _, row := range rows {
		if err := stash.CheckBalance(row.Cloth, row.area, row.length); err != nil {
			return fmt.Errorf("checking the history: %w", err)
		}
		if err := stash.CheckCloth(row.Cloth, live[row.ID]); err != nil {
			return err
		}
	}
	return nil
}

// missing finds, for a kind of record that was written, another that it names and
// that was taken back.
var missing = map[string]string{
	"cloth": `SELECT 'purchase' FROM cloth c JOIN purchase p ON p.id = c.purchase_id WHERE c.id IN ` + amongIDs + ` AND c.present = 1 AND p.present = 0
		UNION ALL SELECT 'cloth' FROM cloth c JOIN cloth p ON p.id = c.cut_from WHERE c.id IN ` + amongIDs + ` AND c.present = 1 AND p.present = 0`,
	"purchase": `SELECT 'fabric' FROM purchase p JOIN purchase_line l ON l.purchase_id = p.id JOIN fabric f ON f.id = l.fabric_id WHERE p.id IN ` + amongIDs + ` AND p.present = 1 AND f.present = 0
		UNION ALL SELECT 'cloth' FROM purchase p JOIN purchase_line l ON l.purchase_id = p.id JOIN cloth c ON c.id = l.cloth_id WHERE p.id IN ` + amongIDs + ` AND p.present = 1 AND c.present = 0`,
	"photo": `SELECT 'fabric' FROM photo p JOIN fabric f ON f.id = p.fabric_id WHERE p.id IN ` + amongIDs + ` AND p.present = 1 AND f.present = 0
		UNION ALL SELECT 'cloth' FROM photo p JOIN cloth c ON c.id = p.cloth_id WHERE p.id IN ` + amongIDs + ` AND p.present = 1 AND c.present = 0
		UNION ALL SELECT 'purchase' FROM photo p JOIN purchase b ON b.id = p.purchase_id WHERE p.id IN ` + amongIDs + ` AND p.present = 1 AND b.present = 0
		UNION ALL SELECT 'garment' FROM photo p JOIN garment g ON g.id = p.garment_id WHERE p.id IN ` + amongIDs + ` AND p.present = 1 AND g.present = 0`,
	"reservation": `SELECT 'garment' FROM reservation r JOIN garment g ON g.id = r.garment_id WHERE r.id IN ` + amongIDs + ` AND r.present = 1 AND g.present = 0`,
	"garment":     `SELECT 'pattern' FROM garment g JOIN pattern p ON p.id = g.pattern_id WHERE g.id IN ` + amongIDs + ` AND g.present = 1 AND p.present = 0`,
}

// checkReferences says whether every record that was written names only records
// that are there. Those that never were are refused by their foreign keys.
func (t *tx) checkReferences(ctx context.Context) error {
	by := map[string][]stash.ID{}
	for k := range t.puts {
		by[k.kind] = append(by[k.kind], k.id)
	}
	for _, kind := range slices.Sorted(maps.Keys(by)) {
		query := missing[kind]
		if query == "" {
			continue
		}
		slices.SortFunc(by[kind], compareIDs)
		for some := range slices.Chunk(by[kind], atATime) {
			names, err := all(ctx, t.sql, query, []any{idList(some)}, scanText)
			if err != nil {
				return fmt.Errorf("checking a %s: %w", kind, err)
			}
			if len(names) > 0 {
				return &stash.Error{Kind: stash.Conflict, What: fmt.Sprintf("The %s names a %s that is not in the library", kind, names[0]), Do: "Add that one first"}
			}
		}
	}
	return nil
}
