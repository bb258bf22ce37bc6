package match_test

import (
	"math"
	"testing"

	"tallycloth/planner/match"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// handbook is part of the fabric width conversion chart credited to the Cooperative
// Extension Service of New Jersey (Rutgers; credit from memory), as three reprints agree on
// it: yards at 35–36, 41, 44–45, 50, 52–54, 58–60 and 66 in.
var handbook = [][]float64{
	{1.75, 1.5, 1.375, 1.25, 1.125, 1, 0.875},
	{2.25, 2, 1.75, 1.625, 1.5, 1.375, 1.25},
	{2.875, 2.5, 2.25, 2, 1.875, 1.75, 1.625},
	{3.375, 2.875, 2.75, 2.375, 2.25, 2, 1.875},
	{4.25, 3.375, 3.125, 2.75, 2.625, 2.375, 2.25},
	{5, 4.125, 3.875, 3.375, 3.125, 2.875, 2.75},
}

var handbookWidths = []float64{35.5, 41, 44.5, 50, 53, 59, 66}

// TestConvertByHandbook: from every cell to every other of its row the conversion comes
// within ±15 % of the chart, which is not in proportion to the area.
func TestConvertByHandbook(t *testing.T) {
	for _, row := range handbook {
		for i, from := range row {
			for j, to := range row {
				got := match.Convert(yards(from), inches(handbookWidths[i]), inches(handbookWidths[j]), 0)
				if r := float64(got) / float64(yards(to)); math.Abs(r-1) > 0.15 {
					t.Errorf("%g yd at %g in are %g yd at %g in, not %.3f", from, handbookWidths[i], to, handbookWidths[j], float64(got)/float64(yards(1)))
				}
			}
		}
	}
}

func yards(v float64) measure.Length  { return measure.Length(v * float64(measure.Yard)) }
func inches(v float64) measure.Length { return measure.Length(v * float64(measure.Inch)) }

// TestEstimate works one conversion by hand: 2 m at 150 cm on fabric 120 cm wide with 1 cm
// lost at each selvedge is at least 2·148/118 = 2.508 m by area; 1/4 yd for direction and,
// beyond 10 in of difference, for width comes once; ends and washing last.
func TestEstimate(t *testing.T) {
	p := pattern.Pattern{Yards: []pattern.YardageRow{{Role: pattern.Main, Width: 150 * cm, Length: 2 * measure.Metre}}}
	f := stash.Fabric{Construction: stash.Jersey, FullWidth: 120 * cm, SelvedgeLoss: cm, Direction: stash.EitherWay}
	area := measure.Length(2508474)
	e, ok := match.EstimateYardage(p, "M", pattern.Main, f, 0, 0)
	if !ok || e.Converted < area || float64(e.Converted) > 1.15*float64(area) || e.Added != measure.Yard/4 {
		t.Fatalf("%+v", e)
	}
	f.FullWidth = 150 * cm
	if e, _ := match.EstimateYardage(p, "M", pattern.Main, f, 4*cm, -5*pc); e.Needed != stash.BeforeWashing(2*measure.Metre, -5*pc)+4*cm {
		t.Errorf("same width: %+v", e)
	}
	f.Direction, f.RepeatAlong = stash.SameWayForAll, 30*cm
	if e, _ := match.EstimateYardage(p, "M", pattern.Main, f, 0, 0); e.Needed != 2*measure.Metre+30*cm+measure.Yard/4 {
		t.Errorf("a repeat and one direction: %+v", e)
	}
	if _, ok := match.EstimateYardage(p, "M", pattern.Lining, f, 0, 0); ok {
		t.Error("there is no row for a lining")
	}
}

// TestByYardage: without outlines the answer is an estimate and says so; an odd leftover
// cannot be told.
func TestByYardage(t *testing.T) {
	p := slab()
	p.Pieces = nil
	if v := verdict(t, askFor(p, "M"), lengthOf(jersey(150*cm), 3*measure.Metre)); v.Grade != match.CannotTell || !v.Reasons[len(v.Reasons)-1].Missing {
		t.Errorf("neither outlines nor yardage: %+v", v)
	}
	p.Yards = []pattern.YardageRow{{Role: pattern.Main, Width: 150 * cm, WithNap: true, Length: 120 * cm}}
	for _, c := range []struct {
		length measure.Length
		grade  match.Grade
	}{{150 * cm, match.Enough}, {121 * cm, match.Tight}, {110 * cm, match.NotEnough}} {
		v := verdict(t, askFor(p, "M"), lengthOf(jersey(150*cm), c.length))
		if v.Grade != c.grade || v.Proof != match.ByYardage || c.grade == match.NotEnough && v.Short != 10*cm {
			t.Errorf("%d: %+v", c.length, v)
		}
	}
	if v := verdict(t, askFor(p, "M"), leftoverOf(jersey(150*cm), armholeCut(1600, 1400))); v.Grade != match.CannotTell {
		t.Errorf("an odd leftover without outlines: %+v", v)
	}
}
