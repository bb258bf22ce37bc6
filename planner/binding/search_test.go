package binding

import (
	"context"
	"testing"

	"tallycloth/stash/measure"

	"pgregory.net/rapid"
)

// TestTableAndSearchAgree: the table over whole strips and the branch and bound, which share
// no code, find plans of the same worth.
func TestTableAndSearchAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var kinds []kind
		for range rapid.IntRange(1, 3).Draw(t, "kinds") {
			k := kind{width: 40_000, length: measure.Length(rapid.IntRange(8, 40).Draw(t, "length")) * 10_000, take: 20_000}
			k.joinable = []span{{0, k.length}}
			k.numbers = make([]int, rapid.IntRange(1, 3).Draw(t, "count"))
			kinds = append(kinds, k)
		}
		var sources []Source
		for range rapid.IntRange(1, 4).Draw(t, "sources") {
			sources = append(sources, Source{Across: measure.Length(rapid.IntRange(10, 90).Draw(t, "across")) * 10_000, Along: measure.Length(rapid.IntRange(0, 4).Draw(t, "bins")) * 40_000})
		}
		table, ok := newSearcher(context.Background(), kinds, sources).unjoined()
		s := newSearcher(context.Background(), kinds, sources)
		s.descend(cost{})
		if ok != (s.found && s.best.cost.joins == 0) {
			t.Fatalf("table %v, search %v with %+v", ok, s.found, s.best.cost)
		}
		if ok && !s.cut && table.cost != s.best.cost {
			t.Fatalf("table %+v, search %+v", table.cost, s.best.cost)
		}
	})
}
