package batch_test

import (
	"context"
	"fmt"
	"math/rand/v2"
	"slices"

	"tallycloth/planner/batch"
)

// given is a Layer whose answers are written down: what fits on each cloth, with its waste.
type given struct {
	fits []map[string]int64 // by cloth
}

func (g given) Lay(_ context.Context, cloth int, l batch.Load, effort int) (batch.Verdict, int64, int, error) {
	waste, ok := g.fits[cloth][fmt.Sprint(l)]
	switch {
	case !ok:
		return batch.Impossible, 0, 0, nil
	case l.Size() > 1 && effort == 0 && waste%3 == 0: // some are found with more effort only
		return batch.Unknown, 0, 0, nil
	}
	return batch.Fits, waste, 1000*cloth + l.Size(), nil
}

// randomCase draws a small problem and what fits in it: by area with random exclusions, closed
// downwards.
func randomCase(r *rand.Rand) (batch.Problem, given, []map[string]batch.Load) {
	p := randomProblem(r)
	g := given{}
	var loads []map[string]batch.Load
	for c := range p.Cloths {
		fits, known := map[string]int64{}, map[string]batch.Load{}
		grow(r, p, c, nil, map[string]bool{}, fits, known)
		g.fits, loads = append(g.fits, fits), append(loads, known)
	}
	return p, g, loads
}

// smallCase draws until little fits: for cases drawn anew in every run, of which none may take long.
func smallCase(seed, stream uint64) (batch.Problem, given) {
	for r := rand.New(rand.NewPCG(seed, stream)); ; {
		p, lay, _ := randomCase(r)
		n := 0
		for _, fits := range lay.fits {
			n += len(fits)
		}
		if n <= 120 {
			return p, lay
		}
	}
}

const cm2 = 100_000_000 // µm²

func randomProblem(r *rand.Rand) batch.Problem {
	var p batch.Problem
	for range 1 + r.IntN(4) {
		row := batch.Row{Count: 1 + r.IntN(3), Priority: 1 + r.IntN(2)}
		for j := range 1 + r.IntN(3) {
			row.Roles = append(row.Roles, batch.Role{Area: (5 + r.Int64N(40)) * cm2, Follows: j > 0 && r.IntN(2) == 0})
		}
		p.Rows = append(p.Rows, row)
	}
	for range 1 + r.IntN(6) {
		p.Cloths = append(p.Cloths, batch.Cloth{Lot: r.IntN(3), Area: (20 + r.Int64N(90)) * cm2, Whole: r.IntN(3) == 0, First: r.IntN(3) == 0})
	}
	if r.IntN(2) == 0 {
		may := [3][3]bool{}
		for i := range may {
			for j := range may[i] {
				may[i][j] = r.IntN(2) == 0
			}
		}
		p.Goes = func(row, role, lot, mainLot int) bool { return may[(lot+role)%3][(mainLot+row)%3] }
	}
	p.Order = []batch.Criterion{batch.UseFirst, batch.FewestWhole, batch.LeastWaste, batch.FewestCloths}
	r.Shuffle(4, func(i, j int) { p.Order[i], p.Order[j] = p.Order[j], p.Order[i] })
	if r.IntN(4) == 0 {
		row := r.IntN(len(p.Rows))
		p.Pins = append(p.Pins, batch.Pin{Task: batch.Task{Row: row, Role: r.IntN(len(p.Rows[row].Roles))}, Cloth: r.IntN(len(p.Cloths)), N: 1 + r.IntN(2)})
	}
	return p
}

// grow adds every load that fits and holds the one given. Exclusions of loads smaller are kept.
func grow(r *rand.Rand, p batch.Problem, c int, l batch.Load, excluded map[string]bool, fits map[string]int64, known map[string]batch.Load) {
	level := []batch.Load{l}
	for len(level) > 0 {
		var next []batch.Load
		for _, l := range level {
			for i, row := range p.Rows {
				for j := range row.Roles {
					t := batch.Task{Row: i, Role: j}
					m := l.With(t, 1)
					key := fmt.Sprint(m)
					if _, ok := fits[key]; ok || excluded[key] {
						continue
					}
					free, closed := p.Cloths[c].Area, m.Of(t) <= row.Count
					for _, s := range m {
						free -= int64(s.N) * p.Rows[s.Row].Roles[s.Role].Area
						if part := m.With(s.Task, -1); len(part) > 0 {
							_, ok := fits[fmt.Sprint(part)]
							closed = closed && ok
						}
					}
					if free < 0 || !closed || r.IntN(7) == 0 {
						excluded[key] = true
						continue
					}
					fits[key] = free/cm2 + r.Int64N(20)
					known[key] = m
					next = append(next, m)
				}
			}
		}
		level = next
	}
}

// check verifies that a plan hangs together: each cloth once, loads that fit, every garment covered
// exactly, lots that go, the score true.
func check(t interface{ Fatalf(string, ...any) }, p batch.Problem, lay batch.Layer, plan batch.Plan) {
	on := make([]batch.Load, len(p.Cloths))
	for i, cut := range plan.Cuts {
		if i > 0 && plan.Cuts[i-1].Cloth >= cut.Cloth {
			t.Fatalf("cloths out of order in %+v", plan.Cuts)
		}
		if v, waste, _, _ := lay.Lay(context.Background(), cut.Cloth, cut.Load, 9); v != batch.Fits || waste != cut.Waste {
			t.Fatalf("%+v does not fit like that", cut)
		}
		on[cut.Cloth] = cut.Load
	}
	made := map[int]int{}
	for _, m := range plan.Made {
		made[m.Row]++
		for role, c := range m.Cloths {
			task := batch.Task{Row: m.Row, Role: role}
			if on[c].Of(task) == 0 {
				t.Fatalf("%+v is not cut from cloth %d", task, c)
			}
			on[c] = on[c].With(task, -1)
			lot, main := p.Cloths[c].Lot, p.Cloths[m.Cloths[0]].Lot
			if p.Rows[m.Row].Roles[role].Follows && !(p.Goes == nil && lot == main || p.Goes != nil && p.Goes(m.Row, role, lot, main)) {
				t.Fatalf("lot %d does not go with %d for %+v", lot, main, task)
			}
		}
	}
	for c, l := range on {
		if len(l) > 0 {
			t.Fatalf("%v of cloth %d is in no garment", l, c)
		}
	}
	for r, n := range made {
		if n > p.Rows[r].Count {
			t.Fatalf("%d garments of row %d", n, r)
		}
	}
	checkScore(t, p, plan, made)
}

func checkScore(t interface{ Fatalf(string, ...any) }, p batch.Problem, plan batch.Plan, made map[int]int) {
	var want batch.Score
	for i, prio := range plan.Classes {
		want.Made = append(want.Made, 0)
		for r, n := range made {
			if p.Rows[r].Priority == prio {
				want.Made[i] += n
			}
		}
	}
	cut := map[int]batch.Load{}
	for _, c := range plan.Cuts {
		cut[c.Cloth] = c.Load
		want.Cloths++
		want.Waste += c.Waste
		if p.Cloths[c.Cloth].First {
			want.First++
		}
		if p.Cloths[c.Cloth].Whole {
			want.Whole++
		}
	}
	for _, pin := range p.Pins {
		want.Pins += min(pin.N, cut[pin.Cloth].Of(pin.Task))
	}
	if fmt.Sprint(want) != fmt.Sprint(plan.Score) {
		t.Fatalf("score %+v, counted %+v", plan.Score, want)
	}
	total := 0
	for i, n := range plan.Score.Made {
		if total += n; total > plan.AtMost[i] {
			t.Fatalf("%v made, at most %v", plan.Score.Made, plan.AtMost)
		}
	}
	if !slices.IsSorted(plan.AtMost) {
		t.Fatalf("bounds fall: %v", plan.AtMost)
	}
}
