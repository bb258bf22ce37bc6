package stash_test

import (
	"strings"
	"testing"

	"tallycloth/stash"

	"pgregory.net/rapid"
)

// TestCareSymbols: what people write for a symbol is taken for what it means, under its kind
// of treatment; every row writes itself so that it reads back.
func TestCareSymbols(t *testing.T) {
	seen := map[string]bool{}
	for _, row := range tableRows(t, "care/symbols.csv", "|") {
		seen[row[0]] = true
		c := stash.ParseCare(row[1])
		for _, k := range stash.Treatments() {
			want := ""
			if k.String() == row[0] {
				want = row[2]
			}
			if c.Says[k] != want {
				t.Errorf("%q says %q of %s", row[1], c.Says[k], k)
			}
		}
		if c.Other != "" || c.String() != row[2] {
			t.Errorf("%q became %q", row[1], c)
		}
	}
	if len(seen) != len(stash.Treatments()) {
		t.Errorf("the table tells of %d kinds of treatment", len(seen))
	}
}

// TestCareOrder: whatever the order, it is written in that of the standard; what is not known
// comes last and is kept.
func TestCareOrder(t *testing.T) {
	for text, want := range map[string]string{
		"dry flat; do not bleach, 30 °C, in a bag": "wash at 30 °C; do not bleach; dry flat; in a bag",
		"iron low, WASH BY HAND, 40 °C":            "wash by hand; iron at 110 °C; 40 °C",
		" ;, ":                                     "",
		"smells of the sea":                        "smells of the sea",
	} {
		if got := stash.ParseCare(text).String(); got != want {
			t.Errorf("%q became %q", text, got)
		}
	}
}

func TestCareReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var c stash.Care
		for _, k := range stash.Treatments() {
			if rapid.Bool().Draw(t, "said") {
				c.Says[k] = rapid.SampledFrom(stash.CareWords(k)).Draw(t, "word")
			}
		}
		if back := stash.ParseCare(c.String()); back != c {
			t.Fatalf("%q became %+v", c, back)
		}
	})
}

func FuzzCare(f *testing.F) {
	f.Add("30 °C, dried flat; do not bleach")
	f.Fuzz(func(t *testing.T, text string) {
		once := stash.ParseCare(text).String()
		if twice := stash.ParseCare(once).String(); twice != once {
			t.Errorf("%q became %q, then %q", text, once, twice)
		}
		for _, word := range strings.FieldsFunc(text, func(r rune) bool { return r == ',' || r == ';' || r == '\n' }) {
			if len(strings.Fields(word)) > 0 && once == "" {
				t.Errorf("%q was dropped from %q", word, text)
			}
		}
	})
}
