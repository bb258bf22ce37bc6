package table

import (
	"archive/zip"
	"bufio"
	"bytes"
	"fmt"
	"io"
	"regexp"
	"strconv"
	"strings"
	"time"
	"unicode/utf16"
	"unicode/utf8"

	"tallycloth/stash/list"

	"github.com/xuri/excelize/v2"
)

// CSV says how a table is written as text.
type CSV struct {
	// Comma writes decimal commas and semicolons between cells, for spreadsheet programs
	// set to a language that does so; else points and commas.
	Comma bool
}

// WriteCSV writes a table as RFC 4180 has it, in UTF-8 with a byte order mark, so that
// spreadsheet programs know the encoding. Texts that could become formulas have an
// apostrophe before them.
func WriteCSV(w io.Writer, t list.Table, o CSV) error {
	b := bufio.NewWriter(w)
	b.WriteString("\ufeff")
	delimiter := byte(',')
	if o.Comma {
		delimiter = ';'
	}
	for _, row := range t.Rows {
		for k, c := range row {
			if k > 0 {
				b.WriteByte(delimiter)
			}
			b.WriteString(csvCell(c, delimiter, o.Comma))
		}
		b.WriteString("\r\n")
	}
	if err := b.Flush(); err != nil {
		return fmt.Errorf("writing a list: %w", err)
	}
	return nil
}

func csvCell(c list.Cell, delimiter byte, comma bool) string {
	s := c.Text
	switch {
	case c.Kind == list.Number && bareNumber.MatchString(s), c.Kind == list.Amount && amount.MatchString(s):
		if comma {
			s = strings.Replace(s, ".", ",", 1)
		}
	case c.Kind == list.Day && isDay(s):
	default:
		s = guarded(s)
	}
	if strings.ContainsAny(s, "\"\r\n"+string(delimiter)) || s != strings.TrimSpace(s) {
		s = `"` + strings.ReplaceAll(s, `"`, `""`) + `"`
	}
	return s
}

// bareNumber is what a cell of numbers holds; whatever else stands in one is a text.
var (
	bareNumber = regexp.MustCompile(`^-?[0-9]+(\.[0-9]+)?$`)
	amount     = regexp.MustCompile(`^[0-9]+(\.[0-9]+)? [A-Z]{3}$`)
)

func isDay(s string) bool {
	_, err := time.Parse(time.DateOnly, s)
	return err == nil
}

// WriteFiles writes tables as a packed folder (.zip) with a CSV file for each, named
// after it.
func WriteFiles(w io.Writer, tables []list.Table, o CSV) error {
	z := zip.NewWriter(w)
	for _, t := range tables {
		to, err := z.Create(FileName(t) + ".csv")
		if err != nil {
			return fmt.Errorf("packing lists: %w", err)
		}
		if err := WriteCSV(to, t, o); err != nil {
			return err
		}
	}
	if err := z.Close(); err != nil {
		return fmt.Errorf("packing lists: %w", err)
	}
	return nil
}

// WriteAs writes tables in the form that the ending of a file's name says: .xlsx as a
// workbook, .zip as CSV files in one, .csv the first of them alone.
func WriteAs(w io.Writer, ending string, tables []list.Table, o CSV) error {
	switch strings.ToLower(ending) {
	case ".xlsx":
		return WriteXLSX(w, tables)
	case ".zip":
		return WriteFiles(w, tables, o)
	case ".csv":
		return WriteCSV(w, tables[0], o)
	}
	return refused("End the name in .xlsx for a workbook, .zip for CSV files in one, or .csv for the stash alone", "%q is no ending of a list", ending)
}

// FileName is a table's name as that of a file, without an ending.
func FileName(t list.Table) string {
	return strings.ReplaceAll(strings.ToLower(t.Name), " ", "-")
}

// longestCell is how many characters, of 16 bits each, a cell of a workbook holds.
const longestCell = 32_767

// WriteXLSX writes tables as the sheets of a workbook: numbers as numbers, days as days,
// texts as texts that are never taken for formulas. The first row of each is its heading.
func WriteXLSX(w io.Writer, tables []list.Table) error {
	f := excelize.NewFile()
	defer f.Close()
	b := book{File: f}
	if err := b.prepare(); err != nil {
		return fmt.Errorf("writing a workbook: %w", err)
	}
	for i, t := range tables {
		if t.Name == "" {
			t.Name = fmt.Sprintf("Sheet %d", i+1)
		}
		if err := b.sheet(i, t); err != nil {
			return fmt.Errorf("writing the sheet %s: %w", t.Name, err)
		}
	}
	if err := b.write(w); err != nil {
		return fmt.Errorf("writing a workbook: %w", err)
	}
	return nil
}

// book is a workbook while it is written.
type book struct {
	*excelize.File
	day, head int  // styles
	escaped   bool // some text has escapes to settle
}

func (b *book) prepare() (err error) {
	if err := b.SetDocProps(&excelize.DocProperties{Creator: "Tallycloth", LastModifiedBy: "Tallycloth"}); err != nil {
		return err
	}
	format := "yyyy-mm-dd"
	if b.day, err = b.NewStyle(&excelize.Style{CustomNumFmt: &format}); err != nil {
		return err
	}
	b.head, err = b.NewStyle(&excelize.Style{Font: &excelize.Font{Bold: true}, Alignment: &excelize.Alignment{WrapText: true, Vertical: "top"}})
	return err
}

func (b *book) write(w io.Writer) error {
	if !b.escaped {
		return b.Write(w)
	}
	var plain bytes.Buffer
	if err := b.Write(&plain); err != nil {
		return err
	}
	return settleEscapes(w, plain.Bytes())
}

func (b *book) sheet(i int, t list.Table) error {
	if i == 0 {
		if err := b.SetSheetName(b.GetSheetName(0), t.Name); err != nil {
			return err
		}
	} else if _, err := b.NewSheet(t.Name); err != nil {
		return err
	}
	s, err := b.NewStreamWriter(t.Name)
	if err != nil {
		return err
	}
	for k, wide := range widths(t) {
		if err := s.SetColWidth(k+1, k+1, wide); err != nil {
			return err
		}
	}
	if err := s.SetPanes(&excelize.Panes{Freeze: true, YSplit: 1, TopLeftCell: "A2", ActivePane: "bottomLeft"}); err != nil {
		return err
	}
	for n, row := range t.Rows {
		if err := b.row(s, n, row); err != nil {
			return err
		}
	}
	return s.Flush()
}

func (b *book) row(s *excelize.StreamWriter, n int, row []list.Cell) (err error) {
	cells := make([]any, len(row))
	for k, c := range row {
		if cells[k], err = b.cell(c, n == 0); err != nil {
			return err
		}
	}
	at, err := excelize.CoordinatesToCellName(1, n+1)
	if err != nil {
		return err
	}
	return s.SetRow(at, cells)
}

func (b *book) cell(c list.Cell, heading bool) (any, error) {
	switch {
	case c.Text == "":
		return nil, nil
	case c.Kind == list.Number && bareNumber.MatchString(c.Text):
		if n, err := strconv.ParseFloat(c.Text, 64); err == nil {
			return n, nil
		}
	case c.Kind == list.Day:
		// The calendar of workbooks begins with 1900.
		if d, err := time.Parse(time.DateOnly, c.Text); err == nil && d.Year() > 1900 {
			return excelize.Cell{StyleID: b.day, Value: d}, nil
		}
	}
	text, escaped := storable(c.Text)
	if len(utf16.Encode([]rune(text))) > longestCell {
		return nil, refused("Export to CSV instead", "The cell that begins with %q has more characters than a workbook takes", string([]rune(c.Text)[:20]))
	}
	b.escaped = b.escaped || escaped
	out := excelize.Cell{Value: text}
	if heading {
		out.StyleID = b.head
	}
	return out, nil
}

// widths are widths of columns, by what stands in them, in letters.
func widths(t list.Table) []float64 {
	out := make([]float64, t.Width())
	for k := range out {
		out[k] = 9
		for i := range min(len(t.Rows), 300) {
			longest := 0
			for _, l := range strings.Split(t.At(i, k).Text, "\n") {
				longest = max(longest, utf8.RuneCountInString(l))
			}
			if i == 0 {
				longest = min(longest, 16) // headings wrap
			}
			out[k] = max(out[k], float64(min(longest, 44)+2))
		}
	}
	return out
}
