package table_test

import (
	"archive/zip"
	"bytes"
	"context"
	"errors"
	"io"
	"slices"
	"strings"
	"testing"

	"tallycloth/planner/exchange/table"
	"tallycloth/stash/list"

	"github.com/xuri/excelize/v2"
	"pgregory.net/rapid"
)

// written writes tables as "xlsx", "csv" or "zip".
func written(t testing.TB, kind string, tables ...list.Table) []byte {
	t.Helper()
	var b bytes.Buffer
	var err error
	switch kind {
	case "xlsx":
		err = table.WriteXLSX(&b, tables)
	case "zip":
		err = table.WriteFiles(&b, tables, table.CSV{})
	default:
		err = table.WriteCSV(&b, tables[0], table.CSV{})
	}
	if err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// TestNoFormulaInWorkbook: whatever stands in a table, no cell of its workbook has a
// formula, and every text comes back as it was.
func TestNoFormulaInWorkbook(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rows := rapid.SliceOfN(rapid.SliceOfN(anyText, 3, 3), 1, 5).Draw(t, "rows")
		rows = append([][]string{{"fabric", "colour", "notes"}}, rows...)
		var file bytes.Buffer
		if err := table.WriteXLSX(&file, []list.Table{list.TableOf(rows)}); err != nil {
			t.Fatal(err)
		}
		if x := part(t, file.Bytes(), "xl/worksheets/sheet1.xml"); strings.Contains(x, "<f") || strings.ContainsAny(x, "\ue0f1\ue0f2") {
			t.Errorf("%s", x)
		}
		sameCells(t, rows, file.Bytes())
	})
}

type failer interface{ Fatal(...any) }

// part unpacks one part of a workbook.
func part(t failer, file []byte, name string) string {
	z, err := zip.NewReader(bytes.NewReader(file), int64(len(file)))
	if err != nil {
		t.Fatal(err)
	}
	f, err := z.Open(name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	out, err := io.ReadAll(f)
	if err != nil {
		t.Fatal(err)
	}
	return string(out)
}

// TestEscapesOfXstring: the examples of ECMA-376 part 1, 22.9.2.19 (ST_Xstring), as they
// are stored, and texts beside each other that look like them.
func TestEscapesOfXstring(t *testing.T) {
	for text, stored := range map[string]string{
		"_x0008_":       "_x005F_x0008_", // its example of a literal
		"\b":            "_x0008_",       // its example of what XML cannot hold
		"_x0041_x0001_": "_x005F_x0041_x005F_x0001_",
		"_x005F_":       "_x005F_x005F_",
		"_xD800_":       "_x005F_xD800_",
		"_x00zz_":       "_x00zz_",
		"\ue0f1":        "_xE0F1_",
		"a\rb":          "a_x000D_b",
	} {
		file := written(t, "xlsx", list.TableOf([][]string{{text}}))
		if x := part(t, file, "xl/worksheets/sheet1.xml"); !strings.Contains(x, ">"+stored+"</t>") {
			t.Errorf("%q is stored in %s", text, x)
		}
		if b := read(t, string(file)); b.Table.Rows[0][0].Text != text {
			t.Errorf("%q comes back as %q", text, b.Table.Rows[0][0].Text)
		}
	}
}

// TestKindsOfCells: what a workbook stores is read as what it shows to a person: days in
// either calendar (ECMA-376 part 1, 18.17.4.1: 1900 and 1904), shares, units, numbers.
func TestKindsOfCells(t *testing.T) {
	for _, c := range []struct {
		value  any
		format string
		want   list.Cell
	}{
		{1.25, "", list.Cell{Text: "1.25"}},
		{"1,25", "", list.Cell{Text: "1,25"}},
		{thrice(1.1), "", list.Cell{Text: "3.3", Kind: list.Number}}, // stored as 3.3000000000000003
		{"1E5", "", list.Cell{Text: "1E5"}},
		{"12345678901234567890", "", list.Cell{Text: "12345678901234567890"}},
		{0.35, "0%", list.Cell{Text: "35 %", Kind: list.Number}},
		{0.125, "0.0%", list.Cell{Text: "12.5 %", Kind: list.Number}},
		{1234.5, "#,##0.00", list.Cell{Text: "1234.5", Kind: list.Number}},
		{1.5, `0.00" m"`, list.Cell{Text: "1.5 m", Kind: list.Number}},
		{12.5, `#,##0.00 "€"`, list.Cell{Text: "12.5 €", Kind: list.Number}},
		{39448, "yyyy-mm-dd", list.Cell{Text: "2008-01-01", Kind: list.Day}}, // its example in 18.17.4.1
		{39448, "d.m.yy", list.Cell{Text: "2008-01-01", Kind: list.Day}},
		{39448.75, "dd/mm/yyyy hh:mm", list.Cell{Text: "2008-01-01", Kind: list.Day}},
		{39448, "d mmmm yyyy", list.Cell{Text: "2008-01-01", Kind: list.Day}},
		{2.5, "", list.Cell{Text: "2.5"}},
		{"=SUM(1)", "", list.Cell{Text: "=SUM(1)"}},
	} {
		f := excelize.NewFile()
		must(t, f.SetCellValue("Sheet1", "A1", c.value))
		if c.format != "" {
			style, err := f.NewStyle(&excelize.Style{CustomNumFmt: &c.format})
			must(t, err)
			must(t, f.SetCellStyle("Sheet1", "A1", "A1", style))
		}
		if b := read(t, saved(t, f)); b.Table.Rows[0][0] != c.want {
			t.Errorf("%v shown as %q is read as %+v, not %+v", c.value, c.format, b.Table.Rows[0][0], c.want)
		}
	}
}

func thrice(v float64) float64 { return 3 * v }

func TestDaysSince1904(t *testing.T) {
	f := excelize.NewFile()
	yes, format := true, "yyyy-mm-dd"
	must(t, f.SetWorkbookProps(&excelize.WorkbookPropsOptions{Date1904: &yes}))
	style, err := f.NewStyle(&excelize.Style{CustomNumFmt: &format})
	must(t, err)
	// ECMA-376 part 1, 18.17.4.1: in this calendar 1 January 2008 has the number 37986.
	must(t, f.SetCellValue("Sheet1", "A1", 37986))
	must(t, f.SetCellStyle("Sheet1", "A1", "A1", style))
	if b := read(t, saved(t, f)); b.Table.Rows[0][0] != (list.Cell{Text: "2008-01-01", Kind: list.Day}) {
		t.Errorf("%+v", b.Table.Rows)
	}
}

func must(t testing.TB, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

func saved(t testing.TB, f *excelize.File) string {
	t.Helper()
	var b bytes.Buffer
	must(t, f.Write(&b))
	must(t, f.Close())
	return b.String()
}

// TestWhichSheet: the first with anything in it, or the one that was asked for.
func TestWhichSheet(t *testing.T) {
	f := excelize.NewFile()
	for _, name := range []string{"Stash", "Patterns"} {
		_, err := f.NewSheet(name)
		must(t, err)
		must(t, f.SetCellValue(name, "B3", name+" is here"))
	}
	must(t, f.SetCellFormula("Patterns", "A4", "1/0"))
	must(t, f.SetCellValue("Patterns", "B4", "#DIV/0!"))
	data := []byte(saved(t, f))
	b := read(t, string(data))
	if b.Table.Name != "Stash" || !slices.Equal(b.Sheets, []string{"Sheet1", "Stash", "Patterns"}) || b.Table.Rows[0][1].Text != "Stash is here" || b.Table.Line(0) != 3 {
		t.Errorf("%+v", b)
	}
	b, err := table.Read(context.Background(), data, table.Options{Sheet: "Patterns"})
	if err != nil || b.Table.Name != "Patterns" || len(b.Warnings) != 1 || !strings.Contains(b.Warnings[0], "Line 4") {
		t.Errorf("%+v, %v", b, err)
	}
	if _, err = table.Read(context.Background(), data, table.Options{Sheet: "Shelf"}); err == nil || !strings.Contains(err.Error(), "Stash") {
		t.Errorf("another sheet: %v", err)
	}
}

// TestWideFormatting: cells without a text to the end of the sheet are no columns.
func TestWideFormatting(t *testing.T) {
	f := excelize.NewFile()
	style, err := f.NewStyle(&excelize.Style{Font: &excelize.Font{Bold: true}})
	must(t, err)
	must(t, f.SetCellValue("Sheet1", "A1", "moss"))
	must(t, f.SetCellStyle("Sheet1", "A1", "XFD1", style))
	if b := read(t, saved(t, f)); len(b.Table.Rows[0]) != 1 {
		t.Errorf("%d cells", len(b.Table.Rows[0]))
	}
}

// TestWrittenCells: numbers and days are stored as such; the longest text a cell of a
// workbook takes has 32 767 characters of 16 bits.
func TestWrittenCells(t *testing.T) {
	row := []list.Cell{{Text: "-1.125", Kind: list.Number}, {Text: "2008-01-01", Kind: list.Day}, {Text: "1.250 KWD", Kind: list.Amount},
		{Text: "about 3", Kind: list.Number}, {Text: "1867-01-01", Kind: list.Day}, {Text: "007"}}
	file := written(t, "xlsx", list.Table{Name: "Stash", Rows: [][]list.Cell{{{Text: "a"}}, row}})
	f, err := excelize.OpenReader(bytes.NewReader(file))
	must(t, err)
	defer f.Close()
	for cell, want := range map[string]excelize.CellType{"A2": excelize.CellTypeUnset, "B2": excelize.CellTypeUnset, "C2": excelize.CellTypeInlineString,
		"D2": excelize.CellTypeInlineString, "E2": excelize.CellTypeInlineString, "F2": excelize.CellTypeInlineString} {
		if got, err := f.GetCellType("Stash", cell); err != nil || got != want {
			t.Errorf("%s is of type %d, %v", cell, got, err)
		}
	}
	b := read(t, string(file))
	if got := b.Table.Rows[1]; got[0].Text != "-1.125" || got[1] != (list.Cell{Text: "2008-01-01", Kind: list.Day}) || got[4].Text != "1867-01-01" || got[5].Text != "007" {
		t.Errorf("%+v", got)
	}
	long := strings.Repeat("🧵", 16_383)
	written(t, "xlsx", list.TableOf([][]string{{"a"}, {long + "x"}}))
	if err := table.WriteXLSX(io.Discard, []list.Table{list.TableOf([][]string{{"a"}, {long + "xy"}})}); err == nil || !strings.Contains(err.Error(), "CSV") {
		t.Errorf("too long a text: %v", err)
	}
}

func TestFilesInOne(t *testing.T) {
	file := written(t, "zip", list.Table{Name: "Stash", Rows: list.TableOf([][]string{{"a"}}).Rows}, list.Table{Name: "Ledger lines", Rows: list.TableOf([][]string{{"=b"}}).Rows})
	if got := part(t, file, "stash.csv") + part(t, file, "ledger-lines.csv"); got != "\ufeffa\r\n\ufeff'=b\r\n" {
		t.Errorf("%q", got)
	}
}

func TestEndings(t *testing.T) {
	tables := []list.Table{{Name: "Stash", Rows: list.TableOf([][]string{{"a"}}).Rows}, {Name: "Gone"}}
	for ending, begins := range map[string]string{".xlsx": "PK", ".ZIP": "PK", ".csv": "\ufeffa"} {
		var b bytes.Buffer
		if err := table.WriteAs(&b, ending, tables, table.CSV{}); err != nil || !strings.HasPrefix(b.String(), begins) {
			t.Errorf("%s: %q, %v", ending, b.String(), err)
		}
	}
	if err := table.WriteAs(io.Discard, ".ods", tables, table.CSV{}); err == nil || !strings.Contains(err.Error(), ".xlsx") {
		t.Errorf("%v", err)
	}
}

type full struct{ room int }

func (f *full) Write(p []byte) (int, error) {
	if f.room -= len(p); f.room < 0 {
		return 0, errors.New("no space left")
	}
	return len(p), nil
}

// TestNoSpaceLeft: a file that cannot be written whole is an error.
func TestNoSpaceLeft(t *testing.T) {
	tables := []list.Table{list.TableOf(append(many(3000), []string{"\b", ""}))}
	for name, write := range map[string]func(io.Writer) error{
		"csv":  func(w io.Writer) error { return table.WriteCSV(w, tables[0], table.CSV{}) },
		"xlsx": func(w io.Writer) error { return table.WriteXLSX(w, tables) },
		"zip":  func(w io.Writer) error { return table.WriteFiles(w, tables, table.CSV{}) },
	} {
		if err := write(&full{room: 2000}); err == nil || !strings.Contains(err.Error(), "no space left") {
			t.Errorf("%s: %v", name, err)
		}
	}
}
