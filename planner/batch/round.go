package batch

import (
	"context"
	"math"
)

// round tries some candidates and chooses anew.
func (v *solver) round(ctx context.Context) error {
	if v.plan.Round == 0 {
		v.sow()
	}
	facts := v.next()
	if err := v.try(ctx, facts); err != nil {
		return err
	}
	v.sweep()
	v.choose(roundEffort)
	v.plan.Round++
	v.plan.Complete = len(facts) == 0
	v.plan.Decided = v.allDecided()
	if v.plan.Complete {
		v.choose(lastEffort)
		v.plan.Complete = !v.crowded
		v.idle = true
	}
	v.report()
	return nil
}

// next picks the loads of a round: half those that may serve garments not made yet, the
// others those that fill leftovers best, and some that wait longest.
func (v *solver) next() []*fact {
	size := 16 + 2*len(v.Cloths)
	short := v.short()
	picked := map[*fact]bool{}
	out := v.dream()
	for _, f := range out {
		picked[f] = true
	}
	out = append(out, v.pick(size/2, picked, func(f *fact) float64 {
		for _, s := range f.load {
			if short[s.Row] {
				return v.odds.of(v.fullness(f), f.efforts)
			}
		}
		return math.Inf(-1)
	})...)
	out = append(out, v.pick(size/4, picked, func(f *fact) float64 {
		full := v.fullness(f)
		rank := full * v.odds.of(full, f.efforts)
		if v.Cloths[f.cloth].Whole {
			rank -= 1
		}
		return rank
	})...)
	return append(out, v.pick(size-len(out), picked, func(f *fact) float64 { return -float64(f.efforts*1000 + f.size) })...)
}

// short says of which rows garments are not made yet.
func (v *solver) short() []bool {
	short := make([]bool, len(v.Rows))
	made := make([]int, len(v.Rows))
	for _, m := range v.plan.Made {
		made[m.Row]++
	}
	for r, row := range v.Rows {
		short[r] = made[r] < row.Count
	}
	return short
}

func (v *solver) allDecided() bool {
	for c := range v.Cloths {
		if !v.decided(c) {
			return false
		}
	}
	return true
}
