package ui

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/storage"

	"tallycloth/planner/exchange/drawn"
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

// TestPagesByHand: a page is dragged onto the place of another and back with the arrows, and the rows say so.
func TestPagesByHand(t *testing.T) {
	b := full(t)
	path, pieces := b.printed()
	b.shell.Drop(fyne.NewPos(10, 10), []fyne.URI{storage.NewFileURI(path)})
	b.choose("outlines.shows", "everything as it lies, with the pages")
	rows := func() [][]int {
		t.Helper()
		out, err := drawn.ParseRows(b.shell.Names().Get("outlines.rows").(*widgets.Entry).Text)
		if err != nil {
			t.Fatal(err)
		}
		return out
	}
	was := rows()
	first, second := was[0][0], was[0][1]
	picture := b.shell.Names().Get("outlines.picture").(interface {
		fyne.CanvasObject
		fyne.Draggable
		fyne.Focusable
		Spot(string) (fyne.Position, bool)
	})
	picture.Resize(fyne.NewSize(600, 420))
	from, ok := picture.Spot(fmt.Sprint("page ", first))
	to, okay := picture.Spot(fmt.Sprint("page ", second))
	if !ok || !okay {
		t.Fatalf("the pages are not in the picture")
	}
	by := to.Subtract(from)
	for range 2 {
		from = from.AddXY(by.X/2, by.Y/2)
		picture.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: from}, Dragged: fyne.NewDelta(by.X/2, by.Y/2)})
	}
	picture.DragEnd()
	if now := rows(); now[0][0] != second || now[0][1] != first {
		t.Errorf("%v, was %v", now, was)
	}
	b.window.Canvas().Focus(picture)
	b.key(fyne.KeyLeft)
	if now := rows(); !reflect.DeepEqual(now, was) {
		t.Errorf("%v, was %v", now, was)
	}
	b.write("n")
	b.key(fyne.KeyUp)
	if now := rows(); len(now) != len(was)+1 {
		t.Errorf("%v, was %v", now, was)
	}
	b.key(fyne.KeyDown)
	b.put("outlines.name", "By hand")
	b.press("outlines.save")
	if got := b.named("By hand"); len(got) != 1 || len(got[0].Pieces) != pieces {
		t.Errorf("%d patterns", len(got))
	}
}

// scanned is a PDF whose only page is a picture.
const scanned = "%PDF-1.4\n1 0 obj\n<< /Type /Catalog /Pages 2 0 R >>\nendobj\n2 0 obj\n<< /Type /Pages /Kids [3 0 R] /Count 1 >>\nendobj\n" +
	"3 0 obj\n<< /Type /Page /Parent 2 0 R /MediaBox [0 0 288 432] /Contents 4 0 R >>\nendobj\n4 0 obj\n<< /Length 82 >>\nstream\n" +
	"q 288 0 0 432 0 0 cm BI /W 2 /H 2 /BPC 8 /CS /G ID \x20\xf0\xf0\x20 EI Q                          \nendstream\nendobj\ntrailer\n<< /Root 1 0 R /Size 5 >>\n%%EOF\n"

// TestScannedPageIsTraced: a page that is a picture is told, and its button brings it to tracing.
func TestScannedPageIsTraced(t *testing.T) {
	b := full(t)
	path := filepath.Join(t.TempDir(), "scan.pdf")
	if err := os.WriteFile(path, []byte(scanned), 0o600); err != nil {
		t.Fatal(err)
	}
	b.shell.Drop(fyne.NewPos(10, 10), []fyne.URI{storage.NewFileURI(path)})
	if told := b.text("outlines.told"); !strings.Contains(told, "page 1 is a picture") && !strings.Contains(told, "Page 1 is a picture") {
		t.Errorf("it tells %q", told)
	}
	b.press("outlines.trace.1")
	if len(b.boardOf("piece.board").Trails()) == 0 {
		t.Errorf("the page is not to be traced: %q", b.text("piece.told"))
	}
}
