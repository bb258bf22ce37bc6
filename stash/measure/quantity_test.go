package measure_test

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"tallycloth/stash/measure"

	"pgregory.net/rapid"
)

// rows reads a table of testdata/units without its comments and heading.
func rows(t *testing.T, name string) [][]string {
	t.Helper()
	f, err := os.Open("../../testdata/units/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	all, err := r.ReadAll()
	if err != nil || len(all) < 2 {
		t.Fatalf("%s: %d rows, %v", name, len(all), err)
	}
	return all[1:]
}

// TestUnitDefinitions reads one of each unit and compares with NIST SP 811,
// appendix B (testdata/units/nist_sp811.csv).
func TestUnitDefinitions(t *testing.T) {
	for _, row := range rows(t, "nist_sp811.csv") {
		factor, err := strconv.ParseFloat(row[2], 64)
		if err != nil {
			t.Fatal(err)
		}
		var got, step float64
		if row[1] == "m" {
			l, err := measure.ParseLength("1 "+row[0], cm)
			if err != nil {
				t.Fatal(err)
			}
			got, step = float64(l)/float64(m), 1e-6
			if row[3] == "exact" && math.Round(factor*1e6) != float64(l) {
				t.Errorf("1 %s is %d µm, want %v m exactly", row[0], l, factor)
			}
		} else {
			w, err := measure.ParseWeight("1 "+row[0], measure.Metric)
			if err != nil {
				t.Fatal(err)
			}
			got, step = float64(w)/float64(measure.GramPerSquareMetre), 1e-3
		}
		if math.Abs(got-factor) > step/2 {
			t.Errorf("1 %s is %v %s, want %v", row[0], got, row[1], factor)
		}
	}
}

func TestYardageFractions(t *testing.T) {
	for _, row := range rows(t, "yardage_fractions.csv") {
		a, errA := measure.ParseLength(row[0], yd)
		b, errB := measure.ParseLength(row[1], in)
		if errA != nil || errB != nil || a != b {
			t.Errorf("%s yd is %d, %s in is %d (%v, %v)", row[0], a, row[1], b, errA, errB)
		}
	}
}

func TestParsePercent(t *testing.T) {
	for text, want := range map[string]measure.Percent{
		"12.5 %": 1250, "12,5": 1250, "5": 500, "-5%": -500, "−5 %": -500, "2 1/2 %": 250, "½ %": 50,
		"5 percent": 500, "100%": 10000, "0": 0, "1000": 100000, "33.333": 3333,
	} {
		if got, err := measure.ParsePercent(text); err != nil || got != want {
			t.Errorf("%q: %d, %v; want %d", text, got, err, want)
		}
	}
	for _, text := range []string{"", "%", "a lot", "1001 %", "5 % 5", "1/0 %", "NaN", "--5", "5 cm"} {
		if got, err := measure.ParsePercent(text); err == nil || !strings.Contains(err.Error(), "such as 40 %") {
			t.Errorf("%q: %d, %v; want it refused with an example", text, got, err)
		}
	}
}

func FuzzParsePercent(f *testing.F) {
	for _, s := range []string{"12.5 %", "-5", "2 1/2 %", "1/0", "NaN"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		p, err := measure.ParsePercent(text)
		if err != nil {
			return
		}
		if back, err := measure.ParsePercent(measure.FormatPercent(p)); err != nil || back != p {
			t.Fatalf("%q reads as %d, is written %q, reads back as %d, %v", text, p, measure.FormatPercent(p), back, err)
		}
	})
}

// TestParseWeight: 6.1 oz/yd² is 206.82 g/m² and 100 g/m² is 2.95 oz/yd² in published
// worked examples of fabric weight conversion.
func TestParseWeight(t *testing.T) {
	for _, c := range []struct {
		text string
		bare measure.System
		want measure.Weight
	}{
		{"150 g/m²", measure.Imperial, 150_000},
		{"150 g/m2", measure.Imperial, 150_000},
		{"150gsm", measure.Imperial, 150_000},
		{"150", measure.Metric, 150_000},
		{"162,5 gsm", measure.Metric, 162_500},
		{"6.1 oz/yd²", measure.Metric, 206_825},
		{"6.1 oz", measure.Metric, 206_825},
		{"6.1", measure.Imperial, 206_825},
		{"4 1/2 oz/sq yd", measure.Metric, 152_576},
		{"1 oz/yd2", measure.Metric, 33_906},
	} {
		if got, err := measure.ParseWeight(c.text, c.bare); err != nil || got != c.want {
			t.Errorf("%q: %d, %v; want %d", c.text, got, err, c.want)
		}
	}
	for _, text := range []string{"", "0", "-3 gsm", "heavy", "150 kg", "10001 gsm", "0.0001 gsm", "NaN"} {
		if got, err := measure.ParseWeight(text, measure.Metric); err == nil || !strings.Contains(err.Error(), "such as 150 g/m²") {
			t.Errorf("%q: %d, %v; want it refused with an example", text, got, err)
		}
	}
	if got := measure.FormatWeight(206_825, measure.Metric); got != "207 g/m²" {
		t.Errorf("metric: %q", got)
	}
	if got := measure.FormatWeight(100_000, measure.Imperial); got != "2.9 oz/yd²" { // 2.949
		t.Errorf("imperial: %q", got)
	}
	if got := measure.FormatWeight(0, measure.Metric); got != "" {
		t.Errorf("not known: %q", got)
	}
}

func FuzzParseWeight(f *testing.F) {
	for _, s := range []string{"150 gsm", "4 1/2 oz/yd²", "0", "NaN", "1/0 oz"} {
		f.Add(s, false)
	}
	f.Fuzz(func(t *testing.T, text string, imperial bool) {
		sys := measure.Metric
		if imperial {
			sys = measure.Imperial
		}
		w, err := measure.ParseWeight(text, sys)
		if err != nil {
			return
		}
		if back, err := measure.ParseWeight(measure.ExactWeight(w), sys); err != nil || back != w {
			t.Fatalf("%q reads as %d, is written %q, reads back as %d, %v", text, w, measure.ExactWeight(w), back, err)
		}
	})
}

// TestMinorDigits: decimals as ISO 4217 lists them.
func TestMinorDigits(t *testing.T) {
	for code, want := range map[string]int{"EUR": 2, "USD": 2, "JPY": 0, "KWD": 3, "BHD": 3, "CLP": 0, "GBP": 2} {
		if got, ok := measure.MinorDigits(code); !ok || got != want {
			t.Errorf("%s: %d, %v; want %d", code, got, ok, want)
		}
	}
	for _, code := range []string{"", "eur", "EURO", "QQQ"} {
		if _, ok := measure.MinorDigits(code); ok {
			t.Errorf("%q counts as a currency", code)
		}
	}
}

func TestParseMoney(t *testing.T) {
	for _, c := range []struct {
		text, bare string
		want       measure.Money
	}{
		{"12.50", "EUR", measure.Money{Minor: 1250, Currency: "EUR"}},
		{"12,50", "EUR", measure.Money{Minor: 1250, Currency: "EUR"}},
		{"12,5", "EUR", measure.Money{Minor: 1250, Currency: "EUR"}},
		{"12", "EUR", measure.Money{Minor: 1200, Currency: "EUR"}},
		{"€12.50", "USD", measure.Money{Minor: 1250, Currency: "EUR"}},
		{"$5", "CAD", measure.Money{Minor: 500, Currency: "CAD"}},
		{"$5", "EUR", measure.Money{Minor: 500, Currency: "USD"}},
		{"12.50 gbp", "EUR", measure.Money{Minor: 1250, Currency: "GBP"}},
		{"1,234.50", "USD", measure.Money{Minor: 123450, Currency: "USD"}},
		{"1.234,50 €", "USD", measure.Money{Minor: 123450, Currency: "EUR"}},
		{"1 234,50", "SEK", measure.Money{Minor: 123450, Currency: "SEK"}},
		{"1,234", "USD", measure.Money{Minor: 123400, Currency: "USD"}},
		{"1,234", "KWD", measure.Money{Minor: 1234, Currency: "KWD"}},
		{"1500", "JPY", measure.Money{Minor: 1500, Currency: "JPY"}},
		{".50", "EUR", measure.Money{Minor: 50, Currency: "EUR"}},
		{"0", "EUR", measure.Money{Currency: "EUR"}},
	} {
		if got, err := measure.ParseMoney(c.text, c.bare); err != nil || got != c.want {
			t.Errorf("%q: %v, %v; want %v", c.text, got, err, c.want)
		}
	}
	for _, text := range []string{"", "EUR", "-5", "5 QQQ", "1.2345", "1,23,456", "1.2.3", "12 34", "free", "1,234,56", "99999999999999999999"} {
		if got, err := measure.ParseMoney(text, "EUR"); err == nil || !strings.Contains(err.Error(), "such as 12.50") {
			t.Errorf("%q: %v, %v; want it refused with an example", text, got, err)
		}
	}
	if got := (measure.Money{Minor: -5, Currency: "EUR"}).String(); got != "-0.05 EUR" {
		t.Errorf("negative: %q", got)
	}
}

func FuzzParseMoney(f *testing.F) {
	for _, s := range []string{"12.50", "€1.234,50", "1 234,50 SEK", "5 QQQ", "-1", "1,234"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		got, err := measure.ParseMoney(text, "EUR")
		if err != nil {
			return
		}
		if back, err := measure.ParseMoney(got.String(), "USD"); err != nil || back != got {
			t.Fatalf("%q reads as %v, is written %q, reads back as %v, %v", text, got, got.String(), back, err)
		}
	})
}

// TestSplit checks that shares always sum to the whole, differ from the exact
// share by less than one minor unit, and grow with their weight.
func TestSplit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		total := rapid.Int64Range(-1_000_000_000, 1_000_000_000).Draw(t, "total")
		weights := rapid.SliceOfN(rapid.Int64Range(0, 1_000_000), 1, 8).Draw(t, "weights")
		sum, of := int64(0), int64(0)
		for _, w := range weights {
			of += w
		}
		shares := measure.Money{Minor: total, Currency: "EUR"}.Split(weights)
		for i, s := range shares {
			sum += s.Minor
			if exact := float64(total) * float64(weights[i]) / float64(of); of > 0 && math.Abs(float64(s.Minor)-exact) >= 1 {
				t.Fatalf("share %d of %d is %d, exactly %v", i, total, s.Minor, exact)
			}
		}
		if sum != total {
			t.Fatalf("shares of %d sum to %d", total, sum)
		}
	})
	if got := (measure.Money{Minor: 10, Currency: "EUR"}).Split([]int64{1, 1, 1}); got[0].Minor != 4 || got[1].Minor != 3 || got[2].Minor != 3 {
		t.Errorf("10 over three alike: %v", got)
	}
	if got := (measure.Money{Minor: 9}).Split(nil); len(got) != 0 {
		t.Errorf("over nobody: %v", got)
	}
}
