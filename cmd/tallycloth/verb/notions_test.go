package verb_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"tallycloth/cmd/tallycloth/verb"
)

type notionAnswer struct {
	Name, Kind, Unit  string
	Quantity, Reorder float64
	Short             bool
	History           []struct {
		On, What, Garment, Paid, Note string
		Change, After                 float64
	}
}

type toBuy struct {
	Buy              float64
	Unit, Name, Kind string
	OnHand           float64 `json:"on_hand"`
	Reorder          float64
	AskedFor         float64 `json:"asked_for"`
	Garments         []string
	Note             string
}

func TestNotionsAndShopping(t *testing.T) {
	d := newDesk(t).withPatterns()
	var n notionAnswer
	d.answer(&n, "notion", "Polyester thread, white", "--kind", "thread", "--unit", "m", "--quantity", "100", "--reorder", "50")
	d.done("log", jersey, "2 m", "--kind", "jersey", "--width", "150 cm", "--stretch-across", "60%")
	d.answer(&n, "notion", "polyester", "--used", "7000 cm", "--note", "a sample")
	if n.Quantity != 30 || !n.Short || len(n.History) != 2 || n.History[1].Change != -70 {
		t.Errorf("after using %+v", n)
	}
	d.answer(&n, "notion", "polyester", "--bought", "250", "--paid", "3.20")
	if n.Quantity != 280 || n.Short || n.History[2].Paid != "3.20 EUR" {
		t.Errorf("after buying %+v", n)
	}
	d.done("notion", "Rings", "--kind", "rings and sliders", "--unit", "pairs", "--quantity", "2", "--reorder", "6")
	file := filepath.Join(t.TempDir(), "shopping.csv")
	var buy []toBuy
	d.answer(&buy, "shopping", "--csv", file)
	if len(buy) != 1 || buy[0].Buy != 4 || buy[0].Name != "Rings" || buy[0].OnHand != 2 {
		t.Errorf("to buy %+v", buy)
	}
	if data, err := os.ReadFile(file); err != nil || !strings.Contains(string(data), "Rings") {
		t.Errorf("the file says %q, %v", data, err)
	}
	if text := d.done("shopping"); !strings.Contains(text, "below 6 pairs") {
		t.Errorf("in words: %s", text)
	}
	if text := d.done("notions"); !strings.Contains(text, "short") {
		t.Errorf("in words: %s", text)
	}
	d.done("undo")
	d.done("undo")
	var all []notionAnswer
	if d.answer(&all, "notions"); len(all) != 1 || all[0].Quantity != 30 {
		t.Errorf("after undo %+v", all)
	}
}

func TestNotionsThatCannotBe(t *testing.T) {
	d := newDesk(t).made()
	d.done("notion", "Hooks", "--unit", "pieces", "--quantity", "3")
	for name, c := range map[string]struct {
		code  int
		args  []string
		words []string
	}{
		"more than there is":  {verb.Failed, []string{"notion", "Hooks", "--used", "4"}, []string{"Only 3 pieces", "Count it again"}},
		"nobody knows it":     {verb.Mistyped, []string{"notion", "Fern", "--bought", "4"}, []string{"--quantity"}},
		"text for a quantity": {verb.Mistyped, []string{"notion", "Hooks", "--quantity", "some"}, []string{"--quantity", "such as 6.5"}},
		"another unit":        {verb.Mistyped, []string{"notion", "Hooks", "--bought", "4 m"}, []string{"another unit"}},
		"two things at once":  {verb.Mistyped, []string{"notion", "Hooks", "--bought", "4", "--used", "1"}, []string{"one after the other"}},
		"paid for nothing":    {verb.Mistyped, []string{"notion", "Hooks", "--paid", "4"}, []string{"--bought"}},
		"used for nobody":     {verb.Mistyped, []string{"notion", "Hooks", "--used", "1", "--garment", "June"}, []string{"garment"}},
	} {
		t.Run(name, func(t *testing.T) {
			d.t = t
			d.refused(c.code, c.words, c.args...)
			var all []notionAnswer
			if d.answer(&all, "notions"); len(all) != 1 || all[0].Quantity != 3 {
				t.Errorf("afterwards %+v", all)
			}
		})
	}
}
