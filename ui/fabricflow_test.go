package ui

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/ui/sample"
	"tallycloth/ui/widgets"
)

// By keyboard: a swatch is weighed in the fabric's form, its weight is shown as it is typed
// and kept.
func TestWeighASwatchByKeyboard(t *testing.T) {
	b := full(t)
	b.chooseKnit()
	b.tabTo("stash.change")
	b.key(fyne.KeyReturn)
	b.tabTo("form.grams")
	b.write("2.4")
	b.tabTo("form.side")
	b.write("12 cm")
	b.tabTo("form.otherside")
	b.write("10 cm")
	if e := b.shell.Names().Get("form.weight").(*widgets.Entry); e.Text != "200 g/m²" {
		t.Errorf("the weight says %q", e.Text)
	}
	b.key(fyne.KeyReturn)
	if f := b.chosenCloth().Fabric; f.Weight != 200*measure.GramPerSquareMetre {
		t.Errorf("it weighs %d; %s", f.Weight, b.shell.Quiet())
	}
}

// A swatch without its size is refused in the form, which stays.
func TestSwatchWithoutSize(t *testing.T) {
	b := full(t)
	b.chooseKnit()
	before := b.chosenCloth().Fabric.Weight
	b.press("stash.change")
	b.put("form.grams", "2.4")
	b.press("form.send")
	if b.window.Canvas().Overlays().Top() == nil || b.chosenCloth().Fabric.Weight != before {
		t.Error("it was taken")
	}
}

// By mouse: care is chosen symbol by symbol, shown in words, and typed in the fabric's form
// in any order.
func TestCareByMouse(t *testing.T) {
	b := full(t)
	b.chooseKnit()
	b.press("stash.care")
	b.choose("care.washing", "wash at 30 °C mild")
	b.choose("care.tumbledrying", "do not tumble dry")
	b.put("care.other", "in a bag")
	b.press("form.send")
	if got := b.chosenCloth().Fabric.Care; got != "wash at 30 °C mild; do not tumble dry; in a bag" {
		t.Fatalf("kept %q", got)
	}
	if s := test.RenderToMarkup(b.window.Canvas()); !strings.Contains(s, "do not tumble dry") {
		t.Error("the detail does not say it")
	}
	b.press("stash.change")
	b.put("form.care", "dry flat, 40 °C")
	b.press("form.send")
	if got := b.chosenCloth().Fabric.Care; got != "wash at 40 °C; dry flat" {
		t.Errorf("kept %q", got)
	}
}

// A tube is bought by twice its flat width, lies slit as wide as both layers, and its detail
// says both.
func TestBuyATube(t *testing.T) {
	b := newBench(t, sample.Empty())
	b.press("stash.first")
	b.put("form.name", "Rosehip rib")
	b.put("form.width", "2 x 50 cm")
	b.put("form.length", "2 m")
	b.press("form.send")
	c := b.chosenCloth()
	if !c.Fabric.Tubular || c.Fabric.FullWidth != 50*measure.Centimetre || c.Cloth.Width != measure.Metre || c.Cloth.SelvedgeLow {
		t.Fatalf("%+v", c.Cloth)
	}
	if s := test.RenderToMarkup(b.window.Canvas()); !strings.Contains(s, "50 cm flat, a tube") {
		t.Error("the detail does not say that it is a tube")
	}
	b.press("stash.log")
	b.choose("form.fabric", "Rosehip rib")
	b.put("form.length", "1 m")
	b.press("form.send")
	if cs := b.cloths(); len(cs) != 2 || cs[1].Cloth.Width != measure.Metre {
		t.Errorf("bought again: %+v", cs)
	}
	b.press("stash.change")
	b.shell.Names().Get("form.tube").(*widgets.Check).SetChecked(false)
	b.put("form.width", "102 cm")
	b.press("form.send")
	if f := b.chosenCloth().Fabric; f.Tubular || f.FullWidth != 102*measure.Centimetre {
		t.Errorf("%+v", f)
	}
}

// A stretch test with the widths teaches the narrowing; one width alone is refused.
func TestNarrowingInTheStretchTest(t *testing.T) {
	b := full(t)
	c := b.chooseKnit()
	b.press("stash.measure")
	b.put("form.before", "10 cm")
	b.put("form.stretched", "14 cm")
	b.put("form.after", "10.4 cm")
	b.put("form.widthbefore", "8 cm")
	b.press("form.send")
	if b.window.Canvas().Overlays().Top() == nil {
		t.Fatal("one width alone was taken")
	}
	b.put("form.widthstretched", "7.2 cm")
	b.press("form.send")
	if f := b.chosenCloth().Fabric; f.ID != c.Fabric.ID || f.Crosswise.Narrowing != stash.Measured(10*measure.OnePercent) {
		t.Errorf("%+v; %s", f.Crosswise, b.shell.Quiet())
	}
}
