package planner_test

import (
	"context"
	"errors"
	"strings"
	"testing"

	"tallycloth/planner"
	"tallycloth/planner/garment"
	"tallycloth/planner/match"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// handed is a tank's layout on 170 cm in hand, for a garment that is wanted.
func handed(t *testing.T) (*planner.Studio, garment.Garment, planner.Finding, *match.Hand) {
	t.Helper()
	s := studio(t)
	c, p := bought(t, s, 170*cm), tank(t, s)
	g, err := s.NewGarment(ctx, p.ID, "4", "tank", "")
	if err != nil {
		t.Fatal(err)
	}
	q := planner.Search{PatternID: p.ID, Size: "4"}
	f, err := s.CheckCloth(ctx, c.Cloth.ID, q)
	if err != nil {
		t.Fatal(err)
	}
	h, err := s.TakeInHand(ctx, f, q)
	if err != nil {
		t.Fatal(err)
	}
	return s, g, f, h
}

// A layout moved by hand is looked at as a whole before its cloth is reserved: refused with
// what is wrong, and kept as it lies where nothing is.
func TestReserveLooksAtWhatWasMoved(t *testing.T) {
	s, g, f, h := handed(t)
	a, b := h.Layout().Pieces[0], h.Layout().Pieces[1]
	h.Move(0, b.Outline.Bounds().Min.Sub(a.Outline.Bounds().Min))
	if len(h.Faults()) == 0 {
		t.Fatal("nothing is wrong")
	}
	reserve := func() error {
		l := h.Layout()
		moved := f
		moved.Verdict.Layout = &l
		_, err := s.Reserve(ctx, g.ID, moved, "")
		return err
	}
	err := reserve()
	if !errors.Is(err, stash.ErrConflict) || !strings.Contains(err.Error(), a.Name) {
		t.Fatalf("%v", err)
	}
	if live, _ := s.Reservations(ctx, g.ID); len(live) != 0 {
		t.Error("it was reserved all the same")
	}
	h.Undo()
	h.Move(0, shape.Point{X: 700_000})
	if len(h.Faults()) > 0 {
		t.Fatalf("%+v", h.Faults())
	}
	if err := reserve(); err != nil {
		t.Error(err)
	}
	live, _ := s.Reservations(ctx, g.ID)
	if len(live) != 1 || live[0].Pieces[0].Outline.Bounds() != h.Layout().Pieces[0].Outline.Bounds() {
		t.Errorf("%+v", live)
	}
}

// The rules are those of the fabric as it is now: a nap that was noted since is kept to.
func TestReserveKnowsTheFabricOfToday(t *testing.T) {
	s, g, f, h := handed(t)
	h.Move(0, shape.Point{X: 700_000})
	h.Turn(0)
	if len(h.Faults()) > 0 {
		t.Fatalf("%+v", h.Faults())
	}
	fabric := f.Cloth.Fabric
	fabric.Direction = stash.SameWayForAll
	if err := s.SaveFabric(ctx, fabric); err != nil {
		t.Fatal(err)
	}
	l := h.Layout()
	f.Verdict.Layout = &l
	if _, err := s.Reserve(ctx, g.ID, f, ""); err == nil || !strings.Contains(err.Error(), "direction") {
		t.Errorf("%v", err)
	}
}

// Going on from a layout in hand gives a shorter one or the same, reported on the way.
func TestStudioKeepsTrying(t *testing.T) {
	s, g, f, h := handed(t)
	trials := 0
	got, err := s.KeepTrying(ctx, h.Start(), planner.Effort{Steps: 6}, func(match.Trial) { trials++ })
	if err != nil || trials == 0 || got.Left > 0 {
		t.Fatalf("%d trials, %+v, %v", trials, got, err)
	}
	was := h.Length()
	h.Replace(got.Layout, got.Keep, "tried on")
	if h.Length() > was || len(h.Faults()) > 0 {
		t.Errorf("%d became %d", was, h.Length())
	}
	d := h.Verdict()
	if d.Grade > match.EnoughIf || d.SpareLength < f.Verdict.SpareLength {
		t.Errorf("%d to spare, %d before", d.SpareLength, f.Verdict.SpareLength)
	}
	f.Verdict = d
	if _, err := s.Reserve(ctx, g.ID, f, ""); err != nil {
		t.Error(err)
	}
	stopped, stop := context.WithCancel(ctx)
	stop()
	if _, err := s.KeepTrying(stopped, h.Start(), planner.Effort{}, nil); err != nil {
		t.Errorf("stopped: %v", err)
	}
}

// Each rule has a sentence of its own that names the pattern piece.
func TestFaultWords(t *testing.T) {
	write := measure.Style{Kind: measure.StripLength}.Format
	said := map[string]bool{}
	for k := match.Missing; k <= match.TooNear; k++ {
		w := planner.FaultWords(match.Fault{Kind: k, Name: "Front", With: "Back", By: 4 * mm, Asked: 3, Has: 2 + 2*int(k)}, write)
		if !strings.Contains(w, "Front") || said[w] {
			t.Errorf("%d: %q", k, w)
		}
		said[w] = true
	}
	if w := planner.FaultWords(match.Fault{Kind: match.OverPiece, Name: "Sleeve", With: "Sleeve", By: 4 * mm}, write); w != "Sleeve lies 4 mm over another Sleeve" {
		t.Error(w)
	}
}

// Strips that a search lays with a garment are as wide and long as a person works them out for the
// fabric of each cloth.
func TestStripsOfEachFabric(t *testing.T) {
	s := studio(t)
	for name, narrowing := range map[string]measure.Percent{"Moss rib": 9 * pc, "Slate rib": 0} {
		f := rib()
		f.Name, f.Crosswise.Narrowing = name, stash.Measured(narrowing)
		if _, err := s.LogPurchase(ctx, planner.PurchaseForm{Fabric: f, Length: 250 * cm, Washed: true}); err != nil {
			t.Fatal(err)
		}
	}
	p := tank(t, s)
	set, err := s.Settings(ctx)
	if err != nil {
		t.Fatal(err)
	}
	found, err := s.FindFabric(ctx, planner.Search{PatternID: p.ID, Size: p.Sizes[0].Name, Role: pattern.Main, Strips: true}, nil)
	if err != nil || len(found) != 2 {
		t.Fatalf("%d found, %v", len(found), err)
	}
	jobs, err := s.EdgeJobs(ctx, p.ID, p.Sizes[0].Name)
	if err != nil {
		t.Fatal(err)
	}
	widths := map[measure.Length]bool{}
	for _, d := range found {
		if d.Verdict.Layout == nil {
			t.Fatalf("%s: %+v", d.Cloth.Fabric.Name, d.Verdict.Reasons)
		}
		strips, err := planner.WorkStrips(jobs, d.Cloth.Fabric, set.UsableStretch)
		if err != nil {
			t.Fatal(err)
		}
		want := map[string]measure.Length{}
		for _, strip := range strips {
			want[strip.Job.Name] = strip.CutWidth
		}
		for _, q := range d.Verdict.Layout.Pieces {
			if q.Role != pattern.Binding {
				continue
			}
			got := measure.Length(q.Outline.Bounds().Length())
			if widths[got] = true; got != want[q.Name] {
				t.Errorf("%s of %s: %d µm wide, want %d", q.Name, d.Cloth.Fabric.Name, got, want[q.Name])
			}
		}
		hand, err := s.TakeInHand(ctx, d, planner.Search{PatternID: p.ID, Size: p.Sizes[0].Name, Role: pattern.Main, Strips: true})
		if err != nil || len(hand.Faults()) > 0 {
			t.Errorf("in hand: %v, %+v", err, hand.Faults())
		}
	}
	if len(widths) < 2 {
		t.Errorf("both fabrics have strips of %v", widths)
	}
}
