package planner_test

import (
	"image/color"
	"strings"
	"testing"

	"tallycloth/planner"
	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// TestFabricOnTheShoppingList: a fabric is put on the list beside the notions, what is bought
// of it comes off, a piece of it does not, and one undo brings it back.
func TestFabricOnTheShoppingList(t *testing.T) {
	s := studio(t)
	c := bought(t, s, 100*cm)
	if _, err := s.PlanToBuy(ctx, c.Fabric.ID, 250*cm, " for the autumn class "); err != nil {
		t.Fatal(err)
	}
	if _, err := s.SaveNotion(ctx, stash.Notion{Name: "Clear elastic", Kind: "elastic", Unit: "m", Quantity: 1, Reorder: 3}); err != nil {
		t.Fatal(err)
	}
	list, err := s.ShoppingList(ctx)
	if err != nil || len(list) != 2 || list[0].FabricID != c.Fabric.ID || list[0].Buy != 2.5 || list[0].Unit != "m" || list[0].OnHand != 1 || list[0].Kind != planner.FabricKind {
		t.Fatalf("%+v, %v", list, err)
	}
	if text := planner.ShoppingText(list); !strings.Contains(text, "2.5 m  "+c.Fabric.Name+" (for the autumn class)") || strings.Contains(text, "for for") {
		t.Errorf("it says\n%s", text)
	}
	left := func() measure.Length {
		f, err := s.Fabric(ctx, c.Fabric.ID)
		if err != nil {
			t.Fatal(err)
		}
		return f.Buy
	}
	buy := func(length, width measure.Length) {
		if _, err := s.LogBuying(ctx, planner.Buying{Lines: []planner.BuyingLine{{FabricID: c.Fabric.ID, Length: length, Width: width}}}); err != nil {
			t.Fatal(err)
		}
	}
	buy(50*cm, 30*cm) // a piece
	if left() != 250*cm {
		t.Errorf("after a piece %d are left", left())
	}
	buy(100*cm, 0)
	if left() != 150*cm {
		t.Errorf("%d are left", left())
	}
	buy(200*cm, 0)
	if f, _ := s.Fabric(ctx, c.Fabric.ID); f.Buy != 0 || f.BuyFor != "" {
		t.Errorf("%d for %q are left", f.Buy, f.BuyFor)
	}
	if _, err := s.Undo(ctx); err != nil || left() != 150*cm {
		t.Errorf("undone, %d are left, %v", left(), err)
	}
	if _, err := s.PlanToBuy(ctx, c.Fabric.ID, -1, ""); err == nil {
		t.Error("less than nothing was put on the list")
	}
	if _, err := s.PlanToBuy(ctx, c.Fabric.ID, 0, ""); err != nil || left() != 0 || !strings.Contains(lastAct(t, s), "off the shopping list") {
		t.Errorf("%v, %q", err, lastAct(t, s))
	}
}

// TestReceiptWithThePurchase: the photo is of the purchase, in the same act; a broken one
// leaves nothing behind.
func TestReceiptWithThePurchase(t *testing.T) {
	s := studio(t)
	c := bought(t, s, 100*cm)
	before := lastAct(t, s)
	form := planner.Buying{Lines: []planner.BuyingLine{{FabricID: c.Fabric.ID, Length: 100 * cm}}, Receipt: []byte("no picture")}
	if _, err := s.LogBuying(ctx, form); err == nil || lastAct(t, s) != before {
		t.Fatalf("%v, %q", err, lastAct(t, s))
	}
	form.Receipt = swatchFile(t, color.White)
	got, err := s.LogBuying(ctx, form)
	if err != nil {
		t.Fatal(err)
	}
	photos, err := s.Photos(ctx, got.Purchase.ID)
	if err != nil || len(photos) != 1 || photos[0].Kind != stash.Receipt || photos[0].Of != stash.OfPurchase {
		t.Errorf("%+v, %v", photos, err)
	}
	if _, err := s.Undo(ctx); err != nil {
		t.Fatal(err)
	}
	if cs, err := s.Cloths(ctx); err != nil || len(cs) != 1 {
		t.Errorf("undone, there are %d cloths, %v", len(cs), err)
	}
}
