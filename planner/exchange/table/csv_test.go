package table_test

import (
	"bytes"
	"context"
	"encoding/csv"
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"
	"unicode/utf16"

	"tallycloth/planner/exchange/table"
	"tallycloth/stash"
	"tallycloth/stash/list"

	"pgregory.net/rapid"
)

func read(t *testing.T, data string) table.Book {
	t.Helper()
	b, err := table.Read(context.Background(), []byte(data), table.Options{})
	if err != nil {
		t.Fatalf("%q: %v", data, err)
	}
	return b
}

func texts(t list.Table) [][]string {
	var out [][]string
	for _, r := range t.Rows {
		row := make([]string, len(r))
		for k, c := range r {
			row[k] = c.Text
		}
		out = append(out, row)
	}
	return out
}

func same(a, b [][]string) bool { return slices.EqualFunc(a, b, slices.Equal[[]string]) }

// TestExamplesOfRFC4180: the examples of RFC 4180, section 2, by the number of their rule.
func TestExamplesOfRFC4180(t *testing.T) {
	two := [][]string{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}}
	for _, c := range []struct {
		rule, text string
		want       [][]string
	}{
		{"1", "aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n", two},
		{"2", "aaa,bbb,ccc\r\nzzz,yyy,xxx", two},
		{"3", "field_name,field_name,field_name\r\naaa,bbb,ccc\r\nzzz,yyy,xxx\r\n", append([][]string{{"field_name", "field_name", "field_name"}}, two...)},
		{"4", "aaa,bbb,ccc", two[:1]},
		{"5", "\"aaa\",\"bbb\",\"ccc\"\r\nzzz,yyy,xxx", two},
		{"6", "\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx", [][]string{{"aaa", "b\nbb", "ccc"}, two[1]}},
		{"7", "\"aaa\",\"b\"\"bb\",\"ccc\"", [][]string{{"aaa", `b"bb`, "ccc"}}},
	} {
		if got := read(t, c.text); !same(texts(got.Table), c.want) || got.Comma != ',' {
			t.Errorf("rule %s: %q, parted by %q", c.rule, texts(got.Table), got.Comma)
		}
	}
}

// TestTextAsPeopleSaveIt: other delimiters, line breaks, a sep line, blank lines, inches.
func TestTextAsPeopleSaveIt(t *testing.T) {
	for _, c := range []struct {
		text  string
		comma rune
		lines []int
		want  [][]string
	}{
		{"Stoff;Länge;Preis\nMoos;1,25;12,50\nFarn;2,5;8,00\n", ';', nil, [][]string{{"Stoff", "Länge", "Preis"}, {"Moos", "1,25", "12,50"}, {"Farn", "2,5", "8,00"}}},
		{"fabric\tlength\rmoss\t2, about\r", '\t', nil, [][]string{{"fabric", "length"}, {"moss", "2, about"}}},
		{"a|b\nc|d\n", '|', nil, [][]string{{"a", "b"}, {"c", "d"}}},
		{"sep=;\r\na,b;c\r\n", ';', []int{2}, [][]string{{"a,b", "c"}}},
		{"SEP=,\nx;y,z\n", ',', []int{2}, [][]string{{"x;y", "z"}}},
		{"fabric,width\n\n,,\nmoss,60\"\n", ',', []int{1, 4}, [][]string{{"fabric", "width"}, {"moss", `60"`}}},
		{"a,\"x\ny\"\nb,c\n", ',', []int{1, 3}, [][]string{{"a", "x\ny"}, {"b", "c"}}},
		{"a, \"b, c\" ,d,,\n", ',', nil, [][]string{{"a", "b, c", "d"}}},
		{"only one column\nmoss\n", ',', nil, [][]string{{"only one column"}, {"moss"}}},
	} {
		got := read(t, c.text)
		if !same(texts(got.Table), c.want) || got.Comma != c.comma {
			t.Errorf("%q: %q, parted by %q", c.text, texts(got.Table), got.Comma)
		}
		if c.lines != nil && !slices.Equal(got.Table.Lines, c.lines) {
			t.Errorf("%q stands in the lines %v", c.text, got.Table.Lines)
		}
	}
}

// windows1252 are the signs of the bytes 0x80 to 0x9F in the index windows-1252 of the
// WHATWG Encoding Standard; above, byte and code point are the same. Five bytes stand
// there for control characters, which no text has: 81, 8D, 8F, 90, 9D.
const windows1252 = "€\u0081‚ƒ„…†‡ˆ‰Š‹Œ\u008dŽ\u008f\u0090‘’“”•–—˜™š›œ\u009džŸ"

func TestWindows1252(t *testing.T) {
	index := []rune(windows1252)
	for b := 0x80; b <= 0xff; b++ {
		want := rune(b)
		if b < 0xa0 {
			want = index[b-0x80]
		}
		got := read(t, "name,x\nn"+string([]byte{byte(b)})+"m,y\n")
		text := got.Table.Rows[1][0].Text
		if got.Encoding != "Windows-1252" {
			t.Errorf("%#x is read as %s", b, got.Encoding)
		}
		if want > 0x9f {
			if text != "n"+string(want)+"m" || len(got.Warnings) > 0 {
				t.Errorf("%#x is read as %q, want %q", b, text, want)
			}
		} else if text != "n\ufffdm" || len(got.Warnings) != 1 || !strings.Contains(got.Warnings[0], "Line 2") {
			t.Errorf("%#x is read as %q, with %q", b, text, got.Warnings)
		}
	}
}

func utf16Of(s string, big bool) string {
	var out []byte
	for _, u := range utf16.Encode([]rune("\ufeff" + s)) {
		if big {
			out = append(out, byte(u>>8), byte(u))
		} else {
			out = append(out, byte(u), byte(u>>8))
		}
	}
	return string(out)
}

func TestEncodings(t *testing.T) {
	const text = "Stoff\tFarbe\nMaschenstoff „Löwe“ 🧵\tgrün\n"
	want := [][]string{{"Stoff", "Farbe"}, {"Maschenstoff „Löwe“ 🧵", "grün"}}
	for _, c := range []struct{ data, encoding string }{
		{text, "UTF-8"}, {"\ufeff" + text, "UTF-8"}, {utf16Of(text, false), "UTF-16"}, {utf16Of(text, true), "UTF-16"},
	} {
		if got := read(t, c.data); !same(texts(got.Table), want) || got.Encoding != c.encoding || len(got.Warnings) > 0 {
			t.Errorf("%q as %s: %q", c.data, got.Encoding, texts(got.Table))
		}
	}
	mixed := read(t, "fabric,colour\nM\xf6we,wei\xdf\nLöwe,gelb\n")
	if !same(texts(mixed.Table), [][]string{{"fabric", "colour"}, {"Möwe", "weiß"}, {"Löwe", "gelb"}}) || len(mixed.Warnings) != 1 || !strings.Contains(mixed.Warnings[0], "line 3") {
		t.Errorf("%q, %q", texts(mixed.Table), mixed.Warnings)
	}
}

// TestRefusedFiles: each with a sentence that says what is wrong, and one what to do.
func TestRefusedFiles(t *testing.T) {
	small := table.DefaultLimits()
	small.Bytes, small.Rows, small.Columns, small.Cell = 2000, 5, 3, 20
	for name, c := range map[string]struct {
		data, want string
		limits     table.Limits
	}{
		"empty":             {" \n\t", "empty", table.Limits{}},
		"only marks":        {",,,\n,,\n", "Nothing is written", table.Limits{}},
		"cut in a row":      {"a,b,c\n1,2,3\n4,5,6\n7,8", "last line, 4, breaks off after 2 of 3 cells", table.Limits{}},
		"cut in a quote":    {"a,b\n1,\"two\n", "begins in line 2 never ends", table.Limits{}},
		"cut in a letter":   {utf16Of("a,b\n", false)[:7], "middle of a letter", table.Limits{}},
		"half a pair":       {"\xff\xfe\x00\xd8a\x00", "UTF-16", table.Limits{}},
		"a picture":         {"\x89PNG\r\n\x1a\n\x00\x00", "no text", table.Limits{}},
		"for printing":      {"%PDF-1.7\n", "printing", table.Limits{}},
		"an older workbook": {"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1", "older kind", table.Limits{}},
		"too large":         {strings.Repeat("a,b\n", 600), "more than", small},
		"too many rows":     {strings.Repeat("a,b\n", 6), "more than 5 rows", small},
		"too many columns":  {"a,b,c\na,b,c,d\n", "Line 2 has 4 columns", small},
		"too long a cell":   {"a,b\n" + strings.Repeat("x", 21) + ",b\n", "characters", small},
	} {
		_, err := table.Read(context.Background(), []byte(c.data), table.Options{Limits: c.limits})
		var own *stash.Error
		if !errors.As(err, &own) || !strings.Contains(own.What, c.want) || own.Do == "" {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// TestShortLastLine: rows that differ anyway only make the program warn.
func TestShortLastLine(t *testing.T) {
	if b := read(t, "My stash\na,b,c\n1,2,3\n4"); len(b.Warnings) != 1 || !strings.Contains(b.Warnings[0], "4") {
		t.Errorf("%q", b.Warnings)
	}
	if b := read(t, "a,b,c\n1,2,3\n4\n"); len(b.Warnings) != 0 || len(b.Table.Rows) != 3 {
		t.Errorf("a last line that ends is whole: %+v", b)
	}
}

func TestReadStops(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	for _, data := range [][]byte{[]byte("a,b\n"), written(t, "xlsx", list.TableOf(many(2000)))} {
		if _, err := table.Read(ctx, data, table.Options{}); !errors.Is(err, context.Canceled) {
			t.Errorf("%v", err)
		}
	}
}

func many(n int) [][]string {
	out := make([][]string, n)
	for i := range out {
		out[i] = []string{fmt.Sprint("fabric ", i), "x"}
	}
	return out
}

// signs are the signs that begin a formula (OWASP, CSV Injection: = + - @, tab and
// carriage return, and their full-width forms), as texts that a person may have typed.
var signs = []string{"=1+1", "+49 30 1234", "-5", "@home", "\t=1", "\r=1", "\n=1", "＝1+1", "＋1", "－1", "＠x", " =1+1", "\u00a0=1", "'=1", "''=1", "=HYPERLINK(\"x\")", `=cmd|' /C calc'!A0`}

// anyText draws what may stand in a cell.
var anyText = rapid.Custom(func(t *rapid.T) string {
	return rapid.OneOf(rapid.SampledFrom(signs), rapid.SampledFrom([]string{"", "moss", "1,5", "a;b|c", `60"`, `"`, "two\nlines", "3/4/2026", "_x0041_", "_x0041_x0001_", "_xD800_", "_x005F_", "\ue0f1", "\v", "a\x01b"}),
		rapid.StringMatching(`[=+@ '",;\t|a-z0-9äЖ🧵_x-]{0,12}`), rapid.String()).Draw(t, "text")
})

func isBlank(s string) bool { return strings.TrimSpace(s) == "" }

// TestNoFormulaInCSV: whatever stands in a table, no cell of its CSV file begins with a
// sign that makes a formula, another reader (encoding/csv, RFC 4180) finds the same
// rows, and Read takes the apostrophes off again.
func TestNoFormulaInCSV(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rows := rapid.SliceOfN(rapid.SliceOfN(anyText, 3, 3), 1, 6).Draw(t, "rows")
		rows = append([][]string{{"fabric", "colour", "notes"}}, rows...)
		comma := rapid.Bool().Draw(t, "comma")
		var file bytes.Buffer
		if err := table.WriteCSV(&file, list.TableOf(rows), table.CSV{Comma: comma}); err != nil {
			t.Fatal(err)
		}
		other := csv.NewReader(strings.NewReader(strings.TrimPrefix(file.String(), "\ufeff")))
		if comma {
			other.Comma = ';'
		}
		got, err := other.ReadAll()
		if err != nil || len(got) != len(rows) {
			t.Fatalf("%d rows, %v, in %q", len(got), err, file.String())
		}
		for i, r := range got {
			for k, cell := range r {
				if bare := strings.TrimLeft(cell, " \u00a0"); bare != "" && strings.ContainsRune("=+-@\t\r\n＝＋－＠", []rune(bare)[0]) {
					t.Errorf("the cell %q begins a formula", cell)
				}
				// That reader makes one line break of \r\n.
				if want := strings.ReplaceAll(rows[i][k], "\r\n", "\n"); cell != want && cell != "'"+want {
					t.Errorf("%q is written as %q", want, cell)
				}
			}
		}
		sameCells(t, rows, file.Bytes())
	})
}

// sameCells reads a file back and compares with what was written. A workbook keeps each line
// break as it is, the reader of CSV makes one of \r\n.
func sameCells(t *rapid.T, rows [][]string, file []byte) {
	breaks := strings.NewReplacer("\r\n", "\n")
	if bytes.HasPrefix(file, []byte("PK")) {
		breaks = strings.NewReplacer()
	}
	b, err := table.Read(context.Background(), file, table.Options{})
	for _, r := range rows {
		if strings.Contains(strings.Join(r, ""), "\x00") && !bytes.HasPrefix(file, []byte("PK")) {
			return // such a file is no text
		}
	}
	if err != nil {
		t.Fatalf("%v, of %q", err, rows)
	}
	n := 0
	for _, r := range rows {
		if isBlank(strings.Join(r, "")) {
			continue
		}
		if n == len(b.Table.Rows) {
			t.Fatalf("%q is missing", r)
		}
		for k, want := range r {
			got := ""
			if k < len(b.Table.Rows[n]) {
				got = b.Table.Rows[n][k].Text
			}
			if want = breaks.Replace(strings.ToValidUTF8(want, "\ufffd")); got != want && !(isBlank(got) && isBlank(want)) {
				t.Errorf("%q comes back as %q", want, got)
			}
		}
		n++
	}
}

// TestNumbersInCSV: numbers and days stay what they are; what only claims to be one is a text.
func TestNumbersInCSV(t *testing.T) {
	row := []list.Cell{{Text: "-2.5", Kind: list.Number}, {Text: "1.125", Kind: list.Number}, {Text: "2026-03-02", Kind: list.Day},
		{Text: "1.250 KWD", Kind: list.Amount}, {Text: "=1", Kind: list.Number}, {Text: "=1", Kind: list.Day}, {Text: "-1+1", Kind: list.Amount}, {Text: "1.5"}}
	for comma, want := range map[bool]string{
		false: "\ufeff-2.5,1.125,2026-03-02,1.250 KWD,'=1,'=1,'-1+1,1.5\r\n",
		true:  "\ufeff-2,5;1,125;2026-03-02;1,250 KWD;'=1;'=1;'-1+1;1.5\r\n",
	} {
		var file bytes.Buffer
		if err := table.WriteCSV(&file, list.Table{Rows: [][]list.Cell{row}}, table.CSV{Comma: comma}); err != nil || file.String() != want {
			t.Errorf("%q, %v", file.String(), err)
		}
	}
}
