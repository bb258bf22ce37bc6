package list_test

import (
	"bytes"
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"testing"

	"tallycloth/stash"
	"tallycloth/stash/list"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
	"tallycloth/stash/stashtest"

	"pgregory.net/rapid"
)

// word is a text as a person may type it, blanks at its ends apart.
var word = rapid.Custom(func(t *rapid.T) string {
	return strings.TrimSpace(rapid.OneOf(rapid.Just(""), rapid.SampledFrom([]string{"moss", "=1+1", "-5", "+3", "@home", "'=x", "1,5", "a;b|c=d\\", "3/4/2026", "two\nlines", `"quoted"`, "ﬁ – ½ ″"}),
		rapid.StringMatching(`[a-zA-ZäéßЖ0-9 .,;:|=\\'"%/-]{0,24}`)).Draw(t, "word"))
})

func name(t *rapid.T) string {
	return strings.Join(strings.Fields("n"+word.Draw(t, "name")), " ")
}

func amount(t *rapid.T, what string, most int64) measure.Length {
	return measure.Length(rapid.OneOf(rapid.Just(int64(0)), rapid.Int64Range(1, most)).Draw(t, what))
}

func readingOf(t *rapid.T, least, most int64) stash.Reading {
	if rapid.Bool().Draw(t, "known") {
		return stash.Measured(measure.Percent(rapid.Int64Range(least, most).Draw(t, "percent")))
	}
	return stash.Reading{}
}

func grain(t *rapid.T) stash.Grain {
	return stash.Grain{Stretch: readingOf(t, 0, 100_000), Growth: readingOf(t, 0, 100_000), Recovery: readingOf(t, 0, 10_000),
		Narrowing: readingOf(t, -100_000, 10_000), Shrinkage: readingOf(t, -9_900, 100_000)}
}

var fabrics = rapid.Custom(func(t *rapid.T) stash.Fabric {
	f := stash.Fabric{Name: name(t), Construction: rapid.SampledFrom(stash.Constructions()).Draw(t, "made"),
		Weight: measure.Weight(amount(t, "weight", 9_000_000)), FullWidth: 1 + amount(t, "width", 5_000_000), Tubular: rapid.Bool().Draw(t, "tube"),
		Lengthwise: grain(t), Crosswise: grain(t), Direction: stash.Direction(rapid.IntRange(0, 2).Draw(t, "direction")),
		RepeatAlong: amount(t, "repeat", 900_000), RepeatAcross: amount(t, "repeat", 900_000), SameBothFace: rapid.Bool().Draw(t, "faces"),
		Thickness: amount(t, "thick", 9000), ColourName: word.Draw(t, "colour"), Care: word.Draw(t, "care"), Supplier: word.Draw(t, "supplier"), Notes: word.Draw(t, "notes")}
	f.SelvedgeLoss = min(amount(t, "loss", 20_000), (f.FullWidth-1)/2)
	if rapid.Bool().Draw(t, "fibres known") {
		share := rapid.Int64Range(5001, 9999).Draw(t, "share")
		f.Fibres = stash.Fibres{{Name: "cotton", Share: measure.Percent(share)}, {Name: stash.OtherFibres, Share: measure.Percent(10_000 - share)}}
		f.Colour = fmt.Sprintf("#%06x", rapid.IntRange(0, 0xffffff).Draw(t, "hex"))
	}
	if f.Buy = amount(t, "to buy", 20_000_000); f.Buy > 0 {
		f.BuyFor = word.Draw(t, "to buy for")
	}
	for range rapid.IntRange(0, 2).Draw(t, "tags") {
		f.Tags = append(f.Tags, name(t))
	}
	for range rapid.IntRange(0, 2).Draw(t, "stitches") {
		f.Stitches = append(f.Stitches, stash.StitchNote{Seam: name(t), Width: word.Draw(t, "dial"), Tension: word.Draw(t, "tension"), Still: rapid.Bool().Draw(t, "still"), Note: word.Draw(t, "note")})
	}
	return f
})

// shelf is a stash with some of everything.
type shelf struct {
	fabrics   []stash.Fabric
	cloths    []stash.ClothState
	purchases []stash.Purchase
}

var shelves = rapid.Custom(func(t *rapid.T) shelf {
	var s shelf
	id := stashtest.IDs()
	for range rapid.IntRange(0, 4).Draw(t, "fabrics") {
		f := fabrics.Draw(t, "fabric")
		f.ID = id()
		s.fabrics = append(s.fabrics, f)
	}
	for range rapid.IntRange(0, 3).Draw(t, "purchases") {
		currency := rapid.SampledFrom([]string{"EUR", "JPY", "KWD"}).Draw(t, "currency")
		p := stash.Purchase{ID: id(), Date: "2026-02-28", Supplier: word.Draw(t, "shop"), Notes: word.Draw(t, "said")}
		if n := rapid.Int64Range(0, 9999).Draw(t, "postage"); n > 0 {
			p.Postage = measure.Money{Minor: n, Currency: currency}
			p.Tax = measure.Money{Minor: n + 1, Currency: "SEK"}
		}
		s.purchases = append(s.purchases, p)
	}
	for i := range rapid.IntRange(0, 6).Draw(t, "cloths") {
		if len(s.fabrics) > 0 {
			s.addCloth(t, id(), i)
		}
	}
	s.purchases = slices.DeleteFunc(s.purchases, func(p stash.Purchase) bool { return len(p.Lines) == 0 })
	return s
})

func (s *shelf) addCloth(t *rapid.T, id stash.ID, i int) {
	f := rapid.SampledFrom(s.fabrics).Draw(t, "of")
	c := stash.Cloth{ID: id, FabricID: f.ID, Code: "C" + strconv.Itoa(i), Lot: word.Draw(t, "lot"), Place: word.Draw(t, "place"), Notes: word.Draw(t, "notes"),
		Length: 1 + amount(t, "length", 90_000_000), Width: 1 + amount(t, "width", 3_000_000),
		RawStart: rapid.Bool().Draw(t, "raw"), RawEnd: rapid.Bool().Draw(t, "raw"), SelvedgeLow: rapid.Bool().Draw(t, "edge"), SelvedgeHigh: rapid.Bool().Draw(t, "edge"), Washed: rapid.Bool().Draw(t, "washed")}
	if rapid.Bool().Draw(t, "odd") {
		c.Outline = shape.Polygon{Outer: shape.Ring{{X: 0, Y: 0}, {X: 600_001, Y: 0}, {X: 450_000, Y: 300_123}, {X: 0, Y: 300_123}},
			Holes: []shape.Ring{{{X: 1000, Y: 1000}, {X: 1000, Y: 2000}, {X: 2000, Y: 2000}}}}
		c.Length, c.Width = 600_001, 300_123
	}
	for _, k := range s.cloths {
		if k.Cloth.FabricID == f.ID && rapid.Bool().Draw(t, "leftover") {
			c.CutFrom = k.Cloth.ID
		}
	}
	if len(s.purchases) > 0 && rapid.Bool().Draw(t, "bought") {
		p := &s.purchases[rapid.IntRange(0, len(s.purchases)-1).Draw(t, "purchase")]
		l := stash.PurchaseLine{FabricID: f.ID, ClothID: c.ID, Quantity: 1 + amount(t, "quantity", 9_000_000)}
		if n := rapid.Int64Range(0, 99_999).Draw(t, "price"); n > 0 {
			l.Price = measure.Money{Minor: n, Currency: cmp.Or(p.Postage.Currency, "EUR")}
		}
		p.Lines = append(p.Lines, l)
		c.PurchaseID = p.ID
	}
	s.cloths = append(s.cloths, stash.ClothState{Cloth: c, Fabric: f})
}

// told writes records without their IDs, links by what they link to, in an order of their own.
func told(fabrics []stash.Fabric, cloths []stash.Cloth, purchases []stash.Purchase) []string {
	code, fab, buy := map[stash.ID]string{}, map[stash.ID]string{}, map[stash.ID]string{}
	var out []string
	for _, f := range fabrics {
		id := f.ID
		f.ID = stash.NoID
		fab[id] = fmt.Sprintf("%+v", f)
		out = append(out, "fabric "+fab[id])
	}
	for _, c := range cloths {
		code[c.ID] = c.Code
	}
	for _, p := range purchases {
		lines := []string{}
		for _, l := range p.Lines {
			lines = append(lines, fmt.Sprint(code[l.ClothID], l.Quantity, l.Price))
		}
		slices.Sort(lines)
		buy[p.ID] = fmt.Sprint(p.Date, p.Supplier, p.Postage, p.Tax, p.Notes, lines)
		out = append(out, "purchase "+buy[p.ID])
	}
	for _, c := range cloths {
		links := fmt.Sprintf(" of %s from %q bought %s", fab[c.FabricID], code[c.CutFrom], buy[c.PurchaseID])
		c.ID, c.FabricID, c.CutFrom, c.PurchaseID = stash.NoID, stash.NoID, stash.NoID, stash.NoID
		out = append(out, fmt.Sprintf("cloth %+v", c)+links)
	}
	slices.Sort(out)
	return out
}

// TestWriteThenPlan: what Write writes is read into the same records, with the mapping
// that is guessed for it.
func TestWriteThenPlan(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := shelves.Draw(t, "shelf")
		table := list.Write(s.cloths, s.fabrics, s.purchases)
		m, ok := list.OwnMapping(table)
		if !ok {
			t.Fatal("its own table is not known again")
		}
		m.Currency = "EUR"
		r, err := list.Plan(table, m, list.Known{}, stashtest.IDs(), today)
		if err != nil || !r.OK() {
			t.Fatalf("%v, %+v, %+v", err, r.Questions, r.Rows)
		}
		var before, after []stash.Cloth
		for _, c := range s.cloths {
			before = append(before, c.Cloth)
		}
		for _, c := range r.Cloths {
			after = append(after, c.Cloth)
		}
		a, b := told(s.fabrics, before, s.purchases), told(r.Fabrics, after, r.Purchases)
		for i := range max(len(a), len(b)) {
			if i >= len(a) || i >= len(b) || a[i] != b[i] {
				t.Fatalf("%d and %d records; written\n%s\nread\n%s", len(a), len(b), strings.Join(a[min(i, len(a)):], "\n"), strings.Join(b[min(i, len(b)):], "\n"))
			}
		}
	})
}

// FuzzPlan: whatever stands in a table, the dry run ends, every row that is written on
// has an outcome, refused rows say why, and what is made is valid.
func FuzzPlan(f *testing.F) {
	f.Add("fabric|length|width\nMoss|1 m|150", false)
	f.Add("Stoff|Breite|Preis\nMoos|1,5|1.234,50 €\n|||", true)
	f.Add("outline|stitches|tags|fabric\nPOLYGON ((0 0,1 0,1 1,0 0))|seam=x;|a\\,b|n", false)
	f.Add("date|fabric|order|postage|price per m\n3/4/26|x|1|2|3 €/m\n13/4/26|x|1|3|", true)
	f.Fuzz(func(t *testing.T, text string, imperial bool) {
		units := measure.Metric
		if imperial {
			units = measure.Imperial
		}
		table := lines(text)
		m := list.Guess(table, units, "EUR")
		m.Always = map[list.Field]string{list.FullWidth: "150 cm"}
		r, err := list.Plan(table, m, list.Known{}, stashtest.IDs(), today)
		if err != nil {
			t.Fatal(err)
		}
		for _, row := range r.Rows {
			if row.Outcome == "" || (row.Outcome == list.Refused) != (len(row.Why) > 0) {
				t.Errorf("%+v", row)
			}
		}
		made := map[stash.ID]bool{}
		for _, fab := range r.Fabrics {
			made[fab.ID] = true
			if err := fab.Validate(); err != nil {
				t.Error(err)
			}
		}
		for _, c := range r.Cloths {
			c.Code = cmp.Or(c.Code, "new")
			if err := c.Cloth.Validate(); err != nil || !made[c.FabricID] {
				t.Error(err, c)
			}
		}
		for _, p := range r.Purchases {
			if err := p.Validate(); err != nil || bytes.Equal(p.ID[:], stash.NoID[:]) {
				t.Error(err)
			}
		}
	})
}
