package list

import (
	"fmt"
	"regexp"
	"strings"

	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// cellReader reads the cells of one table by its settled columns.
type cellReader struct {
	mapping Mapping
	today   stash.Date
}

// about are words before a number that say it is not exact.
var aboutWords = regexp.MustCompile(`(?i)^(?:~|≈|ca\.?|circa|about|approx\.?|approximately|etwa|environ|env\.?)\s*`)

// read puts what a cell says into the record. remark is what the person should know of
// it; an error is a clause that says what was wrong and what would be accepted.
func (r cellReader) read(s Settled, c Cell, rec *Record) (remark string, err error) {
	if s.def.form() != plainForm && s.def.form() != dayForm {
		if cut := aboutWords.ReplaceAllString(c.Text, ""); cut != c.Text {
			remark = "the " + string(s.Field) + " is written as about " + cut
			c.Text = cut
		}
		open := false
		if c.Kind == Words {
			c.Text, open = plainNumbers(c.Text, s.Decimal)
		}
		if open {
			return "", fmt.Errorf("%s could be a thousand or have three decimals; choose point or comma for the column", short(c.Text))
		}
	}
	switch to := s.def.at(rec).(type) {
	case *string:
		*to = c.Text
	case *measure.Length:
		if w, tube, bad := stash.ParseFullWidth(c.Text, unitLength[s.Unit]); s.Field == FullWidth && tube && bad == nil {
			*to, rec.Fabric.Tubular = w, true
			return addRemark(remark, "“"+c.Text+"” is taken for a tube, as it lies"), nil
		}
		*to, err = measure.ParseLength(c.Text, unitLength[s.Unit])
	case *measure.Weight:
		err = readWeight(to, c.Text, s.Unit, r.mapping.Units)
	case *reading:
		var p measure.Percent
		if p, err = measure.ParsePercent(c.Text); err == nil {
			*to = stash.Measured(p)
		}
	case *measure.Money:
		*to, err = r.readMoney(s, c.Text, rec)
	case *day:
		err = r.readDayCell(to, s, c)
	default:
		return readSpecial(s, c.Text, to, rec)
	}
	return remark, err
}

func addRemark(to, remark string) string {
	addNote(&to, remark)
	return to
}

func readWeight(to *measure.Weight, text, unit string, units measure.System) (err error) {
	switch unit {
	case "g/m²":
		units = measure.Metric
	case "oz/yd²":
		units = measure.Imperial
	}
	*to, err = measure.ParseWeight(text, units)
	return err
}

var perSuffix = regexp.MustCompile(`(?i)\s*(?:/|\bper\b|\bpro\b)\s*(?:m|mtr|metre|meter|yd|yard)\.?$`)

func (r cellReader) readMoney(s Settled, text string, rec *Record) (measure.Money, error) {
	if s.Field == PricePer {
		text = perSuffix.ReplaceAllString(text, "")
	}
	m, err := measure.ParseMoney(text, s.currency(rec, r.mapping))
	if err == nil && m.Minor == 0 {
		m = measure.Money{} // nothing paid is nothing said
	}
	return m, err
}

func (r cellReader) readDayCell(to *day, s Settled, c Cell) error {
	d, open, err := readDay(c.Text, s.Order, r.today)
	if err != nil {
		return err
	}
	if open && c.Kind != Day {
		return fmt.Errorf("%q could be two days; choose whether the day or the month comes first", short(c.Text))
	}
	*to = d
	return nil
}

// readSpecial reads what is neither a text nor a quantity.
func readSpecial(s Settled, text string, into any, rec *Record) (remark string, err error) {
	word := strings.ToLower(strings.Join(strings.Fields(text), " "))
	switch to := into.(type) {
	case *bool:
		v, ok := yesNo[word]
		if !ok {
			return "", fmt.Errorf("%q is neither yes nor no; write yes or no", short(text))
		}
		*to = v
	case *stash.Fibres:
		*to, err = stash.ParseFibres(text)
	case *stash.Construction:
		return readConstruction(to, text, rec), nil
	case *stash.Direction:
		if v, ok := yesNo[word]; ok { // a column that asks whether it has one
			*to = map[bool]stash.Direction{true: stash.SameWayForAll, false: stash.EitherWay}[v]
			return "", nil
		}
		v, ok := directions[word]
		if !ok {
			return "", fmt.Errorf("%q is no direction; write either way, same way within a garment or same way for everything", short(text))
		}
		*to = v
	case *[]string:
		*to = splitEscaped(text, ',')
	case *[]stash.StitchNote:
		*to = readStitches(text)
	case *shape.Polygon:
		*to, err = readOutline(text)
	}
	return "", err
}

// readConstruction keeps a word that is no construction in the notes of the fabric.
func readConstruction(to *stash.Construction, text string, rec *Record) string {
	if c, ok := made[strings.ToLower(text)]; ok {
		*to = c
		return ""
	}
	addNote(&rec.extraFabric, "made: "+text)
	if c, ok := constructionIn(text); ok {
		*to = c
		return fmt.Sprintf("%q is taken for %s", short(text), c)
	}
	*to = stash.OtherKnit
	return fmt.Sprintf("%q is no construction this program knows: taken for another knit, about which the least is assumed", short(text))
}

// addNote appends a remark to a text.
func addNote(to *string, note string) {
	if *to != "" {
		*to += "; "
	}
	*to += note
}

// splitEscaped splits at a sign that no backslash stands before, takes the backslashes
// out, and trims the parts; empty ones are left out.
func splitEscaped(s string, at rune) []string {
	var out []string
	var b strings.Builder
	escaped := false
	for _, r := range s {
		switch {
		case escaped:
			b.WriteRune(r)
			escaped = false
		case r == '\\':
			escaped = true
		case r == at:
			out = append(out, strings.TrimSpace(b.String()))
			b.Reset()
		default:
			b.WriteRune(r)
		}
	}
	if escaped {
		b.WriteRune('\\')
	}
	out = append(out, strings.TrimSpace(b.String()))
	kept := out[:0]
	for _, p := range out {
		if p != "" {
			kept = append(kept, p)
		}
	}
	return kept
}

// escaped puts a backslash before signs that would end a part.
func escaped(s, signs string) string {
	var b strings.Builder
	for _, r := range s {
		if r == '\\' || strings.ContainsRune(signs, r) {
			b.WriteRune('\\')
		}
		b.WriteRune(r)
	}
	return b.String()
}

// stitchPart is one setting of a stitch note, by its word.
type stitchPart struct {
	word string
	at   func(*stash.StitchNote) *string
}

var stitchParts = []stitchPart{
	{"seam", func(n *stash.StitchNote) *string { return &n.Seam }},
	{"stitch", func(n *stash.StitchNote) *string { return &n.Stitch }},
	{"width", func(n *stash.StitchNote) *string { return &n.Width }},
	{"length", func(n *stash.StitchNote) *string { return &n.Length }},
	{"feed", func(n *stash.StitchNote) *string { return &n.Feed }},
	{"tension", func(n *stash.StitchNote) *string { return &n.Tension }},
	{"needle", func(n *stash.StitchNote) *string { return &n.Needle }},
	{"thread", func(n *stash.StitchNote) *string { return &n.Thread }},
	{"note", func(n *stash.StitchNote) *string { return &n.Note }},
}

// stillPair tells a seam that need not stretch.
const stillPair = "stretches=no"

// splitRaw splits at a sign that no backslash stands before and keeps the backslashes.
func splitRaw(s string, at rune) []string {
	out, from, skip := []string{}, 0, false
	for i, r := range s {
		switch {
		case skip:
			skip = false
		case r == '\\':
			skip = true
		case r == at:
			out = append(out, s[from:i])
			from = i + 1
		}
	}
	return append(out, s[from:])
}

// readStitches reads what writeStitches writes; other text becomes one note.
func readStitches(text string) []stash.StitchNote {
	var out []stash.StitchNote
	for _, one := range splitRaw(text, '|') {
		var n stash.StitchNote
		for _, pair := range splitRaw(one, ';') {
			if strings.TrimSpace(pair) == stillPair {
				n.Still = true
				continue
			}
			word, value, ok := strings.Cut(pair, "=")
			part := partNamed(strings.TrimSpace(word))
			if !ok || part == nil {
				return []stash.StitchNote{{Note: text}}
			}
			*part(&n) = strings.Join(splitEscaped(value, 0), "")
		}
		out = append(out, n)
	}
	return out
}

func partNamed(word string) func(*stash.StitchNote) *string {
	for _, p := range stitchParts {
		if p.word == word {
			return p.at
		}
	}
	return nil
}

// writeStitches writes stitch notes in one line: "seam=side; stitch=zigzag | seam=hem".
func writeStitches(notes []stash.StitchNote) string {
	var all []string
	for _, n := range notes {
		var parts []string
		for _, p := range stitchParts {
			if v := *p.at(&n); v != "" {
				parts = append(parts, p.word+"="+escaped(v, ";|"))
			}
		}
		if n.Still {
			parts = append(parts, stillPair)
		}
		if len(parts) > 0 {
			all = append(all, strings.Join(parts, "; "))
		}
	}
	return strings.Join(all, " | ")
}
