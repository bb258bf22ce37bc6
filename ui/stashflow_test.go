package ui

import (
	"context"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"tallycloth/planner"
	"tallycloth/planner/garment"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/ui/page"
	"tallycloth/ui/sample"
	"tallycloth/ui/widgets"
)

func TestLogPurchaseByKeyboard(t *testing.T) {
	b := newBench(t, sample.Empty())
	b.ctrl(fyne.KeyN)
	b.tabTo("form.name")
	b.write("Moss jersey")
	b.tabTo("form.width")
	b.write("155 cm")
	b.tabTo("form.length")
	b.write("1 1/4 yd")
	b.key(fyne.KeyReturn)
	cs := b.cloths()
	if len(cs) != 1 || cs[0].Cloth.Length != 5*measure.Yard/4 || cs[0].Fabric.FullWidth != 155*measure.Centimetre {
		t.Fatalf("logged %+v", cs)
	}
	if q := b.shell.Quiet(); !strings.Contains(q, "Moss jersey") {
		t.Errorf("the quiet line says %q", q)
	}
	if r, ok := b.list("stash.list").ChosenRow(); !ok || r.Key != cs[0].Cloth.ID {
		t.Error("the new length is not chosen")
	}
	if v, ok := b.shell.Names().Get("stash.view").(*widgets.LayoutView); !ok || !v.Picture().SelvedgeLow {
		t.Error("the new length is not drawn")
	}
	b.key(fyne.KeyEscape)
	b.ctrl(fyne.KeyZ)
	if len(b.cloths()) != 0 {
		t.Error("Ctrl+Z left the purchase there")
	}
	b.ctrl(fyne.KeyY)
	if len(b.cloths()) != 1 {
		t.Error("redo did not bring it back")
	}
}

func TestLogPurchaseByMouse(t *testing.T) {
	b := newBench(t, sample.Empty())
	b.press("stash.first")
	b.put("form.name", "Brick rib")
	b.put("form.width", "110")
	b.put("form.length", "0.95 m")
	b.put("form.price", "14,80")
	b.press("form.send")
	if cs := b.cloths(); len(cs) != 1 || cs[0].Cloth.Length != 950*measure.Millimetre {
		t.Fatalf("logged %+v", cs)
	}
	b.press("undo")
	if len(b.cloths()) != 0 {
		t.Error("Undo left the purchase there")
	}
}

// A wrong value says what is wrong beside its field, keeps the text, and nothing is saved.
func TestWrongValuesStay(t *testing.T) {
	for field, text := range map[string]string{"form.length": "three", "form.width": "0", "form.fibres": "90% cotton 7% elastane", "form.weight": "1/0"} {
		b := newBench(t, sample.Empty())
		b.press("stash.log")
		b.put("form.name", "Moss jersey")
		b.put("form.width", "155")
		b.put("form.length", "1 m")
		b.put(field, text)
		b.press("form.send")
		if len(b.cloths()) != 0 {
			t.Errorf("%s: %q was saved", field, text)
		}
		e := b.shell.Names().Get(field).(*widgets.Entry)
		if e.Text != text || b.window.Canvas().Overlays().Top() == nil {
			t.Errorf("%s: %q became %q, form open: %v", field, text, e.Text, b.window.Canvas().Overlays().Top() != nil)
		}
	}
}

// A form that is closed keeps what was typed.
func TestClosedFormKeepsItsText(t *testing.T) {
	b := newBench(t, sample.Empty())
	b.press("stash.log")
	b.put("form.name", "Moss jersey")
	b.key(fyne.KeyEscape)
	if b.window.Canvas().Overlays().Top() != nil {
		t.Fatal("Escape does not close the form")
	}
	b.press("stash.log")
	if e := b.shell.Names().Get("form.name").(*widgets.Entry); e.Text != "Moss jersey" {
		t.Errorf("the name is %q now", e.Text)
	}
}

func TestAddLeftoverWithASlantedEnd(t *testing.T) {
	b := full(t)
	before := len(b.cloths())
	b.press("stash.add")
	b.shell.Names().Get("form.fabric").(*widgets.Choice).SetSelectedIndex(1)
	b.shell.Names().Get("form.shape").(*widgets.Choice).SetSelectedIndex(1)
	b.put("form.length", "60")
	b.put("form.leftwidth", "40")
	b.press("form.send")
	if len(b.cloths()) != before {
		t.Error("a slanted end without its other side is taken")
	}
	b.put("form.other", "45")
	b.press("form.send")
	cs := b.cloths()
	if len(cs) != before+1 {
		t.Fatalf("%d cloths, %d before", len(cs), before)
	}
	r, _ := b.list("stash.list").ChosenRow()
	for _, c := range cs {
		if c.Cloth.ID == r.Key && c.Area != 2_100*1e8 { // (60 + 45)/2 × 40 cm²
			t.Errorf("its area is %d µm²", c.Area)
		}
	}
	b.press("undo")
	if len(b.cloths()) != before {
		t.Error("Undo left it there")
	}
}

func TestMeasureStretch(t *testing.T) {
	b := full(t)
	b.list("stash.list").Choose(b.list("stash.list").Rows()[3].Key)
	b.press("stash.measure")
	b.put("form.before", "10 cm")
	b.put("form.stretched", "14 cm")
	if got := b.short("form.answer"); got != "= stretches 40 %" {
		t.Errorf("while it is typed it says %q", got)
	}
	b.put("form.after", "10.4 cm")
	if got := b.short("form.answer"); got != "= stretches 40 %, recovers 90 %, grows by 4 %" {
		t.Errorf("before it is kept it says %q", got)
	}
	b.press("form.send")
	r, _ := b.list("stash.list").ChosenRow()
	for _, c := range b.cloths() {
		// 100 → 140 → 104 mm: 40 % stretch, 90 % recovery (worked example of the trade).
		if g := c.Fabric.Crosswise; c.Cloth.ID == r.Key && (g.Stretch.Value != 4000 || g.Recovery.Value != 9000) {
			t.Errorf("read %v and %v", g.Stretch, g.Recovery)
		}
	}
	if !strings.Contains(b.shell.Quiet(), "40 %") {
		t.Errorf("the quiet line says %q", b.shell.Quiet())
	}
	b.press("undo")
	for _, c := range b.cloths() {
		if c.Cloth.ID == r.Key && c.Fabric.Crosswise.Stretch.Known {
			t.Error("Undo left the test there")
		}
	}
}

func TestWhatCanItMake(t *testing.T) {
	b := full(t)
	l := b.list("stash.list")
	l.Choose(l.Rows()[7].Key)
	b.key(fyne.KeyReturn) // on the list
	b.focus("making.list")
	if n := len(b.list("making.list").Rows()); n < 20 {
		t.Fatalf("%d answers", n)
	}
	b.key(fyne.KeyDown, fyne.KeyEscape)
	b.focus("stash.list")
}

// The places and their keys, from wherever the focus is.
func TestKeysOfTheRail(t *testing.T) {
	b := full(t)
	for k, place := range map[fyne.KeyName]string{fyne.Key1: page.Stash, fyne.Key2: page.Patterns, fyne.Key3: page.Garments, fyne.Key4: page.Batch, fyne.Key5: page.Binding, fyne.Key6: page.History} {
		b.ctrl(k)
		if b.shell.Place() != place {
			t.Errorf("Ctrl+%s leads to %s", k, b.shell.Place())
		}
	}
	b.ctrl(fyne.Key1)
	b.ctrl(fyne.KeyF)
	b.focus("stash.filter")
	b.write("knits, at least 2 m")
	if n := len(b.list("stash.list").Rows()); n != 2 {
		t.Errorf("%d rows for knits of at least 2 m", n)
	}
	b.ctrl(fyne.Key3) // also while a line has the focus
	if b.shell.Place() != page.Garments {
		t.Error("Ctrl+3 does not work from a line of text")
	}
}

func TestSettingsChangeTheWindow(t *testing.T) {
	b := full(t)
	b.press("rail.settings")
	b.shell.Names().Get("settings.units").(*widgets.Choice).SetSelectedIndex(1)
	b.shell.Names().Get("settings.look").(*widgets.Choice).SetSelected("dark")
	b.ctrl(fyne.Key1)
	if got := b.list("stash.list").Rows()[0].Cells[0].Text; !strings.Contains(got, "yd") {
		t.Errorf("sizes are written %q", got)
	}
	b.press("undo")
	b.press("undo")
	if got := b.list("stash.list").Rows()[0].Cells[0].Text; strings.Contains(got, "yd") {
		t.Errorf("after undo sizes are written %q", got)
	}
}

// What was not touched in the form of a fabric keeps its exact value.
func TestChangeFabric(t *testing.T) {
	b := full(t)
	l := b.list("stash.list")
	l.Choose(l.Rows()[3].Key)
	find := func() stash.Fabric {
		for _, c := range b.cloths() {
			if c.Cloth.ID == l.Rows()[3].Key {
				return c.Fabric
			}
		}
		return stash.Fabric{}
	}
	before := find()
	b.press("stash.change")
	b.put("form.weight", "5.3 oz")
	b.press("form.send")
	after := find()
	// 5.3 oz/yd² × 33.9057 g/m² (NIST SP 811) = 179.7 g/m².
	if g := after.Weight / measure.GramPerSquareMetre; g != 179 || after.FullWidth != before.FullWidth || after.Crosswise != before.Crosswise || after.Colour != before.Colour {
		t.Errorf("%+v became %+v", before, after)
	}
	b.press("undo")
	if find().Weight != before.Weight {
		t.Error("Undo left the change there")
	}
}

// TestLeftoverOfANewFabric: on an empty shelf the first cloth may be a leftover; its fabric comes with it.
func TestLeftoverOfANewFabric(t *testing.T) {
	b := newBench(t, sample.Empty())
	b.press("stash.firstleftover")
	b.put("form.name", "Heron rib")
	b.put("form.width", "140")
	b.put("form.length", "60")
	b.put("form.leftwidth", "50")
	b.press("form.send")
	cs := b.cloths()
	if len(cs) != 1 || cs[0].Fabric.Name != "Heron rib" || cs[0].Fabric.FullWidth != 1400*measure.Millimetre || cs[0].Area != 3_000*1e8 {
		t.Fatalf("there is %+v", cs)
	}
	b.press("undo")
	if len(b.cloths()) != 0 {
		t.Error("Undo left it there")
	}
}

// A fabric that is known is shown as it is and cannot be changed there; a new one begins empty again.
func TestKnownFabricInAForm(t *testing.T) {
	b := full(t)
	known := b.cloths()[0].Fabric
	b.press("stash.add")
	b.choose("form.fabric", known.Name)
	made := b.shell.Names().Get("form.made").(*widgets.Choice)
	if !made.Disabled() || !strings.EqualFold(made.Selected, string(known.Construction)) {
		t.Errorf("how it is made says %s, disabled %v", made.Selected, made.Disabled())
	}
	b.choose("form.fabric", "a new fabric")
	if made.Disabled() || made.SelectedIndex() != 0 || b.shell.Names().Get("form.name").(*widgets.Entry).Text != "" {
		t.Errorf("a new fabric begins as %s", made.Selected)
	}
	b.choose("form.fabric", known.Name)
	b.put("form.length", "60")
	b.put("form.leftwidth", "400")
	before := len(b.cloths())
	b.press("form.send")
	if len(b.cloths()) != before {
		t.Error("a leftover wider than its fabric is taken")
	}
}

// What was chosen when it went is chosen again once it is back.
func TestRedoChoosesAgain(t *testing.T) {
	b := newBench(t, sample.Empty())
	b.press("stash.first")
	b.put("form.name", "Brick rib")
	b.put("form.width", "110")
	b.put("form.length", "1 m")
	b.press("form.send")
	b.press("undo")
	if _, ok := b.list("stash.list").ChosenRow(); ok {
		t.Fatal("what went is still chosen")
	}
	b.press("redo")
	if r, ok := b.list("stash.list").ChosenRow(); !ok || r.Title != "Brick rib" {
		t.Errorf("chosen is %q, %v", r.Title, ok)
	}
}

// Where nothing answers the filter it says how the words were understood, and leads back to everything;
// the code of a cloth that was cut leads to what is left of it.
func TestNothingFoundIsSaid(t *testing.T) {
	b := full(t)
	b.press("rail.stash")
	all := len(b.list("stash.list").Rows())
	says := func() string { return textIn(b.shell.Names().Get("stash.nohits")) }
	b.put("stash.filter", "asdfgh, over 999999 m, at least 2 m free")
	if text := says(); len(b.list("stash.list").Rows()) != 0 || !strings.Contains(text, "“asdfgh”") || !strings.Contains(text, "at least 2 m long free") {
		t.Errorf("of nothing found it says %q", text)
	}
	b.press("stash.all")
	if n := len(b.list("stash.list").Rows()); n != all {
		t.Errorf("%d rows of %d after everything was asked for", n, all)
	}
	garments, err := b.studio.Garments(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	for _, g := range garments {
		if g.State != garment.Reserved {
			continue
		}
		old := ""
		for _, c := range b.cloths() {
			if slices.ContainsFunc(c.Reservations, func(r stash.Reservation) bool { return r.GarmentID == g.ID }) {
				old = c.Cloth.Code
			}
		}
		if _, err := b.studio.MarkCut(context.Background(), g.ID, planner.Keeping{}); err != nil {
			t.Fatal(err)
		}
		b.put("stash.filter", strings.ToLower(old))
		if text := says(); !strings.Contains(text, old+" was cut on") {
			t.Errorf("of the old code %s it says %q", old, text)
		}
		return
	}
	t.Fatal("no garment is reserved")
}
