package ui

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/ui/widgets"
)

// By keyboard: a fabric is put on the shopping list, stands there beside the notions, and
// comes off when it is bought.
func TestBuyMoreByKeyboard(t *testing.T) {
	b := full(t)
	c := b.chooseKnit()
	b.tabTo("stash.buy")
	b.key(fyne.KeyReturn)
	b.focus("form.much")
	b.write("1.5 m")
	b.tabTo("form.what")
	b.write("the autumn class")
	b.key(fyne.KeyReturn)
	if f := b.chosenCloth().Fabric; f.Buy != 150*measure.Centimetre || f.BuyFor != "the autumn class" {
		t.Fatalf("%+v; %s", f.Buy, b.shell.Quiet())
	}
	b.press("stash.notions")
	if s := test.RenderToMarkup(b.window.Canvas()); !strings.Contains(s, "1.5 m "+c.Fabric.Name) {
		t.Error("the shopping list does not have it")
	}
	b.press("stash.back")
	b.press("stash.log")
	b.choose("form.fabric", c.Fabric.Name)
	b.put("form.length", "2 m")
	b.press("form.send")
	if f, err := b.studio.Fabric(t.Context(), c.Fabric.ID); err != nil || f.Buy != 0 {
		t.Errorf("%d are left, %v", f.Buy, err)
	}
}

// By mouse: a purchase is logged with the photo of its receipt; one that cannot be read keeps
// the form with all that was typed.
func TestReceiptInThePurchase(t *testing.T) {
	b := full(t)
	before := b.cloths()
	b.press("stash.log")
	b.choose("form.fabric", before[0].Fabric.Name)
	b.put("form.length", "2 m")
	b.put("form.file", onDisk(t, "receipt.png", []byte("no picture")))
	b.press("form.send")
	if len(b.cloths()) != len(before) || b.window.Canvas().Overlays().Top() == nil || b.shell.Names().Get("form.length").(*widgets.Entry).Text != "2 m" {
		t.Fatalf("a broken receipt was taken; %s", b.shell.Quiet())
	}
	b.put("form.file", scrapFile(t))
	b.press("form.send")
	c := b.added(before)
	photos, err := b.studio.Photos(t.Context(), c.Cloth.PurchaseID)
	if err != nil || len(photos) != 1 || photos[0].Kind != stash.Receipt {
		t.Errorf("%+v, %v", photos, err)
	}
	b.press("undo")
	if len(b.cloths()) != len(before) {
		t.Error("undo left it there")
	}
}
