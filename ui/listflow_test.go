package ui

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/storage"

	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/ui/sample"
	"tallycloth/ui/widgets"
)

// ownList has a row that cannot come in, days that could be two, and no widths.
const ownList = "Fabric;Made;Length;Bought on;Stars\n" +
	"Moss jersey;jersey;1,25;3/4/2025;4\n" +
	"Fog terry;french terry;two;4/4/2025;5\n" +
	"Moss jersey;;0,75;5/4/2025;\n"

func listFile(t *testing.T, text string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "stash.csv")
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

func (b *bench) choice(name, word string) {
	b.t.Helper()
	c, ok := b.shell.Names().Get(name).(*widgets.Choice)
	if !ok || !slices.Contains(c.Options, word) {
		b.t.Fatalf("%s offers %q, not %q", name, c.Options, word)
	}
	c.SetSelected(word)
}

func (b *bench) send() *widgets.Button {
	return b.shell.Names().Get("list.send").(*widgets.Button)
}

// said is all that the sentences above the rows say.
func (b *bench) said() string {
	var out []string
	for _, o := range b.shell.Names().Get("list.told").(*fyne.Container).Objects {
		if r, ok := o.(interface{ Said() string }); ok {
			out = append(out, r.Said())
		}
	}
	return strings.Join(out, "\n")
}

func TestBringInAListByMouse(t *testing.T) {
	b := newBench(t, sample.Empty())
	b.press("stash.firstlist")
	b.put("list.file", listFile(t, ownList))
	b.shell.Names().Get("list.file").(*widgets.Entry).OnSubmitted("")
	if rows := b.list("list.rows").Rows(); len(rows) != 3 || !strings.Contains(b.said(), "two different days") || !b.send().Disabled() {
		t.Fatalf("%d rows, %q", len(rows), b.said())
	}
	b.choice("list.sign.4", "day first")
	b.put("list.width", "150")
	b.shell.Names().Get("list.width").(*widgets.Entry).OnSubmitted("")
	rows := b.list("list.rows").Rows()
	if !strings.Contains(rows[0].Title, "1.25 m × 150 cm") || rows[1].Cells[1].Text != "× refused" || !strings.Contains(rows[1].Sub, "two") {
		t.Fatalf("%+v", rows)
	}
	b.choice("list.field.5", "leave out")
	if !b.send().Disabled() {
		t.Error("a refused row does not stop the list")
	}
	b.shell.Names().Get("list.leave").(*widgets.Check).SetChecked(true)
	if b.send().Text != "Bring in 2 rows" {
		t.Errorf("the button says %q", b.send().Text)
	}
	b.press("list.send")
	cs := b.cloths()
	if len(cs) != 2 || cs[0].Fabric.FullWidth != 150*measure.Centimetre || strings.Contains(cs[0].Cloth.Notes+cs[1].Cloth.Notes, "Stars") {
		t.Fatalf("%+v", cs)
	}
	if len(b.list("stash.list").Rows()) != 2 || !strings.Contains(b.shell.Quiet(), "Undo takes all of it back") {
		t.Errorf("the shelf is not in sight: %q", b.shell.Quiet())
	}
	for _, c := range cs {
		if p, err := b.studio.Purchase(t.Context(), c.Cloth.PurchaseID); err != nil || p.Date != "2025-04-03" && p.Date != "2025-04-05" {
			t.Errorf("%+v, %v", p, err)
		}
	}
	b.press("undo")
	if n := len(b.cloths()); n != 0 {
		t.Errorf("%d cloths after undo", n)
	}
	b.press("redo")
	if n := len(b.cloths()); n != 2 {
		t.Errorf("%d cloths after redo", n)
	}
}

func TestBringInAListByKeyboard(t *testing.T) {
	b := full(t)
	before := len(b.cloths())
	b.tabTo("stash.bring")
	b.key(fyne.KeyReturn)
	b.focus("list.file")
	b.write(listFile(t, "Fabric,Width,Length\nMoss jersey,60 in,2 yd\nFern rib,,\nTeal mesh,58 in,1 yd\n"))
	b.key(fyne.KeyReturn)
	b.tabTo("list.rows")
	b.key(fyne.KeyReturn) // the first row is left out
	rows := b.list("list.rows").Rows()
	if rows[0].Cells[1].Text != "left out" || rows[2].Cells[1].Text != "comes in" {
		t.Fatalf("%+v, %q", rows, b.send().Text)
	}
	b.key(fyne.KeyReturn) // and taken again
	if rows = b.list("list.rows").Rows(); rows[0].Cells[1].Text != "comes in" {
		t.Fatalf("%+v", rows[0])
	}
	refused := slices.ContainsFunc(rows, func(r widgets.Row) bool { return r.Cells[1].Text == "× refused" })
	if refused {
		b.tabTo("list.leave")
		b.key(fyne.KeyReturn)
	}
	b.tabTo("list.send")
	b.key(fyne.KeyReturn)
	if n := len(b.cloths()); n != before+2 {
		t.Fatalf("%d cloths, %d before", n, before)
	}
	b.focus("stash.list")
	b.ctrl(fyne.KeyZ)
	if n := len(b.cloths()); n != before {
		t.Errorf("%d cloths after undo, %d before", n, before)
	}
}

// A file that is no list says so and keeps its name; Escape leads back to the shelf.
func TestNoList(t *testing.T) {
	b := newBench(t, sample.Empty())
	b.press("stash.bring")
	for _, c := range []struct{ path, want string }{
		{filepath.Join(t.TempDir(), "none.csv"), "There is no file"},
		{listFile(t, "a,b\n\"x"), "cut off"},
		{listFile(t, "\xd0\xcf\x11\xe0"), "older kind"},
	} {
		b.put("list.file", c.path)
		b.shell.Names().Get("list.file").(*widgets.Entry).OnSubmitted("")
		if !strings.Contains(b.said(), c.want) || !b.send().Disabled() {
			t.Errorf("%s: %q", c.path, b.said())
		}
	}
	b.tabTo("list.file")
	b.key(fyne.KeyEscape)
	b.focus("stash.list")
}

// A list in sight is tried again when the library changes.
func TestListAfterAnUndo(t *testing.T) {
	b := newBench(t, sample.Empty())
	b.press("stash.log")
	b.put("form.name", "Moss jersey")
	b.put("form.width", "150")
	b.put("form.length", "1 m")
	b.press("form.send")
	b.shell.Drop(fyne.Position{}, []fyne.URI{storage.NewFileURI(listFile(t, "Fabric,Width,Length\nMoss jersey,150 cm,2 m\n"))})
	if r := b.list("list.rows").Rows(); len(r) != 1 || !strings.HasPrefix(r[0].Title, "Another length") {
		t.Fatalf("%+v", r)
	}
	b.press("undo")
	if r := b.list("list.rows").Rows(); len(r) != 1 || !strings.HasPrefix(r[0].Title, "New fabric") {
		t.Fatalf("%+v", r)
	}
	b.press("list.send")
	if cs := b.cloths(); len(cs) != 1 || cs[0].Cloth.Length != 2*measure.Metre {
		t.Errorf("%+v", cs)
	}
}

func TestDropSomethingElse(t *testing.T) {
	b := newBench(t, sample.Empty())
	b.shell.Drop(fyne.Position{}, []fyne.URI{storage.NewFileURI("/tmp/invoice.odt")})
	if !strings.Contains(b.shell.Quiet(), ".xlsx") {
		t.Errorf("%q", b.shell.Quiet())
	}
	for _, name := range []string{"none.svg", "none.pdf"} {
		b.press("rail.stash")
		b.shell.Drop(fyne.Position{}, []fyne.URI{storage.NewFileURI("/tmp/" + name)})
		if b.shell.Place() != "Patterns" {
			t.Errorf("%s leads to %s", name, b.shell.Place())
		}
	}
}

// What is written out can be brought in elsewhere; nothing that is there is replaced.
func TestExportByMouse(t *testing.T) {
	b := full(t)
	path := filepath.Join(t.TempDir(), "all.xlsx")
	b.press("stash.export")
	b.put("form.path", path)
	b.press("form.send")
	if _, err := os.Stat(path); err != nil || !strings.Contains(b.shell.Quiet(), path) {
		t.Fatalf("%v, %q", err, b.shell.Quiet())
	}
	b.press("stash.export")
	b.put("form.path", path)
	b.press("form.send")
	if b.window.Canvas().Overlays().Top() == nil {
		t.Error("the file was replaced")
	}
	b.choice("form.as", "CSV of the stash alone")
	if e := b.shell.Names().Get("form.path").(*widgets.Entry); !strings.HasSuffix(e.Text, "all.csv") {
		t.Errorf("the path is %q", e.Text)
	}
	b.press("form.close")
	other := newBench(t, sample.Empty())
	other.shell.Drop(fyne.Position{}, []fyne.URI{storage.NewFileURI(path)})
	other.press("list.send")
	codes := func(cs []stash.ClothState) (out []string) {
		for _, c := range cs {
			out = append(out, c.Cloth.Code+c.Fabric.Name)
		}
		return out
	}
	if one, two := codes(b.cloths()), codes(other.cloths()); !slices.Equal(one, two) {
		t.Errorf("%q became %q", one, two)
	}
}
