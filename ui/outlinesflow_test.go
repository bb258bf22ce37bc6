package ui

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/storage"

	"tallycloth/planner/exchange/drawn"
	"tallycloth/planner/pattern"
	"tallycloth/planner/scene"
	"tallycloth/ui/widgets"
)

// named returns the patterns of that name.
func (b *bench) named(name string) (out []pattern.Pattern) {
	b.t.Helper()
	ps, err := b.studio.Patterns(context.Background())
	if err != nil {
		b.t.Fatal(err)
	}
	for _, p := range ps {
		if p.Name == name {
			out = append(out, p)
		}
	}
	return out
}

// TestOutlinesOutAndIn: the outlines of a pattern are saved as DXF by mouse, the file is dropped
// on the window, what it says is seen, and it is saved as the same pattern.
func TestOutlinesOutAndIn(t *testing.T) {
	b := full(t)
	b.press("rail.patterns")
	ps, err := b.studio.Patterns(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	var was pattern.Pattern
	for _, p := range ps {
		if len(p.Pieces) > 1 && len(p.Sizes) > 2 {
			was = p
		}
	}
	b.list("patterns.list").Choose(was.ID)
	path := filepath.Join(t.TempDir(), "out.dxf")
	b.press("pattern.outlines")
	b.put("form.path", path)
	b.press("form.send")
	if q := b.shell.Quiet(); !strings.Contains(q, "Saved "+path) {
		t.Fatalf("it says %q", q)
	}
	b.shell.Drop(fyne.NewPos(10, 10), []fyne.URI{storage.NewFileURI(path)})
	if told := b.text("outlines.told"); !strings.Contains(told, "upper one was taken") {
		t.Errorf("it tells %q", told)
	}
	b.press("outlines.save")
	both := b.named(was.Name)
	if len(both) != 2 {
		t.Fatalf("%d patterns go by %s", len(both), was.Name)
	}
	again := both[0]
	if again.ID == was.ID {
		again = both[1]
	}
	if len(again.Sizes) != len(was.Sizes) || len(again.Pieces) != len(was.Pieces) {
		t.Fatalf("%d sizes, %d pieces", len(again.Sizes), len(again.Pieces))
	}
	for i, q := range was.Pieces {
		g := again.Pieces[i]
		if g.Name != q.Name || g.Code != q.Code || g.Cut != q.Cut || g.Pairs != q.Pairs || g.OnFold != q.OnFold {
			t.Errorf("%+v, was %+v", g, q)
		}
		for z, o := range q.Outlines {
			if g.Outlines[z].Cut.Area() != o.Cut.Area() {
				t.Errorf("%s in size %s has another area", q.Name, z)
			}
		}
	}
}

// TestOneSizeAsSVG: by keyboard, and a file that is there is not replaced.
func TestOneSizeAsSVG(t *testing.T) {
	b := full(t)
	b.press("rail.patterns")
	path := filepath.Join(t.TempDir(), "one")
	for _, want := range []string{"Saved", "there already"} {
		b.press("pattern.outlines")
		b.choose("form.as", "SVG drawing")
		sizes := b.shell.Names().Get("form.sizes").(*widgets.Choice)
		sizes.SetSelectedIndex(1)
		b.put("form.path", path+".svg")
		b.key(fyne.KeyReturn)
		if q := b.shell.Quiet(); !strings.Contains(q, want) {
			t.Errorf("it says %q, want %q", q, want)
		}
	}
	text, err := os.ReadFile(path + ".svg")
	if err != nil || strings.Count(string(text), `<g id="size`) != 1 {
		t.Errorf("%v, %.300s", err, text)
	}
}

// TestUnitOfDXF: a file of bare numbers asks what one unit is, and comes in with the answer.
func TestUnitOfDXF(t *testing.T) {
	b := full(t)
	path := filepath.Join(t.TempDir(), "bib.dxf")
	text := "0\nSECTION\n2\nENTITIES\n0\nLWPOLYLINE\n70\n1\n10\n0\n20\n0\n10\n8\n20\n0\n10\n8\n20\n12\n0\nENDSEC\n0\nEOF\n"
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	b.press("rail.patterns")
	b.press("patterns.bring")
	b.put("outlines.file", path)
	b.key(fyne.KeyReturn)
	if got := b.text("outlines.told"); !strings.Contains(got, "names no unit") {
		t.Errorf("told %q", got)
	}
	b.put("outlines.unit", "25.4")
	b.key(fyne.KeyReturn)
	b.press("outlines.save")
	ps := b.named("bib")
	if len(ps) != 1 {
		t.Fatalf("%d patterns, told %q", len(ps), b.text("outlines.told"))
	}
	for _, o := range ps[0].Pieces[0].Outlines {
		if box := o.Cut.Bounds(); box.Length() != 304_800 || box.Width() != 203_200 {
			t.Errorf("%v", box)
		}
	}
}

// TestDoubtfulUnit: pieces far too small for a garment say so, and the unit can be said.
func TestDoubtfulUnit(t *testing.T) {
	b := full(t)
	path := filepath.Join(t.TempDir(), "doll.dxf")
	text := "0\nSECTION\n2\nBLOCKS\n0\nBLOCK\n2\nA\n0\nTEXT\n8\n1\n1\nPIECE NAME: Front\n0\nLWPOLYLINE\n8\n1\n70\n1\n10\n0\n20\n0\n10\n8\n20\n0\n10\n8\n20\n12\n0\nENDBLK\n0\nENDSEC\n" +
		"0\nSECTION\n2\nENTITIES\n0\nTEXT\n1\nUNITS: METRIC\n0\nENDSEC\n0\nEOF\n"
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	b.press("rail.patterns")
	b.press("patterns.bring")
	b.put("outlines.file", path)
	b.key(fyne.KeyReturn)
	if got := b.text("outlines.told"); !strings.Contains(got, "doubtful") {
		t.Errorf("told %q", got)
	}
	b.put("outlines.unit", "25.4")
	b.window.Canvas().Focus(b.shell.Names().Get("outlines.unit").(fyne.Focusable))
	b.key(fyne.KeyReturn)
	if got := b.text("outlines.told"); strings.Contains(got, "doubtful") {
		t.Errorf("told %q", got)
	}
	b.press("outlines.save")
	if ps := b.named("doll"); len(ps) != 1 || ps[0].Pieces[0].Outlines[drawn.OneSize].Cut.Bounds().Width() != 304_800 {
		t.Errorf("%+v", ps)
	}
}

// TestAllowanceAlongEdges: what a drawing lacks is added by edge: the usual one, another at the hem, none at
// the top; both lines are in the picture, and how large the piece is.
func TestAllowanceAlongEdges(t *testing.T) {
	b := full(t)
	b.markedIn() // 20 by 30 cm
	b.choose("outlines.shows", "the pattern pieces")
	shown := func() (words string, lines map[scene.Style]int) {
		lines = map[scene.Style]int{}
		for _, it := range b.shell.Names().Get("outlines.picture").(interface{ Scene() scene.Scene }).Scene().Items {
			words += it.Text + "\n"
			lines[it.Style] += len(it.Lines)
		}
		return words, lines
	}
	if words, lines := shown(); !strings.Contains(words, "20 cm wide\n30 cm long") || lines[scene.Stitch] > 0 {
		t.Errorf("%q, %v", words, lines)
	}
	b.put("outlines.allowance", "1 cm")
	b.tabTo("outlines.bare")
	b.key(fyne.KeyReturn)
	if words, lines := shown(); !strings.Contains(words, "22 cm wide\n32 cm long") || lines[scene.Stitch] != 1 {
		t.Errorf("%q, %v", words, lines)
	}
	b.put("outlines.edge.3", "2 cm")
	b.put("outlines.edge.1", "none")
	b.choose("outlines.shows", "the edges of one of them, numbered")
	if words, _ := shown(); !strings.Contains(words, "22 cm wide\n32 cm long") || !strings.Contains(words, "\n4\n") {
		t.Errorf("%q", words)
	}
	b.press("outlines.save")
	saved := b.named("sleeve")[0]
	o, q := saved.Pieces[0].Outlines[drawn.OneSize], saved.Pieces[0]
	if box := o.Cut.Bounds(); box.Length() != 320_000 || box.Width() != 220_000 || q.WithoutAllowance || saved.SeamAllowance != 10_000 || len(o.Inner) != 2 {
		t.Errorf("%v, %+v", o.Cut, q)
	}
}
