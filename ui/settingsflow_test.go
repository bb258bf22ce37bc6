package ui

import (
	"errors"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"tallycloth/planner"
	"tallycloth/stash/measure"
	"tallycloth/ui/looks"
)

// The words for stretch are chosen by keyboard, are used on the shelf and in its filter, and
// Undo brings the ones before back.
func TestStretchWordsInSettings(t *testing.T) {
	b := full(t)
	b.press("rail.settings")
	b.put("settings.classes", "firm up to 20 %, wild up to 10 %, none")
	b.key(fyne.KeyReturn)
	if set, err := b.studio.Settings(t.Context()); err != nil || set.Classes.Of(5*measure.OnePercent) != "stable" {
		t.Fatalf("a set that cannot be was kept: %v, %v", set.Classes, err)
	}
	b.put("settings.classes", "")
	b.tabTo("settings.classes")
	b.write("firm up to 20 %, lively up to 59 %, wild")
	b.key(fyne.KeyReturn)
	b.ctrl(fyne.Key1)
	b.put("stash.filter", "wild")
	rows := b.list("stash.list").Rows()
	if len(rows) == 0 {
		t.Fatal("no fabric is wild")
	}
	for _, r := range rows {
		b.list("stash.list").Choose(r.Key)
		f := b.chosenCloth().Fabric
		if f.Crosswise.Stretch.Known && f.Crosswise.Stretch.Value <= 59*measure.OnePercent && f.Lengthwise.Stretch.Value <= 59*measure.OnePercent {
			t.Errorf("%s is found as wild: %+v", f.Name, f.Crosswise.Stretch)
		}
	}
	if s := test.RenderToMarkup(b.window.Canvas()); !strings.Contains(s, "%, wild") {
		t.Error("the detail does not use the words")
	}
	b.press("undo")
	if set, err := b.studio.Settings(t.Context()); err != nil || set.Classes.Of(5*measure.OnePercent) != "stable" {
		t.Errorf("undo left %v, %v", set.Classes, err)
	}
}

// Every choice acts at once and can be taken back: kept without a button, by mouse and by keys.
func TestSettingsAtOnce(t *testing.T) {
	b := full(t)
	b.ctrl(fyne.Key7)
	b.focus("settings.units")
	set := func() planner.Settings {
		t.Helper()
		s, err := b.studio.Settings(t.Context())
		if err != nil {
			t.Fatal(err)
		}
		return s
	}
	b.choose("settings.text", "140 %")
	b.choose("settings.look", "high contrast")
	if s := set(); s.TextPercent != 140 || s.DarkTheme != HighContrast || looks.Now() != looks.Contrast {
		t.Errorf("%+v", s)
	}
	for name, c := range map[string]struct {
		text string
		has  func(planner.Settings) bool
	}{
		"currency":  {"gbp", func(s planner.Settings) bool { return s.Currency == "GBP" }},
		"shop":      {"25 cm", func(s planner.Settings) bool { return s.ShopIncrement == 250*measure.Millimetre }},
		"comfort":   {"70 %", func(s planner.Settings) bool { return s.UsableStretch == 70*measure.OnePercent }},
		"clearance": {"0", func(s planner.Settings) bool { return s.Clearance == 0 }},
		"end":       {"3 cm", func(s planner.Settings) bool { return s.EndLoss == 30*measure.Millimetre }},
		"tight":     {"1 1/4 in", func(s planner.Settings) bool { return s.TightLength == 31750 }},
		"tilt":      {"1,5", func(s planner.Settings) bool { return s.Tilt == 1500 }},
		"seam":      {"1 cm", func(s planner.Settings) bool { return s.Seam == 10*measure.Millimetre }},
		"hem":       {"4", func(s planner.Settings) bool { return s.Hem == 40*measure.Millimetre }},
		"keep":      {"20 cm", func(s planner.Settings) bool { return s.KeepSquare == 200*measure.Millimetre }},
		"sliver":    {"5 cm", func(s planner.Settings) bool { return s.KeepStrip == 50*measure.Millimetre }},
		"days":      {"3", func(s planner.Settings) bool { return s.Backups == planner.BackupRule{Days: 3, Weeks: 4, Months: 12} }},
		"weeks":     {"2", func(s planner.Settings) bool { return s.Backups.Weeks == 2 }},
		"months":    {"24", func(s planner.Settings) bool { return s.Backups.Months == 24 }},
	} {
		before := set()
		b.put("settings."+name, c.text)
		b.window.Canvas().Focus(b.shell.Names().Get("settings." + name).(fyne.Focusable))
		b.key(fyne.KeyTab) // leaving the line keeps it
		if !c.has(set()) {
			t.Errorf("%s %q left %+v", name, c.text, set())
		}
		b.press("undo")
		if set() != before {
			t.Errorf("undo of %s left %+v", name, set())
		}
		b.put("settings."+name, "nonsense")
		b.window.Canvas().Focus(b.shell.Names().Get("settings." + name).(fyne.Focusable))
		b.key(fyne.KeyReturn)
		if set() != before {
			t.Errorf("%s took nonsense: %+v", name, set())
		}
		b.key(fyne.KeyEscape) // what was there stands in the line again
	}
}

// hand is a library that only notes what is asked of it.
type hand struct{ returned string }

func (h *hand) Folder() string               { return "/home/ida/tallycloth" }
func (h *hand) Return(path string)           { h.returned = path }
func (h *hand) Move(string) error            { return nil }
func (h *hand) Open(string) error            { return nil }
func (h *hand) Looks(string) (string, error) { return "= there is a library", nil }
func (h *hand) LooksNew(folder string) (string, error) {
	return "", errors.New("the folder is not empty")
}
