package stash_test

import (
	"encoding/json"
	"errors"
	"strings"
	"testing"

	"tallycloth/stash"
	"tallycloth/stash/measure"

	"pgregory.net/rapid"
)

func TestParseRate(t *testing.T) {
	for text, want := range map[string]string{
		"1 USD = 0.92 EUR":     "1 USD = 0.92 EUR",
		"usd 0,92":             "1 USD = 0.92 EUR",
		"USD = 0.92":           "1 USD = 0.92 EUR",
		"1 EUR = 163.5 JPY":    "1 EUR = 163.5 JPY",
		"100 JPY = 0.61 EUR":   "1 JPY = 0.0061 EUR",
		"1 KWD=3 eur":          "1 KWD = 3 EUR",
		"  1 £ = 1.17 € ":      "1 GBP = 1.17 EUR",
		"1 IDR = 0.000057 EUR": "1 IDR = 0.000057 EUR",
	} {
		r, err := stash.ParseRate(text, "EUR", "2026-03-01")
		if err != nil || r.String() != want || r.Typed != "2026-03-01" || r.Validate() != nil {
			t.Errorf("%q: %v, %v; want %s", text, r, err, want)
			continue
		}
		if again, err := stash.ParseRate(r.String(), "SEK", r.Typed); err != nil || again != r {
			t.Errorf("%s reads back as %v, %v", r, again, err)
		}
	}
	for _, text := range []string{"", "USD", "0.92", "1 USD = EUR", "1 QQQ = 2 EUR", "1 USD = 0 EUR", "0 USD = 1 EUR", "1 EUR = 1 EUR", "1 USD = -2 EUR", "1 USD = 1.2.3 EUR",
		"1 USD = 99999999999999999999 EUR", "1 USD = 2 QQQ", strings.Repeat("9", 70) + " USD = 1 EUR"} {
		if r, err := stash.ParseRate(text, "EUR", "2026-03-01"); !errors.Is(err, stash.ErrInvalid) || !strings.Contains(err.Error(), "1 USD = 0.92 EUR") {
			t.Errorf("%q: %v, %v", text, r, err)
		}
	}
}

func FuzzParseRate(f *testing.F) {
	f.Add("1 USD = 0.92 EUR")
	f.Add("100 ¥ 0,61")
	f.Fuzz(func(t *testing.T, text string) {
		r, err := stash.ParseRate(text, "EUR", "2026-03-01")
		if err != nil {
			if !errors.Is(err, stash.ErrInvalid) {
				t.Errorf("%q: %v", text, err)
			}
			return
		}
		if again, err := stash.ParseRate(r.String(), "SEK", r.Typed); err != nil || again != r {
			t.Errorf("%q is %s, which reads %v, %v", text, r, again, err)
		}
	})
}

// Amounts worked out by hand: the decimals of both currencies count.
func TestConvert(t *testing.T) {
	for _, c := range []struct {
		rate string
		from measure.Money
		want measure.Money
	}{
		{"1 USD = 0.92 EUR", measure.Money{Minor: 1000, Currency: "USD"}, measure.Money{Minor: 920, Currency: "EUR"}},
		{"1 USD = 0.92 EUR", measure.Money{Minor: 920, Currency: "EUR"}, measure.Money{Minor: 1000, Currency: "USD"}},
		{"1 EUR = 163.5 JPY", measure.Money{Minor: 1635, Currency: "JPY"}, measure.Money{Minor: 1000, Currency: "EUR"}},
		{"1 KWD = 3 EUR", measure.Money{Minor: 1500, Currency: "KWD"}, measure.Money{Minor: 450, Currency: "EUR"}},
		{"1 CLF = 36.5 EUR", measure.Money{Minor: 10_000, Currency: "CLF"}, measure.Money{Minor: 3650, Currency: "EUR"}},
		{"1 USD = 0.5 EUR", measure.Money{Minor: 1, Currency: "USD"}, measure.Money{Minor: 1, Currency: "EUR"}}, // half a cent up
	} {
		r, err := stash.ParseRate(c.rate, "EUR", "2026-03-01")
		if err != nil {
			t.Fatal(err)
		}
		if got, ok := r.Convert(c.from); !ok || got != c.want {
			t.Errorf("%v at %s: %v, want %v", c.from, c.rate, got, c.want)
		}
	}
	r, _ := stash.ParseRate("1 USD = 0.92 EUR", "EUR", "2026-03-01")
	if _, ok := r.Convert(measure.Money{Minor: 1, Currency: "SEK"}); ok {
		t.Error("a rate of dollars and euros converts crowns")
	}
}

func TestJoin(t *testing.T) {
	usd, _ := stash.ParseRate("1 USD = 0.9 EUR", "EUR", "2026-01-01")
	later, _ := stash.ParseRate("1 EUR = 1.25 USD", "EUR", "2026-02-01")
	totals := measure.Totals(euro(500), measure.Money{Minor: 1000, Currency: "USD"}, euro(250), measure.Money{Minor: 7, Currency: "JPY"}, measure.Money{})
	if len(totals) != 3 || totals[0] != euro(750) || totals[1].Currency != "JPY" || totals[2].Minor != 1000 {
		t.Fatalf("totals %v", totals)
	}
	j := stash.Join(totals, "EUR", []stash.Rate{usd, later})
	if j.Total != euro(750+800) || len(j.Used) != 1 || j.Used[0] != later || len(j.Missing) != 1 || j.Missing[0] != "JPY" {
		t.Errorf("joined %+v", j)
	}
	if j := stash.Join(totals[:1], "EUR", nil); j.Total != euro(750) || len(j.Used) > 0 || len(j.Missing) > 0 {
		t.Errorf("one currency alone: %+v", j)
	}
}

func TestRates(t *testing.T) {
	usd, _ := stash.ParseRate("1 USD = 0.9 EUR", "EUR", "2026-01-01")
	later, _ := stash.ParseRate("1 EUR = 1.25 USD", "EUR", "2026-02-01")
	sek, _ := stash.ParseRate("1 SEK = 0.09 EUR", "EUR", "2026-01-03")
	s := stash.Rates{}.With(usd).With(sek).With(later)
	if got := s.List(); len(got) != 2 || got[0] != later || got[1] != sek {
		t.Errorf("rates %v", got)
	}
	doc, err := json.Marshal(s)
	var back stash.Rates
	if err := errors.Join(err, json.Unmarshal(doc, &back)); err != nil || back != s {
		t.Errorf("%s reads back as %v, %v", doc, back.List(), err)
	}
	if s.Without("USD", "EUR").Without("SEK", "EUR") != (stash.Rates{}) {
		t.Error("a set without its rates is not empty")
	}
	if err := json.Unmarshal([]byte(`[{"Unit":"QQQ","Value":1,"In":"EUR","Typed":"2026-01-01"}]`), &back); err == nil {
		t.Error("a rate of no currency was read")
	}
}

// There and back again is the same amount but for rounding: half a unit there is worth at
// most half its rate in the other, and half a unit of its own.
func TestConvertBack(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		r := stash.Rate{Unit: "USD", In: "EUR", Value: rapid.Int64Range(stash.OneRate/10, stash.OneRate*10).Draw(rt, "rate"), Typed: "2026-01-01"}
		m := measure.Money{Minor: rapid.Int64Range(0, 1e10).Draw(rt, "minor"), Currency: "USD"}
		there, _ := r.Convert(m)
		back, ok := r.Convert(there)
		most := (stash.OneRate/2)/r.Value + 2
		if d := back.Minor - m.Minor; !ok || d < -most || d > most {
			rt.Fatalf("%v is %v at %s, which is %v", m, there, r, back)
		}
	})
}
