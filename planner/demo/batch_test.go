package demo_test

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"testing"

	"tallycloth/planner"
	"tallycloth/planner/batch"
	"tallycloth/planner/match"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// wantedOf is so many garments of a kind of the demo patterns.
func wantedOf(t testing.TB, s *planner.Studio, kind string, count int) planner.Wanted {
	t.Helper()
	all, err := s.Patterns(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	i := slices.IndexFunc(all, func(p pattern.Pattern) bool { return p.Kind == kind })
	if i < 0 {
		t.Fatalf("no %s in the demo", kind)
	}
	return planner.Wanted{PatternID: all[i].ID, Size: all[i].Sizes[len(all[i].Sizes)/2].Name, Count: count}
}

// On the demo shelf a batch is planned from leftovers by layouts that hold, within its own
// bound; reserving all is one act, refused whole once the shelf has changed, and one undo
// releases it all.
func TestPlanBatch(t *testing.T) {
	s, ctx := studio(t), context.Background()
	b := planner.Batch{Name: "Four tanks", Rows: []planner.Wanted{wantedOf(t, s, "tank", 4), wantedOf(t, s, "shorts", 1)}}
	reports := 0
	p, err := s.PlanBatch(ctx, b, planner.BatchEffort{Rounds: 2}, func(planner.BatchPlan) { reports++ })
	if err != nil {
		t.Fatal(err)
	}
	if reports == 0 || len(p.Made)+p.AtMostMore() < len(p.Made) || len(p.Made) == 0 || p.Score.Whole != 0 {
		t.Fatalf("%d reports, %+v", reports, p.Score)
	}
	missing := 0
	for _, m := range p.Missing {
		missing += m.Count
	}
	if len(p.Made)+missing != 5 || p.AtMostMore() > missing {
		t.Errorf("%d made, %d missing, at most %d more", len(p.Made), missing, p.AtMostMore())
	}
	adds(t, p)
	same, err := s.PlanBatch(ctx, b, planner.BatchEffort{Rounds: 2}, nil)
	if err != nil || same.Score.Waste != p.Score.Waste || len(same.Made) != len(p.Made) {
		t.Errorf("planned again: %+v, %v", same.Score, err)
	}
	doc, err := json.Marshal(p)
	if err != nil {
		t.Fatal(err)
	}
	var back planner.BatchPlan
	if err := json.Unmarshal(doc, &back); err != nil {
		t.Fatal(err)
	}
	made, err := s.ReserveAll(ctx, b, back)
	if err != nil || len(made) != len(p.Made) {
		t.Fatalf("%d reserved: %v", len(made), err)
	}
	for _, g := range made {
		live, err := s.Reservations(ctx, g.ID)
		if err != nil || len(live) == 0 {
			t.Errorf("%s has nothing reserved (%v)", g.Name, err)
		}
	}
	if _, err := s.ReserveAll(ctx, b, p); !errors.Is(err, stash.ErrConflict) {
		t.Errorf("reserved twice: %v", err)
	}
	if err := outdated(t, s, back); !errors.Is(err, stash.ErrConflict) {
		t.Errorf("reserved, and outdated by %v", err)
	}
	if _, err := s.Undo(ctx); err != nil {
		t.Fatal(err)
	}
	if err := outdated(t, s, back); err != nil {
		t.Errorf("taken back, and outdated by %v", err)
	}
	for _, g := range made {
		if _, err := s.Garment(ctx, g.ID); !errors.Is(err, stash.ErrNotFound) {
			t.Errorf("%s is still there: %v", g.Name, err)
		}
	}
	if _, err := s.ReserveAll(ctx, b, p); err != nil {
		t.Errorf("after undo: %v", err)
	}
}

// outdated is why a plan does not go with the shelf any more.
func outdated(t *testing.T, s *planner.Studio, p planner.BatchPlan) error {
	t.Helper()
	shelf, err := s.Cloths(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	return p.Outdated(shelf)
}

// adds checks that of every cloth cut + kept + waste + reserved before is what is there, and
// that nothing overlaps.
func adds(t *testing.T, p planner.BatchPlan) {
	t.Helper()
	parts := map[[2]int]bool{}
	for _, c := range p.Cuts {
		sum := c.Waste
		var all []shape.Ring
		for _, part := range c.Parts {
			for _, q := range part.Layout.Pieces {
				all = append(all, q.Outline)
			}
			parts[[2]int{part.Garment, slices.Index(p.Made[part.Garment].Cloths, c.Cloth.Cloth.ID)}] = true
		}
		for _, r := range c.Cloth.Reservations {
			for _, q := range r.Pieces {
				all = append(all, q.Outline)
			}
		}
		for i, r := range all {
			sum += measure.Area(r.Area())
			for _, o := range all[:i] {
				if shape.Overlaps(r, o) {
					t.Errorf("two outlines overlap on %s", c.Cloth.Cloth.Code)
				}
			}
		}
		for _, l := range c.Left {
			sum += l.Area()
		}
		if sum != c.Cloth.Cloth.Area() {
			t.Errorf("%s: cut, kept and wasted come to %d of %d", c.Cloth.Cloth.Code, sum, c.Cloth.Cloth.Area())
		}
	}
}

// What finds cloth beside a plan is filled in: a plan without its second half gets it back, adds up
// and is reserved as it is; from a plan kept before planning goes on and never ends with less.
func TestFillIn(t *testing.T) {
	s, ctx := studio(t), context.Background()
	b := planner.Batch{Name: "Tanks", Rows: []planner.Wanted{wantedOf(t, s, "tank", 4)}, May: planner.MayUse{WholeLengths: true}}
	p, err := s.PlanBatch(ctx, b, planner.BatchEffort{Rounds: 1}, nil)
	if err != nil || len(p.Made) != 4 {
		t.Fatalf("%+v, %v", p.Missing, err)
	}
	less := p
	less.Made, less.Cuts, less.Missing = p.Made[:1], nil, []planner.MissingGarment{{Row: 0, Count: 3}}
	for _, c := range p.Cuts {
		var parts []planner.PlannedPart
		for _, q := range c.Parts {
			if q.Garment == 0 {
				parts = append(parts, q)
			}
		}
		if c.Parts = parts; len(parts) > 0 {
			less.Cuts = append(less.Cuts, c)
		}
	}
	more, n, err := s.FillIn(ctx, b, less)
	if err != nil || n != 3 || len(more.Made) != 4 || len(more.Missing) != 0 || more.Score.Made[0] != 4 || more.Score.Cloths != len(more.Cuts) {
		t.Fatalf("%d filled in: %+v, %v", n, more.Missing, err)
	}
	if len(less.Made) != 1 || len(less.Cuts[0].Parts) == len(more.Cuts[0].Parts) && len(less.Cuts) == len(more.Cuts) {
		t.Error("the plan given was changed")
	}
	adds(t, more)
	b.Plan = &more
	again, err := s.PlanBatch(ctx, b, planner.BatchEffort{Rounds: 1, From: &b}, nil)
	if err != nil || again.Score.Compare(more.Score, []batch.Criterion{batch.UseFirst, batch.FewestWhole, batch.LeastWaste, batch.FewestCloths}) < 0 {
		t.Errorf("from %+v comes %+v, %v", more.Score, again.Score, err)
	}
	if _, n, err := s.FillIn(ctx, b, more); n != 0 || err != nil {
		t.Errorf("%d more than wanted, %v", n, err)
	}
	if made, err := s.ReserveAll(ctx, b, more); err != nil || len(made) != 4 {
		t.Errorf("%d reserved: %v", len(made), err)
	}
}

// A colour wished for, whole lengths, pins and cloth that is left out are kept to.
func TestBatchRules(t *testing.T) {
	s, ctx := studio(t), context.Background()
	cloths, err := s.Cloths(ctx)
	if err != nil {
		t.Fatal(err)
	}
	row := wantedOf(t, s, "tank", 2)
	row.Colours, row.Near = []string{"#a8503c"}, 25
	b := planner.Batch{Rows: []planner.Wanted{row}, May: planner.MayUse{WholeLengths: true}}
	p, err := s.PlanBatch(ctx, b, planner.BatchEffort{Rounds: 2}, nil)
	if err != nil || len(p.Made) != 2 {
		t.Fatalf("%d made: %v", len(p.Made), err)
	}
	byID := map[stash.ID]stash.ClothState{}
	for _, c := range cloths {
		byID[c.Cloth.ID] = c
	}
	used := p.Made[0].Cloths[0]
	for _, m := range p.Made {
		f := byID[m.Cloths[0]].Fabric
		if d, ok := stash.ColourDifference(f.Colour, row.Colours[0]); !ok || d > row.Near {
			t.Errorf("%s is %.1f from the colour wished for", f.Name, d)
		}
		for _, other := range m.Cloths[1:] {
			if o := byID[other]; o.Fabric.ID != f.ID || o.Cloth.Lot != byID[m.Cloths[0]].Cloth.Lot {
				t.Errorf("the binding is of %s, lot %q", o.Fabric.Name, o.Cloth.Lot)
			}
		}
	}
	b.May.Never = []stash.ID{used}
	p, err = s.PlanBatch(ctx, b, planner.BatchEffort{Rounds: 2}, nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range p.Cuts {
		if c.Cloth.Cloth.ID == used {
			t.Errorf("%s is used although it may not", c.Cloth.Cloth.Code)
		}
	}
	b.May, b.Rows[0].Colours = planner.MayUse{WholeLengths: true}, nil
	b.Pins = []planner.BatchPin{{Row: 0, Role: pattern.Main, Cloth: used, Count: 2}}
	p, err = s.PlanBatch(ctx, b, planner.BatchEffort{Rounds: 2}, nil)
	if err != nil || len(p.Made) != 2 || p.Made[0].Cloths[0] != used {
		t.Errorf("pinned to %s: %+v, %v", byID[used].Cloth.Code, p.Made, err)
	}
	b.Rows[0].Uses = []planner.UseRule{{Role: pattern.Main, From: planner.NamedFabric}}
	if _, err := s.PlanBatch(ctx, b, planner.BatchEffort{Rounds: 1}, nil); !errors.Is(err, stash.ErrInvalid) {
		t.Errorf("a rule without a fabric: %v", err)
	}
}

// What is bought holds what it was bought for: three tanks lie on the length told, raw at both ends and
// not washed yet, at every usual width.
func TestWhatIsBoughtHolds(t *testing.T) {
	s, ctx := studio(t), context.Background()
	b := planner.Batch{Rows: []planner.Wanted{wantedOf(t, s, "tank", 3)}, May: planner.MayUse{Only: []stash.ID{{1}}}}
	p, err := s.PlanBatch(ctx, b, planner.BatchEffort{Rounds: 1}, nil)
	if err != nil {
		t.Fatal(err)
	}
	buy, err := s.WhatToBuy(ctx, b, p)
	if err != nil || len(buy) == 0 || len(buy[0].Lengths) != len(planner.UsualWidths) {
		t.Fatalf("%+v, %v", buy, err)
	}
	known := func(percent measure.Percent) stash.Reading {
		return stash.Reading{Value: percent * measure.OnePercent, Known: true}
	}
	for _, l := range buy[0].Lengths {
		// As jersey is assumed to be: 6 % shorter and 4 % narrower once it is washed.
		f := stash.Fabric{Name: fmt.Sprint("jersey ", l.Width), FullWidth: l.Width, SelvedgeLoss: measure.Centimetre, Construction: stash.Jersey, Direction: stash.SameWayInGarment, Weight: 190 * measure.GramPerSquareMetre}
		f.Crosswise.Stretch, f.Crosswise.Recovery, f.Lengthwise.Stretch, f.Lengthwise.Recovery = known(80), known(95), known(60), known(95)
		c, err := s.LogPurchase(ctx, planner.PurchaseForm{Fabric: f, Length: l.Buy})
		if err != nil {
			t.Fatal(err)
		}
		b.May = planner.MayUse{Only: []stash.ID{c.Cloth.ID}, WholeLengths: true}
		p, err := s.PlanBatch(ctx, b, planner.BatchEffort{Rounds: 2}, nil)
		if err != nil || len(p.Made) != 3 {
			t.Errorf("%d cm at %d cm make %d of 3 tanks, %v", l.Buy/measure.Centimetre, l.Width/measure.Centimetre, len(p.Made), err)
		}
		if washed := stash.AfterWashing(l.Buy-2*stash.RawEndLoss, -6*measure.OnePercent); washed < l.Layout.Used {
			t.Errorf("%d cm are %d µm once washed, and the layout takes %d", l.Buy/measure.Centimetre, washed, l.Layout.Used)
		}
	}
}

// What is missing is told with its nearest miss and with what to buy; buying together never
// comes to more than buying apart.
func TestWhatToBuy(t *testing.T) {
	s, ctx := studio(t), context.Background()
	b := planner.Batch{Rows: []planner.Wanted{wantedOf(t, s, "tank", 3), wantedOf(t, s, "sleep shirt", 2)}, May: planner.MayUse{Only: []stash.ID{{1}}}}
	p, err := s.PlanBatch(ctx, b, planner.BatchEffort{Rounds: 1}, nil)
	if err != nil || len(p.Made) != 0 || len(p.Missing) != 2 {
		t.Fatalf("%+v, %v", p, err)
	}
	buy, err := s.WhatToBuy(ctx, b, p)
	if err != nil || len(buy) == 0 {
		t.Fatalf("%+v, %v", buy, err)
	}
	for _, item := range buy {
		if len(item.Lengths) == 0 {
			t.Errorf("%s: no width serves", item.Role)
		}
		for i, l := range item.Lengths {
			if l.Buy > l.Apart || l.Buy < l.Needed || l.Buy-l.Needed >= 10*measure.Centimetre || l.Needed <= 0 {
				t.Errorf("%s at %d: needed %d, buy %d, apart %d", item.Role, l.Width, l.Needed, l.Buy, l.Apart)
			}
			t.Logf("%s for %d rows at %d cm: %d cm, apart %d cm", item.Fabric, len(item.For), l.Width/measure.Centimetre, l.Buy/measure.Centimetre, l.Apart/measure.Centimetre)
			if i > 0 && float64(l.Needed) > 1.1*float64(item.Lengths[i-1].Needed) {
				t.Errorf("%s takes more at %d than at %d", item.Role, l.Width, item.Lengths[i-1].Width)
			}
		}
	}
	misses, err := s.NearestMisses(ctx, b, p)
	if err != nil || len(misses) < 2 {
		t.Fatalf("%+v, %v", misses, err)
	}
	for _, m := range misses {
		if m.None || m.Finding.Verdict.Grade == match.CannotTell {
			t.Errorf("row %d: %+v", m.Row, m.Finding.Verdict)
		}
	}
}
