package ui

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"tallycloth/planner"
	"tallycloth/planner/garment"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/ui/page"
	"tallycloth/ui/widgets"
)

// desk is a computer that notes what it was asked to do with files.
type desk struct {
	opened  string
	printed []byte
	trouble error
}

func (d *desk) Open(_ context.Context, path string) error { d.opened = path; return d.trouble }

func (d *desk) Print(_ context.Context, path, _ string) error {
	if d.trouble != nil {
		return d.trouble
	}
	var err error
	d.printed, err = os.ReadFile(path)
	return err
}

// onPaper is a bench over the sample studio with a computer of its own.
func onPaper(t *testing.T) (*bench, *desk) {
	t.Helper()
	t.Setenv("HOME", t.TempDir())
	b, d := full(t), &desk{}
	b.shell.host.System = d
	return b, d
}

// toldOnPaper is what the view of a sheet tells.
func (b *bench) toldOnPaper() string { return b.shell.Names().Get("paper.said").(*widget.Label).Text }

func (b *bench) pictured() bool {
	p, ok := b.shell.Names().Get("paper.picture").(*canvas.Image)
	return ok && p.Image != nil && p.Image.Bounds().Dy() > 100
}

// reservedGarment chooses the garment that is reserved, and returns it.
func (b *bench) reservedGarment() garment.Garment {
	b.t.Helper()
	all, err := b.studio.Garments(context.Background())
	if err != nil {
		b.t.Fatal(err)
	}
	for _, g := range all {
		if g.State == garment.Reserved {
			b.list("garments.list").Choose(g.ID)
			return g
		}
	}
	b.t.Fatal("no garment is reserved")
	return garment.Garment{}
}

// outlines counts what is reserved for a garment.
func (b *bench) outlines(id stash.ID) int {
	b.t.Helper()
	all, err := b.studio.Reservations(context.Background(), id)
	if err != nil {
		b.t.Fatal(err)
	}
	n := 0
	for _, r := range all {
		n += len(r.Pieces)
	}
	return n
}

// By mouse: look at the cutting sheet, save it where it is remembered, open and print it; a printer that
// is missing is said; spoil a pattern piece, tick all and mark the garment cut.
func TestCuttingSheetByMouse(t *testing.T) {
	b, d := onPaper(t)
	b.press("rail.garments")
	g := b.reservedGarment()
	b.press("garment.sheet")
	if !b.pictured() {
		t.Fatal("no page is shown")
	}
	b.choose("paper.paper", "Letter")
	if text := b.shell.Names().Get("paper.pages").(*widget.Label).Text; !strings.Contains(text, "Letter") {
		t.Errorf("it shows %s", text)
	}
	b.press("paper.next")
	path := filepath.Join(t.TempDir(), "june.pdf")
	b.put("paper.path", path)
	b.press("paper.open")
	if d.opened != path || !strings.Contains(told(t, path), "Cutting sheet: "+g.Name) {
		t.Errorf("opened %q; %s", d.opened, b.toldOnPaper())
	}
	if had, err := b.studio.Habits(context.Background()); err != nil || had.Folder != filepath.Dir(path) || had.PaperFor(b.shell.host.Settings()) != "Letter" {
		t.Errorf("%+v is remembered, %v", had, err)
	}
	b.press("paper.save")
	if !strings.Contains(b.toldOnPaper(), "there already") {
		t.Errorf("saved over: %s", b.toldOnPaper())
	}
	b.press("paper.print")
	if !strings.HasPrefix(string(d.printed), "%PDF") {
		t.Errorf("printed %d bytes; %s", len(d.printed), b.toldOnPaper())
	}
	d.trouble = &stash.Error{Kind: stash.Conflict, What: "No printer is set up on this computer", Do: "Set one up", Err: errors.New("lp")}
	b.press("paper.print")
	if !strings.Contains(b.toldOnPaper(), "No printer is set up") {
		t.Errorf("said %q", b.toldOnPaper())
	}
	before := b.outlines(g.ID)
	b.press("paper.spoiled.1")
	if !strings.Contains(b.toldOnPaper(), "No washed cloth of") || b.outlines(g.ID) != before {
		t.Errorf("%d outlines, %d before; %s", b.outlines(g.ID), before, b.toldOnPaper())
	}
	on, err := b.studio.Reservations(context.Background(), g.ID)
	if err != nil {
		t.Fatal(err)
	}
	cloth, err := b.studio.Cloth(context.Background(), on[0].ClothID)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := b.studio.LogPurchase(context.Background(), planner.PurchaseForm{FabricID: cloth.Fabric.ID, Length: 150 * measure.Centimetre, Washed: cloth.Cloth.Washed}); err != nil {
		t.Fatal(err)
	}
	b.press("paper.spoiled.1")
	if b.outlines(g.ID) != before+1 {
		t.Fatalf("%d outlines, %d before; %s", b.outlines(g.ID), before, b.toldOnPaper())
	}
	if !strings.Contains(b.toldOnPaper(), "laid out again on") {
		t.Errorf("said %q", b.toldOnPaper())
	}
	b.window.Canvas().Unfocus()
	b.ctrl(fyne.KeyZ)
	if b.outlines(g.ID) != before {
		t.Errorf("%d outlines after Ctrl+Z, %d before", b.outlines(g.ID), before)
	}
	b.press("paper.spoiled.1")
	if cut := b.shell.Names().Get("paper.cut").(*widgets.Button); !cut.Disabled() {
		t.Error("it can be marked cut before anything is ticked")
	}
	b.press("paper.all")
	b.press("paper.cut")
	b.press("cut.labels")
	if now, err := b.studio.Garment(context.Background(), g.ID); err != nil || now.State != garment.Cut {
		t.Errorf("%s is %s, %v", g.Name, now.State, err)
	}
	all, err := b.studio.Cloths(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	kept, said := 0, b.shell.Quiet()
	text := b.saveOnPaper("leftovers.pdf")
	for _, c := range all {
		if strings.Contains(said, c.Cloth.Code) {
			kept++
			if !strings.Contains(text, c.Cloth.Code) {
				t.Errorf("no label for %s: %s", c.Cloth.Code, text)
			}
		}
	}
	if kept == 0 {
		t.Errorf("nothing was kept: %s", said)
	}
}

// By keyboard: the sheet opens, pages turn, it is saved, Escape closes; then the layout in full size on
// one page as a drawing, with a grid.
func TestCuttingSheetByKeyboard(t *testing.T) {
	b, _ := onPaper(t)
	b.ctrl(fyne.Key3)
	b.reservedGarment()
	b.tabTo("garment.sheet")
	b.key(fyne.KeyReturn)
	b.focus("paper.paper")
	b.tabTo("paper.path")
	folder := t.TempDir()
	e := b.shell.Names().Get("paper.path").(*widgets.Entry)
	e.SetText("")
	b.write(filepath.Join(folder, "a.pdf"))
	b.key(fyne.KeyReturn)
	if text := told(t, filepath.Join(folder, "a.pdf")); !strings.Contains(text, "Grain arrows") {
		t.Errorf("%s; %s", b.toldOnPaper(), text)
	}
	b.tabTo("paper.tick.1")
	b.key(fyne.KeyReturn, fyne.KeyPageDown, fyne.KeyEscape)
	if b.window.Canvas().Overlays().Top() != nil {
		t.Fatal("Escape does not close the sheet")
	}
	b.window.Canvas().Unfocus()
	b.tabTo("garment.full")
	b.key(fyne.KeyReturn)
	b.tabTo("paper.grid")
	b.write("5 cm")
	b.tabTo("paper.way")
	b.write("oo") // letters jump on: on one page, as a PDF, as a drawing
	b.tabTo("paper.path")
	e = b.shell.Names().Get("paper.path").(*widgets.Entry)
	if !strings.HasSuffix(e.Text, ".svg") {
		t.Errorf("the file is %s", e.Text)
	}
	e.SetText("")
	b.write(filepath.Join(folder, "gone", "a.svg"))
	b.key(fyne.KeyReturn)
	if !strings.Contains(b.toldOnPaper(), "no folder") {
		t.Errorf("said %q", b.toldOnPaper())
	}
	e.SetText("")
	b.write(filepath.Join(folder, "a.svg"))
	b.key(fyne.KeyReturn)
	if text, err := os.ReadFile(filepath.Join(folder, "a.svg")); err != nil || !strings.Contains(string(text), "<svg") {
		t.Errorf("%v; %s", err, b.toldOnPaper())
	}
	b.key(fyne.KeyEscape)
}

// Pattern pieces in full size, one of them, tiled; and the sheet of a cloth.
func TestFullSizeOfPatternsAndCloth(t *testing.T) {
	b, _ := onPaper(t)
	b.press("rail.patterns")
	b.list("patterns.list").Choose(b.list("patterns.list").Rows()[0].Key)
	b.press("pattern.full")
	which := b.shell.Names().Get("paper.which").(*widgets.Choice)
	if len(which.Options) < 3 || !b.pictured() {
		t.Fatalf("of %v", which.Options)
	}
	b.choose("paper.which", which.Options[1])
	b.choose("paper.paper", "A3")
	b.put("paper.line", "wide")
	if save := b.shell.Names().Get("paper.save").(*widgets.Button); !save.Disabled() {
		t.Error("what was drawn before can be saved for what is asked for now")
	}
	b.put("paper.line", "0.4 mm")
	path := filepath.Join(t.TempDir(), "piece.pdf")
	b.put("paper.path", path)
	b.press("paper.save")
	if text := told(t, path); !strings.Contains(text, "10 cm a side") || !strings.Contains(text, "A1") {
		t.Errorf("%s; %s", b.toldOnPaper(), text)
	}
	if had, err := b.studio.Habits(context.Background()); err != nil || had.FullPaper != "A3" {
		t.Errorf("%+v is remembered, %v", had, err)
	}
	b.press("paper.close")
	for _, c := range b.cloths() {
		if len(c.Reservations) > 0 {
			b.shell.Go(page.Route{Place: page.Stash, ID: c.Cloth.ID})
			break
		}
	}
	b.press("stash.sheet")
	if !b.pictured() || b.shell.Names().Get("paper.spoiled.1") != nil {
		t.Error("the sheet of a cloth is not shown, or marks what it cannot")
	}
	b.press("paper.close")
}

// The strips of a pattern by mouse: their numbers copied, their sheet and the marking guide printed.
func TestStripsOnPaper(t *testing.T) {
	b, d := onPaper(t)
	ps, err := b.studio.Patterns(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	b.shell.Go(page.Route{Place: page.Binding, ID: ps[0].ID, Size: ps[0].Sizes[1].Name, Do: page.WorkStrips})
	b.press("binding.copy")
	if text := fyne.CurrentApp().Clipboard().Content(); !strings.Contains(text, "cut ") || !strings.Contains(text, "from the centre") {
		t.Errorf("copied %q", text)
	}
	for name, want := range map[string]string{"binding.print": "Marks on the strips", "binding.guide": "10 cm a side"} {
		d.printed = nil
		b.press(name)
		if !b.pictured() {
			t.Errorf("%s shows no page", name)
		}
		path := filepath.Join(t.TempDir(), "strips.pdf")
		b.put("paper.path", path)
		b.press("paper.save")
		if text := told(t, path); !strings.Contains(text, want) {
			t.Errorf("%s: %s; %s", name, text, b.toldOnPaper())
		}
		b.press("paper.close")
	}
}
