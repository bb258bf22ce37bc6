package ui

import (
	"context"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"tallycloth/stash/measure"
	"tallycloth/ui/sample"
	"tallycloth/ui/widgets"
)

// short is the text of a named line.
func (b *bench) short(name string) string {
	b.t.Helper()
	s, ok := b.shell.Names().Get(name).(*widgets.Short)
	if !ok {
		b.t.Fatalf("there is no line %s", name)
	}
	return s.Text()
}

func (b *bench) choose(name, word string) {
	b.t.Helper()
	c, ok := b.shell.Names().Get(name).(*widgets.Choice)
	if !ok {
		b.t.Fatalf("there is no choice %s", name)
	}
	if !slices.Contains(c.Options, word) {
		b.t.Fatalf("%s offers %q, not %q", name, c.Options, word)
	}
	c.SetSelected(word)
}

// Several lines by mouse: a new fabric in two lots, the total with its shares, one line
// changed and one removed, all logged in one act.
func TestLogSeveralLinesByMouse(t *testing.T) {
	b := newBench(t, sample.Empty())
	b.press("stash.first")
	b.put("form.name", "Moss jersey")
	b.put("form.width", "160")
	b.put("form.length", "2 m")
	b.put("form.price", "12")
	b.choose("form.per", "each metre")
	b.put("form.lot", "A7")
	b.press("form.addline")
	b.choose("form.fabric", "Moss jersey (new, above)")
	b.choose("form.per", "the whole length")
	b.put("form.length", "75 cm")
	b.put("form.price", "5")
	b.put("form.lot", "B2")
	b.press("form.addline")
	b.put("form.name", "Fern rib")
	b.put("form.width", "140")
	b.put("form.length", "1 m")
	b.press("form.addline")
	b.put("form.postage", "6.00")
	b.press("form.remove.3")
	b.press("form.change.2") // the price was 6.00
	b.put("form.price", "6")
	b.press("form.addline")
	// 6.00 over 24.00 and 6.00, worked by hand: 4.80 and 1.20.
	if got := b.short("form.total"); got != "In all 36.00 EUR, with 6.00 EUR postage shared by price" {
		t.Errorf("the total says %q", got)
	}
	b.press("form.send")
	cs := b.cloths()
	if len(cs) != 2 || cs[0].Fabric.ID != cs[1].Fabric.ID || cs[0].Cloth.Lot == cs[1].Cloth.Lot {
		t.Fatalf("logged %+v", cs)
	}
	var subs []string
	for _, r := range b.list("stash.list").Rows() {
		subs = append(subs, r.Sub)
	}
	if all := strings.Join(subs, "\n"); !strings.Contains(all, "lot A7") || !strings.Contains(all, "lot B2") {
		t.Errorf("the list says\n%s", all)
	}
	for _, c := range cs {
		from, err := b.studio.Origin(context.Background(), c.Cloth.ID)
		want := map[string]int64{"A7": 2880, "B2": 720}[c.Cloth.Lot]
		if err != nil || from.Cost.Cost.Minor != want {
			t.Errorf("lot %s cost %v, %v", c.Cloth.Lot, from.Cost.Cost, err)
		}
	}
	b.press("undo")
	if len(b.cloths()) != 0 {
		t.Error("Undo left some of it there")
	}
}

// The same by keyboard alone, with a known fabric bought again: it lies apart.
func TestKnownFabricAgainByKeyboard(t *testing.T) {
	b := full(t)
	before := b.cloths()
	known := before[0].Fabric
	b.ctrl(fyne.KeyN)
	b.tabTo("form.fabric")
	for range 60 {
		if b.shell.Names().Get("form.fabric").(*widgets.Choice).Selected == known.Name {
			break
		}
		b.write(known.Name[:1])
	}
	b.tabTo("form.length")
	b.write("1 m")
	b.tabTo("form.lot")
	b.write("next lot")
	b.key(fyne.KeyReturn)
	after := b.cloths()
	if len(after) != len(before)+1 {
		t.Fatalf("%d cloths, %d before", len(after), len(before))
	}
	for _, c := range after {
		if c.Cloth.Lot == "next lot" && (c.Fabric.ID != known.ID || c.Cloth.Length != measure.Metre) {
			t.Errorf("logged %+v", c.Cloth)
		}
	}
	for i, c := range before {
		if now, err := b.studio.Cloth(context.Background(), c.Cloth.ID); err != nil || now.Area != c.Area {
			t.Errorf("piece %d became %+v, %v", i, now.Cloth, err)
		}
	}
}

// What cannot be is said where the total stands, and the line stays in its fields.
func TestTwoCurrenciesInOnePurchase(t *testing.T) {
	b := newBench(t, sample.Empty())
	b.press("stash.log")
	b.put("form.name", "Moss jersey")
	b.put("form.width", "160")
	b.put("form.length", "2 m")
	b.put("form.price", "12 EUR")
	b.press("form.addline")
	b.choose("form.fabric", "Moss jersey (new, above)")
	b.put("form.length", "1 m")
	b.put("form.price", "900 JPY")
	b.press("form.addline")
	if got := b.short("form.total"); !strings.Contains(got, "two currencies") {
		t.Errorf("the total says %q", got)
	}
	b.press("form.send")
	if len(b.cloths()) != 0 || b.shell.Names().Get("form.price").(*widgets.Entry).Text != "900 JPY" {
		t.Error("it was logged, or the price was lost")
	}
}

// The detail shows the purchase with its lines; its amounts can be corrected, as one act.
func TestChangePurchaseInTheWindow(t *testing.T) {
	b := newBench(t, sample.Empty())
	b.press("stash.log")
	b.put("form.name", "Moss jersey")
	b.put("form.width", "160")
	b.put("form.length", "2 m")
	b.put("form.price", "24")
	b.press("form.send")
	c := b.cloths()[0].Cloth
	b.press("stash.purchase")
	b.put("form.postage", "4.50")
	b.put("form.day", "2026-02-30")
	b.press("form.send")
	cost := func() measure.Money {
		from, err := b.studio.Origin(context.Background(), c.ID)
		if err != nil {
			t.Fatal(err)
		}
		return from.Cost.Cost
	}
	if got := cost(); got.Minor != 2400 {
		t.Fatalf("a day that is none was taken: %v", got)
	}
	b.put("form.day", "2026-02-28")
	b.press("form.send")
	if got := cost(); got.Minor != 2850 {
		t.Errorf("it cost %v", got)
	}
	b.press("undo")
	if got := cost(); got.Minor != 2400 {
		t.Errorf("after undo it cost %v", got)
	}
}

// What was bought in yards is paid by the yard, on a day as one writes it, with a tax in percent.
func TestLogYardsWithTaxInPercent(t *testing.T) {
	b := newBench(t, sample.Empty())
	b.press("stash.first")
	b.put("form.name", "Moss jersey")
	b.put("form.width", "160")
	b.put("form.length", "1 1/2 yd")
	b.put("form.price", "12")
	b.choose("form.per", "each yard")
	b.put("form.tax", "19 %")
	b.put("form.day", "15.03.2026")
	// 12.00 for each of 1 1/2 yd is 18.00, and 19 % of that 3.42, worked by hand.
	if got := b.short("form.total"); got != "In all 21.42 EUR, with 3.42 EUR tax shared by price" {
		t.Errorf("the total says %q", got)
	}
	b.press("form.send")
	cs := b.cloths()
	if len(cs) != 1 {
		t.Fatalf("logged %+v", cs)
	}
	from, err := b.studio.Origin(context.Background(), cs[0].Cloth.ID)
	if err != nil || from.Purchase.Date != "2026-03-15" || from.Cost.Cost.Minor != 2142 {
		t.Errorf("bought %+v, %v", from, err)
	}
	// 21.42 over 1.3716 m, and over 1.3716 × 1.6 m².
	var sentences []string
	for _, s := range b.findSaid(b.window.Content()) {
		sentences = append(sentences, s.Said())
	}
	said := strings.Join(sentences, "\n")
	for _, want := range []string{"15.62 EUR a metre at this width, 9.76 EUR a square metre", "15 Mar 2026  bought, 1.37 m (noted "} {
		if !strings.Contains(said, want) {
			t.Errorf("nothing says %q in\n%s", want, said)
		}
	}
}

// A day that can be read either way is refused with both readings, and nothing is logged.
func TestLogOnADayThatCanBeMisread(t *testing.T) {
	b := newBench(t, sample.Empty())
	b.press("stash.first")
	b.put("form.name", "Moss jersey")
	b.put("form.width", "160")
	b.put("form.length", "2 m")
	b.put("form.day", "3/4/2026")
	b.press("form.send")
	if len(b.cloths()) != 0 {
		t.Errorf("logged %+v", b.cloths())
	}
	b.focus("form.day")
	b.put("form.day", "3 April 2026")
	b.press("form.send")
	if len(b.cloths()) != 1 {
		t.Error("it is not logged")
	}
}
