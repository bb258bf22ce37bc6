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
