package sheet_test

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"tallycloth/planner/exchange/sheet"
	"tallycloth/planner/scene"
)

// reportOf has a chart and a table of so many rows, some with words that go on beneath.
func reportOf(rows int) sheet.Report {
	t := sheet.Table{
		Columns: []sheet.Column{{Title: "When", Share: 2}, {Title: "What happened", Share: 5}, {Title: "Length", Share: 2, Right: true}},
		Totals:  [][]string{{"In all", "", "123.45 m"}},
	}
	for i := range rows {
		t.Rows = append(t.Rows, []string{fmt.Sprintf("line%04d", i), "cut for the garment with the very long name: Łódź, Ærø, and what was left of it was kept", "1.25 m"})
	}
	chart := scene.Chart{Unit: "m", Balance: true, Bars: []scene.Bar{{Name: "January", In: 3, Out: 1, There: 12}, {Name: "February", In: 0, Out: 2.5, There: 9.5}}}
	return sheet.Report{Title: "Movements", Notes: []string{"From 1 January 2026 to 31 December 2026."},
		Parts: []sheet.Part{{Heading: "Yardage", Lines: []string{"A sentence."}, Scene: chart.Scene()}, {Heading: "Lines", Table: t}}}
}

// pages reads a PDF with pdftotext (poppler-utils), an independent reader, page by page.
func pages(t *testing.T, pdf []byte) []string {
	t.Helper()
	return strings.Split(strings.TrimSuffix(poppler(t, "pdftotext", "-layout", writeFile(t, pdf), "-"), "\f"), "\f")
}

// TestReport: every row stands on a sheet once, in order, under the titles of its columns,
// with page numbers, and the total last; the words can be read back.
func TestReport(t *testing.T) {
	for name, paper := range map[string]sheet.Paper{"A4": sheet.A4, "Letter": sheet.Letter} {
		var b bytes.Buffer
		if err := printer(t).Report(&b, paper, reportOf(150)); err != nil {
			t.Fatal(err)
		}
		got := pages(t, b.Bytes())
		if len(got) < 4 {
			t.Fatalf("%s: %d pages", name, len(got))
		}
		row := 0
		for i, text := range got {
			if want := fmt.Sprintf("page %d of %d", i+1, len(got)); !strings.Contains(text, want) || !strings.Contains(text, "Movements") {
				t.Errorf("%s: page %d does not say %q:\n%s", name, i+1, want, text)
			}
			if strings.Contains(text, "line0") && !strings.Contains(text, "What happened") {
				t.Errorf("%s: page %d has rows without titles", name, i+1)
			}
			for _, line := range regexp.MustCompile(`line\d{4}`).FindAllString(text, -1) {
				if line != fmt.Sprintf("line%04d", row) {
					t.Fatalf("%s: page %d has %s, want %04d", name, i+1, line, row)
				}
				row++
			}
		}
		if row != 150 || !strings.Contains(got[len(got)-1], "123.45 m") {
			t.Errorf("%s: %d rows, the last page says\n%s", name, row, got[len(got)-1])
		}
		for _, want := range []string{"Yardage", "A sentence.", "In above the line", "There at the end", "February", "Łódź, Ærø"} {
			if !strings.Contains(got[0]+got[1], want) {
				t.Errorf("%s: the first pages do not say %q:\n%s", name, want, got[0])
			}
		}
		if info := poppler(t, "pdfinfo", writeFile(t, b.Bytes())); !strings.Contains(info, map[string]string{"A4": "595.276 x 841.89", "Letter": "612 x 792"}[name]) {
			t.Errorf("%s is on %s", name, info)
		}
	}
}

func writeFile(t *testing.T, data []byte) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "sheet.pdf")
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// A word wider than its column is cut, and an empty report is a sheet with its title.
func TestReportNarrow(t *testing.T) {
	r := sheet.Report{Title: "Narrow", Parts: []sheet.Part{{Table: sheet.Table{Columns: []sheet.Column{{Title: "A", Share: 1}, {Title: "B", Share: 40}},
		Rows: [][]string{{"Donaudampfschifffahrt", "x"}, {"", ""}, {"short"}}}}}}
	var b bytes.Buffer
	if err := printer(t).Report(&b, sheet.A4, r); err != nil {
		t.Fatal(err)
	}
	if text := strings.Join(strings.Fields(pages(t, b.Bytes())[0]), ""); !strings.Contains(text, "page1of1") || !strings.Contains(text, "D") {
		t.Errorf("it says %q", text)
	}
	b.Reset()
	if err := printer(t).Report(&b, sheet.A4, sheet.Report{Title: "Nothing"}); err != nil || !strings.Contains(pages(t, b.Bytes())[0], "Nothing") {
		t.Errorf("an empty report: %v", err)
	}
}
