package list

import (
	"math/rand/v2"
	"strings"
	"testing"

	"golang.org/x/text/language"
	"golang.org/x/text/message"
	"pgregory.net/rapid"
)

func TestPlainNumbers(t *testing.T) {
	for _, c := range []struct {
		in   string
		dec  Decimal
		want string
		open bool
	}{
		{"1,25 m", Undecided, "1.25 m", false},
		{"1.25", Comma, "1.25", false},
		{"1.234,50 €", Undecided, "1234.50 €", false},
		{"1,234.50", Undecided, "1234.50", false},
		{"1 234,5", Undecided, "1234.5", false},
		{"1'234.50", Undecided, "1234.50", false},
		{"1\u202f234\u202f567", Undecided, "1234567", false},
		{"1.234.567", Undecided, "1234567", false},
		{"1.250", Undecided, "1.250", true},
		{"1.250", Point, "1.250", false},
		{"1.250", Comma, "1250", false},
		{"1,250", Point, "1250", false},
		{"0,250", Undecided, "0.250", false},
		{"1 1/4 yd", Undecided, "1 1/4 yd", false},
		{"1 125/1000 yd", Undecided, "1 125/1000 yd", false},
		{"1 yd 9 in", Undecided, "1 yd 9 in", false},
		{"1.2.3", Undecided, "1.2.3", false},
		{"12,34,567", Undecided, "12,34,567", false},
		{"45 in.", Undecided, "45 in.", false},
		{"", Undecided, "", false},
	} {
		if got, open := plainNumbers(c.in, c.dec); got != c.want || open != c.open {
			t.Errorf("%q with %q: %q, %v; want %q, %v", c.in, c.dec, got, open, c.want, c.open)
		}
	}
}

// TestNumbersOfLocales writes numbers as golang.org/x/text/message does for a locale
// (Unicode CLDR) and reads a column of them back.
func TestNumbersOfLocales(t *testing.T) {
	for _, tag := range []language.Tag{language.English, language.German, language.French, language.Italian, language.Dutch, language.Swedish,
		language.Polish, language.BrazilianPortuguese, language.MustParse("de-CH"), language.MustParse("de-AT"), language.BritishEnglish} {
		p := message.NewPrinter(tag)
		var column []string
		var want []string
		r := rand.New(rand.NewPCG(4, 217))
		for range 200 {
			v := float64(r.IntN(40_000_000)) / 100
			column = append(column, p.Sprintf("%.2f", v))
			want = append(want, message.NewPrinter(language.Und).Sprintf("%.2f", v))
		}
		var e evidence
		for _, s := range column {
			e.look(s)
		}
		for i, s := range column {
			got, open := plainNumbers(s, e.decimal())
			if plain := strings.ReplaceAll(want[i], ",", ""); got != plain || open {
				t.Errorf("%s: %q is read as %q, not %q", tag, s, got, plain)
			}
		}
	}
}

func TestDays(t *testing.T) {
	for _, c := range []struct {
		in    string
		order Order
		want  string
		open  bool
	}{
		{"2026-03-02", "", "2026-03-02", false}, {"2026/3/2", "", "2026-03-02", false}, {"20260302", "", "2026-03-02", false},
		{"2026-03-02T10:00:00", "", "2026-03-02", false},
		{"2.3.2026", "", "2026-03-02", false}, {"2. 3. 26", "", "2026-03-02", false}, {"2.3.2026", MonthFirst, "2026-03-02", false},
		{"2/3/2026", DayFirst, "2026-03-02", false}, {"2/3/2026", MonthFirst, "2026-02-03", false}, {"2/3/2026", "", "2026-03-02", true},
		{"13/3/2026", "", "2026-03-13", false}, {"3/13/2026", "", "2026-03-13", false}, {"3/3/26", "", "2026-03-03", false}, {"3/13/26", DayFirst, "", false},
		{"2 March 2026", "", "2026-03-02", false}, {"2nd of March, 2026", "", "2026-03-02", false}, {"March 2, 2026", "", "2026-03-02", false}, {"2-Mar-26", "", "2026-03-02", false},
		{"2. März 2026", "", "2026-03-02", false}, {"1er août 2025", "", "2025-08-01", false}, {"29.2.2024", "", "2024-02-29", false}, {"29.2.2025", "", "", false},
		{"1/1/99", DayFirst, "1999-01-01", false}, {"2 Smarch 2026", "", "", false}, {"", "", "", false},
	} {
		got, open, err := readDay(c.in, c.order, "2026-05-04")
		if string(got) != c.want || (err == nil) != (c.want != "") || open != c.open {
			t.Errorf("%q %s: %q, %v, %v", c.in, c.order, got, open, err)
		}
	}
}

func TestEscapedParts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		parts := rapid.SliceOfN(rapid.StringMatching(`[a-z,;|=\\]([a-z ,;|=\\]*[a-z,;|=\\])?`), 1, 4).Draw(t, "parts")
		cells := make([]string, len(parts))
		for i, p := range parts {
			cells[i] = escaped(p, ",")
		}
		got := splitEscaped(strings.Join(cells, ", "), ',')
		if strings.Join(got, "\x00") != strings.Join(parts, "\x00") {
			t.Fatalf("%q became %q", parts, got)
		}
	})
}
