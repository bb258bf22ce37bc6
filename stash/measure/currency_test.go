package measure_test

import (
	"encoding/csv"
	"fmt"
	"os"
	"strconv"
	"strings"
	"testing"

	"tallycloth/stash/measure"

	"pgregory.net/rapid"
)

// listOne reads the minor units of ISO 4217 list one; -1 where it says that there are none.
func listOne(t testing.TB) map[string]int {
	t.Helper()
	f, err := os.Open("testdata/iso4217.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil || len(rows) < 170 {
		t.Fatalf("%d rows, %v", len(rows), err)
	}
	out := map[string]int{}
	for _, row := range rows[1:] {
		n, err := strconv.Atoi(row[1])
		if err != nil {
			n = -1
		}
		out[row[0]] = n
	}
	return out
}

// TestMinorUnitsOfListOne: every currency of ISO 4217 list one (published 2024-06-25) has
// its minor units, those withdrawn since included; what has none is no currency.
func TestMinorUnitsOfListOne(t *testing.T) {
	for code, want := range listOne(t) {
		got, ok := measure.MinorDigits(code)
		if ok != (want >= 0) || ok && got != want {
			t.Errorf("%s has %d decimals (%v), the list says %d", code, got, ok, want)
		}
	}
	// The Caribbean guilder, for the Antillean one withdrawn in March 2025, came after that day.
	if got, ok := measure.MinorDigits("XCG"); !ok || got != 2 {
		t.Errorf("XCG: %d, %v", got, ok)
	}
	for _, code := range []string{"", "eur", "EURO", "QQQ", "E", "€"} {
		if _, ok := measure.MinorDigits(code); ok {
			t.Errorf("%q counts as a currency code", code)
		}
	}
	for _, code := range []string{"DEM", "HRK", "ITL"} { // ISO 4217 list three: withdrawn
		if _, ok := measure.MinorDigits(code); !ok {
			t.Errorf("%s on an old receipt is refused", code)
		}
	}
}

// Amounts are printed and read by the minor units of their currency: the figures stand for
// the same count of minor units.
func TestMoneyByMinorUnits(t *testing.T) {
	for _, c := range []struct {
		text string
		want measure.Money
		back string
	}{
		{"1234 JPY", measure.Money{Minor: 1234, Currency: "JPY"}, "1234 JPY"},
		{"1,234 JPY", measure.Money{Minor: 1234, Currency: "JPY"}, "1234 JPY"},
		{"1.234 KWD", measure.Money{Minor: 1234, Currency: "KWD"}, "1.234 KWD"},
		{"1.2 KWD", measure.Money{Minor: 1200, Currency: "KWD"}, "1.200 KWD"},
		{"1.2345 CLF", measure.Money{Minor: 12345, Currency: "CLF"}, "1.2345 CLF"},
		{"0.0001 CLF", measure.Money{Minor: 1, Currency: "CLF"}, "0.0001 CLF"},
		{"12.50 RSD", measure.Money{Minor: 1250, Currency: "RSD"}, "12.50 RSD"},
		{"3 500 ISK", measure.Money{Minor: 3500, Currency: "ISK"}, "3500 ISK"},
	} {
		got, err := measure.ParseMoney(c.text, "EUR")
		if err != nil || got != c.want || got.String() != c.back {
			t.Errorf("%q: %+v, %q, %v", c.text, got, got, err)
		}
	}
	for text, says := range map[string]string{
		"12.5 JPY":   "has none",
		"1.2345 KWD": "more than 3 decimals",
		"12 QQQ":     "the three letters of its ISO 4217 code",
		"12 XAU":     "no currency",
	} {
		if _, err := measure.ParseMoney(text, "EUR"); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%q: %v, want %q", text, err, says)
		}
	}
}

// Any amount in any currency of the list reads back as itself.
func TestMoneyReadsBackInEveryCurrency(t *testing.T) {
	var codes []string
	for code, n := range listOne(t) {
		if n >= 0 {
			codes = append(codes, code)
		}
	}
	rapid.Check(t, func(rt *rapid.T) {
		m := measure.Money{Minor: rapid.Int64Range(0, 1e12).Draw(rt, "minor"), Currency: rapid.SampledFrom(codes).Draw(rt, "code")}
		if back, err := measure.ParseMoney(m.String(), "EUR"); err != nil || back != m {
			rt.Fatalf("%+v is written %q, which reads %+v, %v", m, m, back, err)
		}
	})
}

func TestParseCurrency(t *testing.T) {
	for _, c := range []struct{ text, usual, want string }{
		{"eur", "USD", "EUR"}, {" € ", "USD", "EUR"}, {"$", "CAD", "CAD"}, {"$", "EUR", "USD"}, {"kwd", "EUR", "KWD"}, {"CLF", "EUR", "CLF"},
	} {
		if got, err := measure.ParseCurrency(c.text, c.usual); err != nil || got != c.want {
			t.Errorf("%q: %q, %v", c.text, got, err)
		}
	}
	for _, text := range []string{"", "euro", "XXX", "QQQ", "12", strings.Repeat("x", 500)} {
		if _, err := measure.ParseCurrency(text, "EUR"); err == nil || !strings.Contains(fmt.Sprint(err), "such as EUR") {
			t.Errorf("%q: %v", text, err)
		}
	}
}
