package stash_test

import (
	"testing"

	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/stashtest"

	"pgregory.net/rapid"
)

func euro(cents int64) measure.Money { return measure.Money{Minor: cents, Currency: "EUR"} }

// Shares of postage and tax add up to what was paid to the minor unit, and in another
// order of the lines no line pays more than one unit more or less.
func TestSharesAddUpInAnyOrder(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		amount := rapid.Int64Range(0, 5_000_000)
		p := stash.Purchase{Postage: euro(amount.Draw(rt, "postage")), Tax: euro(amount.Draw(rt, "tax"))}
		n := rapid.IntRange(1, 12).Draw(rt, "lines")
		for range n {
			p.Lines = append(p.Lines, stash.PurchaseLine{Price: euro(amount.Draw(rt, "price"))})
		}
		costs, err := p.Costs()
		if err != nil {
			rt.Fatal(err)
		}
		sum, want := int64(0), p.Postage.Minor+p.Tax.Minor
		for i, c := range costs {
			sum += c.Minor
			want += p.Lines[i].Price.Minor
			if c.Minor < p.Lines[i].Price.Minor {
				rt.Fatalf("line %d costs %v, less than its price %v", i, c, p.Lines[i].Price)
			}
		}
		if sum != want {
			rt.Fatalf("the lines cost %d, and %d was paid", sum, want)
		}
		order := rapid.Permutation(index(n)).Draw(rt, "order")
		q := p
		q.Lines = make([]stash.PurchaseLine, n)
		for to, from := range order {
			q.Lines[to] = p.Lines[from]
		}
		other, _ := q.Costs()
		for to, from := range order {
			if d := other[to].Minor - costs[from].Minor; d < -1 || d > 1 {
				rt.Fatalf("a line of %v costs %v in one order and %v in another", p.Lines[from].Price, costs[from], other[to])
			}
		}
	})
}

func index(n int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = i
	}
	return out
}

// A worked example: 2 m × 1.5 m for 27.00 and a third of 3.00 postage, so 28.00 for 3 m²;
// a leftover of 0.75 m² cut from it cost a quarter, and one cut from that again its part.
func TestCostsOfLeftovers(t *testing.T) {
	ids := stashtest.IDs()
	bolt := stash.Cloth{ID: ids(), Length: 2 * measure.Metre, Width: 3 * measure.Metre / 2, Gone: true}
	other := stash.Cloth{ID: ids(), Length: measure.Metre, Width: measure.Metre}
	left := stash.Cloth{ID: ids(), CutFrom: bolt.ID, Length: measure.Metre / 2, Width: 3 * measure.Metre / 2}
	scrap := stash.Cloth{ID: ids(), CutFrom: left.ID, Length: measure.Metre / 2, Width: measure.Metre / 4}
	found := stash.Cloth{ID: ids(), Length: measure.Metre, Width: measure.Metre}
	p := stash.Purchase{ID: ids(), Postage: euro(300), Lines: []stash.PurchaseLine{
		{ClothID: bolt.ID, Price: euro(2700)}, {ClothID: other.ID, Price: euro(5400)}}}
	got := stash.CostsOf([]stash.Cloth{bolt, other, left, scrap, found}, []stash.Purchase{p})
	for _, c := range []struct {
		what      string
		cloth     stash.Cloth
		cost, per int64
	}{
		{"the length", bolt, 2800, 933}, {"the other", other, 5600, 5600}, {"the leftover", left, 700, 933}, {"cut from the leftover", scrap, 117, 933},
	} {
		g := got[c.cloth.ID]
		if !g.Known || g.Cost != euro(c.cost) || g.PerSquareMetre != euro(c.per) || g.PurchaseID != p.ID {
			t.Errorf("%s: %+v, want %d at %d", c.what, g, c.cost, c.per)
		}
	}
	if g := got[found.ID]; g.Known || g.PurchaseID != stash.NoID {
		t.Errorf("a leftover from before the library: %+v", g)
	}
	round := []stash.Cloth{{ID: bolt.ID, CutFrom: left.ID, Length: 1000, Width: 1000}, {ID: left.ID, CutFrom: bolt.ID, Length: 1000, Width: 1000}}
	if g := stash.CostsOf(round, nil)[left.ID]; g.Known {
		t.Errorf("cloth cut from itself in a ring: %+v", g)
	}
}
