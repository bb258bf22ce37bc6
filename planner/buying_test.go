package planner_test

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"tallycloth/planner"
	"tallycloth/stash"
	"tallycloth/stash/measure"

	"pgregory.net/rapid"
)

func eur(cents int64) measure.Money { return measure.Money{Minor: cents, Currency: "EUR"} }

func moss() stash.Fabric {
	return stash.Fabric{Name: "Moss jersey", Construction: stash.Jersey, FullWidth: 160 * cm}
}

// basket is a purchase of three lines: two lots of a fabric that is new, and a piece of one
// that the library knows.
func basket(known stash.ID) planner.Buying {
	return planner.Buying{Date: "2026-04-18", Supplier: "Saturday market", Postage: eur(490), Tax: eur(110), Lines: []planner.BuyingLine{
		{Fabric: moss(), Length: 2 * measure.Metre, Per: eur(1200), PerLength: measure.Metre, Lot: "A7", Place: "hall"},
		{Fabric: stash.Fabric{Name: "moss jersey "}, Length: 75 * cm, Price: eur(600), Lot: "B2"},
		{FabricID: known, Length: 40 * cm, Width: 55 * cm, Lot: "9"},
	}}
}

func TestLogSeveralLines(t *testing.T) {
	s := studio(t)
	first := bought(t, s, 2*measure.Metre)
	before, _ := s.Acts(ctx, 0)
	b, err := s.LogBuying(ctx, basket(first.Fabric.ID))
	if err != nil {
		t.Fatal(err)
	}
	// 6.00 of postage and tax over 24.00 and 6.00: 4.80 and 1.20; nothing for the line
	// whose price was not said.
	if want := []measure.Money{eur(2880), eur(720), eur(0)}; !slices.Equal(b.Costs, want) {
		t.Errorf("costs %v, want %v", b.Costs, want)
	}
	if len(b.Cloths) != 3 || b.Cloths[0].Fabric.ID != b.Cloths[1].Fabric.ID || b.Cloths[0].Cloth.Code == b.Cloths[1].Cloth.Code || b.Cloths[1].Cloth.Lot != "B2" {
		t.Errorf("cloths %+v", b.Cloths)
	}
	if f := b.Cloths[0].Fabric; f.Supplier != "Saturday market" || f.FullWidth != 160*cm {
		t.Errorf("the new fabric %+v", f)
	}
	// The known fabric stands twice on the shelf, each with its own lot and size.
	piece := b.Cloths[2].Cloth
	if piece.FabricID != first.Fabric.ID || piece.ID == first.Cloth.ID || piece.Width != 55*cm || piece.SelvedgeLow || piece.Lot != "9" {
		t.Errorf("the piece %+v", piece)
	}
	if again, _ := s.Cloth(ctx, first.Cloth.ID); again.Cloth.Length != 2*measure.Metre || again.Cloth.Lot != "" {
		t.Errorf("what was there before became %+v", again.Cloth)
	}
	if acts, _ := s.Acts(ctx, 0); len(acts) != len(before)+1 || acts[0].Sentence != "Logged 3 lengths: Moss jersey, Fern rib" {
		t.Errorf("acts %+v", acts)
	}
	if _, err := s.Undo(ctx); err != nil {
		t.Fatal(err)
	}
	cs, _ := s.Cloths(ctx)
	fs, _ := s.Fabrics(ctx)
	ps, _ := s.Purchases(ctx)
	if len(cs) != 1 || len(fs) != 1 || len(ps) != 1 {
		t.Errorf("undo left %d cloths, %d fabrics, %d purchases", len(cs), len(fs), len(ps))
	}
	if _, err := s.Redo(ctx); err != nil {
		t.Fatal(err)
	}
	if cs, _ = s.Cloths(ctx); len(cs) != 4 {
		t.Errorf("%d cloths after redo", len(cs))
	}
}

func TestBuyingRefused(t *testing.T) {
	s := studio(t)
	first := bought(t, s, measure.Metre)
	acts, _ := s.Acts(ctx, 0)
	change := func(f func(*planner.Buying)) planner.Buying {
		b := basket(first.Fabric.ID)
		f(&b)
		return b
	}
	for says, b := range map[string]planner.Buying{
		"no line":               change(func(b *planner.Buying) { b.Lines = nil }),
		"Line 2":                change(func(b *planner.Buying) { b.Lines[1].Length = 0 }),
		"wider than the fabric": change(func(b *planner.Buying) { b.Lines[2].Width = 2 * measure.Metre }),
		"in two currencies":     change(func(b *planner.Buying) { b.Postage = measure.Money{Minor: 5, Currency: "SEK"} }),
		"for the line and for":  change(func(b *planner.Buying) { b.Lines[0].Price = eur(5) }),
		"describe the new":      change(func(b *planner.Buying) { b.Lines[1].Fabric.FullWidth = 150 * cm }),
		"is not a day":          change(func(b *planner.Buying) { b.Date = "2026-02-30" }),
		"length of nothing":     change(func(b *planner.Buying) { b.Lines[0].PerLength = 0 }),
		"cannot be negative":    change(func(b *planner.Buying) { b.Tax = eur(-1) }),
		"no name":               change(func(b *planner.Buying) { b.Lines[0].Fabric.Name = " " }),
		"not a currency": change(func(b *planner.Buying) {
			b.Lines = b.Lines[2:]
			b.Postage = measure.Money{Minor: 5, Currency: "QQQ"}
			b.Tax = measure.Money{}
		}),
		"such fabric":           change(func(b *planner.Buying) { b.Lines[2].FabricID = s.NewID() }),
		"more than anyone pays": change(func(b *planner.Buying) { b.Lines[0].Per = eur(9e11) }),
	} {
		_, err := s.LogBuying(ctx, b)
		if err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("want %q, got %v", says, err)
		}
	}
	if after, _ := s.Acts(ctx, 0); len(after) != len(acts) {
		t.Errorf("what was refused left %d acts", len(after)-len(acts))
	}
}

// The costs of the lines add up to what was paid, whatever is typed; prices by length are
// the nearest minor unit.
func TestSharingAddsUp(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		money := func(what string) measure.Money { return eur(rapid.Int64Range(0, 100_000).Draw(rt, what)) }
		b := planner.Buying{Postage: money("postage"), Tax: money("tax")}
		want := b.Postage.Minor + b.Tax.Minor
		for range rapid.IntRange(1, 9).Draw(rt, "lines") {
			l := planner.BuyingLine{Length: measure.Length(rapid.Int64Range(1, 10_000_000).Draw(rt, "length"))}
			if rapid.Bool().Draw(rt, "by length") {
				l.Per, l.PerLength = money("per"), measure.Yard
				want += (2*l.Per.Minor*int64(l.Length) + int64(measure.Yard)) / (2 * int64(measure.Yard))
			} else {
				l.Price = money("price")
				want += l.Price.Minor
			}
			b.Lines = append(b.Lines, l)
		}
		s, err := b.Share("SEK")
		if err != nil {
			rt.Fatal(err)
		}
		sum := int64(0)
		for _, c := range s.Costs {
			sum += c.Minor
		}
		if sum != want || s.Total.Minor != want {
			rt.Fatalf("costs add up to %d, total %v, paid %d", sum, s.Total, want)
		}
	})
}

// 1 1/2 yd at 12.00 each yard is 18.00 exactly.
func TestPriceByTheYard(t *testing.T) {
	b := planner.Buying{Lines: []planner.BuyingLine{{Length: 3 * measure.Yard / 2, Per: measure.Money{Minor: 1200}, PerLength: measure.Yard}}}
	if s, err := b.Share("USD"); err != nil || s.Prices[0] != (measure.Money{Minor: 1800, Currency: "USD"}) || s.Total != s.Prices[0] {
		t.Errorf("%+v, %v", s, err)
	}
}

func TestSpendingAndRates(t *testing.T) {
	s := studio(t)
	first := bought(t, s, 2*measure.Metre) // on 2026-05-04 for 13.00 EUR
	if _, err := s.LogBuying(ctx, basket(first.Fabric.ID)); err != nil {
		t.Fatal(err)
	}
	yen := planner.Buying{Date: "2026-05-04", Lines: []planner.BuyingLine{{FabricID: first.Fabric.ID, Length: measure.Metre, Price: measure.Money{Minor: 2000, Currency: "JPY"}}}}
	if _, err := s.LogBuying(ctx, yen); err != nil {
		t.Fatal(err)
	}
	may, err := s.Spending(ctx, "2026-05-01", "2026-05-31")
	jpy := measure.Money{Minor: 2000, Currency: "JPY"}
	if err != nil || len(may.Purchases) != 2 || !slices.Equal(may.Totals, []measure.Money{eur(1300), jpy}) {
		t.Fatalf("May: %+v, %v", may, err)
	}
	if j := may.Joined; j.Total != eur(1300) || !slices.Equal(j.Missing, []string{"JPY"}) || len(j.Used) != 0 {
		t.Errorf("joined without a rate: %+v", j)
	}
	if _, err := s.KeepRate(ctx, "100 JPY = 0.61 EUR"); err != nil {
		t.Fatal(err)
	}
	if said := lastAct(t, s); said != "Noted that 1 JPY = 0.0061 EUR" {
		t.Errorf("the act is %q", said)
	}
	all, err := s.Spending(ctx, "", "")
	// 2000 JPY at 0.0061 is 12.20 EUR.
	if err != nil || len(all.Purchases) != 3 || all.Joined.Total != eur(1300+3600+1220) || len(all.Joined.Used) != 1 || all.Joined.Used[0].Typed != "2026-05-04" {
		t.Fatalf("all: %+v, %v", all, err)
	}
	if p := all.Purchases[2]; p.Total != eur(3600) || p.Lines[1].Cloth.Lot != "B2" || p.Lines[1].Cost != eur(720) || p.Lines[1].Fabric != "Moss jersey" {
		t.Errorf("the oldest purchase: %+v", p)
	}
	if err := s.DropRate(ctx, all.Joined.Used[0]); err != nil {
		t.Fatal(err)
	}
	if all, _ = s.Spending(ctx, "", ""); len(all.Joined.Used) != 0 {
		t.Errorf("a forgotten rate is used: %+v", all.Joined)
	}
	for _, c := range [][2]stash.Date{{"2026-05-31", "2026-05-01"}, {"may", ""}} {
		if _, err := s.Spending(ctx, c[0], c[1]); !errors.Is(err, stash.ErrInvalid) {
			t.Errorf("from %s to %s: %v", c[0], c[1], err)
		}
	}
}

func TestOnHandAndOrigin(t *testing.T) {
	s := studio(t)
	first := bought(t, s, 2*measure.Metre)
	b, err := s.LogBuying(ctx, basket(first.Fabric.ID))
	if err != nil {
		t.Fatal(err)
	}
	o, err := s.OnHand(ctx)
	if err != nil || !slices.Equal(o.Totals, []measure.Money{eur(1300 + 3600)}) || o.Unpriced != 1 {
		t.Fatalf("on hand %+v, %v", o, err)
	}
	// 28.80 for 2 m × 1.6 m: 9.00 a square metre.
	if c := o.Costs[b.Cloths[0].Cloth.ID]; c.PerSquareMetre != eur(900) {
		t.Errorf("cost %+v", c)
	}
	if err := s.Discard(ctx, first.Cloth.ID, ""); err != nil {
		t.Fatal(err)
	}
	if o, _ = s.OnHand(ctx); !slices.Equal(o.Totals, []measure.Money{eur(3600)}) {
		t.Errorf("after discarding %v", o.Totals)
	}
	from, err := s.Origin(ctx, b.Cloths[0].Cloth.ID)
	if err != nil || from.Purchase.ID != b.Purchase.ID || len(from.Purchase.Lines) != 3 || from.Cost.Cost != eur(2880) {
		t.Errorf("origin %+v, %v", from, err)
	}
	if len(from.Lots) != 1 || from.Lots[0].Lot != "B2" {
		t.Errorf("other lots %+v", from.Lots)
	}
}

func TestChangePurchase(t *testing.T) {
	s := studio(t)
	first := bought(t, s, 2*measure.Metre)
	b, err := s.LogBuying(ctx, basket(first.Fabric.ID))
	if err != nil {
		t.Fatal(err)
	}
	p := b.Purchase
	p.Lines = slices.Clone(p.Lines)
	p.Postage, p.Date, p.Lines[2].Price = eur(900), "2026-04-17", eur(300)
	if err := s.ChangePurchase(ctx, p); err != nil {
		t.Fatal(err)
	}
	o, _ := s.OnHand(ctx)
	if !slices.Equal(o.Totals, []measure.Money{eur(1300 + 2400 + 600 + 300 + 900 + 110)}) {
		t.Errorf("totals %v", o.Totals)
	}
	if _, err := s.Undo(ctx); err != nil {
		t.Fatal(err)
	}
	if back, _ := s.Purchase(ctx, p.ID); back.Postage != eur(490) || back.Date != "2026-04-18" || back.Lines[2].Price != (measure.Money{}) {
		t.Errorf("undo left %+v", back)
	}
	p.Lines[0].Quantity++
	if err := s.ChangePurchase(ctx, p); !errors.Is(err, stash.ErrConflict) {
		t.Errorf("another length: %v", err)
	}
	p.Lines[0].Quantity--
	p.Tax.Currency = "SEK"
	if err := s.ChangePurchase(ctx, p); !errors.Is(err, stash.ErrInvalid) {
		t.Errorf("two currencies: %v", err)
	}
}
