package ui

import (
	"context"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"tallycloth/ui/widgets"
)

// An approximate outline from what a garment measures: seen as it is typed, kept, used.
func TestQuickOutlineByKeyboard(t *testing.T) {
	b := full(t)
	b.press("rail.patterns")
	b.press("patterns.quick")
	b.focus("quick.name")
	b.write("Millrace tank")
	save := func() bool { return !b.shell.Names().Get("quick.save").(*widgets.Button).Disabled() }
	if got := b.text("quick.told"); !strings.Contains(got, "bust is missing") || save() {
		t.Fatalf("told %q", got)
	}
	b.tabTo("quick.bust")
	b.write("86")
	b.tabTo("quick.hip")
	b.write("92; 96; 100")
	b.tabTo("quick.length")
	b.write("24 in")
	if got := b.text("quick.told"); !strings.Contains(got, "Approximate") || !save() {
		t.Fatalf("told %q", got)
	}
	b.tabTo("quick.save")
	b.key(fyne.KeyReturn)
	if r, ok := b.list("patterns.list").ChosenRow(); !ok || r.Title != "Millrace tank" {
		t.Fatalf("chosen %q", r.Title)
	}
	ps, err := b.studio.Patterns(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range ps {
		if p.Name == "Millrace tank" && (!p.Approximate || len(p.Sizes) != 3 || len(p.Pieces) != 2) {
			t.Errorf("kept %+v", p)
		}
	}
	b.press("pattern.find")
	if len(b.list("find.list").Rows()) == 0 {
		t.Error("no cloth was compared")
	}
	b.ctrl(fyne.KeyZ)
	if after, _ := b.studio.Patterns(context.Background()); len(after) != len(ps)-1 {
		t.Error("Ctrl+Z left the pattern there")
	}
}

// A quick outline has no body chart: one from a published table says which body a size is for.
func TestBodyChartFromATable(t *testing.T) {
	b := full(t)
	b.press("rail.patterns")
	b.press("patterns.quick")
	b.choose("quick.kind", "skirt")
	for name, text := range map[string]string{"name": "Millrace skirt", "waist": "72", "hip": "98", "length": "60"} {
		b.put("quick."+name, text)
	}
	b.press("quick.save")
	b.press("pattern.chart")
	b.choose("chart.table", "US pattern industry, misses (1967/68)")
	b.choose("chart.first", "24") // two more would be needed after it
	b.press("chart.send")
	b.choose("chart.first", "12")
	b.press("chart.send")
	ps, _ := b.studio.Patterns(context.Background())
	charted := 0
	for _, p := range ps {
		if p.Name == "Millrace skirt" && p.Sizes[1].Body["hip"] == 38*25_400 { // size 14
			charted++
		}
	}
	if charted != 1 {
		t.Errorf("%d patterns have the chart", charted)
	}
}

// What cannot be is said beside the drawing, and the form keeps what was typed.
func TestQuickOutlineByMouse(t *testing.T) {
	b := full(t)
	b.press("rail.patterns")
	b.press("patterns.quick")
	b.choose("quick.kind", "skirt")
	b.put("quick.waist", "72")
	b.put("quick.hip", "9.8")
	b.put("quick.length", "60")
	if got := b.text("quick.told"); !strings.Contains(got, "cannot be") {
		t.Errorf("told %q", got)
	}
	b.press("quick.back")
	b.press("patterns.quick")
	b.put("quick.hip", "98")
	if got := b.text("quick.told"); !strings.Contains(got, "Approximate") {
		t.Errorf("told %q", got)
	}
	b.press("quick.save") // without a name
	if r, ok := b.list("patterns.list").ChosenRow(); ok && strings.Contains(r.Title, "Quick") {
		t.Error("saved without a name")
	}
}

// Seam and hem that are left empty are those of the settings, in the hint and in what is kept.
func TestQuickOutlineTakesTheAllowancesOfTheSettings(t *testing.T) {
	b := full(t)
	b.press("rail.patterns")
	b.press("patterns.quick") // opened before the settings change
	b.press("rail.settings")
	for name, text := range map[string]string{"seam": "1 cm", "hem": "3 cm"} {
		b.put("settings."+name, text)
		b.window.Canvas().Focus(b.shell.Names().Get("settings." + name).(fyne.Focusable))
		b.key(fyne.KeyTab) // leaving the line keeps it
	}
	b.press("rail.patterns")
	b.press("patterns.quick")
	for name, want := range map[string]string{"quick.seamallowance": "1", "quick.hemallowance": "3"} {
		if got := b.shell.Names().Get(name).(*widgets.Entry).PlaceHolder; !strings.HasPrefix(got, want) {
			t.Errorf("%s hints at %q", name, got)
		}
	}
	b.choose("quick.kind", "skirt")
	for name, text := range map[string]string{"name": "Millrace skirt", "waist": "72", "hip": "98", "length": "60", "hemallowance": "4"} {
		b.put("quick."+name, text)
	}
	b.press("quick.save")
	ps, err := b.studio.Patterns(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range ps {
		if p.Name == "Millrace skirt" {
			if p.SeamAllowance != 10_000 || p.HemAllowance != 40_000 {
				t.Errorf("seam %d, hem %d", p.SeamAllowance, p.HemAllowance)
			}
			return
		}
	}
	t.Error("nothing was kept")
}
