package ui

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"tallycloth/ui/widgets"
)

// saveOnPaper writes what is in sight into a file, and says what poppler reads in it.
func (b *bench) saveOnPaper(name string) string {
	b.t.Helper()
	if !b.pictured() {
		b.t.Errorf("%s shows no page", name)
	}
	path := filepath.Join(b.t.TempDir(), name)
	b.put("paper.path", path)
	b.press("paper.save")
	if filepath.Ext(name) == ".pdf" {
		return told(b.t, path)
	}
	file, err := os.ReadFile(path)
	if err != nil {
		b.t.Error(err)
	}
	return string(file)
}

// The other lists of a garment: cut list and project sheet; and its layout as a drawing for a plotter.
func TestListsOfAGarment(t *testing.T) {
	b, _ := onPaper(t)
	b.press("rail.garments")
	g := b.reservedGarment()
	b.press("garment.cutlist")
	if text := b.saveOnPaper("cut.pdf"); !strings.Contains(text, "Cut list: "+g.Name) || !strings.Contains(text, "in all") {
		t.Errorf("%s; %s", b.toldOnPaper(), text)
	}
	b.press("paper.close")
	b.press("garment.project")
	if text := b.saveOnPaper("project.pdf"); !strings.Contains(text, "Project sheet: "+g.Name) || !strings.Contains(text, "Measurements") {
		t.Errorf("%s; %s", b.toldOnPaper(), text)
	}
	b.press("paper.close")
	b.press("garment.full")
	way := b.shell.Names().Get("paper.way").(*widgets.Choice)
	b.choose("paper.way", way.Options[len(way.Options)-1])
	if file := b.shell.Names().Get("paper.path").(*widgets.Entry).Text; !strings.HasSuffix(file, ".dxf") {
		t.Errorf("the file is %s", file)
	}
	if text := b.saveOnPaper("layout.dxf"); !strings.Contains(text, "ENTITIES") || !strings.Contains(text, "PIECE") {
		t.Errorf("%d bytes; %s", len(text), b.toldOnPaper())
	}
	b.press("paper.close")
}

// A planned batch goes onto paper before anything is reserved: by cloth, as a cut list, as a cutting
// sheet, and its layouts in full size.
func TestBatchOnPaper(t *testing.T) {
	b, _ := onPaper(t)
	b.press("rail.batch")
	if !b.shell.Names().Get("batch.paper").(*widgets.Button).Disabled() {
		t.Error("there is a sheet before there is a plan")
	}
	b.want(b.patternNames()["tank"], "2")
	b.choose("batch.whole", "whole lengths as well")
	b.press("batch.go")
	b.press("batch.paper")
	if text := b.saveOnPaper("by cloth.pdf"); !strings.Contains(text, "Batch by cloth") || !strings.Contains(text, "no. 1") {
		t.Errorf("%s; %s", b.toldOnPaper(), text)
	}
	which := b.shell.Names().Get("paper.which").(*widgets.Choice)
	for i, want := range map[int]string{1: "Cut list", 2: "Grain arrows on"} {
		b.choose("paper.which", which.Options[i])
		if text := b.saveOnPaper("other.pdf"); !strings.Contains(text, want) {
			t.Errorf("no %q; %s; %s", want, b.toldOnPaper(), text)
		}
	}
	b.press("paper.close")
	b.press("batch.full")
	if text := b.saveOnPaper("full.pdf"); !strings.Contains(text, "10 cm a side") {
		t.Errorf("%s; %s", b.toldOnPaper(), text)
	}
	b.press("paper.close")
}

// The shopping list on paper from where notions are kept, with boxes to tick.
func TestShoppingOnPaper(t *testing.T) {
	b, d := onPaper(t)
	b.press("stash.notions")
	b.press("shopping.paper")
	if text := b.saveOnPaper("shopping.pdf"); !strings.Contains(text, "Shopping list") || !strings.Contains(text, "to buy") {
		t.Errorf("%s; %s", b.toldOnPaper(), text)
	}
	b.press("paper.print")
	if !strings.HasPrefix(string(d.printed), "%PDF") {
		t.Errorf("printed %d bytes", len(d.printed))
	}
	b.press("paper.close")
}
