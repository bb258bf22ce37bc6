package demo_test

import (
	"context"
	"encoding/binary"
	"testing"
	"time"

	"tallycloth/planner"
	"tallycloth/planner/demo"
	"tallycloth/planner/garment"
	"tallycloth/planner/plannertest"
	"tallycloth/stash"
	"tallycloth/stash/shape"
)

// studio is the demo studio in memory, with a clock that stands and IDs that count.
func studio(t testing.TB) *planner.Studio {
	t.Helper()
	now := func() time.Time { return time.Date(2026, 3, 2, 9, 30, 0, 0, time.UTC) }
	n := uint64(0)
	newID := func() (id stash.ID) { n++; binary.BigEndian.PutUint64(id[8:], n); return id }
	s := planner.NewStudio(planner.Config{Store: plannertest.New(now, newID), Now: now, NewID: newID, Workers: 2})
	if err := demo.Fill(context.Background(), s); err != nil {
		t.Fatal(err)
	}
	return s
}

func TestDemoStudio(t *testing.T) {
	ctx := context.Background()
	s := studio(t)
	fabrics, _ := s.Fabrics(ctx)
	cloths, _ := s.Cloths(ctx)
	purchases, _ := s.Purchases(ctx)
	garments, _ := s.Garments(ctx)
	if len(fabrics) < 20 || len(fabrics) > 30 || len(cloths) < 40 {
		t.Errorf("%d fabrics, %d cloths", len(fabrics), len(cloths))
	}
	made, ways := map[stash.Construction]bool{}, map[stash.Direction]bool{}
	for _, f := range fabrics {
		made[f.Construction], ways[f.Direction] = true, true
	}
	if len(made) < 8 || len(ways) != 3 {
		t.Errorf("%d constructions, %d directions", len(made), len(ways))
	}
	odd, holes := 0, 0
	for _, c := range cloths {
		if !c.Cloth.Plain() {
			odd++
			holes += len(c.Cloth.Outline.Holes)
		}
	}
	if odd < 12 || holes < 1 {
		t.Errorf("%d odd leftovers, %d flaws", odd, holes)
	}
	first, last, currencies := purchases[len(purchases)-1].Date, purchases[0].Date, map[string]bool{}
	for _, p := range purchases {
		currencies[p.Lines[0].Price.Currency] = true
	}
	if len(currencies) != 2 || first >= "2024-04" || last < "2026-01" {
		t.Errorf("purchases in %v from %s to %s", currencies, first, last)
	}
	states := map[garment.State]int{}
	for _, g := range garments {
		states[g.State]++
	}
	for _, want := range garment.States() {
		if states[want] == 0 {
			t.Errorf("no garment is %s", want)
		}
	}
}

// TestDemoHolds: the history explains every cloth, and what is reserved lies on its cloth
// without overlapping.
func TestDemoHolds(t *testing.T) {
	ctx := context.Background()
	s := studio(t)
	lines, _ := s.Movements(ctx, stash.NoID)
	cloths, _ := s.Cloths(ctx)
	reserved := 0
	for _, c := range cloths {
		area, length := stash.Balance(lines, c.Cloth.ID)
		if err := stash.CheckBalance(c.Cloth, area, length); err != nil {
			t.Error(err)
		}
		if err := stash.CheckCloth(c.Cloth, c.Reservations); err != nil {
			t.Error(err)
		}
		for _, r := range c.Reservations {
			reserved++
			for _, p := range r.Pieces {
				if !shape.Inside(p.Outline, c.Cloth.Polygon()) {
					t.Errorf("%s reaches out of %s", p.Name, c.Cloth.Code)
				}
			}
		}
	}
	if reserved < 3 {
		t.Errorf("%d reservations on the shelf", reserved)
	}
}

func BenchmarkFill(b *testing.B) {
	for b.Loop() {
		studio(b)
	}
}

// BenchmarkFindFabric looks through the demo shelf for one pattern size.
func BenchmarkFindFabric(b *testing.B) {
	s := studio(b)
	patterns, _ := s.Patterns(context.Background())
	for b.Loop() {
		for _, p := range patterns {
			if _, err := s.FindFabric(context.Background(), planner.Search{PatternID: p.ID, Size: p.Sizes[3].Name}, nil); err != nil {
				b.Fatal(err)
			}
		}
	}
}

// BenchmarkWhatCanItMake asks one length for every pattern, size and role.
func BenchmarkWhatCanItMake(b *testing.B) {
	s := studio(b)
	cloths, _ := s.Cloths(context.Background())
	for b.Loop() {
		if _, err := s.WhatCanItMake(context.Background(), cloths[0].Cloth.ID, nil); err != nil {
			b.Fatal(err)
		}
	}
}
