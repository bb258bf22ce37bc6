package ui

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"tallycloth/stash"
	"tallycloth/ui/sample"
	"tallycloth/ui/widgets"
)

func (b *bench) notion(name string) stash.Notion {
	b.t.Helper()
	all, err := b.studio.Notions(context.Background())
	if err != nil {
		b.t.Fatal(err)
	}
	for _, n := range all {
		if n.Name == name {
			return n
		}
	}
	return stash.Notion{}
}

// Add, use until it is short, see it marked in words and on the list, buy, undo: by mouse.
func TestNotionsByMouse(t *testing.T) {
	b := newBench(t, sample.Empty())
	b.press("stash.notions")
	b.press("notions.add")
	b.put("form.name", "Clear elastic 8 mm")
	b.choose("form.kind", "clear elastic")
	b.put("form.quantity", "4")
	b.put("form.reorder", "3")
	b.press("form.send")
	b.press("notions.use")
	b.put("form.quantity", "150 cm")
	b.press("form.send")
	if n := b.notion("Clear elastic 8 mm"); n.Quantity != 2.5 || len(n.Lines) != 2 {
		t.Fatalf("after using %+v", n)
	}
	if r, _ := b.list("notions.list").ChosenRow(); r.Cells[2].Text != "short" || r.Cells[0].Text != "2.5 m" {
		t.Errorf("the row says %+v", r.Cells)
	}
	path := filepath.Join(t.TempDir(), "list.csv")
	b.press("shopping.copy")
	b.press("shopping.export")
	b.put("form.path", path)
	b.press("form.send")
	if got := fyne.CurrentApp().Clipboard().Content(); got != "0.5 m  Clear elastic 8 mm (below 3 m)\n" {
		t.Errorf("copied %q", got)
	}
	if data, err := os.ReadFile(path); err != nil || !strings.Contains(string(data), "Clear elastic 8 mm") {
		t.Errorf("the file says %q, %v", data, err)
	}
	b.press("notions.use")
	b.put("form.quantity", "9")
	b.press("form.send")
	if b.window.Canvas().Overlays().Top() == nil || b.notion("Clear elastic 8 mm").Quantity != 2.5 {
		t.Error("more than there is was taken")
	}
	b.key(fyne.KeyEscape)
	b.press("notions.buy")
	b.put("form.quantity", "5")
	b.put("form.paid", "2,50")
	b.press("form.send")
	if n := b.notion("Clear elastic 8 mm"); n.Quantity != 7.5 || n.Lines[2].Paid.Minor != 250 {
		t.Errorf("after buying %+v", n)
	}
	b.press("undo")
	if n := b.notion("Clear elastic 8 mm"); n.Quantity != 2.5 {
		t.Errorf("after undo %+v", n)
	}
	b.press("stash.back")
	b.focus("stash.list")
}

// The same by keyboard alone, in the demo studio, for a garment.
func TestUseANotionByKeyboard(t *testing.T) {
	b := full(t)
	for _, name := range []string{"Hooks", "Waist elastic 30 mm"} {
		if _, err := b.studio.SaveNotion(context.Background(), stash.Notion{Name: name, Quantity: 6.5, Unit: "m"}); err != nil {
			t.Fatal(err)
		}
	}
	b.tabTo("stash.notions")
	b.key(fyne.KeyReturn)
	b.focus("notions.list")
	for range 20 {
		if r, ok := b.list("notions.list").ChosenRow(); ok && r.Title == "Waist elastic 30 mm" {
			break
		}
		b.key(fyne.KeyDown)
	}
	b.key(fyne.KeyReturn)
	b.write("80 cm")
	b.tabTo("form.garment")
	b.key(fyne.KeyRight)
	b.key(fyne.KeyReturn)
	n := b.notion("Waist elastic 30 mm")
	if k := len(n.Lines); k == 0 || n.Lines[k-1].Change != -0.8 || n.Lines[k-1].GarmentID == stash.NoID {
		t.Fatalf("used %+v", n)
	}
	b.key(fyne.KeyEscape)
	b.focus("stash.list")
}

// Purchases of a period with their totals, joined by a rate that is typed and forgotten.
func TestPurchasesAndRates(t *testing.T) {
	b := newBench(t, sample.Empty())
	for _, price := range []string{"10 EUR", "1000 JPY"} {
		b.press("stash.log")
		b.put("form.name", "Moss "+price)
		b.put("form.width", "150")
		b.put("form.length", "1 m")
		b.put("form.price", price)
		b.press("form.send")
	}
	b.press("stash.purchases")
	if rows := b.list("purchases.list").Rows(); len(rows) != 2 {
		t.Fatalf("%d purchases", len(rows))
	}
	b.put("purchases.rate", "dear")
	b.press("purchases.keep")
	b.put("purchases.rate", "100 JPY = 0.60 EUR")
	b.press("purchases.keep")
	set, err := b.studio.Settings(context.Background())
	if err != nil || len(set.Rates.List()) != 1 {
		t.Fatalf("rates %v, %v", set.Rates.List(), err)
	}
	if e := b.shell.Names().Get("purchases.rate").(*widgets.Entry); e.Text != "" {
		t.Errorf("the line still says %q", e.Text)
	}
	b.put("purchases.to", "2020-01-01")
	if rows := b.list("purchases.list").Rows(); len(rows) != 0 {
		t.Errorf("%d purchases before 2020", len(rows))
	}
	b.press("purchases.forget.JPYEUR")
	if set, _ = b.studio.Settings(context.Background()); len(set.Rates.List()) != 0 {
		t.Errorf("rates %v", set.Rates.List())
	}
	b.press("undo")
	if set, _ = b.studio.Settings(context.Background()); len(set.Rates.List()) != 1 {
		t.Errorf("after undo rates %v", set.Rates.List())
	}
}
