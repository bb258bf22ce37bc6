package stash_test

import (
	"errors"
	"os"
	"strings"
	"testing"

	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// tableRows reads a table of testdata without comments and heading.
func tableRows(t *testing.T, name, sep string) [][]string {
	t.Helper()
	b, err := os.ReadFile("../testdata/" + name)
	if err != nil {
		t.Fatal(err)
	}
	var out [][]string
	for line := range strings.Lines(string(b)) {
		if line = strings.TrimSpace(line); line != "" && !strings.HasPrefix(line, "#") {
			out = append(out, strings.Split(line, sep))
		}
	}
	if len(out) < 2 {
		t.Fatalf("%s has no rows", name)
	}
	return out[1:]
}

func TestParseFibres(t *testing.T) {
	for _, row := range tableRows(t, "fibres/labels.csv", "|") {
		got, err := stash.ParseFibres(row[0])
		if err != nil || got.String() != row[1] {
			t.Errorf("%q: %q, %v; want %q", row[0], got, err, row[1])
		}
	}
	if got, err := stash.ParseFibres("  "); got != nil || err != nil {
		t.Errorf("nothing said: %v, %v", got, err)
	}
}

func TestParseFibresRefuses(t *testing.T) {
	for text, want := range map[string]string{
		"92% cotton 5% elastane":          "reach 97 %, 3 % is missing",
		"95% cotton 10% elastane":         "reach 105 %, 5 % too much",
		"95% cotton 5%":                   "Every fibre needs a share",
		"95% cotton elastane":             "Every fibre needs a share",
		"95% unobtainium 5% elastane":     `"unobtainium" is not a fibre`,
		"100 % cottn":                     `"cottn" is not a fibre`,
		"-5% cotton 105% wool":            "share of more than zero",
		"0% cotton 100% wool":             "share of more than zero",
		"1.2.3% cotton":                   "not a percent",
		"99999999999999% cotton":          "not a percent",
		"100% cotton ☂":                   `"☂" is not a fibre`,
		strings.Repeat("cotton ", 100):    "too long",
		"33% cotton 33% wool 33% viscose": "reach 99 %, 1 % is missing",
	} {
		got, err := stash.ParseFibres(text)
		if !errors.Is(err, stash.ErrInvalid) || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v, %v; want %q", text, got, err, want)
		}
	}
}

func TestFibreShare(t *testing.T) {
	f, err := stash.ParseFibres("80% nylon 20% spandex")
	if err != nil {
		t.Fatal(err)
	}
	for name, want := range map[string]measure.Percent{"elastane": 2000, "spandex": 2000, "Polyamid": 8000, "cotton": 0, "straw": 0} {
		if got := f.Share(name); got != want {
			t.Errorf("%s: %d, want %d", name, got, want)
		}
	}
}

func FuzzParseFibres(f *testing.F) {
	for _, s := range []string{"95% cotton 5% elastane", "60/40 cotton/linen", "92,5 % Viskose; 7,5 % Elasthan", "cotton", "-5% wool", "%", "100 % ☂"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		got, err := stash.ParseFibres(text)
		if err != nil {
			if !errors.Is(err, stash.ErrInvalid) {
				t.Fatalf("%q: %v is not a plain refusal", text, err)
			}
			return
		}
		if err := got.Validate(); err != nil {
			t.Fatalf("%q reads as %v: %v", text, got, err)
		}
		if back, err := stash.ParseFibres(got.String()); err != nil || back.String() != got.String() {
			t.Fatalf("%q is written %q, reads back as %q, %v", text, got, back, err)
		}
	})
}
