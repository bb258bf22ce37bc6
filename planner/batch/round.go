package batch

import "context"

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
	v.lowerAtTimes()
	v.report()
	return nil
}

// next picks the loads of a round: half those that promise to earn most, the others those
// that fill leftovers best, and some that wait longest.
func (v *solver) next() []*fact {
	size := 16 + len(v.Cloths)/2
	out := v.wishes
	v.wishes = nil
	picked := map[*fact]bool{}
	for _, f := range out {
		picked[f] = true
	}
	out = append(out, v.pick(size/2, picked, func(f *fact) float64 {
		full := v.fullness(f)
		gain, odds := v.gain(f), v.odds.of(full, f.efforts)
		if gain > 0 {
			return gain * odds
		}
		return gain / odds
	})...)
	out = append(out, v.pick(size/4, picked, func(f *fact) float64 {
		full := v.fullness(f)
		rank := full * v.odds.of(full, f.efforts)
		if v.Cloths[f.cloth].Whole {
			rank -= 1
		}
		return rank
	})...)
	return append(out, v.pick(max(1, size-len(out)), picked, func(f *fact) float64 { return -float64(f.efforts*1000 + f.size) })...)
}

func (v *solver) allDecided() bool {
	for c := range v.Cloths {
		if !v.decided(c) {
			return false
		}
	}
	return true
}
