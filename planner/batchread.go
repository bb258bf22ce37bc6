package planner

import (
	"bytes"
	"cmp"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"tallycloth/planner/adjust"
	"tallycloth/planner/exchange/table"
	"tallycloth/planner/pattern"
	"tallycloth/planner/sizing"
	"tallycloth/stash"
	"tallycloth/stash/list"
	"tallycloth/stash/measure"
)

// WantedWords are one row of a list of garments that are wanted, as a person writes it.
type WantedWords struct {
	Pattern  string `json:"pattern"`
	Size     string `json:"size"`
	Person   string `json:"person"`
	Variant  string `json:"variant"`
	Count    string `json:"count"`
	Priority string `json:"priority"`
	For      string `json:"for"`
	Date     string `json:"date"`
	Colours  string `json:"colours"`
	Uses     string `json:"uses"`
	// Adjust is "kept": all that is kept for the person and that her size allows; or adjustments in
	// words, parted by semicolons.
	Adjust string `json:"adjustments"`
	Place  string `json:"-"` // in the file: "line 3", "row 2"
}

// WantedColumns are the columns of a list of garments that are wanted, the first is needed.
var WantedColumns = []string{"pattern", "size", "person", "variant", "count", "priority", "for", "date", "colours", "uses", "adjustments"}

// mostWantedRows bounds the rows of a batch: more is taken for a wrong file.
const mostWantedRows = 500

// WrongRows are the rows of a list that cannot be meant, each with what is wrong.
type WrongRows struct{ Rows []WrongRow }

// WrongRow is one of them: what is wrong where, and what to do.
type WrongRow struct{ Place, What, Do string }

// Error says what is wrong, row by row.
func (w *WrongRows) Error() string {
	var out []string
	for _, r := range w.Rows {
		out = append(out, fmt.Sprintf("In %s: %s. %s.", r.Place, strings.TrimSuffix(r.What, "."), strings.TrimSuffix(r.Do, ".")))
	}
	return strings.Join(out, "\n")
}

// ReadWanted reads a list of garments that are wanted: CSV or a workbook with a line of
// headings (WantedColumns), or JSON, a list of objects with these fields. The error is a
// *stash.Error for the file as a whole, or a *WrongRows with every row that is wrong.
func (s *Studio) ReadWanted(ctx context.Context, data []byte) ([]Wanted, error) {
	words, err := wantedWords(ctx, data)
	if err != nil {
		return nil, err
	}
	known, err := s.known(ctx)
	if err != nil {
		return nil, err
	}
	var out []Wanted
	wrong := &WrongRows{}
	for _, w := range words {
		row, err := w.Read(known)
		var bad *stash.Error
		switch {
		case errors.As(err, &bad):
			wrong.Rows = append(wrong.Rows, WrongRow{w.Place, bad.What, bad.Do})
		case err != nil:
			return nil, err
		default:
			out = append(out, row)
		}
	}
	if len(wrong.Rows) > 0 {
		return nil, wrong
	}
	return out, nil
}

// wantedWords takes a file apart.
func wantedWords(ctx context.Context, data []byte) ([]WantedWords, error) {
	var out []WantedWords
	var err error
	if text := bytes.TrimSpace(data); len(text) > 0 && (text[0] == '[' || text[0] == '{') {
		out, err = wantedJSON(data)
	} else {
		var b table.Book
		if b, err = table.Read(ctx, data, table.Options{}); err == nil {
			out, err = wantedTable(b.Table)
		}
	}
	switch {
	case err != nil:
		return nil, err
	case len(out) == 0:
		return nil, invalid("Write a row for each pattern and size", "The list says nothing that is wanted")
	case len(out) > mostWantedRows:
		return nil, invalid("Split it into several batches", "The list has %d rows, more than %d", len(out), mostWantedRows)
	}
	return out, nil
}

// wantedTable reads rows under a line of headings.
func wantedTable(t list.Table) ([]WantedWords, error) {
	head := slices.IndexFunc(t.Rows, func(r []list.Cell) bool {
		return slices.ContainsFunc(r, func(c list.Cell) bool { return strings.TrimSpace(c.Text) != "" })
	})
	if head < 0 {
		return nil, nil
	}
	columns := make([]string, len(t.Rows[head]))
	for k := range columns {
		name := strings.ToLower(t.At(head, k).Text)
		switch {
		case name == "":
			continue
		case !slices.Contains(WantedColumns, name):
			return nil, invalid("The columns are "+strings.Join(WantedColumns, ", "), "No column is called %q", name)
		case slices.Contains(columns[:k], name):
			return nil, invalid("Leave one of them out", "Two columns are called %q", name)
		}
		columns[k] = name
	}
	if !slices.Contains(columns, "pattern") {
		return nil, invalid("Write the headings in the first line: "+strings.Join(WantedColumns, ", "), "The list has no column called pattern")
	}
	var out []WantedWords
	for i := head + 1; i < len(t.Rows); i++ {
		w, said := WantedWords{Place: fmt.Sprintf("line %d", t.Line(i))}, false
		for k, name := range columns {
			text := t.At(i, k).Text
			said = said || text != ""
			w.set(name, text)
		}
		if said {
			out = append(out, w)
		}
	}
	return out, nil
}

func (w *WantedWords) set(column, text string) {
	for k, into := range []*string{&w.Pattern, &w.Size, &w.Person, &w.Variant, &w.Count, &w.Priority, &w.For, &w.Date, &w.Colours, &w.Uses, &w.Adjust} {
		if WantedColumns[k] == column {
			*into = text
		}
	}
}

// wantedJSON reads a list of objects, or an object with such a list under "wanted". Numbers may
// stand for texts.
func wantedJSON(data []byte) ([]WantedWords, error) {
	var rows []map[string]any
	bad := func(err error) error {
		return &stash.Error{Kind: stash.Invalid, What: "The file is no list in JSON", Do: `Write [{"pattern": "…", "size": "…", "count": 2}]`, Err: err}
	}
	if bytes.TrimSpace(data)[0] == '{' {
		var whole struct {
			Wanted []map[string]any `json:"wanted"`
		}
		if err := json.Unmarshal(data, &whole); err != nil {
			return nil, bad(err)
		}
		rows = whole.Wanted
	} else if err := json.Unmarshal(data, &rows); err != nil {
		return nil, bad(err)
	}
	var out []WantedWords
	for i, r := range rows {
		w := WantedWords{Place: fmt.Sprintf("row %d", i+1)}
		for k, v := range r {
			if !slices.Contains(WantedColumns, k) {
				return nil, invalid("The fields are "+strings.Join(WantedColumns, ", "), "Row %d has a field %q", i+1, k)
			}
			switch v := v.(type) {
			case string:
				w.set(k, v)
			case float64:
				w.set(k, strconv.FormatFloat(v, 'f', -1, 64))
			case nil:
			default:
				return nil, invalid("Write a text or a number", "Row %d says %s with something else", i+1, k)
			}
		}
		out = append(out, w)
	}
	return out, nil
}

// Known is what the words of a list may name.
type Known struct {
	Patterns []pattern.Pattern
	Fabrics  []stash.Fabric
	People   []sizing.Person
	Unit     measure.Unit // of a bare number in an adjustment; 0 is a centimetre
}

// known loads what the words of a list may name.
func (s *Studio) known(ctx context.Context) (k Known, err error) {
	if k.Patterns, err = s.Patterns(ctx); err == nil {
		k.Fabrics, err = s.Fabrics(ctx)
	}
	if err == nil {
		k.People, err = s.People(ctx)
	}
	if s.style(ctx, measure.PieceLength).System == measure.Imperial {
		k.Unit = measure.Inch
	}
	if err != nil {
		err = fmt.Errorf("reading what is wanted: %w", err)
	}
	return k, err
}

// Read understands a row with what there is. Where a person is named and no size, the row
// takes the size that is proposed for her. The error is a *stash.Error.
func (w WantedWords) Read(known Known) (Wanted, error) {
	p, err := named("pattern", w.Pattern, known.Patterns, func(p pattern.Pattern) string { return p.Name })
	if err != nil {
		return Wanted{}, err
	}
	row := Wanted{PatternID: p.ID, Variant: strings.TrimSpace(w.Variant), For: w.For, Date: stash.Date(strings.TrimSpace(w.Date))}
	if row.Count, err = wholeNumber("how many", w.Count, mostWanted); err != nil {
		return Wanted{}, err
	}
	if row.Priority, err = wholeNumber("the priority", w.Priority, 99); err != nil {
		return Wanted{}, err
	}
	if !row.Date.Valid() {
		return Wanted{}, invalid("Write the day as 2026-03-02", "%q is no day", row.Date)
	}
	if row.Colours, err = ReadColours(w.Colours, known.Fabrics); err != nil {
		return Wanted{}, err
	}
	if row.Uses, err = readUses(w.Uses, p, known.Fabrics); err != nil {
		return Wanted{}, err
	}
	if err := w.readSize(&row, p, known); err != nil {
		return Wanted{}, err
	}
	if err := w.readAdjust(&row, p, known); err != nil {
		return Wanted{}, err
	}
	return row, row.validate("The row", p)
}

// readSize takes the size that is written, or the one proposed for the person.
func (w WantedWords) readSize(row *Wanted, p pattern.Pattern, known Known) (err error) {
	if strings.TrimSpace(w.Person) == "" {
		row.Size, err = sizeNamed(p, w.Size)
		return err
	}
	who, err := named("person", w.Person, known.People, func(q sizing.Person) string { return q.Name })
	if err != nil {
		return err
	}
	row.PersonID = who.ID
	if row.For == "" {
		row.For = who.Name
	}
	if strings.TrimSpace(w.Size) != "" {
		row.Size, err = sizeNamed(p, w.Size)
		return err
	}
	c, err := row.proposed(p, who, known.Fabrics)
	if err != nil {
		return invalid("Write a size, or take their measurements first", "No size of %s can be proposed for %s", p.Name, who.Name)
	}
	row.Size = c.Size
	return nil
}

// readAdjust takes over the adjustments that are written, or those kept for the person.
func (w WantedWords) readAdjust(row *Wanted, p pattern.Pattern, known Known) error {
	text := strings.TrimSpace(w.Adjust)
	if strings.EqualFold(text, "kept") {
		i := slices.IndexFunc(known.People, func(q sizing.Person) bool { return q.ID == row.PersonID })
		if row.PersonID == stash.NoID || i < 0 {
			return invalid("Name the person whose adjustments are meant", "The row has nobody for whom adjustments are kept")
		}
		for _, o := range keptFor(known.People[i]) {
			if len(allowed(p, row.Size, row.Adjustments, []Offer{o})) > 0 {
				row.Adjustments = append(row.Adjustments, o.Step)
			}
		}
		return nil
	}
	for _, words := range strings.Split(text, ";") {
		if strings.TrimSpace(words) == "" {
			continue
		}
		step, err := adjust.Parse(strings.TrimSpace(words), cmp.Or(known.Unit, measure.Centimetre))
		if err != nil {
			return err
		}
		row.Adjustments = append(row.Adjustments, step)
	}
	_, err := adjusted(p, row.Size, row.Adjustments)
	return err
}

// named finds the one whose name is a text, or begins with it, or holds it.
func named[T any](what, text string, all []T, name func(T) string) (T, error) {
	text = strings.TrimSpace(text)
	low := strings.ToLower(text)
	var none T
	if text == "" {
		return none, invalid("Write its name", "The %s is not said", what)
	}
	for _, is := range []func(string) bool{
		func(n string) bool { return n == low }, func(n string) bool { return strings.HasPrefix(n, low) }, func(n string) bool { return strings.Contains(n, low) },
	} {
		var found []T
		for _, v := range all {
			if is(strings.ToLower(name(v))) {
				found = append(found, v)
			}
		}
		if len(found) == 1 {
			return found[0], nil
		}
		if len(found) > 1 {
			return none, invalid("Write its whole name", "More than one %s goes by %q", what, text)
		}
	}
	return none, invalid("Look at its name in the library", "No %s goes by %q", what, text)
}

// sizeNamed is a size as the pattern writes it; the only one may be left out.
func sizeNamed(p pattern.Pattern, text string) (string, error) {
	text = strings.TrimSpace(text)
	var names []string
	for _, z := range p.Sizes {
		if strings.EqualFold(z.Name, text) || text == "" && len(p.Sizes) == 1 {
			return z.Name, nil
		}
		names = append(names, z.Name)
	}
	return "", invalid("It has "+strings.Join(names, ", "), "%s has no size %q", p.Name, text)
}

// wholeNumber reads a number from 1; "" is 1.
func wholeNumber(what, text string, most int) (int, error) {
	if text = strings.TrimSpace(text); text == "" {
		return 1, nil
	}
	n, err := strconv.Atoi(text)
	if err != nil || n < 1 || n > most {
		return 0, invalid(fmt.Sprintf("Write a whole number from 1 to %d", most), "%q does not say %s", text, what)
	}
	return n, nil
}

// ReadColours reads colours parted by commas: "#3b6ea5", or the name of a colour as a
// fabric of the library has it.
func ReadColours(text string, fabrics []stash.Fabric) ([]string, error) {
	var out []string
	for _, word := range strings.FieldsFunc(text, func(r rune) bool { return r == ',' || r == ';' }) {
		if word = strings.TrimSpace(word); word == "" {
			continue
		}
		if _, ok := stash.ColourDifference(word, word); ok {
			out = append(out, strings.ToLower(word))
			continue
		}
		f, err := named("colour", word, slices.DeleteFunc(slices.Clone(fabrics), func(f stash.Fabric) bool { return f.ColourName == "" || f.Colour == "" }),
			func(f stash.Fabric) string { return f.ColourName })
		if err != nil {
			i := slices.IndexFunc(fabrics, func(f stash.Fabric) bool { return f.Colour != "" && strings.EqualFold(f.ColourName, word) })
			if i < 0 {
				return nil, invalid("Write it such as #3b6ea5, or as a fabric of yours has it", "No fabric has the colour %q", word)
			}
			f = fabrics[i]
		}
		out = append(out, f.Colour)
	}
	return out, nil
}

// readUses reads what uses may be cut from: "binding: goes with 10; lining: none; contrast:
// named Moss jersey, Brick rib".
func readUses(text string, p pattern.Pattern, fabrics []stash.Fabric) ([]UseRule, error) {
	var out []UseRule
	for _, part := range strings.Split(text, ";") {
		if part = strings.TrimSpace(part); part == "" {
			continue
		}
		name, rule, ok := strings.Cut(part, ":")
		if !ok {
			return nil, invalid("Write it such as binding: goes with; lining: none", "%q does not say a use and what it is cut from", part)
		}
		roles := p.Roles
		if !slices.ContainsFunc(roles, func(r pattern.Role) bool { return r.Name == pattern.Main }) {
			roles = append([]pattern.Role{{Name: pattern.Main}}, roles...)
		}
		role, err := named("use of fabric in "+p.Name, name, roles, func(r pattern.Role) string { return r.Name })
		if err != nil {
			return nil, err
		}
		u := UseRule{Role: role.Name, From: From(strings.ToLower(strings.TrimSpace(rule)))}
		if names, is := strings.CutPrefix(string(u.From), string(NamedFabric)); is {
			u.From = NamedFabric
			for _, n := range strings.Split(names, ",") {
				f, err := named("fabric", n, fabrics, func(f stash.Fabric) string { return f.Name })
				if err != nil {
					return nil, err
				}
				u.Fabrics = append(u.Fabrics, f.ID)
			}
		}
		if within, is := strings.CutPrefix(string(u.From), string(GoesWith)+" "); is {
			u.From = GoesWith
			if u.Within, err = strconv.ParseFloat(strings.TrimSpace(within), 64); err != nil || !(u.Within > 0 && u.Within <= 100) {
				return nil, invalid("Write it such as binding: goes with 10, a distance of colours up to 100", "%q does not say how near", strings.TrimSpace(within))
			}
		}
		out = append(out, u)
	}
	return out, nil
}
