package verb_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"tallycloth/cmd/tallycloth/verb"
)

type boughtLine struct {
	cloth
	Cost string `json:"cost"`
}

type boughtAnswer struct {
	Bought, From, Total string
	Lines               []boughtLine
}

type joinedLine struct {
	Total       string
	Approximate bool
	Rates       []struct{ Rate, Typed string }
	Without     []string
}

type spending struct {
	Purchases []struct {
		Bought, From, Total, Postage, Tax, Notes string
		Lines                                    []struct {
			Fabric, Code, Lot string
			LengthMM          float64 `json:"length_mm"`
			Price, Cost       string
		}
	}
	Totals []string
	Joined joinedLine
	OnHand struct {
		Totals   []string
		Joined   joinedLine
		Unpriced int `json:"pieces_without_a_price"`
	} `json:"on_hand"`
}

// A purchase of several lines, some said and some in a file, is one act; totals are per
// currency until a rate is typed.
func TestSeveralLinesAndTheirTotals(t *testing.T) {
	d := newDesk(t)
	file := filepath.Join(t.TempDir(), "lines.txt")
	if err := os.WriteFile(file, []byte("\ufeff# the second parcel\n\nmoss jersey; 75 cm; price 6.00; lot B2; washed\r\nFern rib; 40 cm; width 140 cm; kind rib; piece 55 cm\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	var got boughtAnswer
	d.answer(&got, "log", "--on", "2026-02-20", "--from", "Saturday market", "--postage", "4.90", "--tax", "1.10 EUR",
		"--line", "Moss jersey; 2 m; width 160 cm; kind jersey; each 12.00; lot A7; place hall", "--lines", file)
	// 6.00 over 24.00 and 6.00, worked by hand: 4.80 and 1.20.
	if len(got.Lines) != 3 || got.Total != "36.00 EUR" || got.Lines[0].Cost != "28.80 EUR" || got.Lines[1].Cost != "7.20 EUR" || got.Lines[2].Width != 550 {
		t.Fatalf("logged %+v", got)
	}
	if got.Lines[0].Lot != "A7" || got.Lines[1].Lot != "B2" || got.Lines[0].Code == got.Lines[1].Code || !got.Lines[1].Washed {
		t.Errorf("lots %+v", got.Lines)
	}
	d.done("log", "moss jersey", "1 m", "--price", "2000 JPY")
	var s spending
	d.answer(&s, "purchases")
	if len(s.Purchases) != 2 || strings.Join(s.Totals, ", ") != "36.00 EUR, 2000 JPY" || s.Joined.Approximate || s.OnHand.Unpriced != 1 {
		t.Errorf("purchases %+v", s)
	}
	if p := s.Purchases[1]; p.Postage != "4.90 EUR" || p.Lines[1].Lot != "B2" || p.Lines[1].LengthMM != 750 || p.Lines[1].Code != got.Lines[1].Code {
		t.Errorf("the older %+v", p)
	}
	d.done("rate", "100 JPY = 0.61 EUR")
	d.answer(&s, "purchases", "--to", "2026-03-31")
	if j := s.Joined; j.Total != "48.20 EUR" || !j.Approximate || len(j.Rates) != 1 || j.Rates[0].Typed != "2026-03-02" {
		t.Errorf("joined %+v", j)
	}
	if text := d.done("purchases"); !strings.Contains(text, "together about 48.20 EUR (1 JPY = 0.0061 EUR, typed 2 March 2026)") || !strings.Contains(text, "B2") {
		t.Errorf("purchases in words: %s", text)
	}
	s = spending{}
	if d.answer(&s, "purchases", "--from", "2026-03-01"); len(s.Purchases) != 1 || strings.Join(s.Totals, ", ") != "2000 JPY" {
		t.Errorf("since March %+v", s)
	}
	d.done("rate", "1 JPY = 1 EUR", "--forget")
	for range 4 { // the rate forgotten, the rate, the yen, the parcel
		d.done("undo")
	}
	s = spending{}
	if d.answer(&s, "purchases"); len(s.Purchases) != 0 || len(s.OnHand.Totals) != 0 {
		t.Errorf("after undo %+v", s)
	}
}

func TestLinesThatCannotBe(t *testing.T) {
	d := newDesk(t).made()
	none := filepath.Join(t.TempDir(), "none.txt")
	empty := filepath.Join(t.TempDir(), "empty.txt")
	if err := os.WriteFile(empty, []byte("# nothing\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	moss := "Moss; 2 m; width 150 cm"
	for name, c := range map[string]struct {
		args  []string
		words []string
	}{
		"a line of one word":       {[]string{"log", "--line", "Moss"}, []string{"semicolons"}},
		"an unknown word":          {[]string{"log", "--line", moss + "; shade 5"}, []string{"shade 5", "price, each"}},
		"a word twice":             {[]string{"log", "--line", moss + "; lot 1; lot 2"}, []string{"lot twice"}},
		"a bad price in a line":    {[]string{"log", "--line", moss, "--line", "Moss; 1 m; price 5 shells"}, []string{"Line 2 (Moss)", "--price", "ISO 4217"}},
		"two currencies":           {[]string{"log", "--line", moss + "; price 5 EUR", "--line", "Moss; 1 m; price 5 SEK"}, []string{"two currencies"}},
		"a price said twice":       {[]string{"log", "--line", moss + "; price 5; each 3"}, []string{"for the line and for each"}},
		"a piece that is too wide": {[]string{"log", "--line", moss + "; piece 3 m"}, []string{"wider than the fabric"}},
		"a file that is not there": {[]string{"log", "--lines", none}, []string{"none.txt", "Look at its name"}},
		"an empty file":            {[]string{"log", "--lines", empty}, []string{"no line of a purchase"}},
		"a fabric nobody knows":    {[]string{"log", "--line", moss, "--line", "Fern; 1 m"}, []string{"Line 2 (Fern)", "--width"}},
		"no rate":                  {[]string{"rate", "dear"}, []string{"1 USD = 0.92 EUR"}},
		"a rate to forget":         {[]string{"rate", "1 USD = 1 EUR", "--forget"}, []string{"No rate"}},
		"a period back to front":   {[]string{"purchases", "--from", "2026-03-02", "--to", "2026-03-01"}, []string{"earlier day first"}},
		"a day of text":            {[]string{"purchases", "--from", "March"}, []string{"2026-03-15"}},
	} {
		t.Run(name, func(t *testing.T) {
			d.t = t
			d.refused(verb.Mistyped, c.words, c.args...)
			var left []map[string]any
			if d.answer(&left, "list", "cloth"); len(left) > 0 {
				t.Errorf("%d cloths afterwards", len(left))
			}
		})
	}
}
