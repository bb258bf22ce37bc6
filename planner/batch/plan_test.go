package batch_test

import (
	"context"
	"reflect"
	"testing"

	"tallycloth/planner/batch"

	"pgregory.net/rapid"
)

// TestPlanHolds: whatever the budget, a plan hangs together, and with any number of
// workers it is the same.
func TestPlanHolds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, lay := smallCase(rapid.Uint64().Draw(t, "seed"), 2)
		o := batch.Options{Workers: 1, Rounds: rapid.IntRange(0, 6).Draw(t, "rounds"), MostEffort: 1,
			Report: func(plan batch.Plan) { check(t, p, lay, plan) }}
		one, err := batch.Solve(context.Background(), p, lay, o)
		if err != nil {
			t.Fatal(err)
		}
		check(t, p, lay, one)
		o.Workers = 4
		if four, err := batch.Solve(context.Background(), p, lay, o); err != nil || !reflect.DeepEqual(one, four) {
			t.Fatalf("with four workers\n%+v, with one\n%+v, %v", four, one, err)
		}
	})
}
