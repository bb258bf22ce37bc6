package db_test

import (
	"fmt"
	"testing"

	"tallycloth/planner"
	"tallycloth/stash"
)

// BenchmarkHistory10k asks a library of 300 000 movements what the place History asks.
func BenchmarkHistory10k(b *testing.B) {
	l, studio := openLarge(b)
	defer l.Close()
	ctx := b.Context()
	year := planner.Past{From: "2020-01-01", To: "2020-12-31"}
	var starts []stash.Date
	for m := range 25 {
		starts = append(starts, stash.Date(fmt.Sprintf("%d-%02d-01", 2024+m/12, m%12+1)))
	}
	for _, q := range []struct {
		name string
		ask  func() error
	}{
		{"page", func() error { _, err := l.Past(ctx, planner.Past{}, 0, 200); return err }},
		{"page in words", func() error { _, err := l.Past(ctx, planner.Past{Words: []string{"moss", "cut"}}, 0, 200); return err }},
		{"page of a year without lines", func() error { _, err := l.Past(ctx, year, 0, 200); return err }},
		{"count", func() error { _, err := l.PastCount(ctx, planner.Past{}); return err }},
		{"count in words", func() error { _, err := l.PastCount(ctx, planner.Past{Words: []string{"moss"}}); return err }},
		{"yardage", func() error { _, err := l.Flows(ctx, planner.Past{}, starts); return err }},
		{"yardage of a fabric in words", func() error { _, err := l.Flows(ctx, planner.Past{Words: []string{"moss"}}, starts); return err }},
		{"cloth", func() error { _, err := l.EveryCloth(ctx); return err }},
		{"cut", func() error { _, err := l.CutParts(ctx); return err }},
		{"value", func() error { _, err := studio.Worth(ctx); return err }},
		{"costs", func() error { _, err := studio.GarmentCosts(ctx); return err }},
	} {
		b.Run(q.name, func(b *testing.B) {
			for b.Loop() {
				if err := q.ask(); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
