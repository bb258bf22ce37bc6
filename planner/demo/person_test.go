package demo_test

import (
	"cmp"
	"context"
	"encoding/binary"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"tallycloth/planner"
	"tallycloth/planner/draft"
	"tallycloth/planner/geometry"
	"tallycloth/planner/match"
	"tallycloth/planner/pattern"
	"tallycloth/planner/plannertest"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// still is a clock that stands.
func still() time.Time { return time.Date(2026, 3, 2, 9, 30, 0, 0, time.UTC) }

// randomShelf is a studio with three fabrics of knit and so many leftovers: rectangles, and
// some with a bite or a slant, as cutting leaves them.
func randomShelf(t testing.TB, rng *rand.Rand, leftovers int, now func() time.Time) (*planner.Studio, []pattern.Pattern) {
	t.Helper()
	return smallerShelf(t, rng, leftovers, 1, now)
}

// smallerShelf is a random shelf of leftovers a share as long and as wide.
func smallerShelf(t testing.TB, rng *rand.Rand, leftovers int, share float64, now func() time.Time) (*planner.Studio, []pattern.Pattern) {
	t.Helper()
	ctx := context.Background()
	n := uint64(0)
	newID := func() (id stash.ID) { n++; binary.BigEndian.PutUint64(id[8:], n); return id }
	s := planner.NewStudio(planner.Config{Store: plannertest.New(now, newID), Now: now, NewID: newID, Workers: 2})
	patterns := draft.DemoPatterns(newID)
	var fabrics []stash.ID
	_, err := s.Write(ctx, "Filled a shelf", func(tx planner.Tx) error {
		for _, p := range patterns {
			if err := tx.PutPattern(ctx, p); err != nil {
				return err
			}
		}
		for _, name := range []string{"first knit", "second knit", "third knit"} {
			f := stash.Fabric{ID: newID(), Name: name, Construction: stash.Jersey, FullWidth: 150 * measure.Centimetre, SelvedgeLoss: measure.Centimetre,
				Weight: 200 * measure.GramPerSquareMetre, Direction: stash.SameWayInGarment}
			f.Crosswise = stash.Grain{Stretch: stash.Measured(7000), Recovery: stash.Measured(9300)}
			f.Lengthwise = stash.Grain{Stretch: stash.Measured(4000), Recovery: stash.Measured(9000)}
			fabrics = append(fabrics, f.ID)
			if err := tx.PutFabric(ctx, f); err != nil {
				return err
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	cm := func(v int) int64 { return int64(share * float64(v) * float64(measure.Centimetre)) }
	for range leftovers {
		l, w := cm(50+rng.IntN(90)), cm(50+rng.IntN(100))
		outline := shape.Box{Max: shape.Point{X: l, Y: w}}.Ring()
		switch rng.IntN(3) {
		case 0:
			outline = shape.Ring{{X: 0, Y: 0}, {X: l, Y: 0}, {X: l - cm(5+rng.IntN(20)), Y: w}, {X: 0, Y: w}}
		case 1:
			x, y := l-cm(10+rng.IntN(20)), w-cm(10+rng.IntN(25))
			outline = shape.Ring{{X: 0, Y: 0}, {X: l, Y: 0}, {X: l, Y: y}, {X: x, Y: y}, {X: x, Y: w}, {X: 0, Y: w}}
		}
		form := planner.LeftoverForm{FabricID: fabrics[rng.IntN(3)], Washed: true, Outline: shape.Polygon{Outer: outline}}
		if _, err := s.AddLeftover(ctx, form); err != nil {
			t.Fatal(err)
		}
	}
	return s, patterns
}

// byTable is a person's way (common practice): the largest garment first, on the smallest
// cloth of whose straight part the yardage table says that it is enough at that width.
// What is cut off leaves a shorter straight part. It returns how many garments that makes.
func byTable(t testing.TB, s *planner.Studio, rows []planner.Wanted, patterns map[stash.ID]pattern.Pattern) int {
	t.Helper()
	cloths, err := s.Cloths(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	type straight struct {
		f             stash.Fabric
		length, width measure.Length
	}
	var shelf []straight
	for _, c := range cloths {
		if b, ok := geometry.LargestBox(c.Cloth.Polygon()); ok {
			shelf = append(shelf, straight{c.Fabric, measure.Length(b.Length()), measure.Length(b.Width())})
		}
	}
	type one struct {
		row  planner.Wanted
		need measure.Length // at a common width, to tell large from small
	}
	takes := func(row planner.Wanted, f stash.Fabric, width measure.Length) (measure.Length, bool) {
		f.FullWidth = width
		e, ok := match.EstimateYardage(patterns[row.PatternID], row.Size, pattern.Main, f, 0, 0)
		return e.Needed, ok
	}
	var all []one
	for _, row := range rows {
		need, ok := takes(row, cloths[0].Fabric, 150*measure.Centimetre)
		if !ok {
			t.Fatalf("%s has no yardage for %s", patterns[row.PatternID].Name, row.Size)
		}
		for range row.Count {
			all = append(all, one{row, need})
		}
	}
	slices.SortStableFunc(all, func(a, b one) int { return cmp.Compare(b.need, a.need) })
	made := 0
	for _, o := range all {
		slices.SortStableFunc(shelf, func(a, b straight) int {
			return cmp.Compare(int64(a.length)*int64(a.width), int64(b.length)*int64(b.width))
		})
		for i := range shelf {
			if need, ok := takes(o.row, shelf[i].f, shelf[i].width); ok && need <= shelf[i].length {
				shelf[i].length -= need
				made++
				break
			}
		}
	}
	return made
}

// Against a person's way by the yardage table the planner never makes fewer garments, and on
// most random shelves it makes more.
func TestAgainstTable(t *testing.T) {
	more, sum, byHand := 0, 0, 0
	for seed := range uint64(shelves) {
		rng := rand.New(rand.NewPCG(seed, 5))
		s, patterns := randomShelf(t, rng, 12, still)
		byID := map[stash.ID]pattern.Pattern{}
		var rows []planner.Wanted
		for _, p := range patterns {
			byID[p.ID] = p
			rows = append(rows, planner.Wanted{PatternID: p.ID, Size: p.Sizes[rng.IntN(len(p.Sizes))].Name, Count: 2 + rng.IntN(3),
				Uses: []planner.UseRule{{Role: pattern.Binding, From: planner.Skipped}}})
		}
		hand := byTable(t, s, rows, byID)
		p, err := s.PlanBatch(context.Background(), planner.Batch{Rows: rows}, planner.BatchEffort{Rounds: 1}, nil)
		if err != nil {
			t.Fatal(err)
		}
		if len(p.Made) < hand {
			t.Errorf("shelf %d: %d garments planned, %d by the table", seed, len(p.Made), hand)
		}
		if len(p.Made) > hand {
			more++
		}
		sum, byHand = sum+len(p.Made), byHand+hand
	}
	t.Logf("on %d shelves %d garments, %d by the table; more on %d", shelves, sum, byHand, more)
	if shelves > 10 && more <= shelves/2 {
		t.Errorf("more garments on %d of %d shelves only", more, shelves)
	}
}
