package planner

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"tallycloth/planner/exchange/table"
	"tallycloth/stash"
	"tallycloth/stash/list"
	"tallycloth/stash/measure"
)

// ListDraft is a person's own list while it is being brought in: what was read, and how
// it is to be understood, which she may correct.
type ListDraft struct {
	Name    string // of the file
	Book    table.Book
	Mapping list.Mapping
	// Skip are the rows of the table that she leaves out.
	Skip map[int]bool
	// Report, when not nil, is told now and then how many records are written, of how many.
	Report func(done, of int)
}

// table is the list without the rows that are left out.
func (d ListDraft) table() list.Table {
	t := d.Book.Table
	if len(d.Skip) == 0 {
		return t
	}
	t.Rows = slices.Clone(t.Rows)
	lines := make([]int, len(t.Rows))
	for i := range t.Rows {
		lines[i] = d.Book.Table.Line(i)
		if d.Skip[i] {
			t.Rows[i] = nil
		}
	}
	t.Lines = lines
	return t
}

// ReadList reads a CSV file or a workbook (its sheet of that name, or the first with
// anything in it) and guesses what its columns say. Nothing is written. An error is a
// *stash.Error that says what is wrong with the file.
func (s *Studio) ReadList(ctx context.Context, name string, data []byte, sheet string) (ListDraft, error) {
	set, err := s.Settings(ctx)
	if err != nil {
		return ListDraft{}, fmt.Errorf("reading a list: %w", err)
	}
	b, err := table.Read(ctx, data, table.Options{Sheet: sheet})
	if err != nil {
		return ListDraft{}, err
	}
	return ListDraft{Name: name, Book: b, Mapping: list.Guess(b.Table, set.Units, set.Currency)}, nil
}

// PlanList is the dry run: what each row of a list would become. Nothing is written.
func (s *Studio) PlanList(ctx context.Context, d ListDraft) (list.Result, error) {
	return s.planList(ctx, s.Store, d)
}

// source is what a dry run asks of the library, or of an act.
type source interface {
	Fabrics(ctx context.Context) ([]stash.Fabric, error)
	Cloths(ctx context.Context) ([]stash.ClothState, error)
	ClothByCode(ctx context.Context, code string) (stash.ClothState, error)
}

func (s *Studio) planList(ctx context.Context, from source, d ListDraft) (list.Result, error) {
	known, failed, err := knownOf(ctx, from)
	if err != nil {
		return list.Result{}, fmt.Errorf("trying a list: %w", err)
	}
	r, err := list.Plan(d.table(), d.Mapping, known, s.newID, s.today())
	if err == nil && *failed != nil {
		err = fmt.Errorf("trying a list: %w", *failed)
	}
	if err == nil {
		err = ctx.Err()
	}
	return r, err
}

// alikeKey is what two cloths share that may be one.
type alikeKey struct {
	fabric        stash.ID
	length, width measure.Length
	lot, place    string
}

func keyOf(c stash.Cloth) alikeKey {
	return alikeKey{c.FabricID, c.Length, c.Width, c.Lot, c.Place}
}

// knownOf is what the library holds for a dry run. failed is set when asking for a code
// fails later.
func knownOf(ctx context.Context, from source) (k list.Known, failed *error, err error) {
	if k.Fabrics, err = from.Fabrics(ctx); err != nil {
		return k, nil, err
	}
	cloths, err := from.Cloths(ctx)
	if err != nil {
		return k, nil, err
	}
	k.Lots = map[stash.ID][]string{}
	alike, codes := map[alikeKey]string{}, map[string]stash.ID{}
	for _, c := range cloths {
		k.Lots[c.Cloth.FabricID] = append(k.Lots[c.Cloth.FabricID], c.Cloth.Lot)
		alike[keyOf(c.Cloth)] = c.Cloth.Code
		codes[c.Cloth.Code] = c.Cloth.ID
	}
	k.Like = func(c stash.Cloth) string { return alike[keyOf(c)] }
	failed = new(error)
	k.ClothByCode = func(code string) (stash.ID, bool) {
		if id, ok := codes[code]; ok {
			return id, true
		}
		c, err := from.ClothByCode(ctx, code) // gone ones too
		if err != nil && !errors.Is(err, stash.ErrNotFound) {
			*failed = cmp.Or(*failed, err)
		}
		return c.Cloth.ID, err == nil
	}
	return k, failed, nil
}

// ImportList writes what the dry run of a list showed as one act, so that one undo takes
// all of it back. Rows that the dry run refuses are left out when leaveOut says so; else
// nothing is written and the error names the first of them. Nothing is written either
// when the library was changed in the meantime so that the rows would become
// something else than shown.
func (s *Studio) ImportList(ctx context.Context, d ListDraft, shown list.Result, leaveOut bool) (stash.Act, error) {
	if err := mayBring(shown, leaveOut); err != nil {
		return stash.Act{}, err
	}
	if err := s.backUpBefore(ctx, BeforeList); err != nil {
		return stash.Act{}, fmt.Errorf("before the list is brought in: %w", err)
	}
	act, err := s.Write(ctx, listSentence(d.Name, shown), func(tx Tx) error {
		now, err := s.planList(ctx, tx, d)
		if err != nil {
			return err
		}
		if !slices.EqualFunc(shown.Rows, now.Rows, func(a, b list.Row) bool { return a.Outcome == b.Outcome && a.Says == b.Says }) {
			return refused("Look at the rows again", "The library was changed since the list was tried")
		}
		return putList(ctx, tx, now, d.Report)
	})
	if err != nil {
		return stash.Act{}, err
	}
	return act, nil
}

func mayBring(r list.Result, leaveOut bool) error {
	for _, row := range r.Rows {
		if row.Outcome == list.Refused && !leaveOut {
			return refused("Mend it in the list, or leave out the rows that are refused", "Line %d cannot be brought in: %s", row.Line, strings.TrimSuffix(row.Why[0], "."))
		}
	}
	if r.Empty() {
		return refused("Look at what the columns are, and at what is said of the rows", "There is nothing in this list to bring in")
	}
	return nil
}

// listSentence is the act of a list.
func listSentence(name string, r list.Result) string {
	var parts []string
	for _, c := range []struct {
		n         int
		one, many string
	}{{len(r.Cloths), "length", "lengths"}, {r.NewFabrics, "new fabric", "new fabrics"}, {r.Changed, "known fabric described further", "known fabrics described further"}} {
		switch {
		case c.n == 1:
			parts = append(parts, "1 "+c.one)
		case c.n > 1:
			parts = append(parts, fmt.Sprintf("%d %s", c.n, c.many))
		}
	}
	return fmt.Sprintf("Brought in %s from %s", strings.Join(parts, ", "), name)
}

// toldEach is after how many records written a report is made.
const toldEach = 1000

// putList writes what a list becomes. Cloth with codes of its own goes first, so that no
// code that is made up takes one of them.
func putList(ctx context.Context, tx Tx, r list.Result, report func(done, of int)) error {
	done, of := 0, len(r.Fabrics)+len(r.Purchases)+len(r.Cloths)
	wrote := func(err error) error {
		if done++; err == nil && report != nil && (done%toldEach == 0 || done == of) {
			report(done, of)
		}
		return err
	}
	for _, f := range r.Fabrics {
		if err := wrote(tx.PutFabric(ctx, f)); err != nil {
			return err
		}
	}
	for _, p := range r.Purchases {
		if err := wrote(tx.PutPurchase(ctx, p)); err != nil {
			return err
		}
	}
	for _, coded := range []bool{true, false} {
		for _, c := range r.Cloths {
			if (c.Code != "") != coded {
				continue
			}
			if err := wrote(putNewCloth(ctx, tx, c)); err != nil {
				return err
			}
		}
	}
	return nil
}

func putNewCloth(ctx context.Context, tx Tx, c list.NewCloth) error {
	if c.Code == "" {
		return arrive(ctx, tx, c.Kind, c.Cloth, c.From)
	}
	if err := tx.PutCloth(ctx, c.Cloth); err != nil {
		return err
	}
	return tx.Append(ctx, stash.Arrived(c.Kind, c.Cloth, c.From))
}
