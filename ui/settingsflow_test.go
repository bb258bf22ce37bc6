package ui

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"tallycloth/stash/measure"
)

// The words for stretch are chosen by keyboard, are used on the shelf and in its filter, and
// Undo brings the ones before back.
func TestStretchWordsInSettings(t *testing.T) {
	b := full(t)
	b.press("rail.settings")
	b.put("settings.classes", "firm up to 20 %, wild up to 10 %, none")
	b.press("settings.send")
	if set, err := b.studio.Settings(t.Context()); err != nil || set.Classes.Of(5*measure.OnePercent) != "stable" {
		t.Fatalf("a set that cannot be was kept: %v, %v", set.Classes, err)
	}
	b.put("settings.classes", "")
	b.tabTo("settings.classes")
	b.write("firm up to 20 %, lively up to 59 %, wild")
	b.key(fyne.KeyReturn)
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
	b.ctrl(fyne.KeyZ)
	if set, err := b.studio.Settings(t.Context()); err != nil || set.Classes.Of(5*measure.OnePercent) != "stable" {
		t.Errorf("undo left %v, %v", set.Classes, err)
	}
}
