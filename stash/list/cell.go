package list

import "strings"

// CellKind says what a cell is where the file knows it.
type CellKind byte

// The kinds of cell.
const (
	Words  CellKind = iota // as it was typed
	Number                 // digits with a decimal point, nothing to decide
	Day                    // 2006-01-02, nothing to decide
	Amount                 // digits with a decimal point, a blank and a currency
)

// Cell is one cell of a table.
type Cell struct {
	Text string
	Kind CellKind
}

// Table is rows of cells; rows may differ in length.
type Table struct {
	Name string // of the sheet, or ""
	Rows [][]Cell
	// Lines are the lines of the file where rows begin, from 1; nil where each row is a line.
	Lines []int
}

// TableOf makes a table of plain texts.
func TableOf(rows [][]string) Table {
	t := Table{Rows: make([][]Cell, len(rows))}
	for i, r := range rows {
		t.Rows[i] = make([]Cell, len(r))
		for k, s := range r {
			t.Rows[i][k].Text = s
		}
	}
	return t
}

// Line returns the line of the file where a row begins.
func (t Table) Line(row int) int {
	if row < len(t.Lines) {
		return t.Lines[row]
	}
	return row + 1
}

// At returns the cell of a row and column, trimmed; the empty Cell outside.
func (t Table) At(row, column int) Cell {
	if row < 0 || row >= len(t.Rows) || column < 0 || column >= len(t.Rows[row]) {
		return Cell{}
	}
	c := t.Rows[row][column]
	c.Text = strings.TrimSpace(c.Text)
	return c
}

// Width returns how many columns the longest row has.
func (t Table) Width() int {
	n := 0
	for _, r := range t.Rows {
		n = max(n, len(r))
	}
	return n
}

// empty says whether nothing is written in a row.
func (t Table) empty(row int) bool {
	for k := range t.Rows[row] {
		if t.At(row, k).Text != "" {
			return false
		}
	}
	return true
}
