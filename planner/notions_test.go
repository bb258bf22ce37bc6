package planner_test

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"tallycloth/planner"
	"tallycloth/planner/garment"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/measure"

	"pgregory.net/rapid"
)

func notion(t testing.TB, s *planner.Studio, name, kind string, quantity float64, unit string, reorder float64) stash.Notion {
	t.Helper()
	n, err := s.SaveNotion(ctx, stash.Notion{Name: name, Kind: kind, Quantity: quantity, Unit: unit, Reorder: reorder})
	if err != nil {
		t.Fatal(err)
	}
	return n
}

func TestNotionsThroughTheirLife(t *testing.T) {
	s := studio(t)
	g, err := s.NewGarment(ctx, tank(t, s).ID, "3", "Plum tank 100 %", "")
	if err != nil {
		t.Fatal(err)
	}
	n := notion(t, s, " Clear elastic 8 mm ", "clear elastic", 4, "m", 3)
	if said := lastAct(t, s); n.Name != "Clear elastic 8 mm" || said != "Added 4 m of Clear elastic 8 mm" {
		t.Errorf("added %+v, %q", n, said)
	}
	if _, err := s.UseNotion(ctx, n.ID, 1.5, g.ID, "straps"); err != nil {
		t.Fatal(err)
	}
	if said := lastAct(t, s); said != "Used 1.5 m of Clear elastic 8 mm for Plum tank 100 %" {
		t.Errorf("the act is %q", said)
	}
	if _, err := s.BuyNotion(ctx, n.ID, 5, measure.Money{Minor: 250}, "corner stall"); err != nil {
		t.Fatal(err)
	}
	n, _ = s.Notion(ctx, n.ID)
	if n.Quantity != 7.5 || len(n.Lines) != 3 || n.Lines[1].GarmentID != g.ID || n.Lines[2].Paid != eur(250) || n.Lines[2].On != "2026-05-04" {
		t.Errorf("after using and buying %+v", n)
	}
	if _, err := s.UseNotion(ctx, n.ID, 8, stash.NoID, ""); !errors.Is(err, stash.ErrConflict) || !strings.Contains(err.Error(), "Only 7.5 m") {
		t.Errorf("more than there is: %v", err)
	}
	for _, q := range []float64{0, -1, math.NaN(), 1e-9} {
		if _, err := s.UseNotion(ctx, n.ID, q, stash.NoID, ""); err == nil {
			t.Errorf("%v was used", q)
		}
		if _, err := s.BuyNotion(ctx, n.ID, q, measure.Money{}, ""); err == nil {
			t.Errorf("%v was bought", q)
		}
	}
	n.Quantity, n.Reorder = 7, 8
	if n, err = s.SaveNotion(ctx, n); err != nil || len(n.Lines) != 4 || n.Lines[3].Change != -0.5 || !n.Short() {
		t.Errorf("counted again: %+v, %v", n, err)
	}
	for range 3 {
		if _, err := s.Undo(ctx); err != nil {
			t.Fatal(err)
		}
	}
	if n, _ = s.Notion(ctx, n.ID); n.Quantity != 4 || len(n.Lines) != 1 {
		t.Errorf("after undo %+v", n)
	}
	if _, err := s.SaveNotion(ctx, stash.Notion{ID: s.NewID(), Name: "rings"}); !errors.Is(err, stash.ErrNotFound) {
		t.Errorf("a notion nobody knows: %v", err)
	}
	if _, err := s.SaveNotion(ctx, stash.Notion{Name: " "}); !errors.Is(err, stash.ErrInvalid) {
		t.Errorf("a notion without a name: %v", err)
	}
}

// asks is a pattern of one size that asks for notions.
func asks(t testing.TB, s *planner.Studio, needs ...pattern.NotionNeed) pattern.Pattern {
	t.Helper()
	p := tank(t, s)
	p.Notions = needs
	p, err := s.SavePattern(ctx, p)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func need(name, kind, unit string, q float64) pattern.NotionNeed {
	return pattern.NotionNeed{Name: name, Kind: kind, Unit: unit, Quantity: map[string]float64{"": q}}
}

func items(t testing.TB, s *planner.Studio) map[string]planner.ToBuy {
	t.Helper()
	all, err := s.ShoppingList(ctx)
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]planner.ToBuy{}
	for _, b := range all {
		out[b.Name] = b
	}
	if len(out) != len(all) {
		t.Errorf("something is on the list twice: %+v", all)
	}
	return out
}

func TestShoppingList(t *testing.T) {
	s := studio(t)
	p := asks(t, s, need("polyester thread", "thread", "m", 60), need("elastic 30 mm", "elastic", "cm", 80), need("ball-point needle 75", "needle", "piece", 1))
	white := notion(t, s, "Polyester thread, white", "thread", 100, "m", 0)
	notion(t, s, "Polyester thread, plum", "thread", 30, "m", 50)
	elastic := notion(t, s, "Waist elastic 30 mm", "elastic", 1, "m", 0.5)
	notion(t, s, "Elastic 8 mm", "elastic", 9, "m", 0)
	notion(t, s, "Hooks", "hooks", 12, "pieces", 10)
	if got := items(t, s); len(got) != 1 || got["Polyester thread, plum"].Buy != 20 {
		t.Errorf("nothing is wanted yet, and the list says %+v", got)
	}
	var made []garment.Garment
	for _, name := range []string{"First", "Second"} {
		g, err := s.NewGarment(ctx, p.ID, "3", name, "")
		if err != nil {
			t.Fatal(err)
		}
		made = append(made, g)
	}
	// Two garments: 120 m of thread of 130 there; 1.6 m of elastic of 1 m; two needles of
	// which there are none.
	got := items(t, s)
	e := got["Waist elastic 30 mm"]
	if len(got) != 3 || e.NotionID != elastic.ID || e.Needed != 1.6 || e.Buy != 1.1 || !slices.Equal(e.Garments, []string{"Second", "First"}) && !slices.Equal(e.Garments, []string{"First", "Second"}) {
		t.Errorf("the list says %+v", got)
	}
	if n := got["ball-point needle 75"]; n.Buy != 2 || n.NotionID != stash.NoID || n.OnHand != 0 {
		t.Errorf("needles %+v", n)
	}
	if why := e.Why(); !strings.HasPrefix(why, "1.6 m for ") {
		t.Errorf("why: %q", why)
	}
	// Thread used for the first is not asked for again; white thread taken away runs short.
	if _, err := s.UseNotion(ctx, white.ID, 60, made[0].ID, ""); err != nil {
		t.Fatal(err)
	}
	if b, on := items(t, s)["polyester thread"]; on {
		t.Errorf("60 m for the second, 70 m there: %+v", b)
	}
	if _, err := s.UseNotion(ctx, white.ID, 35, stash.NoID, ""); err != nil {
		t.Fatal(err)
	}
	if b := items(t, s)["polyester thread"]; b.Needed != 60 || b.OnHand != 35 || b.Buy != 25 {
		t.Errorf("60 m for the second, 35 m there: %+v", b)
	}
	made[1].State = garment.GivenUp
	if err := s.SaveGarment(ctx, made[1]); err != nil {
		t.Fatal(err)
	}
	if b, on := items(t, s)["polyester thread"]; on {
		t.Errorf("a garment given up asks for %+v", b)
	}
}

// A need for one thread by name and one for any thread: what the narrow one takes is not
// there for the other, and nothing is bought twice.
func TestNarrowNeedFirst(t *testing.T) {
	s := studio(t)
	p := asks(t, s, need("thread", "thread", "m", 50), need("wool thread", "thread", "m", 40))
	notion(t, s, "Wool thread", "thread", 30, "m", 0)
	notion(t, s, "Cotton thread", "thread", 20, "m", 0)
	if _, err := s.NewGarment(ctx, p.ID, "3", "First", ""); err != nil {
		t.Fatal(err)
	}
	got := items(t, s)
	if got["Wool thread"].Buy != 10 || got["thread"].Buy != 30 || len(got) != 2 {
		t.Errorf("the list says %+v", got)
	}
}

// What is bought of the list covers all that is asked for, and no more than is missing when
// nothing is to be reordered.
func TestShoppingCoversWhatIsAskedFor(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		s := studio(t)
		q := func(what string) float64 { return float64(rapid.IntRange(0, 400).Draw(rt, what)) / 4 }
		needed := []float64{q("any"), q("wool"), q("cotton")}
		have := []float64{q("wool there"), q("cotton there")}
		p := asks(t, s, need("thread", "thread", "m", needed[0]), need("wool thread", "thread", "m", needed[1]), need("cotton thread", "thread", "cm", 100*needed[2]))
		notion(t, s, "Wool thread", "thread", have[0], "m", 0)
		notion(t, s, "Cotton thread", "thread", have[1], "m", 0)
		if _, err := s.NewGarment(ctx, p.ID, "3", "First", ""); err != nil {
			rt.Fatal(err)
		}
		bought := 0.0
		for _, b := range items(t, s) {
			bought += b.Buy
		}
		wool, cotton := max(needed[1]-have[0], 0), max(needed[2]-have[1], 0)
		any := max(needed[0]-max(have[0]-needed[1], 0)-max(have[1]-needed[2], 0), 0)
		if want := wool + cotton + any; math.Abs(bought-want) > 1e-6 {
			rt.Fatalf("needed %v, there %v: %v is bought, %v is missing", needed, have, bought, want)
		}
	})
}

func TestShoppingAsTextAndTable(t *testing.T) {
	list := []planner.ToBuy{{Name: "Waist elastic 30 mm", Kind: "elastic", Unit: "m", OnHand: 1, Reorder: 2, Needed: 1.6, Buy: 2.6, Garments: []string{"First", "Second"}},
		{Name: "needle 75", Kind: "needle", Unit: "piece", Needed: 4, Buy: 4, Garments: []string{"a", "b", "c", "d"}}}
	if got := planner.ShoppingText(list); got != "2.6 m  Waist elastic 30 mm (below 2 m; 1.6 m for First, Second)\n4 pieces  needle 75 (4 pieces for a, b, 2 more garments)\n" {
		t.Errorf("the text says %q", got)
	}
	tab := planner.ShoppingTable(list)
	if len(tab.Rows) != 3 || tab.Rows[1][0].Text != "2.6" || tab.Rows[2][7].Text != "a, b, c, d" {
		t.Errorf("the table %+v", tab.Rows)
	}
}
