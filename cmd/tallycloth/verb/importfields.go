package verb

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"tallycloth/planner"
	"tallycloth/stash/list"
	"tallycloth/stash/measure"
)

// importFields is what a list becomes, in JSON.
type importFields struct {
	Columns        []columnFields   `json:"columns"`
	Questions      []questionFields `json:"questions"`
	Rows           []rowFields      `json:"rows"`
	Warnings       []string         `json:"warnings"`
	Cloths         int              `json:"cloths"`
	NewFabrics     int              `json:"new_fabrics"`
	ChangedFabrics int              `json:"changed_fabrics"`
	Refused        int              `json:"refused"`
	Written        bool             `json:"written"`
}

type columnFields struct {
	Column   int    `json:"column"` // from 1
	Heading  string `json:"heading"`
	ReadAs   string `json:"read_as"`
	Unit     string `json:"unit"`
	Assumed  bool   `json:"unit_is_assumed"`
	Decimals string `json:"decimals"`
	Days     string `json:"days"`
}

type questionFields struct {
	Column  int      `json:"column"` // from 1, 0 for the whole list
	What    string   `json:"what"`
	Do      string   `json:"do"`
	Choices []string `json:"choices"`
}

type rowFields struct {
	Line    int      `json:"line"`
	Outcome string   `json:"outcome"`
	Says    string   `json:"says"`
	Why     []string `json:"why"`
	Remarks []string `json:"remarks"`
}

func fieldsOfList(d planner.ListDraft, r list.Result) importFields {
	out := importFields{Columns: []columnFields{}, Questions: []questionFields{}, Rows: []rowFields{}, Warnings: some(d.Book.Warnings),
		Cloths: len(r.Cloths), NewFabrics: r.NewFabrics, ChangedFabrics: r.Changed, Refused: r.Refused}
	for k, c := range r.Columns {
		out.Columns = append(out.Columns, columnFields{k + 1, c.Heading, string(c.Field), c.Unit, c.Assumed, string(c.Decimal), string(c.Order)})
	}
	for _, q := range r.Questions {
		out.Questions = append(out.Questions, questionFields{q.Column + 1, q.What, q.Do, some(q.Choices)})
	}
	for _, x := range r.Rows {
		out.Rows = append(out.Rows, rowFields{x.Line, string(x.Outcome), x.Says, some(x.Why), some(x.Remarks)})
	}
	return out
}

// correct changes what was guessed of a list as the options say.
func (w listWords) correct(d *planner.ListDraft) error {
	if w.headings >= 0 {
		if err := w.setHeadings(d); err != nil {
			return err
		}
	}
	for _, text := range w.columns {
		if err := setColumn(d, text); err != nil {
			return err
		}
	}
	for _, text := range w.every {
		name, value, ok := strings.Cut(text, "=")
		field, known := list.FieldNamed(name)
		if !ok || !known {
			return mistyped(fmt.Sprintf("%q does not say a fact and its value", text), `Write it as --every "full width=150 cm"`)
		}
		if d.Mapping.Always == nil {
			d.Mapping.Always = map[list.Field]string{}
		}
		d.Mapping.Always[field] = strings.TrimSpace(value)
	}
	for _, line := range w.skip {
		i := rowAt(d, line)
		if i < 0 {
			return mistyped(fmt.Sprintf("No row begins in line %d", line), "Say lines as the dry run shows them")
		}
		if d.Skip == nil {
			d.Skip = map[int]bool{}
		}
		d.Skip[i] = true
	}
	return nil
}

// rowAt is the row that begins in a line of the file, or -1.
func rowAt(d *planner.ListDraft, line int) int {
	for i := range d.Book.Table.Rows {
		if d.Book.Table.Line(i) == line {
			return i
		}
	}
	return -1
}

func (w listWords) setHeadings(d *planner.ListDraft) error {
	i := -1
	if w.headings > 0 {
		if i = rowAt(d, w.headings); i < 0 {
			return mistyped(fmt.Sprintf("No row begins in line %d", w.headings), "Say the line of the headings, or 0 for none")
		}
	}
	d.Mapping = list.GuessBelow(d.Book.Table, i, d.Mapping.Units, d.Mapping.Currency)
	return nil
}

// setColumn reads "HEADING=FIELD, UNIT, SIGN, ORDER".
func setColumn(d *planner.ListDraft, text string) error {
	const form = `Write it as --column "Width=full width, cm" or --column "3=price, EUR, comma"`
	at := strings.LastIndex(text, "=")
	if at < 0 {
		return mistyped(fmt.Sprintf("%q does not say a column and what it is", text), form)
	}
	k, err := columnNamed(d, strings.TrimSpace(text[:at]))
	if err != nil {
		return err
	}
	parts := strings.Split(text[at+1:], ",")
	field, ok := list.FieldNamed(parts[0])
	if !ok {
		return mistyped(fmt.Sprintf("%q is nothing a column can be", strings.TrimSpace(parts[0])), "See tallycloth import --help for what it can")
	}
	c := list.Column{Field: field}
	for _, p := range parts[1:] {
		p = strings.TrimSpace(p)
		switch {
		case p == string(list.Point), p == string(list.Comma):
			c.Decimal = list.Decimal(p)
		case p == string(list.DayFirst), p == string(list.MonthFirst):
			c.Order = list.Order(p)
		case slices.Contains(list.UnitsOf(field), p):
			c.Unit = p
		case isCurrency(p) && slices.Contains(list.UnitsOf(field), list.AnyCurrency):
			c.Unit = strings.ToUpper(p)
		default:
			return mistyped(fmt.Sprintf("%q cannot be said of %s", p, field), "After a column's field may stand "+strings.Join(append(list.UnitsOf(field), "point, comma, day first or month first"), ", "))
		}
	}
	d.Mapping.Columns[k] = c
	return nil
}

func isCurrency(s string) bool {
	_, ok := measure.MinorDigits(strings.ToUpper(s))
	return ok
}

// columnNamed finds a column by its heading, or its number from 1.
func columnNamed(d *planner.ListDraft, name string) (int, error) {
	found := -1
	for k := range d.Mapping.Columns {
		if strings.EqualFold(d.Book.Table.At(d.Mapping.Headings, k).Text, name) {
			if found >= 0 {
				return 0, mistyped(fmt.Sprintf("Two columns are headed %q", name), "Say the number of the column")
			}
			found = k
		}
	}
	if n, err := strconv.Atoi(name); err == nil && found < 0 && n >= 1 && n <= len(d.Mapping.Columns) {
		return n - 1, nil
	}
	if found < 0 {
		return 0, mistyped(fmt.Sprintf("No column is headed %q", name), fmt.Sprintf("Say a heading, or a number from 1 to %d", len(d.Mapping.Columns)))
	}
	return found, nil
}
