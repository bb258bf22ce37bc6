package db

import (
	"bytes"
	"errors"
	"fmt"
	"testing"
	"time"

	"tallycloth/planner"
	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// TestNewRecordsAreKeptAsTheyAreRead: what an act keeps of records that are new, and which it
// does not read back one by one, is what reading them gives; so that undo finds them as the
// act left them.
func TestNewRecordsAreKeptAsTheyAreRead(t *testing.T) {
	ctx := t.Context()
	l, err := Open(ctx, t.TempDir(), Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	s := planner.NewStudio(planner.Config{Store: l, Now: time.Now, NewID: newID})
	d, err := s.ReadList(ctx, "list.csv", append([]byte("fabric,length,width,price,bought on,lot,place,notes,washed,code\n"),
		"moss jersey,1.5 m,150 cm,12.50 EUR,2026-01-03,A7,attic,soft,yes,MINE1\nmoss jersey,80 cm,140 cm,,,,,,no,\nfog terry,2 m,,3 USD,2026-01-03,,,,,\n"...), "")
	if err != nil {
		t.Fatal(err)
	}
	shown, err := s.PlanList(ctx, d)
	if err != nil {
		t.Fatal(err)
	}
	act, err := s.ImportList(ctx, d, shown, true)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := s.LogPurchase(ctx, planner.PurchaseForm{Fabric: stash.Fabric{Name: "pebble ponte", Construction: stash.Ponte, FullWidth: 150 * measure.Centimetre}, Length: measure.Metre, Lot: "3"}); err != nil {
		t.Fatal(err)
	}
	last, err := l.Acts(ctx, 1)
	if err != nil {
		t.Fatal(err)
	}
	for _, a := range []stash.ID{act.ID, last[0].ID} {
		changes, err := changesOf(ctx, l.pool, a)
		if err != nil || len(changes) < 3 {
			t.Fatalf("%d changes, %v", len(changes), err)
		}
		for _, c := range changes {
			r, err := recordNamed(c.kind)
			if err != nil {
				t.Fatal(err)
			}
			read, err := r.doc(ctx, l.pool, c.id)
			if err != nil || !bytes.Equal(read, c.after) {
				t.Errorf("%s: kept is %s, read %s; %v", c.kind, c.after, read, err)
			}
		}
	}
}

// TestCodesOfAnActThatWritesMany: the codes that an act gives are all different, also where it
// asks so often that they are looked up in memory, and one that is given up is free again.
func TestCodesOfAnActThatWritesMany(t *testing.T) {
	ctx := t.Context()
	l, err := Open(ctx, t.TempDir(), Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	f := stash.Fabric{ID: newID(), Name: "moss jersey", Construction: stash.Jersey, FullWidth: 150 * measure.Centimetre}
	seen := map[string]bool{}
	_, err = l.Write(ctx, "Brought many in", func(tx planner.Tx) error {
		if err := tx.PutFabric(ctx, f); err != nil {
			return err
		}
		var last stash.Cloth
		for i := range 3 * askedOneByOne {
			c := stash.Cloth{ID: newID(), FabricID: f.ID, Length: measure.Metre, Width: f.FullWidth}
			code, err := stash.NewCode(ctx, tx, c.ID)
			if err != nil {
				return err
			}
			if seen[code] {
				return fmt.Errorf("%s was given twice", code)
			}
			c.Code, last, seen[code] = code, c, true
			if err := errors.Join(tx.PutCloth(ctx, c), tx.Append(ctx, stash.Arrived(stash.MeasuredAgain, c, "a list"))); err != nil {
				return fmt.Errorf("cloth %d: %w", i, err)
			}
		}
		was := last.Code
		last.Code = "OWN"
		if err := tx.PutCloth(ctx, last); err != nil {
			return err
		}
		for code, want := range map[string]bool{was: false, "OWN": true} {
			if has, err := tx.HasCode(ctx, code); err != nil || has != want {
				t.Errorf("%s is taken: %t, want %t; %v", code, has, want, err)
			}
		}
		return nil
	})
	if err := errors.Join(err, l.InOrder(ctx)); err != nil {
		t.Error(err)
	}
}
