package table

import (
	"context"
	"fmt"
	"strings"

	"tallycloth/stash/list"
)

// delimiters are what may stand between cells.
const delimiters = ",;\t|"

// readText reads delimited text.
func readText(ctx context.Context, data []byte, lim Limits) (Book, error) {
	text, encoding, warnings, err := decode(data)
	if err != nil {
		return Book{}, err
	}
	b := Book{Encoding: encoding, Warnings: warnings}
	first := 1
	if rest, ok := cutSep(text, &b.Comma); ok {
		text, first = rest, 2
	} else {
		b.Comma = delimiterOf(text)
	}
	s := &scanner{text: text, comma: byte(b.Comma), line: first}
	for s.more() {
		if len(b.Table.Rows)%1000 == 0 && ctx.Err() != nil {
			return Book{}, ctx.Err()
		}
		line := s.line
		row, err := s.row()
		if err != nil {
			return Book{}, err
		}
		if blank(row) {
			continue
		}
		b.Table.Rows, b.Table.Lines = append(b.Table.Rows, row), append(b.Table.Lines, line)
		if err := lim.checkRow(line, len(b.Table.Rows), row); err != nil {
			return Book{}, err
		}
	}
	if len(b.Table.Rows) == 0 {
		return Book{}, refused("Choose another file", "Nothing is written in the file")
	}
	if err := cutOff(&b, strings.HasSuffix(text, "\n") || strings.HasSuffix(text, "\r")); err != nil {
		return Book{}, err
	}
	for i, r := range b.Table.Rows {
		b.Table.Rows[i] = trimmed(r)
	}
	return b, nil
}

// cutSep takes a first line "sep=;" off, which some spreadsheet programs write.
func cutSep(text string, comma *rune) (string, bool) {
	if len(text) < 6 || !strings.EqualFold(text[:4], "sep=") || !strings.Contains(delimiters, text[4:5]) {
		return "", false
	}
	rest := strings.TrimPrefix(text[5:], "\r")
	if !strings.HasPrefix(rest, "\n") {
		return "", false
	}
	*comma = rune(text[4])
	return rest[1:], true
}

// cutOff refuses a list whose last line is shorter than all others, which are alike,
// and does not end: such a file was not written to its end.
func cutOff(b *Book, ended bool) error {
	rows := b.Table.Rows
	last := len(rows) - 1
	if ended || last < 1 {
		return nil
	}
	for _, r := range rows[:last] {
		if len(r) != len(rows[0]) {
			if len(rows[last]) < len(rows[last-1]) {
				b.Warnings = append(b.Warnings, fmt.Sprintf("The last line, %d, is shorter than the one before and does not end: look whether the file is whole.", b.Table.Line(last)))
			}
			return nil
		}
	}
	if len(rows[last]) < len(rows[0]) {
		return refused("Get the whole file again; if nothing is missing, end its last line with a line break",
			"The file is cut off: its last line, %d, breaks off after %d of %d cells", b.Table.Line(last), len(rows[last]), len(rows[0]))
	}
	return nil
}

func blank(row []list.Cell) bool {
	for _, c := range row {
		if strings.TrimSpace(c.Text) != "" {
			return false
		}
	}
	return true
}

// delimiterOf is the delimiter that parts most of the first lines alike, and of those
// the one that makes more cells; a comma when none does.
func delimiterOf(text string) rune {
	best, bestAlike, bestCells := ',', 0, 1
	for _, d := range delimiters {
		alike, cells := alikeLines(text, byte(d))
		if cells > 1 && (alike > bestAlike || alike == bestAlike && cells > bestCells) {
			best, bestAlike, bestCells = d, alike, cells
		}
	}
	return best
}

// alikeLines returns how many of the first rows have the commonest number of cells; none
// for a delimiter with which a quotation mark would never end.
func alikeLines(text string, comma byte) (alike, cells int) {
	s := &scanner{text: text, comma: comma, line: 1}
	counts := map[int]int{}
	for n := 0; n < 60 && s.more(); {
		row, err := s.row()
		if err != nil {
			return 0, 0
		}
		if !blank(row) {
			counts[len(row)]++
			n++
		}
	}
	for c, n := range counts {
		if c > 1 && (n > alike || n == alike && c > cells) {
			alike, cells = n, c
		}
	}
	return alike, cells
}

// scanner reads rows of RFC 4180, with any delimiter and any line break. A quotation
// mark inside a cell that does not begin with one is a sign like others (60" is a width).
type scanner struct {
	text  string
	at    int
	line  int
	comma byte
}

func (s *scanner) more() bool { return s.at < len(s.text) }

// row reads one row and its line break.
func (s *scanner) row() ([]list.Cell, error) {
	var out []list.Cell
	for {
		cell, err := s.cell()
		if err != nil {
			return nil, err
		}
		out = append(out, list.Cell{Text: unguarded(cell)})
		if s.at >= len(s.text) {
			return out, nil
		}
		c := s.text[s.at]
		s.at++
		if c == s.comma {
			continue
		}
		if c == '\r' && s.at < len(s.text) && s.text[s.at] == '\n' {
			s.at++
		}
		s.line++
		return out, nil
	}
}

// cell reads up to a delimiter, a line break or the end.
func (s *scanner) cell() (string, error) {
	from := s.at
	for s.at < len(s.text) && s.text[s.at] == ' ' {
		s.at++
	}
	if s.at < len(s.text) && s.text[s.at] == '"' {
		return s.quoted()
	}
	for s.at = from; s.at < len(s.text); s.at++ {
		if c := s.text[s.at]; c == s.comma || c == '\n' || c == '\r' {
			break
		}
	}
	return s.text[from:s.at], nil
}

// quoted reads a cell in quotation marks; doubled ones in it stand for one.
func (s *scanner) quoted() (string, error) {
	began := s.line
	s.at++
	var b strings.Builder
	for s.at < len(s.text) {
		c := s.text[s.at]
		s.at++
		switch {
		case c != '"':
			if c == '\n' {
				s.line++
			}
			if c == '\r' && s.at < len(s.text) && s.text[s.at] == '\n' {
				continue
			}
			b.WriteByte(c)
		case s.at < len(s.text) && s.text[s.at] == '"':
			b.WriteByte('"')
			s.at++
		default:
			return b.String() + s.rest(), nil
		}
	}
	return "", refused("Get the whole file again, or put the missing mark in", "The file is cut off, or a quotation mark is missing: a cell that begins in line %d never ends", began)
}

// rest is what stands between a closing quotation mark and the end of the cell.
func (s *scanner) rest() string {
	from := s.at
	for s.at < len(s.text) && s.text[s.at] != s.comma && s.text[s.at] != '\n' && s.text[s.at] != '\r' {
		s.at++
	}
	return strings.TrimRight(s.text[from:s.at], " ")
}
