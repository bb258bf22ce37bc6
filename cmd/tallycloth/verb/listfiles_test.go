package verb_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf16"
)

// savedAs is a text as spreadsheet programs save it: by the name of the encoding.
func savedAs(text string) map[string][]byte {
	wide := func(big bool) []byte {
		var out []byte
		for _, u := range utf16.Encode([]rune("\ufeff" + text)) {
			if big {
				out = append(out, byte(u>>8), byte(u))
			} else {
				out = append(out, byte(u), byte(u>>8))
			}
		}
		return out
	}
	var narrow []byte // the Euro sign is 0x80 in the index windows-1252 of the WHATWG Encoding Standard
	for _, r := range text {
		if r == '€' {
			r = 0x80
		}
		narrow = append(narrow, byte(r))
	}
	return map[string][]byte{"UTF-8": []byte(text), "UTF-8 with mark": []byte("\ufeff" + text), "UTF-16, low byte first": wide(false), "UTF-16, high byte first": wide(true), "Windows-1252": narrow}
}

// From the file to the shelf, in each encoding.
func TestImportInEveryEncoding(t *testing.T) {
	const text = "Stoff;Breite;Länge;Preis;Kaufdatum;Ort\nGrüne Köperwäsche;150 cm;1,25 m;12,50 €;03.02.2026;Gästezimmer\n"
	for name, data := range savedAs(text) {
		d := newDesk(t)
		file := filepath.Join(t.TempDir(), "liste.csv")
		if err := os.WriteFile(file, data, 0o600); err != nil {
			t.Fatal(err)
		}
		if said := d.done("import", file, "--write"); !strings.Contains(said, "1") {
			t.Errorf("%s: %s", name, said)
		}
		cloth := d.done("list", "cloth", "--json")
		for _, want := range []string{"Grüne Köperwäsche", "Gästezimmer", "1250", "1500"} {
			if !strings.Contains(cloth, want) {
				t.Errorf("%s: the shelf lacks %s: %s", name, want, cloth)
			}
		}
		if bought := d.done("purchases"); !strings.Contains(bought, "12.50 EUR") {
			t.Errorf("%s: bought is %s", name, bought)
		}
	}
}

// A file that broke off, and a day that cannot be: a sentence each, and nothing is written.
func TestImportOfBrokenFiles(t *testing.T) {
	const head = "fabric,width,length,bought on,notes\nmoss jersey,150 cm,1 m,2026-02-03,soft\n"
	for name, c := range map[string]struct {
		data string
		says []string
	}{
		"cut in a quoted cell": {head + "fog terry,170 cm,2 m,2026-02-03,\"a long no", []string{"begins in line 3 never ends", "again"}},
		"cut in a row":         {head + "fog terry,170 cm,2 m,2026-02-03,dry\nslate ponte,14", []string{"line, 4, breaks off after 2 of 5 cells"}},
		"a day that cannot be": {head + "fog terry,170 cm,2 m,31.02.2026,dry\n", []string{"ine 3", "no day 31", "ebruary 2026"}},
	} {
		d := newDesk(t)
		file := filepath.Join(t.TempDir(), "list.csv")
		if err := os.WriteFile(file, []byte(c.data), 0o600); err != nil {
			t.Fatal(err)
		}
		r := d.run("import", file, "--write")
		if r.code == 0 {
			t.Errorf("%s: it was brought in", name)
		}
		for _, want := range c.says {
			if !strings.Contains(r.err+r.out, want) {
				t.Errorf("%s: it says %q, not %q", name, r.err+r.out, want)
			}
		}
		if left := d.run("list", "cloth", "--json"); strings.Contains(left.out, "moss") {
			t.Errorf("%s: half of it was brought in: %s", name, left.out)
		}
	}
}
