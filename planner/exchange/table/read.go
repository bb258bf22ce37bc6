package table

import (
	"bytes"
	"context"
	"fmt"
	"strings"

	"tallycloth/stash"
	"tallycloth/stash/list"
)

// Limits keep a file from taking the program's time and memory.
type Limits struct {
	Bytes    int64 // of the file
	Unpacked int64 // of a workbook, all its parts
	Rows     int   // that something is written in
	Columns  int
	Cell     int // characters of one cell
}

// DefaultLimits are far above what a list of fabrics needs. A cell of a workbook holds
// 32 767 characters (ECMA-376 part 1, 18.3.1.96, and the programs that write it); an
// outline in CSV may be longer.
func DefaultLimits() Limits {
	return Limits{Bytes: 64 << 20, Unpacked: 512 << 20, Rows: list.MostRows, Columns: 300, Cell: 400_000}
}

// Options say how a file is read.
type Options struct {
	Limits Limits // DefaultLimits where zero
	Sheet  string // of a workbook; "" is the first with anything in it
}

// Book is what was read.
type Book struct {
	Table    list.Table
	Sheets   []string // of a workbook, in order
	Encoding string   // of text: UTF-8, UTF-16 or Windows-1252
	Comma    rune     // the delimiter of text
	Warnings []string // sentences
}

func refused(do, what string, args ...any) error {
	return &stash.Error{Kind: stash.Invalid, What: fmt.Sprintf(what, args...), Do: do}
}

// Read reads a whole file of comma separated values or a workbook (.xlsx). The error is
// a *stash.Error that says what is wrong with the file and what to do.
func Read(ctx context.Context, data []byte, o Options) (Book, error) {
	if o.Limits == (Limits{}) {
		o.Limits = DefaultLimits()
	}
	switch {
	case len(bytes.TrimSpace(data)) == 0:
		return Book{}, refused("Choose another file", "The file is empty")
	case int64(len(data)) > o.Limits.Bytes:
		return Book{}, refused("Split it into several files", "The file has %d MB, more than %d", len(data)>>20, o.Limits.Bytes>>20)
	case bytes.HasPrefix(data, []byte("\xd0\xcf\x11\xe0")):
		return Book{}, refused("Open it in your spreadsheet program and save it as .xlsx without a password, or as CSV", "This is a workbook of an older kind, or one with a password")
	case bytes.HasPrefix(data, []byte("PK\x03\x04")), bytes.HasPrefix(data, []byte("PK\x05\x06")):
		return readWorkbook(ctx, data, o)
	case bytes.HasPrefix(data, []byte("%PDF")):
		return Book{}, refused("Save the list as .xlsx or CSV where it was made", "This is a document for printing, not a list")
	}
	return readText(ctx, data, o.Limits)
}

// checkRow refuses what is over the limits.
func (l Limits) checkRow(line, rows int, cells []list.Cell) error {
	if rows > l.Rows {
		return refused("Split it into several files", "The list has more than %d rows", l.Rows)
	}
	if n := len(trimmed(cells)); n > l.Columns {
		return refused("Take out what is not about fabrics", "Line %d has %d columns, more than %d", line, n, l.Columns)
	}
	for _, c := range cells {
		if len(c.Text) > l.Cell {
			return refused("Look whether a quotation mark is missing", "A cell of line %d has %d characters, more than %d", line, len(c.Text), l.Cell)
		}
	}
	return nil
}

// trimmed leaves out the cells at the end of a row that nothing is written in.
func trimmed(row []list.Cell) []list.Cell {
	for len(row) > 0 && strings.TrimSpace(row[len(row)-1].Text) == "" {
		row = row[:len(row)-1]
	}
	return row
}
