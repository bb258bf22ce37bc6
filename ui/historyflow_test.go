package ui

import (
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"tallycloth/planner"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/ui/page"
	"tallycloth/ui/sample"
	"tallycloth/ui/widgets"
)

// titles are the titles of the rows of a list.
func (b *bench) titles(name string) []string {
	b.t.Helper()
	var out []string
	for _, r := range b.list(name).Rows() {
		out = append(out, r.Title)
	}
	return out
}

// told is what a PDF says, by pdftotext (poppler-utils).
func told(t testing.TB, path string) string {
	t.Helper()
	out, err := exec.Command("pdftotext", "-layout", path, "-").CombinedOutput()
	if err != nil {
		t.Fatalf("pdftotext: %v\n%s", err, out)
	}
	return string(out)
}

// By mouse: movements of all times, of one kind, of one fabric alone and back, the chart by year,
// what the shelf is worth, what garments cost, and the shopping list, each printed.
func TestHistoryByMouse(t *testing.T) {
	b := full(t)
	b.press("rail.history")
	if b.shell.Place() != page.History {
		t.Fatalf("in %s", b.shell.Place())
	}
	b.choose("history.period", "all")
	all := len(b.list("history.list").Rows())
	count, err := b.studio.HistoryCount(context.Background(), planner.Past{})
	if err != nil || all == 0 || all != count {
		t.Fatalf("%d lines in sight of %d, %v", all, count, err)
	}
	b.choose("history.kind", string(stash.Reserved))
	for _, title := range b.titles("history.list") {
		if title != string(stash.Reserved) {
			t.Errorf("a line is %s", title)
		}
	}
	b.choose("history.kind", "everything")
	b.list("history.list").Choose(b.list("history.list").Rows()[all-1].Key)
	b.press("history.only.fabric")
	some := b.list("history.list").Rows()
	if len(some) == 0 || len(some) == all || !strings.HasPrefix(b.short("history.only"), "Only ") {
		t.Errorf("%d of %d lines alone, %q", len(some), all, b.short("history.only"))
	}
	for _, r := range some {
		if r.Cells[1].Text != some[0].Cells[1].Text {
			t.Errorf("%s is not %s", r.Cells[1].Text, some[0].Cells[1].Text)
		}
	}
	b.press("history.all")
	if n := len(b.list("history.list").Rows()); n != all {
		t.Errorf("%d lines again, %d before", n, all)
	}
	folder := t.TempDir()
	for view, words := range map[string][]string{
		"movements": {"Movements", "page 1 of", "bought", "reserved"},
		"yardage":   {"Yardage", "In above the line", "In all", "There at the end", "2025"},
		"value":     {"Value on hand", "Moss jersey", "EUR", "In all"},
		"costs":     {"Garment costs", "Morning tank", "not cut yet"},
		"shopping":  {"Shopping list", "to buy"},
	} {
		b.press("history." + view)
		if view == "yardage" {
			b.choose("history.step", "by year")
			if v, ok := b.shell.Names().Get("history.chart").(*widgets.SceneView); !ok || len(v.Scene().Items) == 0 {
				t.Error("no chart is drawn")
			}
			if got := b.titles("history.spans"); len(got) != 4 || got[0] != "2025" || got[1] != "2026" || got[2] != "In all" {
				t.Errorf("spans %v", got)
			}
		}
		path := filepath.Join(folder, view+".pdf")
		b.press("history.print")
		b.put("paper.path", path)
		b.press("paper.save")
		b.press("paper.close")
		text := told(t, path)
		for _, w := range words {
			if !strings.Contains(text, w) {
				t.Errorf("the printed %s do not say %q:\n%s", view, w, text)
			}
		}
		b.press("history.export")
		b.choose("form.as", "CSV")
		b.put("form.path", filepath.Join(folder, view+".csv"))
		b.press("form.send")
		if data, err := os.ReadFile(filepath.Join(folder, view+".csv")); err != nil || len(data) < 20 {
			t.Errorf("%s written out: %q, %v; %s", view, data, err, b.shell.Quiet())
		}
	}
	b.press("history.shopping")
	b.press("history.tonotions")
	if b.shell.Place() != page.Stash || b.shell.Names().Get("notions.list") == nil {
		t.Errorf("the notions are not there, in %s", b.shell.Place())
	}
}

// By keyboard alone: Ctrl+6, words in the filter, days of one's own, older and newer pages, and
// from a line to its cloth.
func TestHistoryByKeyboard(t *testing.T) {
	studio := sample.Empty()
	b := newBench(t, studio)
	b.ctrl(fyne.Key6)
	b.focus("history.list")
	if b.shell.Names().Get("history.first") == nil {
		t.Error("an empty history does not say how to begin")
	}
	first, err := studio.LogPurchase(context.Background(), planner.PurchaseForm{Date: "2025-12-20", Length: 2 * measure.Metre,
		Fabric: stash.Fabric{Name: "Moss jersey", Construction: stash.Jersey, FullWidth: 160 * measure.Centimetre}})
	if err != nil {
		t.Fatal(err)
	}
	for i := range 230 {
		place := []string{"hall", "work room"}[i%2]
		if err := studio.MoveCloth(context.Background(), first.Cloth.ID, place); err != nil {
			t.Fatal(err)
		}
	}
	if n := len(b.list("history.list").Rows()); n != 200 {
		t.Fatalf("%d lines in sight", n)
	}
	if got := b.short("history.where"); got != "lines 1 to 200 of 231" {
		t.Errorf("the foot says %q", got)
	}
	b.tabTo("history.older")
	b.key(fyne.KeyReturn)
	if got := b.short("history.where"); got != "lines 201 to 231 of 231" {
		t.Errorf("the foot says %q", got)
	}
	b.tabTo("history.newer")
	b.key(fyne.KeyReturn)
	if got := b.short("history.where"); got != "lines 1 to 200 of 231" {
		t.Errorf("the foot says %q", got)
	}
	b.ctrl(fyne.KeyF)
	b.write("bought moss")
	b.key(fyne.KeyReturn)
	b.focus("history.list")
	if rows := b.list("history.list").Rows(); len(rows) != 1 || !strings.Contains(rows[0].Sub, "20 December 2025") || rows[0].Cells[2].Text != "2.00 m" {
		t.Errorf("found %+v", rows)
	}
	b.tabTo("history.period")
	b.write("f")
	b.tabTo("history.from")
	b.write("2026-01-06")
	b.tabTo("history.to")
	b.write("2026-01-")
	b.write("07")
	if rows := b.list("history.list").Rows(); len(rows) != 0 {
		t.Errorf("bought in two days: %+v", rows)
	}
	b.ctrl(fyne.KeyF)
	b.key(fyne.KeyEscape)
	if rows := b.list("history.list").Rows(); len(rows) == 0 || len(rows) >= 200 {
		t.Errorf("%d lines in two days", len(rows))
	}
	b.key(fyne.KeyDown, fyne.KeyReturn)
	if b.shell.Place() != page.Stash {
		t.Errorf("Enter leads to %s", b.shell.Place())
	}
	b.focus("stash.list")
	b.ctrl(fyne.Key6)
	b.ctrl(fyne.KeyZ)
	if lines, err := studio.History(context.Background(), planner.Past{}, 0, 1); err != nil || lines[0].Kind != stash.Reversed {
		t.Errorf("after Undo %+v, %v", lines, err)
	}
}

// The paper of the settings is the one that is printed on.
func TestPaperOfTheSettings(t *testing.T) {
	b := full(t)
	b.press("rail.settings")
	b.choose("settings.paper", "Letter")
	b.press("rail.history")
	b.press("history.print")
	path := filepath.Join(t.TempDir(), "letter.pdf")
	b.put("paper.path", path)
	b.press("paper.save")
	out, err := exec.Command("pdfinfo", path).Output()
	if err != nil || !strings.Contains(string(out), "612 x 792") {
		t.Errorf("it is on %s, %v", out, err)
	}
	b.press("paper.save") // the same name again is refused, and nothing is lost
	if !strings.Contains(b.toldOnPaper(), "is there already") {
		t.Errorf("it says %q", b.toldOnPaper())
	}
}
