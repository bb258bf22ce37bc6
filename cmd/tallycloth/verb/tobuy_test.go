package verb_test

import (
	"strings"
	"testing"

	"tallycloth/cmd/tallycloth/verb"
)

// TestFabricToBuy: --buy puts a fabric on the shopping list, log with its receipt takes it off.
func TestFabricToBuy(t *testing.T) {
	d := newDesk(t)
	d.log("Moss", "1 m", "--width", "150 cm")
	var f struct {
		Buy float64 `json:"buy_mm"`
		For string  `json:"buy_for"`
	}
	if d.loose(&f, "fabric", "Moss", "--buy", "2.5", "--buy-for", "the autumn class"); f.Buy != 2500 || f.For != "the autumn class" {
		t.Errorf("%+v", f)
	}
	if text := d.done("shopping"); !strings.Contains(text, "2.5 m") || !strings.Contains(text, "for the autumn class") {
		t.Errorf("it says\n%s", text)
	}
	d.done("log", "Moss", "2.5 m", "--receipt", photoFile(t), "--from", "the corner stall")
	if d.loose(&f, "fabric", "Moss"); f.Buy != 0 {
		t.Errorf("%+v", f)
	}
	var photos []photoLine
	if d.answer(&photos, "photo", "list", "--purchase", "corner"); len(photos) != 1 || photos[0].Kind != "receipt" {
		t.Errorf("%+v", photos)
	}
	d.refused(verb.Mistyped, []string{"--buy"}, "fabric", "Moss", "--buy", "much")
	d.refused(verb.Failed, []string{"cannot be read"}, "log", "Moss", "1 m", "--receipt", "nowhere.jpg")
}
