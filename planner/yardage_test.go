package planner_test

import (
	"errors"
	"slices"
	"testing"

	"tallycloth/planner"
	"tallycloth/stash"
	"tallycloth/stash/measure"
)

func TestPeriodDays(t *testing.T) {
	for _, c := range []struct {
		p        planner.Period
		today    stash.Date
		from, to stash.Date
	}{
		{planner.ThisMonth, "2024-02-10", "2024-02-01", "2024-02-29"},
		{planner.ThisMonth, "2026-12-31", "2026-12-01", "2026-12-31"},
		{planner.ThisYear, "2026-03-02", "2026-01-01", "2026-12-31"},
		{planner.LastYear, "2026-01-01", "2025-01-01", "2025-12-31"},
		{planner.AllTime, "2026-03-02", "", ""},
	} {
		if from, to := c.p.Days(c.today); from != c.from || to != c.to {
			t.Errorf("%s on %s: from %s to %s", c.p, c.today, from, to)
		}
	}
	if d := planner.After("2024-02-28"); d != "2024-02-29" || planner.Before("2026-01-01") != "2025-12-31" {
		t.Errorf("the day after is %s", d)
	}
}

// Worked by hand: 2 m of 1.6 m wide cloth in January, half a metre of it across the full
// width cut in February with 0.16 m² of waste; 1 m² that is 50 cm wide given away in
// February; what was there before is 0.8 m² 1.6 m wide.
func TestSumFlows(t *testing.T) {
	const wide, narrow = 160 * cm, 50 * cm
	m2 := func(hundredths int64) measure.Area { return measure.Area(hundredths * 1e10) }
	flows := []planner.Flow{
		{Span: -1, Kind: stash.Added, Came: true, FullWidth: wide, Area: m2(80)},
		{Span: 0, Kind: stash.Bought, Came: true, FullWidth: wide, Area: m2(320)},
		{Span: 0, Kind: stash.Washed, FullWidth: wide, Area: m2(-16)},
		{Span: 1, Kind: stash.Cut, FullWidth: wide, Area: m2(-80)},
		{Span: 1, Kind: stash.LeftOver, FullWidth: wide, Area: m2(-100)},
		{Span: 1, Kind: stash.LeftOver, Came: true, FullWidth: wide, Area: m2(100)},
		{Span: 1, Kind: stash.Discarded, FullWidth: wide, Area: m2(-16)},
		{Span: 1, Kind: stash.GivenAway, FullWidth: narrow, Area: m2(-100)},
		{Span: 2, Kind: stash.Bought, Came: true, FullWidth: wide, Area: m2(999)}, // after the period
	}
	starts := []stash.Date{"2026-01-01", "2026-02-01", "2026-03-01"}
	y := planner.SumFlows(flows, starts, planner.ByMonth, false)
	is := func(what string, got planner.Yards, area measure.Area, length measure.Length) {
		t.Helper()
		if got.Area != area || got.Length != length {
			t.Errorf("%s: %+v, want %d and %d", what, got, area, length)
		}
	}
	is("before", y.Before, m2(80), 50*cm)
	is("in in January", y.Spans[0].In, m2(320), 200*cm)
	is("changed", y.Spans[0].Changed, m2(-16), -10*cm)
	is("there in January", y.Spans[0].Balance, m2(384), 240*cm)
	is("cut in February", y.Spans[1].Cut, m2(80), 50*cm)
	is("gone in February", y.Spans[1].Gone, m2(116), 210*cm)
	is("out in all", y.Total.Out(), m2(196), 260*cm)
	is("at the end", y.After(), m2(188), -20*cm)
	if y.Spans[1].From != "2026-02-01" || y.Spans[1].To != "2026-02-28" {
		t.Errorf("February is from %s to %s", y.Spans[1].From, y.Spans[1].To)
	}
	one := planner.SumFlows(flows, starts, planner.ByMonth, true)
	is("of one cloth what it leaves is out", one.Spans[1].Gone, m2(216), 210*cm+measure.Length(625_000))
	is("of one cloth a leftover comes in", one.Spans[1].In, m2(100), 625_000)
}

// What is bought counts on the day of the purchase, in a span that is not a whole month too,
// and what was taken back does not count.
func TestYardage(t *testing.T) {
	s := studio(t)
	first := bought(t, s, 2*measure.Metre)
	if _, err := s.LogBuying(ctx, planner.Buying{Date: "2025-11-14", Lines: []planner.BuyingLine{{FabricID: first.Fabric.ID, Length: measure.Metre}}}); err != nil {
		t.Fatal(err)
	}
	if _, err := s.LogBuying(ctx, planner.Buying{Date: "2025-12-14", Lines: []planner.BuyingLine{{FabricID: first.Fabric.ID, Length: measure.Metre}}}); err != nil {
		t.Fatal(err)
	}
	if _, err := s.Undo(ctx); err != nil {
		t.Fatal(err)
	}
	y, err := s.Yardage(ctx, planner.Past{From: "2025-11-10", To: "2025-12-20"}, planner.ByMonth)
	if err != nil {
		t.Fatal(err)
	}
	var days []stash.Date
	for _, x := range y.Spans {
		days = append(days, x.From, x.To)
	}
	if want := []stash.Date{"2025-11-10", "2025-11-30", "2025-12-01", "2025-12-20"}; !slices.Equal(days, want) {
		t.Fatalf("spans %v", days)
	}
	if !y.Struck || y.Spans[0].In.Length != measure.Metre || y.Spans[1].In.Area != 0 {
		t.Errorf("%+v", y)
	}
	if y, err := s.Yardage(ctx, planner.Past{From: "2025-01-01", To: "2031-12-31"}, planner.ByMonth); err != nil || y.Spans[0].From != "2025-11-01" || y.Spans[len(y.Spans)-1].From > s.Today() {
		t.Errorf("from %s to %s, %v", y.Spans[0].From, y.Spans[len(y.Spans)-1].From, err)
	}
	lines, err := s.History(ctx, planner.Past{Kinds: []stash.MovementKind{stash.Bought}}, 0, 10)
	if err != nil || len(lines) != 3 || !lines[0].TakenBack || lines[1].BoughtOn != "2025-11-14" || lines[1].Fabric != first.Fabric.Name {
		t.Errorf("lines %+v, %v", lines, err)
	}
	if y, err = s.Yardage(ctx, planner.Past{GarmentID: s.NewID()}, planner.ByYear); err != nil || len(y.Spans) != 0 || y.Struck {
		t.Errorf("of no garment: %+v, %v", y, err)
	}
	for _, p := range []planner.Past{{From: "2026-02-30"}, {From: "2026-02-02", To: "2026-02-01"}, {From: "1900-01-01", To: "2026-01-01"}} {
		if _, err := s.Yardage(ctx, p, planner.ByMonth); !errors.Is(err, stash.ErrInvalid) {
			t.Errorf("%+v: %v", p, err)
		}
	}
}
