package drawn

import (
	"fmt"
	"strconv"
	"strings"

	"tallycloth/stash"
)

// ParseRows reads pages row by row: "2 3 4 / 5 6 -", a dash for an empty place. Rows may stand on
// lines of their own. The error is a *stash.Error.
func ParseRows(text string) (rows [][]int, err error) {
	for _, line := range strings.FieldsFunc(text, func(r rune) bool { return r == '/' || r == '\n' || r == ';' }) {
		var row []int
		for _, w := range strings.FieldsFunc(line, func(r rune) bool { return r == ' ' || r == ',' || r == '\t' }) {
			n, err := strconv.Atoi(w)
			switch {
			case w == "-" || w == "–":
				n = 0
			case err != nil || n < 1 || n > 9999:
				return nil, &stash.Error{Kind: stash.Invalid, What: fmt.Sprintf("%q is no page", w), Do: "Write numbers of pages row by row, such as 2 3 4 / 5 6 7, and a dash for an empty place."}
			}
			row = append(row, n)
		}
		if len(row) > 0 {
			rows = append(rows, row)
		}
	}
	if len(rows) == 0 {
		return nil, &stash.Error{Kind: stash.Invalid, What: "no page is named", Do: "Write numbers of pages row by row, such as 2 3 4 / 5 6 7."}
	}
	return rows, nil
}

// FormatRows writes rows as ParseRows reads them.
func FormatRows(rows [][]int) string {
	lines := make([]string, len(rows))
	for i, row := range rows {
		words := make([]string, len(row))
		for k, n := range row {
			words[k] = strconv.Itoa(n)
			if n == 0 {
				words[k] = "-"
			}
		}
		lines[i] = strings.Join(words, " ")
	}
	return strings.Join(lines, " / ")
}

// Columns lays pages from first to last in rows of so many.
func Columns(first, last, columns int) (rows [][]int) {
	for n := first; n <= last; n++ {
		if (n-first)%columns == 0 {
			rows = append(rows, nil)
		}
		rows[len(rows)-1] = append(rows[len(rows)-1], n)
	}
	return rows
}

// PlaceOf is the row and the place in it of a page, from 0; ok is false where it is not among them.
func PlaceOf(rows [][]int, page int) (row, place int, ok bool) {
	for r := range rows {
		for c, n := range rows[r] {
			if n == page && n > 0 {
				return r, c, true
			}
		}
	}
	return 0, 0, false
}

// MovePage puts a page into a place, which may lie one row or place before the first or anywhere behind the
// last; a page that is there takes the place of the first. Empty rows and places at the edges go.
func MovePage(rows [][]int, page, row, place int) [][]int {
	r, c, ok := PlaceOf(rows, page)
	if !ok || row < -1 || place < -1 || row > mostPlaces || place > mostPlaces {
		return rows
	}
	high, wide := max(len(rows), row+1), place+1
	for _, line := range rows {
		wide = max(wide, len(line))
	}
	grid := make([][]int, high+1) // one before the first
	for i := range grid {
		grid[i] = make([]int, wide+1)
		if i > 0 && i <= len(rows) {
			copy(grid[i][1:], rows[i-1])
		}
	}
	grid[r+1][c+1], grid[row+1][place+1] = grid[row+1][place+1], page
	return trimmed(grid)
}

// mostPlaces a row may have, and rows there may be.
const mostPlaces = 400

// trimmed takes empty rows and places off the edges.
func trimmed(grid [][]int) (out [][]int) {
	first, last := len(grid[0]), -1
	top, low := len(grid), -1
	for r, line := range grid {
		for c, n := range line {
			if n > 0 {
				first, last, top, low = min(first, c), max(last, c), min(top, r), max(low, r)
			}
		}
	}
	for r := top; r <= low; r++ {
		out = append(out, grid[r][first:last+1])
	}
	return out
}
