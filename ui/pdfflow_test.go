package ui

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/storage"

	"tallycloth/planner/exchange/sheet"
	"tallycloth/stash/measure"
	"tallycloth/ui/paper"
	"tallycloth/ui/widgets"
)

// printed writes the pattern pieces of a pattern in full size over A3 and returns the file.
func (b *bench) printed() (path string, pieces int) {
	b.t.Helper()
	ps, err := b.studio.Patterns(context.Background())
	if err != nil {
		b.t.Fatal(err)
	}
	for _, p := range ps {
		if len(p.Pieces) < 2 || len(p.Sizes) < 3 {
			continue
		}
		page, err := paper.PiecesPage(measure.Metric, p, p.Sizes[0].Name, nil)
		if err != nil {
			continue
		}
		d, err := paper.Document(page, paper.Tiled, sheet.Full{Paper: sheet.A3})
		if err != nil {
			b.t.Fatal(err)
		}
		path = filepath.Join(b.t.TempDir(), "full.pdf")
		f, err := os.Create(path)
		if err != nil {
			b.t.Fatal(err)
		}
		defer f.Close()
		if err := d.PDF(f); err != nil {
			b.t.Fatal(err)
		}
		return path, len(p.Pieces)
	}
	b.t.Fatal("no pattern has outlines")
	return "", 0
}

// TestPDFComesIn: a full-size print dropped on the window is joined, laid otherwise by hand and back,
// its test square confirmed, and saved; a file that is no PDF is refused with a sentence.
func TestPDFComesIn(t *testing.T) {
	b := full(t)
	path, pieces := b.printed()
	b.shell.Drop(fyne.NewPos(10, 10), []fyne.URI{storage.NewFileURI(path)})
	if told := b.text("outlines.pagestold"); !strings.Contains(told, "joined by their frames") {
		t.Fatalf("it tells %q", told)
	}
	rows := b.shell.Names().Get("outlines.rows").(*widgets.Entry).Text
	b.choose("outlines.shows", "everything as it lies, with the pages")
	b.choose("outlines.pages", "each by itself")
	if told := b.text("outlines.pagestold"); strings.Contains(told, "joined") {
		t.Errorf("it tells %q", told)
	}
	b.choose("outlines.pages", "side by side, as typed below")
	b.put("outlines.rows", "1 1")
	b.press("outlines.lay")
	if told := b.text("outlines.told"); !strings.Contains(told, "named twice") {
		t.Errorf("it tells %q", told)
	}
	for name, value := range map[string]string{"outlines.rows": rows, "outlines.cutleft": "12 mm", "outlines.cutright": "12 mm", "outlines.cutabove": "12 mm", "outlines.cutbelow": "12 mm", "outlines.shared": "1 cm"} {
		b.put(name, value)
	}
	b.press("outlines.lay")
	b.press("outlines.right")
	b.put("outlines.name", "From paper")
	b.press("outlines.save")
	got := b.named("From paper")
	if len(got) != 1 || len(got[0].Pieces) != pieces {
		t.Fatalf("%d patterns of %d pieces", len(got), pieces)
	}
	bad := filepath.Join(t.TempDir(), "bad.pdf")
	if err := os.WriteFile(bad, []byte("%PDF-1.7 nothing"), 0o600); err != nil {
		t.Fatal(err)
	}
	b.shell.Drop(fyne.NewPos(10, 10), []fyne.URI{storage.NewFileURI(bad)})
	if told := b.text("outlines.told"); !strings.Contains(told, "damaged") {
		t.Errorf("it tells %q", told)
	}
}
