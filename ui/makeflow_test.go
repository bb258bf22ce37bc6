package ui

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"tallycloth/planner/garment"
	"tallycloth/stash/shape"
	"tallycloth/ui/page"
	"tallycloth/ui/widgets"
)

// From a pattern to a garment with its fabric reserved, and back, by keyboard alone.
func TestFindAndReserveByKeyboard(t *testing.T) {
	b := full(t)
	before := b.reservations()
	b.ctrl(fyne.Key2)
	b.focus("patterns.list")
	b.key(fyne.KeyHome, fyne.KeyReturn) // the tank: find fabric
	b.focus("find.list")
	r, ok := b.list("find.list").ChosenRow()
	if !ok || !strings.Contains(r.Cells[0].Text, "Enough") {
		t.Fatalf("best is %+v", r.Cells)
	}
	v := b.shell.Names().Get("find.layout").(*widgets.LayoutView)
	if n := len(v.Picture().Pieces); n < 2 {
		t.Fatalf("the layout shows %d pieces", n)
	}
	b.key(fyne.KeyReturn) // reserve: asks for which garment
	b.focus("reserve.which")
	b.key(fyne.KeyReturn) // a new one
	if b.shell.Place() != page.Garments || b.reservations() != before+1 {
		t.Fatalf("in %s with %d reservations, %d before", b.shell.Place(), b.reservations(), before)
	}
	g, ok := b.list("garments.list").ChosenRow()
	if !ok || !strings.Contains(g.Title, "Fennel") {
		t.Errorf("the garment chosen is %q", g.Title)
	}
	b.tabTo("garment.release")
	b.key(fyne.KeyReturn)
	if b.reservations() != before {
		t.Errorf("%d reservations after releasing, %d before", b.reservations(), before)
	}
	b.ctrl(fyne.KeyZ)
	if b.reservations() != before+1 {
		t.Error("Ctrl+Z did not reserve it again")
	}
	b.ctrl(fyne.KeyZ)
	if b.reservations() != before {
		t.Error("Ctrl+Z did not take the reservation back")
	}
}

// For a garment that is wanted, by mouse alone: no question which garment.
func TestReserveForAGarmentByMouse(t *testing.T) {
	b := full(t)
	before := b.reservations()
	b.shell.Go(page.Route{Place: page.Garments})
	l := b.list("garments.list")
	for _, r := range l.Rows() {
		if r.Title == "Tank for the lake" {
			l.Choose(r.Key)
		}
	}
	b.press("garment.find")
	b.press("find.reserve")
	if b.shell.Place() != page.Garments || b.reservations() != before+1 {
		t.Fatalf("in %s with %d reservations: %s", b.shell.Place(), b.reservations(), b.shell.Quiet())
	}
	gs, err := b.studio.Garments(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	for _, g := range gs {
		if g.Name == "Tank for the lake" && g.State != garment.Reserved {
			t.Errorf("it is %s", g.State)
		}
	}
	b.press("garment.release")
	if b.reservations() != before {
		t.Error("Release fabric left it reserved")
	}
	b.press("undo")
	b.press("undo")
	if b.reservations() != before {
		t.Error("two undos are not where it began")
	}
}

// Cutting keeps the leftovers, each with a code, and one undo takes it all back.
func TestCutByMouse(t *testing.T) {
	b := full(t)
	b.shell.Go(page.Route{Place: page.Garments})
	l := b.list("garments.list")
	for _, r := range l.Rows() {
		if r.Title == "Tank for the lake" {
			l.Choose(r.Key)
		}
	}
	b.press("garment.find")
	b.press("find.reserve")
	cloths := len(b.cloths())
	b.press("garment.cut")
	c, ok := b.shell.Names().Get("cut.choice.0").(*widgets.Choice)
	if !ok || c.Selected != "Keep as it lies" {
		t.Fatalf("no leftover is proposed: %s", b.shell.Quiet())
	}
	b.press("cut.back")
	b.press("garment.cut")
	b.shell.Names().Get("cut.place.0").(*widgets.Entry).SetText("window sill")
	b.press("cut.send")
	if q := b.shell.Quiet(); !strings.Contains(q, "Kept ") {
		t.Errorf("it says %q", q)
	}
	kept := 0
	all, err := b.studio.Cloths(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	for _, k := range all {
		if k.Cloth.Place == "window sill" {
			kept++
		}
	}
	if kept != 1 {
		t.Errorf("%d leftovers lie on the window sill", kept)
	}
	b.press("garment.on")
	if r, ok := b.list("garments.list").ChosenRow(); !ok || r.Cells[1].Text != "sewing" {
		t.Errorf("the garment is %+v", r.Cells)
	}
	b.press("undo")
	b.press("undo")
	if n := len(b.cloths()); n != cloths {
		t.Errorf("%d cloths after undo, %d before", n, cloths)
	}
}

// A pattern brought in from a drawing is seen before it is saved.
func TestBringInOutlines(t *testing.T) {
	b := full(t)
	path := filepath.Join(t.TempDir(), "reed vest.svg")
	// A4-like page in mm: a test square of 5 cm and two pieces, one named by its title.
	drawing := `<svg xmlns="http://www.w3.org/2000/svg" width="600mm" height="500mm" viewBox="0 0 600 500">
<rect x="5" y="440" width="50" height="50"/>
<path d="M10 10h200v300h-200z"><title>Front</title></path>
<path d="M300 10h200v320h-200z"><title>Back</title></path></svg>`
	if err := os.WriteFile(path, []byte(drawing), 0o600); err != nil {
		t.Fatal(err)
	}
	b.press("rail.patterns")
	b.press("patterns.bring")
	b.put("outlines.file", path)
	b.key(fyne.KeyReturn)
	b.put("outlines.size", "M")
	b.press("outlines.save")
	ps, err := b.studio.Patterns(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	found := false
	for _, p := range ps {
		if p.Name != "reed vest" {
			continue
		}
		found = true
		box := p.Pieces[0].Outlines["M"].Cut.Bounds()
		if len(p.Pieces) != 2 || p.Pieces[0].Name != "Front" || box.Length() != 300_000 || box.Width() != 200_000 {
			t.Errorf("%d pieces, %s %v", len(p.Pieces), p.Pieces[0].Name, box)
		}
	}
	if r, ok := b.list("patterns.list").ChosenRow(); !found || !ok || r.Title != "reed vest" {
		t.Errorf("found %v, chosen %q", found, r.Title)
	}
	b.press("undo")
	if after, _ := b.studio.Patterns(context.Background()); len(after) != len(ps)-1 {
		t.Error("Undo left the pattern there")
	}
}

// Files that are no drawings say so and leave everything as it was.
func TestOutlinesThatCannotBeRead(t *testing.T) {
	b := full(t)
	b.press("rail.patterns")
	b.press("patterns.bring")
	for text, want := range map[string]string{"not a drawing": "SVG", `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"><path d="M0 0h9v9h-9z"/></svg>`: "unit"} {
		path := filepath.Join(t.TempDir(), "x.svg")
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		b.put("outlines.file", path)
		b.window.Canvas().Focus(b.shell.Names().Get("outlines.file").(fyne.Focusable))
		b.key(fyne.KeyReturn)
		if got := b.text("outlines.told"); !strings.Contains(strings.ToLower(got), strings.ToLower(want)) {
			t.Errorf("%.20s…: told %q, want something about %s", text, got, want)
		}
		if d := b.shell.Names().Get("outlines.save").(*widgets.Button); !d.Disabled() {
			t.Error("it can be saved")
		}
	}
}

// text is all that a box of sentences says.
func (b *bench) text(name string) string {
	return textIn(b.shell.Names().Get(name))
}

// textIn is what stands in a box and the boxes in it.
func textIn(o fyne.CanvasObject) string {
	out := ""
	if box, ok := o.(*fyne.Container); ok {
		for _, o := range box.Objects {
			switch o := o.(type) {
			case *canvas.Text:
				out += o.Text + "\n"
			case interface{ Said() string }:
				out += o.Said() + "\n"
			default:
				out += textIn(o)
			}
		}
	}
	return out
}

// Strips of the tank's edges from a rib, reserved for a garment, and taken back.
func TestStripsOfThePatternByMouse(t *testing.T) {
	b := full(t)
	b.press("rail.binding")
	choose := func(name, word string) {
		t.Helper()
		c, ok := b.shell.Names().Get(name).(*widgets.Choice)
		if !ok {
			t.Fatalf("there is no choice %s", name)
		}
		c.SetSelected(word)
		if c.Selected != word {
			t.Fatalf("%s offers %v", name, c.Options)
		}
	}
	choose("binding.pattern", "Fennel tank")
	choose("binding.size", "5")
	choose("binding.edge", "front neck")
	choose("binding.fabric", "Brick rib")
	before := b.reservations()
	b.press("binding.reserve")
	choose("binding.garment", "Morning tank, size 5")
	b.press("binding.garment.send")
	if b.reservations() != before+1 {
		t.Fatalf("%d reservations, %d before: %s", b.reservations(), before, b.shell.Quiet())
	}
	b.press("undo")
	if b.reservations() != before {
		t.Error("Undo left the strips reserved")
	}
}

// A typed edge: the strip follows while typing; a wrong length keeps it and its text.
func TestStripOfATypedEdgeByKeyboard(t *testing.T) {
	b := full(t)
	b.ctrl(fyne.Key5)
	b.focus("binding.pattern")
	b.tabTo("binding.part.1.length")
	b.write("62 cm")
	b.tabTo("binding.part.1.runs")
	b.key(fyne.KeyRight)
	b.tabTo("binding.part.1.turns")
	b.write("360")
	got := b.text("binding.answer")
	// r = k(1 − θh/L) with k 0.95, θ 2π, h 1 cm, L 62 cm (derived in package binding): 52.9 cm, and 2 cm of seams.
	if !strings.Contains(got, "Cut 54.9 cm") {
		t.Errorf("it says %q", got)
	}
	b.tabTo("binding.part.1.length")
	b.write("x")
	if e := b.shell.Names().Get("binding.part.1.length").(*widgets.Entry); e.Text != "62 cmx" {
		t.Errorf("the text is %q now", e.Text)
	}
	if d := b.shell.Names().Get("binding.reserve").(*widgets.Button); !d.Disabled() {
		t.Error("strips of a wrong length can be reserved")
	}
}

// A layout moved by hand: what lies over is told and cannot be reserved; set apart it can.
func TestMovePiecesByHand(t *testing.T) {
	b := full(t)
	b.press("rail.patterns")
	b.list("patterns.list").Choose(b.list("patterns.list").Rows()[0].Key)
	b.press("pattern.find")
	l := b.list("find.list")
	for _, r := range l.Rows() {
		if strings.Contains(r.Sub, "1.80 m") { // the long moss jersey, with room to spare
			l.Choose(r.Key)
		}
	}
	b.press("find.move")
	b.focus("find.layout")
	v := b.shell.Names().Get("find.layout").(*widgets.LayoutView)
	before := v.Picture().Pieces[0].Outline.Bounds()
	reserve := b.shell.Names().Get("find.reserve").(*widgets.Button)
	other := v.Picture().Pieces[1].Outline.Bounds()
	over := shape.Point{X: other.Min.X - before.Min.X, Y: other.Min.Y - before.Min.Y + 100_000}
	v.Mover.Moved(0, over) // let go with the pointer on the other piece
	if note := b.shell.Names().Get("find.note").(*widget.Label).Text; !reserve.Disabled() || !strings.Contains(note, "over") || len(v.Picture().Over) != 1 {
		t.Errorf("it says %q", note)
	}
	v.Mover.Moved(0, shape.Point{X: -over.X, Y: -over.Y})
	b.write("n")
	b.key(fyne.KeyRight, fyne.KeyRight, fyne.KeyRight)
	after := v.Picture().Pieces[0].Outline.Bounds()
	if after.Min.X-before.Min.X != 15_000 || after.Min.Y != before.Min.Y {
		t.Errorf("%v became %v", before, after)
	}
	if reserve.Disabled() {
		t.Fatalf("it cannot be reserved: %s", b.shell.Names().Get("find.note").(*widget.Label).Text)
	}
	n := b.reservations()
	b.press("find.reserve")
	b.press("reserve.send")
	if b.reservations() != n+1 {
		t.Fatalf("%s", b.shell.Quiet())
	}
	for _, c := range b.cloths() {
		for _, r := range c.Reservations {
			for _, p := range r.Pieces {
				if p.Outline.Bounds() == after {
					return
				}
			}
		}
	}
	t.Error("what was reserved is not where it was moved")
}
