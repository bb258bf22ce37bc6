package demo_test

import (
	"context"
	"errors"
	"testing"

	"tallycloth/planner"
	"tallycloth/stash"
)

// The sheet of a batch has all that its plan cuts, cloth by cloth, each outline known as a pattern
// piece of its garment, before anything is reserved; and the same outlines as what is reserved then.
func TestBatchSheet(t *testing.T) {
	s, ctx := studio(t), context.Background()
	b := planner.Batch{Name: "Three tanks", Rows: []planner.Wanted{wantedOf(t, s, "tank", 3)}}
	p, err := s.PlanBatch(ctx, b, planner.BatchEffort{Rounds: 2}, nil)
	if err != nil || len(p.Made) == 0 {
		t.Fatalf("%d made, %v", len(p.Made), err)
	}
	var told *stash.Error
	if _, err := s.BatchSheet(ctx, b); !errors.As(err, &told) || told.Do == "" {
		t.Errorf("without a plan: %v", err)
	}
	b.Plan = &p
	sheet, err := s.BatchSheet(ctx, b)
	if err != nil || !sheet.Planned || len(sheet.Garments) != len(p.Made) || len(sheet.Cloths) != len(p.Cuts) {
		t.Fatalf("%d garments, %d cloths, %v", len(sheet.Garments), len(sheet.Cloths), err)
	}
	planned := outlinesOn(sheet)
	for _, c := range sheet.Cloths {
		for _, q := range c.Pieces {
			if q.UsedFor == "main" && (!q.Known || q.GrainFoot == q.GrainTop) {
				t.Errorf("%s on %s is not known", q.Name, c.State.Cloth.Code)
			}
		}
	}
	if _, err := s.ReserveAll(ctx, b, p); err != nil {
		t.Fatal(err)
	}
	for _, c := range sheet.Cloths {
		now, err := s.ClothSheet(ctx, c.State.Cloth.ID)
		if err != nil {
			t.Fatal(err)
		}
		kept := outlinesOn(now)
		for k, n := range planned {
			if k.code == c.State.Cloth.Code && kept[k] != n {
				t.Errorf("%d of %v planned, %d reserved", n, k, kept[k])
			}
		}
	}
}

type outlineKey struct{ code, name, garment string }

// outlinesOn counts the outlines of a sheet.
func outlinesOn(s planner.CuttingSheet) map[outlineKey]int {
	out := map[outlineKey]int{}
	for _, c := range s.Cloths {
		for _, p := range c.Pieces {
			out[outlineKey{c.State.Cloth.Code, p.Name, s.Garments[p.Garment].Garment.Name}]++
		}
	}
	return out
}
