package binding_test

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"

	"tallycloth/planner/binding"
	"tallycloth/stash/measure"
)

// grid is what all lengths of the cases with forbidden places are multiples of, so that
// trying every place on it is trying enough.
const grid = 5 * cm

// forbiddenCase draws one or two strips with places where no join may fall, and two or three bins.
func forbiddenCase(r *rand.Rand) ([]binding.Strip, []binding.Source) {
	seam := measure.Length(r.IntN(2)) * grid
	var strips []binding.Strip
	for range 1 + r.IntN(2) {
		s := binding.Strip{Job: binding.Job{JoinSeam: seam, Count: 1}, CutWidth: 4 * cm}
		forbidden := r.IntN(2) == 0
		for range 2 + r.IntN(3) {
			part := binding.StripPart{From: s.CutLength, Length: measure.Length(1+r.IntN(5)) * grid}
			part.Segment.NoJoin = forbidden
			forbidden = !forbidden
			s.Parts, s.CutLength = append(s.Parts, part), s.CutLength+part.Length
		}
		strips = append(strips, s)
	}
	var sources []binding.Source
	for range 2 + r.IntN(2) {
		sources = append(sources, binding.Source{Across: measure.Length(4+r.IntN(9)) * grid, Along: 4 * cm})
	}
	return strips, sources
}

// TestForbiddenPlansAreHonest compares plans with forbidden places with trying everything: a plan
// that is said to be proved is an optimum, none is better than the optimum, and
// no more than one in a hundred falls short of it.
func TestForbiddenPlansAreHonest(t *testing.T) {
	proved, open, worse := 0, 0, 0
	for seed := range uint64(400) {
		strips, sources := forbiddenCase(rand.New(rand.NewPCG(seed, 2)))
		plan, err := binding.Plan(context.Background(), strips, sources)
		checkPlan(t, plan, strips, sources)
		checkJoins(t, plan, strips)
		want := everything(strips, sources)
		got := int64(math.MaxInt64)
		if err == nil {
			got = weigh(outcome(plan, sources, 4*cm))
		}
		switch {
		case got < want:
			t.Errorf("case %d: %d is better than the optimum %d", seed, got, want)
		case plan.Proved && got != want:
			t.Errorf("case %d: said to be proved, got %d, trying everything finds %d", seed, got, want)
		case plan.Proved:
			proved++
		case got == want:
			open++
		default:
			worse++
		}
	}
	t.Logf("%d proved, %d optimal without proof, %d not optimal", proved, open, worse)
	if proved < 100 || worse*100 > proved+open+worse {
		t.Errorf("%d proved, %d optimal without proof, %d not optimal", proved, open, worse)
	}
}

// everything tries all joins on the grid, up to two in a strip, and all ways to put the parts
// into bins; the greatest integer where there is no way.
func everything(strips []binding.Strip, sources []binding.Source) int64 {
	best := int64(math.MaxInt64)
	var cut func(j int, parts []measure.Length)
	cut = func(j int, parts []measure.Length) {
		if j == len(strips) {
			joins := int64(len(parts) - len(strips))
			if joins*joinWeight < best {
				into(parts, sources, make([]measure.Length, len(sources)), joins, &best)
			}
			return
		}
		for _, p := range partings(strips[j]) {
			cut(j+1, append(parts[:len(parts):len(parts)], p...))
		}
	}
	cut(0, nil)
	return best
}

// partings lists the part lengths, seams included, of every way to join a strip.
func partings(s binding.Strip) [][]measure.Length {
	half := s.Job.JoinTake(s.CutWidth) / 2
	out := [][]measure.Length{{s.CutLength}}
	for a := measure.Length(grid); a < s.CutLength; a += grid {
		if !allows(s, a) {
			continue
		}
		out = append(out, []measure.Length{a + half, s.CutLength - a + half})
		for b := a + grid; b < s.CutLength; b += grid {
			if allows(s, b) {
				out = append(out, []measure.Length{a + half, b - a + 2*half, s.CutLength - b + half})
			}
		}
	}
	return out
}

// into puts parts into bins in every way and keeps the least worth.
func into(parts []measure.Length, sources []binding.Source, fill []measure.Length, joins int64, best *int64) {
	if len(parts) == 0 {
		o := planned{joins: joins}
		for b, f := range fill {
			if f > 0 {
				o.area += int64(sources[b].Across) * int64(4*cm)
				o.order += int64(b) * int64(4*cm)
			}
		}
		*best = min(*best, weigh(o))
		return
	}
	for b := range sources {
		if fill[b]+parts[0] > sources[b].Across {
			continue
		}
		fill[b] += parts[0]
		into(parts[1:], sources, fill, joins, best)
		fill[b] -= parts[0]
	}
}
