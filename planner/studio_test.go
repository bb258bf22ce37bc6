package planner_test

import (
	"context"
	"encoding/binary"
	"errors"
	"slices"
	"strings"
	"testing"
	"time"

	"tallycloth/planner"
	"tallycloth/planner/binding"
	"tallycloth/planner/draft"
	"tallycloth/planner/garment"
	"tallycloth/planner/match"
	"tallycloth/planner/pattern"
	"tallycloth/planner/plannertest"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

const (
	pc = measure.OnePercent
	cm = measure.Centimetre
	mm = measure.Millimetre
)

var ctx = context.Background()

// studio is an empty one in memory, with a clock that stands and IDs that count.
func studio(t testing.TB) *planner.Studio {
	t.Helper()
	now := func() time.Time { return time.Date(2026, 5, 4, 10, 0, 0, 0, time.UTC) }
	n := uint64(0)
	newID := func() (id stash.ID) { n++; binary.BigEndian.PutUint64(id[8:], n); return id }
	return planner.NewStudio(planner.Config{Store: plannertest.New(now, newID), Now: now, NewID: newID, Workers: 2})
}

// rib is right for the demo tank, measured.
func rib() stash.Fabric {
	f := stash.Fabric{Name: "Fern rib", Construction: stash.Rib, FullWidth: 142 * cm, SelvedgeLoss: cm, Weight: 215 * measure.GramPerSquareMetre}
	f.Crosswise = stash.Grain{Stretch: stash.Measured(74 * pc), Recovery: stash.Measured(94 * pc), Narrowing: stash.Measured(9 * pc)}
	f.Lengthwise = stash.Grain{Stretch: stash.Measured(26 * pc), Recovery: stash.Measured(90 * pc)}
	return f
}

func bought(t testing.TB, s *planner.Studio, length measure.Length) stash.ClothState {
	t.Helper()
	form := planner.PurchaseForm{Fabric: rib(), Length: length, Supplier: "a stall", Washed: true, Trued: true, Price: measure.Money{Minor: 1300}}
	if all, _ := s.Fabrics(ctx); len(all) > 0 {
		form.FabricID = all[0].ID
	}
	c, err := s.LogPurchase(ctx, form)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func tank(t testing.TB, s *planner.Studio) pattern.Pattern {
	t.Helper()
	p := draft.DemoPatterns(s.NewID)[0]
	p.ID = stash.NoID
	p, err := s.SavePattern(ctx, p)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func lastAct(t testing.TB, s *planner.Studio) string {
	t.Helper()
	acts, err := s.Acts(ctx, 1)
	if err != nil || len(acts) == 0 {
		t.Fatal("no act", err)
	}
	return acts[0].Sentence
}

func TestLogPurchase(t *testing.T) {
	s := studio(t)
	c := bought(t, s, 160*cm)
	if got := lastAct(t, s); got != "Logged 1.60 m of Fern rib" {
		t.Errorf("the act says %q", got)
	}
	if c.Cloth.Code == "" || c.Cloth.Width != 142*cm || c.Cloth.RawStart || !c.Cloth.SelvedgeLow || c.Area != c.Cloth.Area() {
		t.Errorf("%+v", c)
	}
	p, err := s.Purchase(ctx, c.Cloth.PurchaseID)
	if err != nil || p.Date != "2026-05-04" || p.Lines[0].Price != (measure.Money{Minor: 1300, Currency: "EUR"}) {
		t.Errorf("%+v, %v", p, err)
	}
	if _, err := s.LogPurchase(ctx, planner.PurchaseForm{FabricID: c.Fabric.ID}); !errors.Is(err, stash.ErrInvalid) {
		t.Errorf("a purchase of nothing: %v", err)
	}
	if _, err := s.LogPurchase(ctx, planner.PurchaseForm{Length: cm, Fabric: stash.Fabric{Name: "no width"}}); !errors.Is(err, stash.ErrInvalid) {
		t.Errorf("a fabric without width: %v", err)
	}
	if _, err := s.Undo(ctx); err != nil {
		t.Fatal(err)
	}
	if fs, _ := s.Fabrics(ctx); len(fs) != 0 {
		t.Error("one act logs a purchase, so one undo takes the new fabric away as well")
	}
}

func TestAddLeftover(t *testing.T) {
	s := studio(t)
	f := bought(t, s, 60*cm).Fabric
	p := shape.Polygon{Outer: shape.Ring{{X: 50_000, Y: 20_000}, {X: 450_000, Y: 20_000}, {X: 350_000, Y: 320_000}, {X: 50_000, Y: 320_000}}}
	c, err := s.AddLeftover(ctx, planner.LeftoverForm{FabricID: f.ID, Outline: p, Washed: true})
	if err != nil || c.Cloth.Length != 40*cm || c.Cloth.Width != 30*cm || c.Cloth.Outline.Bounds().Min != (shape.Point{}) {
		t.Errorf("%+v, %v", c.Cloth, err)
	}
	if got := lastAct(t, s); got != "Added a leftover of Fern rib, 40 cm × 30 cm" {
		t.Errorf("the act says %q", got)
	}
	if c, err = s.AddLeftover(ctx, planner.LeftoverForm{FabricID: f.ID, Outline: shape.Polygon{Outer: shape.Box{Max: shape.Point{X: 9000, Y: 8000}}.Ring()}}); err != nil || !c.Cloth.Plain() {
		t.Errorf("a rectangle is a plain length: %+v, %v", c.Cloth, err)
	}
	for _, bad := range []planner.LeftoverForm{{}, {FabricID: f.ID}, {FabricID: f.ID, Outline: shape.Polygon{Outer: shape.Ring{{}, {X: 9}, {X: 4}}}}} {
		if _, err := s.AddLeftover(ctx, bad); !errors.Is(err, stash.ErrInvalid) {
			t.Errorf("%+v: %v", bad, err)
		}
	}
}

// Whether a leftover can be wider than its fabric is asked, as either width may be wrong; two readings of the
// same width differ by a little.
func TestLeftoverWiderThanItsFabric(t *testing.T) {
	s := studio(t)
	f := bought(t, s, 60*cm).Fabric
	form := planner.LeftoverForm{FabricID: f.ID, Length: 90 * cm, Width: f.FullWidth + f.FullWidth/50}
	if _, err := s.AddLeftover(ctx, form); err != nil {
		t.Errorf("a little wider: %v", err)
	}
	form.Width++
	_, err := s.AddLeftover(ctx, form)
	var said *stash.Error
	if !errors.As(err, &said) || !strings.Contains(said.What, "from selvedge to selvedge") || !strings.Contains(said.Do, "?") {
		t.Errorf("much wider: %v", err)
	}
	outline := shape.Polygon{Outer: shape.Box{Max: shape.Point{X: 300_000, Y: int64(form.Width)}}.Ring()}
	if _, err := s.AddLeftover(ctx, planner.LeftoverForm{FabricID: f.ID, Outline: outline}); !errors.Is(err, stash.ErrInvalid) {
		t.Errorf("drawn wider: %v", err)
	}
}

func TestLeavingTheShelf(t *testing.T) {
	s := studio(t)
	c := bought(t, s, 90*cm)
	if err := s.TrueEnds(ctx, c.Cloth.ID, 88*cm); err != nil {
		t.Fatal(err)
	}
	if err := s.TrueEnds(ctx, c.Cloth.ID, 95*cm); err == nil {
		t.Error("cutting ends made it longer")
	}
	if err := s.GiveAway(ctx, c.Cloth.ID, "to the class"); err != nil {
		t.Fatal(err)
	}
	if err := s.Discard(ctx, c.Cloth.ID, ""); !errors.Is(err, stash.ErrConflict) {
		t.Errorf("discarded what was given away: %v", err)
	}
	if cloths, _ := s.Cloths(ctx); len(cloths) != 0 {
		t.Error("it is still on the shelf")
	}
}

// TestMeasureStretch: 80 → 116 → 84 mm are 45 %, and 32 of 36 mm go back, 88.89 %.
func TestMeasureStretch(t *testing.T) {
	s := studio(t)
	f := bought(t, s, 50*cm).Fabric
	got, err := s.MeasureStretch(ctx, f.ID, planner.StretchTest{Crosswise: true, Before: 80 * mm, Stretched: 116 * mm, After: 84 * mm})
	if err != nil || got.Crosswise.Stretch != stash.Measured(45*pc) || got.Crosswise.Recovery != stash.Measured(8889) {
		t.Errorf("%+v, %v", got.Crosswise, err)
	}
	if says := lastAct(t, s); says != "Measured that Fern rib stretches 45 % crosswise" {
		t.Errorf("the act says %q", says)
	}
	if _, err := s.MeasureStretch(ctx, f.ID, planner.StretchTest{Before: 80 * mm, Stretched: 70 * mm, After: 84 * mm}); !errors.Is(err, stash.ErrInvalid) {
		t.Errorf("shorter when stretched: %v", err)
	}
}

// TestMainJob goes from a bought length to a garment with its cloth reserved, cut and
// finished, and back by undo.
func TestMainJob(t *testing.T) {
	s := studio(t)
	c, p := bought(t, s, 170*cm), tank(t, s)
	bought(t, s, 20*cm)
	g, err := s.NewGarment(ctx, p.ID, "3", "", "Nives")
	if err != nil || g.State != garment.Wanted || g.Name != p.Name+", size 3" {
		t.Fatalf("%+v, %v", g, err)
	}
	seen := 0
	found, err := s.FindFabric(ctx, planner.Search{PatternID: p.ID, Size: "3", Strips: true}, func(planner.Finding) { seen++ })
	if err != nil || len(found) != 2 || seen != 2 || found[0].Cloth.Cloth.ID != c.Cloth.ID || found[0].Verdict.Grade > match.EnoughIf {
		t.Fatalf("%d found, %d reported, %v", len(found), seen, err)
	}
	if found[1].Verdict.Grade != match.NotEnough || found[1].Verdict.Short <= 0 {
		t.Errorf("20 cm: %+v", found[1].Verdict)
	}
	made, err := s.Reserve(ctx, g.ID, found[0], "")
	if err != nil || len(made) != 2 || made[0].UsedFor != pattern.Main || made[1].UsedFor != pattern.Binding {
		t.Fatalf("%+v, %v", made, err)
	}
	expectState(t, s, g.ID, garment.Reserved)
	if _, err := s.Reserve(ctx, g.ID, found[0], ""); !errors.Is(err, stash.ErrConflict) {
		t.Errorf("reserved twice: %v", err)
	}
	if err := s.GiveAway(ctx, c.Cloth.ID, ""); !errors.Is(err, stash.ErrConflict) {
		t.Errorf("gave reserved cloth away: %v", err)
	}
	plan, err := s.CutPlan(ctx, g.ID)
	if err != nil || len(plan) != 1 || len(plan[0].Left) == 0 || plan[0].Waste() < 0 {
		t.Fatalf("%+v, %v", plan, err)
	}
	if kept, err := s.MarkCut(ctx, g.ID, planner.AllLeft(plan)); err != nil || len(kept) != len(plan[0].Left) {
		t.Fatalf("%d kept, %v", len(kept), err)
	}
	expectState(t, s, g.ID, garment.Cut)
	cloths, _ := s.Cloths(ctx)
	rest := slices.IndexFunc(cloths, func(x stash.ClothState) bool { return x.Cloth.CutFrom == c.Cloth.ID && x.Cloth.Width == 142*cm })
	if rest < 0 || cloths[rest].Cloth.Length < 110*cm || cloths[rest].Cloth.Code == c.Cloth.Code {
		t.Errorf("the straight rest of 170 cm is kept: %+v", cloths)
	}
	if n, err := s.Release(ctx, g.ID); n != 0 || err != nil {
		t.Errorf("released cut cloth: %d, %v", n, err)
	}
	g, _ = s.Garment(ctx, g.ID)
	g.State = garment.Finished
	if err := s.SaveGarment(ctx, g); err == nil {
		t.Error("finished before it was sewn")
	}
	if _, err := s.Undo(ctx); err != nil {
		t.Fatal(err)
	}
	expectState(t, s, g.ID, garment.Reserved)
	if live, _ := s.Reservations(ctx, g.ID); len(live) != 2 {
		t.Errorf("undo brought %d reservations back", len(live))
	}
}

func expectState(t *testing.T, s *planner.Studio, id stash.ID, want garment.State) {
	t.Helper()
	if g, err := s.Garment(ctx, id); err != nil || g.State != want {
		t.Errorf("it is %s, not %s, %v", g.State, want, err)
	}
}

// TestReserveLooksAgain: a finding that the shelf no longer holds is refused with a reason,
// and nothing is kept of it.
func TestReserveLooksAgain(t *testing.T) {
	s := studio(t)
	c, p := bought(t, s, 120*cm), tank(t, s)
	one, _ := s.NewGarment(ctx, p.ID, "4", "one", "")
	two, _ := s.NewGarment(ctx, p.ID, "4", "two", "")
	f, err := s.CheckCloth(ctx, c.Cloth.ID, planner.Search{PatternID: p.ID, Size: "4"})
	if err != nil {
		t.Fatal(err)
	}
	if _, err := s.Reserve(ctx, one.ID, f, pattern.Main); err != nil {
		t.Fatal(err)
	}
	if _, err = s.Reserve(ctx, two.ID, f, pattern.Main); !errors.Is(err, stash.ErrConflict) {
		t.Errorf("the same place twice: %v", err)
	}
	expectState(t, s, two.ID, garment.Wanted)
	if n, err := s.Release(ctx, one.ID); n != 1 || err != nil {
		t.Errorf("released %d, %v", n, err)
	}
	expectState(t, s, one.ID, garment.Wanted)
	if err := s.TrueEnds(ctx, c.Cloth.ID, 118*cm); err != nil {
		t.Fatal(err)
	}
	if _, err = s.Reserve(ctx, two.ID, f, pattern.Main); !errors.Is(err, stash.ErrConflict) || !strings.Contains(err.Error(), "changed") {
		t.Errorf("on cloth that changed: %v", err)
	}
	bad := f
	bad.Verdict.Layout = nil
	if _, err = s.Reserve(ctx, two.ID, bad, ""); !errors.Is(err, stash.ErrConflict) {
		t.Errorf("without a layout: %v", err)
	}
	one.State = garment.GivenUp
	if err := s.SaveGarment(ctx, one); err != nil {
		t.Errorf("giving up: %v", err)
	}
}

func TestGivingUpGivesBack(t *testing.T) {
	s := studio(t)
	c, p := bought(t, s, 120*cm), tank(t, s)
	g, _ := s.NewGarment(ctx, p.ID, "2", "tank", "")
	f, _ := s.CheckCloth(ctx, c.Cloth.ID, planner.Search{PatternID: p.ID, Size: "2"})
	if _, err := s.Reserve(ctx, g.ID, f, ""); err != nil {
		t.Fatal(err)
	}
	g, _ = s.Garment(ctx, g.ID)
	g.State = garment.GivenUp
	if err := s.SaveGarment(ctx, g); err != nil {
		t.Fatal(err)
	}
	if now, _ := s.Cloth(ctx, c.Cloth.ID); len(now.Reservations) != 0 || lastAct(t, s) != "Gave up tank" {
		t.Errorf("%d still reserved, %q", len(now.Reservations), lastAct(t, s))
	}
}

func TestWhatCanItMake(t *testing.T) {
	s := studio(t)
	c, p := bought(t, s, 75*cm), tank(t, s)
	seen := 0
	all, err := s.WhatCanItMake(ctx, c.Cloth.ID, func(planner.Making) { seen++ })
	if err != nil || len(all) != seen || len(all) < len(p.Sizes) {
		t.Fatalf("%d answers, %d reported, %v", len(all), seen, err)
	}
	if all[0].Verdict.Grade != match.Enough || all[0].Pattern.ID != p.ID {
		t.Errorf("best is %+v", all[0].Verdict)
	}
	if !slices.IsSortedFunc(all, func(a, b planner.Making) int { return match.Compare(a.Verdict, b.Verdict) }) {
		t.Error("not the best first")
	}
	if slices.ContainsFunc(all, func(m planner.Making) bool { return m.Role == pattern.Binding && m.Verdict.Grade > match.EnoughIf }) {
		t.Error("75 cm of rib are not enough for strips")
	}
	stopped, stop := context.WithCancel(ctx)
	stop()
	if _, err := s.WhatCanItMake(stopped, c.Cloth.ID, nil); !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled: %v", err)
	}
	if _, err := s.FindFabric(stopped, planner.Search{PatternID: p.ID, Size: "2"}, nil); !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled: %v", err)
	}
}

func TestLayout(t *testing.T) {
	s := studio(t)
	long, short, p := bought(t, s, 120*cm), bought(t, s, 15*cm), tank(t, s)
	q := planner.Search{PatternID: p.ID, Size: "1"}
	if l, err := s.Layout(ctx, long.Cloth.ID, q); err != nil || len(l.Pieces) != 2 {
		t.Errorf("%d pieces, %v", len(l.Pieces), err)
	}
	if _, err := s.Layout(ctx, short.Cloth.ID, q); !errors.Is(err, stash.ErrConflict) {
		t.Errorf("a layout on 15 cm: %v", err)
	}
	q.Size = "none"
	if _, err := s.Layout(ctx, long.Cloth.ID, q); !errors.Is(err, stash.ErrInvalid) {
		t.Errorf("a size that is not there: %v", err)
	}
}

// TestStrips: the demo tank's strips come from what is free, and go back by undo.
func TestStrips(t *testing.T) {
	s := studio(t)
	c, p := bought(t, s, 40*cm), tank(t, s)
	jobs, err := s.EdgeJobs(ctx, p.ID, "3")
	if err != nil || len(jobs) < 2 {
		t.Fatalf("%d edges, %v", len(jobs), err)
	}
	alone, err := s.Strips(ctx, planner.BindingAsk{Jobs: jobs})
	if err != nil || len(alone.Strips) != len(jobs) || len(alone.Plan.Pieces) != 0 {
		t.Fatalf("without cloth: %+v, %v", alone.Plan, err)
	}
	a, err := s.Strips(ctx, planner.BindingAsk{Jobs: jobs, FabricID: c.Fabric.ID, ClothIDs: []stash.ID{c.Cloth.ID}})
	if err != nil || a.Short != 0 || len(a.Where) != len(a.Cloths) {
		t.Fatalf("%+v, %v", a.Plan, err)
	}
	g, _ := s.NewGarment(ctx, p.ID, "3", "tank", "")
	made, err := s.ReserveStrips(ctx, g.ID, a)
	if err != nil || len(made) != 1 || len(made[0].Pieces) != len(a.Plan.Pieces) {
		t.Fatalf("%+v, %v", made, err)
	}
	if kept, _ := s.Garment(ctx, g.ID); len(kept.Strips) != len(jobs) || kept.Strips[0].FromID != c.Cloth.ID {
		t.Errorf("%+v", kept.Strips)
	}
	if _, err := s.ReserveStrips(ctx, g.ID, a); !errors.Is(err, stash.ErrConflict) {
		t.Errorf("the same strips twice: %v", err)
	}
	if _, err := s.Undo(ctx); err != nil {
		t.Fatal(err)
	}
	if now, _ := s.Cloth(ctx, c.Cloth.ID); len(now.Reservations) != 0 {
		t.Error("undo left strips reserved")
	}
}

func TestStripsShort(t *testing.T) {
	s := studio(t)
	c := bought(t, s, 5*cm)
	job := binding.Job{Name: "hem", Count: 3, Finish: binding.Finish{Technique: binding.WrappedTurned, Width: cm, Seam: cm},
		Segments: []binding.Segment{{Name: "round", Length: 110 * cm}}}
	a, err := s.Strips(ctx, planner.BindingAsk{Jobs: []binding.Job{job}, ClothIDs: []stash.ID{c.Cloth.ID}})
	if err != nil || a.Short <= 0 {
		t.Errorf("three strips of 110 cm from 5 cm of cloth: short %d, %v", a.Short, err)
	}
	if _, err := s.ReserveStrips(ctx, stash.NoID, a); err == nil {
		t.Error("reserved what is short, for nobody")
	}
}

// TestReserveByYardage: a pattern without outlines has a length kept over the whole width.
func TestReserveByYardage(t *testing.T) {
	s := studio(t)
	c := bought(t, s, 200*cm)
	p, err := s.SavePattern(ctx, pattern.Pattern{Name: "Wrap", Sizes: []pattern.Size{{Name: "one"}}, Roles: []pattern.Role{{Name: pattern.Main}},
		Yards: []pattern.YardageRow{{Role: pattern.Main, Width: 142 * cm, WithNap: true, Length: 130 * cm}}})
	if err != nil {
		t.Fatal(err)
	}
	g, _ := s.NewGarment(ctx, p.ID, "one", "wrap", "")
	f, err := s.CheckCloth(ctx, c.Cloth.ID, planner.Search{PatternID: p.ID, Size: "one"})
	if err != nil || f.Verdict.Proof != match.ByYardage || f.Verdict.Grade != match.Enough {
		t.Fatalf("%+v, %v", f.Verdict, err)
	}
	made, err := s.Reserve(ctx, g.ID, f, "")
	if err != nil || made[0].Area() != measure.Area(int64(130*cm)*int64(140*cm)) {
		t.Fatalf("%+v, %v", made, err)
	}
	if f, _ = s.CheckCloth(ctx, c.Cloth.ID, planner.Search{PatternID: p.ID, Size: "one"}); f.Verdict.Grade != match.NotEnough {
		t.Errorf("70 cm are left: %+v", f.Verdict)
	}
}

// TestTankTakesLittle: the demo tank in every size, its own strips included, takes no more
// than 1 1/4 yd at 45 to 60 in (`common practice`).
func TestTankTakesLittle(t *testing.T) {
	s := studio(t)
	p := tank(t, s)
	for _, inches := range []measure.Length{45, 52, 60} {
		f := rib()
		f.Name, f.FullWidth = "at another width", inches*measure.Inch
		c, err := s.LogPurchase(ctx, planner.PurchaseForm{Fabric: f, Length: measure.Yard + measure.Yard/4, Washed: true, Trued: true})
		if err != nil {
			t.Fatal(err)
		}
		for _, size := range p.Sizes {
			found, err := s.CheckCloth(ctx, c.Cloth.ID, planner.Search{PatternID: p.ID, Size: size.Name, Strips: true})
			if err != nil || found.Verdict.Layout == nil {
				t.Errorf("size %s at %d in: %+v, %v", size.Name, inches, found.Verdict, err)
				continue
			}
			strips := slices.DeleteFunc(slices.Clone(found.Verdict.Layout.Pieces), func(q match.PlacedPiece) bool { return q.Role != pattern.Binding })
			if len(strips) < 4 {
				t.Errorf("size %s: %d strips are laid", size.Name, len(strips))
			}
		}
	}
}
