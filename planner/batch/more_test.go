package batch_test

import (
	"context"
	"errors"
	"fmt"
	"reflect"
	"slices"
	"testing"

	"tallycloth/planner/batch"

	"pgregory.net/rapid"
)

// TestMoreCloth: with one cloth more, no fewer garments are made.
func TestMoreCloth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, lay := smallCase(rapid.Uint64().Draw(t, "seed"), 5)
		p.Pins = nil // a pin that can be kept with more cloth only may cost garments
		less := p
		less.Cloths = p.Cloths[:len(p.Cloths)-1]
		var made [2][]int
		for i, q := range []batch.Problem{less, p} {
			plan, err := batch.Solve(context.Background(), q, lay, batch.Options{MostEffort: 1})
			if err != nil || !plan.Exact {
				t.Fatalf("exact %v, %v", plan.Exact, err)
			}
			made[i] = plan.Score.Made
		}
		if slices.Compare(made[1], made[0]) < 0 {
			t.Fatalf("%v with less, %v with more", made[0], made[1])
		}
	})
}

// TestGoOn: from a plan nothing is lost, even without time for anything else.
func TestGoOn(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, lay := smallCase(rapid.Uint64().Draw(t, "seed"), 6)
		best, err := batch.Solve(context.Background(), p, lay, batch.Options{MostEffort: 1})
		if err != nil {
			t.Fatal(err)
		}
		again, err := batch.Solve(context.Background(), p, lay, batch.Options{MostEffort: 1, Rounds: 1, Start: &best})
		if err != nil || !reflect.DeepEqual(best.Score, again.Score) {
			t.Fatalf("%+v from %+v, %v", again.Score, best.Score, err)
		}
		check(t, p, lay, again)
	})
}

// TestPins: a pin is kept if the cloth takes the task in a garment, although it costs another garment.
func TestPins(t *testing.T) {
	small := batch.Row{Count: 2, Priority: 1, Roles: []batch.Role{{Area: 10 * cm2}}}
	large := batch.Row{Count: 1, Priority: 2, Roles: []batch.Role{{Area: 20 * cm2}}}
	p := batch.Problem{Rows: []batch.Row{small, large}, Cloths: []batch.Cloth{{Area: 33 * cm2}}}
	pin := batch.Pin{Task: batch.Task{Row: 1}, N: 3}
	for _, test := range []struct {
		pins []batch.Pin
		made []int
		kept int
	}{{nil, []int{2, 0}, 0}, {[]batch.Pin{pin}, []int{0, 1}, 1}} {
		p.Pins = test.pins
		plan, err := batch.Solve(context.Background(), p, areaLayer{p}, batch.Options{MostEffort: 2})
		if err != nil || !slices.Equal(plan.Score.Made, test.made) || plan.Score.Pins != test.kept {
			t.Errorf("pins %v: %+v, %v", test.pins, plan.Score, err)
		}
	}
}

func TestValidate(t *testing.T) {
	good := func() batch.Problem {
		return batch.Problem{Rows: []batch.Row{{Count: 1, Roles: []batch.Role{{Area: 1}, {Follows: true}}}}, Cloths: []batch.Cloth{{Area: 1}}}
	}
	if err := good().Validate(); err != nil {
		t.Fatal(err)
	}
	for name, spoil := range map[string]func(*batch.Problem){
		"no garments":     func(p *batch.Problem) { p.Rows[0].Count = 0 },
		"no roles":        func(p *batch.Problem) { p.Rows[0].Roles = nil },
		"main follows":    func(p *batch.Problem) { p.Rows[0].Roles[0].Follows = true },
		"negative role":   func(p *batch.Problem) { p.Rows[0].Roles[1].Area = -1 },
		"negative cloth":  func(p *batch.Problem) { p.Cloths[0].Area = -1 },
		"short order":     func(p *batch.Problem) { p.Order = []batch.Criterion{batch.LeastWaste} },
		"order repeats":   func(p *batch.Problem) { p.Order = []batch.Criterion{0, 1, 2, 2} },
		"pin nowhere":     func(p *batch.Problem) { p.Pins = []batch.Pin{{Cloth: 1, N: 1}} },
		"pin of no role":  func(p *batch.Problem) { p.Pins = []batch.Pin{{Task: batch.Task{Role: 2}, N: 1}} },
		"pin of nothing":  func(p *batch.Problem) { p.Pins = []batch.Pin{{}} },
		"too many wanted": func(p *batch.Problem) { p.Rows[0].Count = 1 << 20 },
	} {
		p := good()
		spoil(&p)
		if _, err := batch.Solve(context.Background(), p, given{}, batch.Options{}); !errors.Is(err, batch.ErrProblem) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// TestGauges: a gauge beside area lowers the bound and rules loads out that nobody is asked
// about, and the plan is the same as without it.
func TestGauges(t *testing.T) {
	p := batch.Problem{Rows: []batch.Row{{Count: 4, Roles: []batch.Role{{Area: 10 * cm2}}}}, Cloths: []batch.Cloth{{Lot: 1, Area: 100 * cm2}, {Lot: 2, Area: 100 * cm2}}}
	lay := given{fits: []map[string]int64{{fmt.Sprint(batch.Load{{N: 1}}): 1}, {}}}
	plain, err := batch.Solve(context.Background(), p, lay, batch.Options{Rounds: 1})
	if err != nil {
		t.Fatal(err)
	}
	p.Gauges = func(cloth int) []batch.Gauge {
		return []batch.Gauge{{Have: 10, Takes: []int64{6 + 5*int64(cloth)}}, {Have: 1, Takes: []int64{0}}}
	}
	plan, err := batch.Solve(context.Background(), p, lay, batch.Options{Rounds: 1})
	if err != nil || !slices.Equal(plan.AtMost, []int{1}) || !plan.Best || plan.Tried != 1 || !reflect.DeepEqual(plan.Score, plain.Score) || plain.Tried < 2 {
		t.Errorf("%+v, %v; without %+v", plan, err, plain)
	}
}
