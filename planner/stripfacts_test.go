package planner_test

import (
	"errors"
	"math"
	"testing"

	"tallycloth/planner"
	"tallycloth/planner/binding"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// neckJob is a ring of invented measures.
func neckJob() binding.Job {
	return binding.Job{Name: "neck", Closed: true, Segments: []binding.Segment{{Name: "neck", Length: 60 * cm, Turning: 2 * math.Pi}},
		Finish: binding.Finish{Technique: binding.FoldedBand, Width: 2 * cm, Seam: cm}}
}

// A strip that worked is offered beside the other ratios the next time, for that technique
// alone, and its straps' drawing out is taken over; Undo takes it back.
func TestStripThatWorkedIsOffered(t *testing.T) {
	s := studio(t)
	c := bought(t, s, measure.Metre)
	set, _ := s.Settings(ctx)
	j := neckJob()
	j.Rule = 0.8
	strips, err := planner.WorkStrips([]binding.Job{j}, c.Fabric, set.UsableStretch)
	if err != nil {
		t.Fatal(err)
	}
	f, err := s.KeepStrip(ctx, c.Fabric.ID, strips[0], 0.04, "lies flat")
	if err != nil || len(f.Strips) != 1 {
		t.Fatalf("%+v, %v", f.Strips, err)
	}
	if n := f.Strips[0]; math.Abs(n.Ratio-0.8) > 1e-9 || n.Date != "2026-05-04" || n.CutWidth != strips[0].CutWidth || n.Drawn != 0.04 {
		t.Errorf("%+v", n)
	}
	if f, _ = s.Fabric(ctx, f.ID); len(f.Strips) != 1 {
		t.Fatal("it was not kept")
	}
	last := func(technique binding.Technique) *binding.Offer {
		j := neckJob()
		j.Finish.Technique = technique
		for _, o := range planner.RatioOffers(j, f, set) {
			if o.Basis == binding.ByLast {
				return &o
			}
		}
		return nil
	}
	if o := last(binding.FoldedBand); o == nil || math.Abs(o.Ratio-0.8) > 1e-9 || o.Words != "neck, 2026-05-04, lies flat" {
		t.Errorf("%+v", o)
	}
	if last(binding.Prefinished) != nil {
		t.Error("it was another technique")
	}
	if planner.DrawnLast(f, binding.FoldedBand) != 0.04 || planner.DrawnLast(f, binding.Prefinished) != binding.DrawnOut {
		t.Error("drawn out in sewing")
	}
	if _, err := s.Undo(ctx); err != nil {
		t.Fatal(err)
	}
	if f, _ = s.Fabric(ctx, f.ID); len(f.Strips) != 0 {
		t.Error("Undo left it there")
	}
	if _, err := s.KeepStrip(ctx, f.ID, strips[0], 2, ""); !errors.Is(err, stash.ErrInvalid) {
		t.Errorf("drawn out by twice its length: %v", err)
	}
}

// What a fabric brings goes by the grain of the strip.
func TestStripFacts(t *testing.T) {
	f := rib()
	f.ID, f.Direction, f.RepeatAlong = stash.ID{1}, stash.SameWayForAll, 12*cm
	across, along, bias := planner.StripFacts(f, binding.Crosswise, 0), planner.StripFacts(f, binding.Lengthwise, 0), planner.StripFacts(f, binding.Bias, 0)
	if across.Stretch != 74*pc || across.Across != 140*cm || !across.OneWay || across.Repeat != 12*cm || across.Assumed {
		t.Errorf("%+v", across)
	}
	if along.Stretch != 26*pc || along.Across != 0 || bias.Stretch != 0 || !bias.Knit {
		t.Errorf("%+v, %+v", along, bias)
	}
	f.Tubular = true
	if got := planner.StripFacts(f, binding.Crosswise, 0).Across; got != 284*cm {
		t.Errorf("a tube gives its whole round: %d", got)
	}
	if planner.TurnOfCloth(0) != 2*mm || planner.TurnOfCloth(mm) != 3142 {
		t.Error("turn of cloth")
	}
}

// A technique of one's own is kept, used like the others and removed again.
func TestOwnTechnique(t *testing.T) {
	s := studio(t)
	if err := s.AddTechnique(ctx, "  Rolled  rim ", "three widths and two seams, wraps the edge"); err != nil {
		t.Fatal(err)
	}
	set, _ := s.Settings(ctx)
	own := set.Recipe("Rolled rim")
	if own.Widths != 3 || own.Seams != 2 || set.AllTechniques()[len(binding.Techniques())] != "Rolled rim" {
		t.Fatalf("%+v", set.Techniques)
	}
	fin := binding.Finish{Technique: "Rolled rim", Own: own, Width: cm, Seam: cm}
	if w, err := fin.CutWidth(); err != nil || w != 5*cm {
		t.Errorf("%d, %v", w, err)
	}
	if err := s.AddTechnique(ctx, "rolled rim", "two widths"); err != nil {
		t.Error(err)
	}
	if set, _ = s.Settings(ctx); len(set.Techniques.List()) != 1 || set.Recipe("rolled rim").Widths != 2 {
		t.Errorf("%+v", set.Techniques)
	}
	for _, bad := range [][2]string{{"", "two widths"}, {"Folded band", "two widths"}, {"x", "two zips"}} {
		if err := s.AddTechnique(ctx, bad[0], bad[1]); !errors.Is(err, stash.ErrInvalid) {
			t.Errorf("%v: %v", bad, err)
		}
	}
	if err := s.DropTechnique(ctx, "nothing"); err == nil {
		t.Error("there is none of that name")
	}
	if err := s.DropTechnique(ctx, "rolled rim"); err != nil {
		t.Error(err)
	}
	if set, _ = s.Settings(ctx); len(set.Techniques.List()) != 0 {
		t.Errorf("%+v", set.Techniques)
	}
}

// Strips are laid on an odd leftover wherever they really fit, around what is reserved
// already, and reserved there: an L of 50 by 60 cm whose arm is 10 cm wide.
func TestStripsOnAnOddLeftover(t *testing.T) {
	s := studio(t)
	whole := bought(t, s, measure.Metre)
	p := int64(cm)
	l := shape.Ring{{}, {X: 50 * p}, {X: 50 * p, Y: 20 * p}, {X: 10 * p, Y: 20 * p}, {X: 10 * p, Y: 60 * p}, {Y: 60 * p}}
	odd, err := s.AddLeftover(ctx, planner.LeftoverForm{FabricID: whole.Fabric.ID, Outline: shape.Polygon{Outer: l}, Washed: true})
	if err != nil {
		t.Fatal(err)
	}
	j := neckJob()
	j.Closed, j.Segments[0].Turning, j.HoldIn = false, 0, 1
	j.Segments[0].Length, j.Finish.Width, j.Finish.Seam = 55*cm, 12*mm, 8*mm // 57 cm long, 4 cm wide
	ask := planner.BindingAsk{Jobs: []binding.Job{j}, FabricID: whole.Fabric.ID, ClothIDs: []stash.ID{odd.Cloth.ID}}
	mine, _ := s.NewGarment(ctx, tank(t, s).ID, "3", "", "")
	for n := range 2 { // the arm takes two of them, one beside the other
		a, err := s.Strips(ctx, ask)
		if err != nil || a.Short != 0 || len(a.Plan.Joins) != 0 {
			t.Fatalf("strip %d: %+v, %v", n+1, a.Plan, err)
		}
		if _, err := s.ReserveStrips(ctx, mine.ID, a); err != nil {
			t.Fatal(err)
		}
	}
	if a, err := s.Strips(ctx, ask); err != nil || a.Short != 0 || len(a.Plan.Joins[0]) == 0 {
		t.Errorf("a third must be joined: %+v, %v", a.Plan, err)
	} else if checks := a.Plan.Checks(a.Strips); a.Plan.JoinsProved() || checks[len(checks)-1].Kind != binding.CheckFewer {
		t.Errorf("a cloth as wide would hold it in one, so nothing proves its join: %+v", checks)
	}
}
