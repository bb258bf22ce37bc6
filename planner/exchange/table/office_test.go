package table_test

import (
	"encoding/csv"
	"encoding/xml"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"tallycloth/stash/list"
)

// officeRows are what may go wrong in a spreadsheet program: texts that look like
// formulas, numbers, days or escapes, and every kind of cell.
func officeRows() list.Table {
	t := list.Table{Name: "Stash", Rows: [][]list.Cell{{{Text: "fabric"}, {Text: "length (cm)"}, {Text: "bought on"}, {Text: "=notes"}}}}
	texts := append([]string{"moss", "“Löwe” 🧵", `60"`, "a, b; c", "two\nlines", "_x0041_", "_x0041_x0001_", "<b>&amp;", "'quoted'", "x=1", "  kept  "}, signs...)
	for i, s := range texts {
		row := []list.Cell{{Text: s}, {Text: []string{"150", "-2.5", "1.125"}[i%3], Kind: list.Number}, {Text: "2026-03-02", Kind: list.Day}, {Text: s}}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// convert runs the spreadsheet program of Debian's libreoffice-calc without a window, in a
// profile of its own, and returns what it wrote.
func convert(t *testing.T, file []byte, name string, args ...string) []byte {
	t.Helper()
	dir := t.TempDir()
	in := filepath.Join(dir, name)
	must(t, os.WriteFile(in, file, 0o600))
	out := filepath.Join(dir, "out")
	cmd := exec.Command("soffice", append([]string{"-env:UserInstallation=file://" + filepath.Join(dir, "profile"), "--headless", "--norestore"}, append(args, "--outdir", out, in)...)...)
	cmd.Env = append(os.Environ(), "HOME="+dir)
	if said, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("soffice (Debian package libreoffice-calc): %v\n%s", err, said)
	}
	made, err := filepath.Glob(filepath.Join(out, "*"))
	if err != nil || len(made) != 1 {
		t.Fatalf("soffice wrote %v, %v", made, err)
	}
	got, err := os.ReadFile(made[0])
	must(t, err)
	return got
}

// officeCell is a cell of a spreadsheet of OpenDocument 1.3, part 3, 9.1.4.
type officeCell struct {
	Formula  string   `xml:"formula,attr"`
	Type     string   `xml:"value-type,attr"`
	Value    string   `xml:"value,attr"`
	Day      string   `xml:"date-value,attr"`
	Repeated string   `xml:"number-columns-repeated,attr"`
	Lines    []string `xml:"p"`
}

func officeCells(t *testing.T, doc []byte) [][]officeCell {
	t.Helper()
	var d struct {
		Rows []struct {
			Cells []officeCell `xml:"table-cell"`
		} `xml:"body>spreadsheet>table>table-row"`
	}
	must(t, xml.Unmarshal(doc, &d))
	var out [][]officeCell
	for _, r := range d.Rows {
		out = append(out, r.Cells)
	}
	return out
}

// asImported are the choices for opening CSV: comma, quotation mark, UTF-8 and, so that
// as much as can be becomes a formula, numbers recognised and formulas evaluated.
const asImported = "--infilter=CSV:44,34,76,1,,1033,false,true,false,false,false,0,true"

// TestOpensInSpreadsheetProgram: what is written opens with the same cells, none of them
// a formula.
func TestOpensInSpreadsheetProgram(t *testing.T) {
	want := officeRows()
	for kind, args := range map[string][]string{"xlsx": nil, "csv": {asImported}} {
		doc := convert(t, written(t, kind, want), "list."+kind, append(args, "--convert-to", "fods")...)
		got := officeCells(t, doc)
		if len(got) < len(want.Rows) {
			t.Fatalf("%s: %d rows of %d", kind, len(got), len(want.Rows))
		}
		for i, row := range want.Rows {
			for k, c := range row {
				sameInOffice(t, kind, c, got[i][k])
			}
		}
	}
}

func sameInOffice(t *testing.T, kind string, want list.Cell, got officeCell) {
	t.Helper()
	text := strings.Join(got.Lines, "\n")
	switch {
	case got.Formula != "":
		t.Errorf("%s: %q became the formula %s", kind, want.Text, got.Formula)
	case want.Kind == list.Number:
		if got.Type != "float" || got.Value != want.Text {
			t.Errorf("%s: the number %s became %+v", kind, want.Text, got)
		}
	case want.Kind == list.Day:
		if got.Type != "date" || got.Day != want.Text {
			t.Errorf("%s: the day %s became %+v", kind, want.Text, got)
		}
	default:
		// In CSV the apostrophe that guards a text is seen.
		if got.Type != "string" || !alike(text, want.Text) && (kind != "csv" || !alike(text, "'"+want.Text)) {
			t.Errorf("%s: the text %q became %q of type %s", kind, want.Text, text, got.Type)
		}
	}
}

// alike compares texts but for blanks and line breaks, which the markup of a document
// keeps in elements of its own.
func alike(a, b string) bool {
	return slices.Equal(strings.Fields(spaced(a)), strings.Fields(spaced(b)))
}

// spaced sets blanks round apostrophes.
func spaced(s string) string { return strings.ReplaceAll(s, "'", " ' ") }

// TestComesBackFromSpreadsheetProgram: saved again as CSV by that program, with formulas
// shown as such, a workbook has the same cells; and its own workbook is read.
func TestComesBackFromSpreadsheetProgram(t *testing.T) {
	want := officeRows()
	text := convert(t, written(t, "xlsx", want), "list.xlsx", "--convert-to", "csv:Text - txt - csv (StarCalc):44,34,76,1,,1033,false,true,false,true")
	got, err := csv.NewReader(strings.NewReader(string(text))).ReadAll()
	must(t, err)
	for i, row := range want.Rows {
		for k, c := range row {
			if !alike(got[i][k], c.Text) {
				t.Errorf("%q became %q", c.Text, got[i][k])
			}
		}
	}
	again := convert(t, written(t, "csv", want), "list.csv", asImported, "--convert-to", "xlsx")
	b := read(t, string(again))
	for i, row := range want.Rows {
		for k, c := range row {
			if c.Text == "_x0041_x0001_" {
				continue // that program escapes the first of the two only
			}
			if text := b.Table.Rows[i][k].Text; !alike(text, c.Text) && !alike(text, "'"+c.Text) {
				t.Errorf("%q of its workbook is read as %q", c.Text, text)
			}
		}
	}
}
