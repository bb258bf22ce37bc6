package batch_test

import (
	"context"
	"fmt"
	"math/rand/v2"
	"runtime"
	"testing"

	"tallycloth/planner/batch"
)

// areaLayer is an artificial Layer that costs nothing: what covers less than a share of the cloth
// fits, and more with effort; some loads are proved impossible, by a fixed whim.
type areaLayer struct{ p batch.Problem }

func (a areaLayer) Lay(_ context.Context, cloth int, l batch.Load, effort int) (batch.Verdict, int64, int, error) {
	area := int64(0)
	for _, s := range l {
		area += int64(s.N) * a.p.Rows[s.Row].Roles[s.Role].Area
	}
	free := a.p.Cloths[cloth].Area
	full := float64(area) / float64(free)
	switch {
	case full <= 0.62+0.08*float64(effort):
		return batch.Fits, free - area, 0, nil
	case full > 0.9:
		return batch.Impossible, 0, 0, nil
	}
	return batch.Unknown, 0, 0, nil
}

// shelf draws a batch of garments in rows of three over leftovers and a few lengths, each of a share of
// a usual area: with half of it cloth is short.
func shelf(garments, cloths int, share float64) batch.Problem {
	r := rand.New(rand.NewPCG(uint64(garments), 7))
	var p batch.Problem
	for range garments / 3 {
		body := (40 + r.Int64N(60)) * 100 * cm2
		row := batch.Row{Count: 3, Priority: 1 + r.IntN(2), Roles: []batch.Role{{Area: body}}}
		if r.IntN(3) > 0 {
			row.Roles = append(row.Roles, batch.Role{Area: body / 8, Follows: r.IntN(2) == 0})
		}
		if r.IntN(3) == 0 {
			row.Roles = append(row.Roles, batch.Role{Area: body / 3})
		}
		p.Rows = append(p.Rows, row)
	}
	for i := range cloths {
		c := batch.Cloth{Lot: r.IntN(cloths/3 + 1), Area: (15 + r.Int64N(120)) * 100 * cm2, First: r.IntN(8) == 0}
		if i%20 == 0 {
			c.Whole, c.Area = true, (200+r.Int64N(300))*100*cm2
		}
		c.Area = int64(share * float64(c.Area))
		p.Cloths = append(p.Cloths, c)
	}
	p.Goes = func(row, role, lot, mainLot int) bool { return (lot*7+mainLot*3+row)%3 == 0 }
	return p
}

// BenchmarkChoice reports, beside the time: the questions asked until the first plan, garments made,
// the bound, whole lengths cut, and the memory in use at the end.
func BenchmarkChoice(b *testing.B) {
	for _, c := range []struct {
		garments, cloths, rounds int
		share                    float64
	}{{12, 25, 40, 1}, {12, 25, 40, 0.5}, {60, 200, 20, 1}, {60, 200, 20, 0.5}} {
		p := shelf(c.garments, c.cloths, c.share)
		b.Run(fmt.Sprintf("%dx%d/%v", c.garments, c.cloths, c.share), func(b *testing.B) {
			for b.Loop() {
				first := 0
				plan, err := batch.Solve(context.Background(), p, areaLayer{p}, batch.Options{Rounds: c.rounds, MostEffort: 2, Report: func(plan batch.Plan) {
					if first == 0 {
						first = plan.Tried
					}
				}})
				if err != nil {
					b.Fatal(err)
				}
				report(b, plan, first)
			}
		})
	}
}

func report(b *testing.B, plan batch.Plan, first int) {
	n := len(plan.Classes) - 1
	b.ReportMetric(float64(first), "asked-first")
	b.ReportMetric(float64(plan.Tried), "asked")
	b.ReportMetric(float64(len(plan.Made)), "made")
	b.ReportMetric(float64(plan.AtMost[n]), "at-most")
	b.ReportMetric(float64(plan.Score.Whole), "whole")
	b.ReportMetric(float64(plan.Round), "rounds")
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	b.ReportMetric(float64(m.HeapAlloc)/1e6, "MB")
}
