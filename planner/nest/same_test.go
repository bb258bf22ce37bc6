package nest_test

import (
	"context"
	"reflect"
	"runtime"
	"testing"

	"tallycloth/planner/nest"
	"tallycloth/planner/nest/nesttest"
)

// questions are one for each thing that can be asked, each with something left to search.
func questions() map[string]nest.Instance {
	least := nest.GarmentOf(9, 0)
	least.Ask = nest.LeastLength
	fits := nest.GarmentOf(12, 880_000)
	subset := nest.GarmentOf(12, 800_000)
	subset.Ask = nest.BestSubset
	for i := range subset.Items {
		subset.Items[i].Group, subset.Items[i].Value = nest.NoGroup, subset.Items[i].Outline.Area()/1_000_000
	}
	return map[string]nest.Instance{"least length": least, "fits all": fits, "best subset": subset}
}

// TestSameAnswerOnAnyMachine: with one worker and a budget in steps, a seed gives one
// answer to each question, however many processors there are and however often it is
// asked in one process, and the same reports on the way. Another seed
// gives another answer, so the search does have a say.
func TestSameAnswerOnAnyMachine(t *testing.T) {
	for name, in := range questions() {
		var first nest.Answer
		var seen []nest.Solution
		for k, processors := range []int{1, 2, 1, 2} {
			was := runtime.GOMAXPROCS(processors)
			var reports []nest.Solution
			a, err := nest.Solve(context.Background(), in, nest.Options{Seed: 5, Steps: 30, Workers: 1,
				Report: func(p nest.Progress) { reports = append(reports, p.Best) }})
			runtime.GOMAXPROCS(was)
			switch {
			case err != nil:
				t.Fatal(err)
			case k == 0:
				first, seen = a, reports
			case !reflect.DeepEqual(a, first) || !reflect.DeepEqual(reports, seen):
				t.Errorf("%s, time %d on %d processors: %v used worth %d after %d reports, first %v, %d, %d", name, k+1, processors,
					a.Solution.Used, a.Solution.Value, len(reports), first.Solution.Used, first.Solution.Value, len(seen))
			}
		}
		if other, err := nest.Solve(context.Background(), in, nest.Options{Seed: 6, Steps: 30}); err != nil || reflect.DeepEqual(other, first) {
			t.Errorf("%s: %v, or another seed gives the same answer, so the question asks too little", name, err)
		}
		t.Logf("%s: %v, used %v, %d left, %d reports", name, first.Reason, first.Solution.Used, len(first.Solution.Left), len(seen))
	}
}

// TestSameAnswerWithEveryOption: the same with all options together, in small questions.
func TestSameAnswerWithEveryOption(t *testing.T) {
	for seed := range uint64(100) {
		in := nesttest.Random(seed)
		var first nest.Answer
		for k := range 2 {
			was := runtime.GOMAXPROCS(1 + k)
			o := nesttest.Options(seed, in)
			o.Steps = 8
			a, err := nest.Solve(context.Background(), in, o)
			runtime.GOMAXPROCS(was)
			if err != nil {
				t.Fatalf("seed %d: %v", seed, err)
			}
			if k == 0 {
				first = a
			} else if !reflect.DeepEqual(a, first) {
				t.Errorf("seed %d: %+v, then %+v", seed, first.Solution, a.Solution)
			}
		}
	}
}
