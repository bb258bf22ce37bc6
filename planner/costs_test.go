package planner_test

import (
	"testing"

	"tallycloth/planner"
	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// What garments and leftovers cost is what was paid, to a minor unit for each part: waste is in
// the garment that it was made for.
func TestGarmentCosts(t *testing.T) {
	s := studio(t)
	b, err := s.LogBuying(ctx, planner.Buying{Date: "2026-01-05", Lines: []planner.BuyingLine{{Fabric: stash.Fabric{Name: "Moss jersey", Construction: stash.Jersey, FullWidth: 160 * cm,
		Crosswise: stash.Grain{Stretch: stash.Measured(6000), Recovery: stash.Measured(9500)}}, Length: 250 * cm, Price: eur(4000), Trued: true}}})
	if err != nil {
		t.Fatal(err)
	}
	tank(t, s)
	c := b.Cloths[0].Cloth
	first, second := reservedOn(t, s, c.ID, "First"), reservedOn(t, s, c.ID, "Second")
	planned, err := s.GarmentCosts(ctx)
	if err != nil || len(planned) != 2 || !planned[0].Planned || planned[0].Waste != 0 {
		t.Fatalf("before cutting %+v, %v", planned, err)
	}
	// What it takes of the length costs as much of the 40.00 as it is of the 250 cm, and more than its
	// pieces alone; no two garments are charged for the same length.
	var taken measure.Length
	for _, g := range planned {
		part := g.Cloth[0]
		taken += part.Taken
		want := 4000 * int64(part.Taken) / int64(250*cm)
		if got := part.TakenCost.Cost.Minor; got < want-1 || got > want+1 || got <= part.Cost.Cost.Minor || g.Taken != part.Taken || g.TakenTotals[0].Minor != got {
			t.Errorf("%s takes %d µm for %d, want %d, its pieces cost %d", g.Garment.Name, part.Taken, got, want, part.Cost.Cost.Minor)
		}
	}
	state, err := s.Cloth(ctx, c.ID)
	if err != nil {
		t.Fatal(err)
	}
	var from, to int64 = 1 << 60, 0
	for _, r := range state.Reservations {
		for _, p := range r.Pieces {
			from, to = min(from, p.Outline.Bounds().Min.X), max(to, p.Outline.Bounds().Max.X)
		}
	}
	// The cloth is not washed: what lies on 94 cm after it shrank by 6 % (assumed of jersey) is 100 cm of it now.
	if reach := stash.BeforeWashing(measure.Length(to-from), stash.Assumed(b.Cloths[0].Fabric).Lengthwise.Shrinkage.Value); taken > reach+2 || taken < reach-3*cm || taken < measure.Length(to-from) {
		t.Errorf("both take %d µm, what is reserved lies on %d", taken, to-from)
	}
	plan, err := s.CutPlan(ctx, first.ID)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := s.MarkCut(ctx, first.ID, planner.AllLeft(plan)); err != nil {
		t.Fatal(err)
	}
	elastic, err := s.SaveNotion(ctx, stash.Notion{Name: "Elastic", Unit: "m"})
	if err != nil {
		t.Fatal(err)
	}
	for _, paid := range []int64{500, 0, 900} { // 2 m each; the one without a price says nothing
		m := eur(paid)
		if paid == 0 {
			m = measure.Money{}
		}
		if _, err := s.BuyNotion(ctx, elastic.ID, 2, m, ""); err != nil {
			t.Fatal(err)
		}
		if _, err := s.UseNotion(ctx, elastic.ID, 0.5, first.ID, ""); err != nil {
			t.Fatal(err)
		}
	}
	all, err := s.GarmentCosts(ctx)
	if err != nil || len(all) != 2 {
		t.Fatalf("%+v, %v", all, err)
	}
	got := map[stash.ID]planner.GarmentCost{}
	for _, g := range all {
		got[g.Garment.ID] = g
	}
	g := got[first.ID]
	if g.Planned || g.Waste != plan[0].Waste() || g.Area != plan[0].Cut[0].Area() || g.Unpriced != 0 || g.Pattern == "" {
		t.Errorf("the garment that was cut %+v", g)
	}
	// 0.5 m of 2 m at 5.00, twice, and at 9.00: 1.25 + 1.25 + 2.25.
	if len(g.Notions) != 1 || g.Notions[0].Cost != eur(475) || g.Notions[0].Quantity != 1.5 {
		t.Errorf("notions %+v", g.Notions)
	}
	hand, err := s.OnHand(ctx)
	if err != nil {
		t.Fatal(err)
	}
	var sum int64
	for _, cost := range hand.Costs {
		sum += cost.Cost.Minor
	}
	sum += g.Cloth[0].Cost.Cost.Minor
	if n := int64(len(hand.Costs) + 1); sum < 4000-n || sum > 4000+n {
		t.Errorf("garment and leftovers cost %d of 4000", sum)
	}
	if len(g.Totals) != 1 || g.Totals[0].Minor != g.Cloth[0].Cost.Cost.Minor+475 || g.Joined.Total != g.Totals[0] {
		t.Errorf("in all %+v, joined %+v", g.Totals, g.Joined)
	}
	if w := got[second.ID]; !w.Planned || w.Area != g.Area || !w.Cloth[0].Cost.Known {
		t.Errorf("the garment to be cut %+v", w)
	}
	// Taken back, it is reserved again.
	for range 8 {
		if _, err := s.Undo(ctx); err != nil {
			t.Fatal(err)
		}
	}
	if all, err = s.GarmentCosts(ctx); err != nil || len(all) != 2 || !all[0].Planned || !all[1].Planned || len(all[1].Notions) > 0 {
		t.Errorf("taken back %+v, %v", all, err)
	}
}

func TestWorth(t *testing.T) {
	s := studio(t)
	first := bought(t, s, 2*measure.Metre)
	if _, err := s.LogBuying(ctx, basket(first.Fabric.ID)); err != nil {
		t.Fatal(err)
	}
	w, err := s.Worth(ctx)
	if err != nil {
		t.Fatal(err)
	}
	var area measure.Area
	pieces, unpriced := 0, 0
	for _, f := range w.Fabrics {
		area += f.Area
		pieces += f.Pieces
		unpriced += f.Unpriced
	}
	if w.Pieces != 4 || pieces != 4 || w.Area != area || unpriced != w.Unpriced || len(w.Fabrics) != 2 || len(w.Totals) == 0 {
		t.Errorf("%+v", w)
	}
}
