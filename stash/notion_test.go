package stash_test

import (
	"errors"
	"math"
	"testing"

	"tallycloth/stash"
	"tallycloth/stash/stashtest"

	"pgregory.net/rapid"
)

// Whatever is bought, used and counted, the history adds up to what is on hand and the
// notion is valid; more than is there is never taken.
func TestNotionHistoryAddsUp(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		n := stash.Notion{ID: stashtest.IDs()(), Name: "elastic", Unit: "m"}
		sum := 0.0
		for range rapid.IntRange(0, 30).Draw(rt, "moves") {
			by := rapid.Float64Range(-40, 40).Draw(rt, "by")
			move := stash.NotionBought
			if by < 0 {
				move = stash.NotionUsed
			}
			after, err := n.Moved(stash.NotionLine{On: "2026-03-01", Move: move, Change: by})
			if refused := stash.Quantified(n.Quantity+stash.Quantified(by)) < 0; refused != (err != nil) || refused && !errors.Is(err, stash.ErrConflict) {
				rt.Fatalf("%v by %v: %v", n.Quantity, by, err)
			}
			if err == nil {
				sum += stash.Quantified(by)
			}
			if n = after; n.Validate() != nil {
				rt.Fatalf("%+v: %v", n, n.Validate())
			}
		}
		if d := sum - n.Quantity; math.Abs(d) > 1e-5 {
			rt.Fatalf("the moves come to %v, and %v is on hand", sum, n.Quantity)
		}
	})
}

func TestParseQuantity(t *testing.T) {
	for _, c := range []struct {
		text, unit string
		want       float64
	}{
		{"6.5", "m", 6.5}, {"6,5 m", "m", 6.5}, {"65 cm", "m", 0.65}, {"2 1/2 yd", "yd", 2.5}, {"1 yd", "m", 0.9144}, {"0", "m", 0},
		{"7", "pieces", 7}, {"7 pieces", "pieces", 7}, {"1 piece", "pieces", 1}, {"1,5", "spools", 1.5}, {"3", "", 3},
	} {
		if got, err := stash.ParseQuantity(c.text, c.unit); err != nil || got != c.want {
			t.Errorf("%q in %q: %v, %v; want %v", c.text, c.unit, got, err, c.want)
		}
	}
	for _, c := range [][2]string{{"", "m"}, {"-1", "m"}, {"many", "m"}, {"", "pieces"}, {"-3", "pieces"}, {"1.2.3", "pieces"}, {"7 m", "pieces"}, {"NaN", "pieces"}, {"1e99", "pieces"}, {"9999999999999", "pieces"}} {
		if got, err := stash.ParseQuantity(c[0], c[1]); err == nil {
			t.Errorf("%q in %q reads as %v", c[0], c[1], got)
		}
	}
}

func FuzzParseQuantity(f *testing.F) {
	f.Add("2 1/2 yd", "m")
	f.Add("7 pieces", "piece")
	f.Fuzz(func(t *testing.T, text, unit string) {
		if q, err := stash.ParseQuantity(text, unit); err == nil && (!(q >= 0) || q > 1e12 || q != stash.Quantified(q)) {
			t.Errorf("%q in %q reads as %v", text, unit, q)
		}
	})
}

func TestServes(t *testing.T) {
	white := stash.Notion{Name: "Polyester thread 120, white", Kind: "thread", Unit: "m"}
	needles := stash.Notion{Name: "Ball-point needles 80", Kind: "needles", Unit: "pieces"}
	clear := stash.Notion{Name: "Clear elastic 8 mm", Kind: "clear elastic", Unit: "m"}
	for _, c := range []struct {
		n                stash.Notion
		name, kind, unit string
		serves, may      bool
	}{
		{white, "polyester thread", "thread", "m", true, true},
		{white, "polyester thread", "thread", "yd", true, true},
		{white, "polyester thread", "thread", "pieces", false, false},
		{white, "cotton thread", "thread", "m", false, true},
		{needles, "ball-point needle 80", "needle", "piece", true, false},
		{needles, "ball-point needle 75", "needle", "piece", false, false},
		{clear, "elastic 30 mm", "elastic", "m", false, false},
		{clear, "clear elastic", "", "cm", true, false},
	} {
		if got := c.n.Serves(c.name, c.kind, c.unit); got != c.serves {
			t.Errorf("%s serves %s: %v", c.n.Name, c.name, got)
		}
		if got := c.n.MayServe(c.name, c.kind, c.unit); got != c.may {
			t.Errorf("%s may serve %s: %v", c.n.Name, c.name, got)
		}
	}
}

func TestFormatQuantity(t *testing.T) {
	for want, q := range map[string]float64{"1 piece": 1, "7 pieces": 7, "0 pieces": 0} {
		if got := stash.FormatQuantity(q, "pieces"); got != want {
			t.Errorf("%v is %q, want %q", q, got, want)
		}
	}
	if got := stash.FormatQuantity(1.0/3, "m"); got != "0.333333 m" {
		t.Errorf("a third is %q", got)
	}
}
