package list

import (
	"regexp"
	"strings"

	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// Column is what a person says of one column, or what Guess proposes.
type Column struct {
	Field Field
	// Unit is the unit of bare numbers: m, cm, mm, in, ft, yd for lengths (and for what a
	// price is per), g/m² or oz/yd² for weights, a currency for money. "" takes the
	// heading's, else the contents decide or the person's own units.
	Unit    string
	Decimal Decimal // Undecided: by the contents
	Order   Order   // "": by the contents
}

// Mapping says how a list is read.
type Mapping struct {
	// Headings is the row of the headings; -1 when there are none. Rows above it are not read.
	Headings int
	Columns  []Column
	// Units and Currency are the person's own, for what no cell, heading or column says.
	Units    measure.System
	Currency string
	// Always gives a fact to every row that does not say it, such as FullWidth "150 cm".
	Always map[Field]string
}

var brackets = regexp.MustCompile(`[(\[][^)\]]*[)\]]`)

// lookedAt is how many rows the guess looks at.
const lookedAt = 200

// Guess proposes a mapping for a table: by the words above the columns, and where they
// say nothing by what stands in them. What is not understood is kept as a note.
func Guess(t Table, units measure.System, currency string) Mapping {
	if m, ok := OwnMapping(t); ok {
		m.Units, m.Currency = units, currency
		return m
	}
	return GuessBelow(t, headingRow(t), units, currency)
}

// GuessBelow is Guess for a table whose headings stand in the row given; -1 for none.
func GuessBelow(t Table, headings int, units measure.System, currency string) Mapping {
	m := Mapping{Headings: headings, Columns: make([]Column, t.Width()), Units: units, Currency: currency}
	taken := map[Field]bool{}
	take := func(k int, f Field) {
		if f != "" && !taken[f] && m.Columns[k].Field == "" {
			m.Columns[k].Field = f
			taken[f] = true
		}
	}
	for k := range m.Columns {
		take(k, fieldOf[plainHeading(t.At(m.Headings, k).Text)])
	}
	for k := range m.Columns {
		take(k, loosely(t.At(m.Headings, k).Text))
	}
	for k := range m.Columns {
		take(k, byContents(t, m.Headings, k, taken))
	}
	if !taken[FabricName] {
		nameless(t, &m)
	}
	for k := range m.Columns {
		if m.Columns[k].Field == "" {
			m.Columns[k].Field = KeepNote
		}
	}
	return m
}

// headingRow is the first of the first rows that has two known headings or more; a
// single known one counts in a table of one column. -1 for none.
func headingRow(t Table) int {
	for i := range min(len(t.Rows), 20) {
		known, cells := 0, 0
		for k := range t.Rows[i] {
			text := t.At(i, k).Text
			if text == "" {
				continue
			}
			cells++
			if fieldOf[plainHeading(text)] != "" || loosely(text) != "" {
				known++
			}
		}
		if known >= 2 || known == 1 && cells == 1 && t.Width() == 1 {
			return i
		}
	}
	return firstIsHeading(t)
}

// firstIsHeading returns 0 when the first row has words only while a row below has a
// number where the first has none; else -1.
func firstIsHeading(t Table) int {
	if len(t.Rows) < 2 {
		return -1
	}
	below := false
	for k := range t.Rows[0] {
		if strings.ContainsFunc(t.At(0, k).Text, isDigit) {
			return -1
		}
		below = below || strings.ContainsFunc(t.At(1, k).Text, isDigit)
	}
	if below {
		return 0
	}
	return -1
}

// loosely finds a field whose word begins a heading: "width selvedge to selvedge",
// "price per m", "Länge in cm".
func loosely(heading string) Field {
	h := plainHeading(heading)
	best := ""
	for word := range fieldOf {
		if len(word) > max(3, len(best)) && (strings.HasPrefix(h, word+" ") || strings.HasPrefix(h, word+"/")) {
			best = word
		}
	}
	f := fieldOf[best]
	if f == Price && perUnit(heading) != "" {
		return PricePer
	}
	return f
}

// byContents finds a field by what most cells of a column hold.
func byContents(t Table, headings, column int, taken map[Field]bool) Field {
	cells, fibres, days, money, lengths, constructions := 0, 0, 0, 0, 0, 0
	for i := headings + 1; i < len(t.Rows) && cells < lookedAt; i++ {
		c := t.At(i, column)
		if c.Text == "" {
			continue
		}
		cells++
		if fs, err := stash.ParseFibres(c.Text); err == nil && len(fs) > 0 {
			fibres++
		}
		if _, _, err := readDay(c.Text, DayFirst, "9998-01-01"); err == nil && len(c.Text) > 5 || c.Kind == Day {
			days++
		}
		if strings.ContainsFunc(c.Text, isDigit) {
			text, _ := plainNumbers(c.Text, Point)
			if _, err := measure.ParseMoney(text, ""); err == nil {
				money++
			}
			if _, err := measure.ParseLength(text, 0); err == nil && strings.ContainsFunc(text, func(r rune) bool { return !isDigit(r) && r != '.' }) {
				lengths++
			}
		}
		if _, ok := made[strings.ToLower(c.Text)]; ok {
			constructions++
		}
	}
	for _, found := range []struct {
		n int
		f Field
	}{{fibres, FibreContent}, {constructions, Construction}, {days, BoughtOn}, {lengths, Length}, {money, Price}} {
		if cells > 0 && 10*found.n >= 8*cells && !taken[found.f] {
			return found.f
		}
	}
	return ""
}

// nameless takes the first column of words for the fabric's name.
func nameless(t Table, m *Mapping) {
	for k := range m.Columns {
		if m.Columns[k].Field != "" {
			continue
		}
		for i := m.Headings + 1; i < len(t.Rows); i++ {
			if c := t.At(i, k); c.Text != "" {
				if c.Kind == Words && !strings.ContainsFunc(c.Text, isDigit) {
					m.Columns[k].Field = FabricName
					return
				}
				break
			}
		}
	}
}

// lengthUnits are the words for units in headings.
var lengthUnits = map[string]string{
	"m": "m", "metre": "m", "metres": "m", "meter": "m", "meters": "m", "mètres": "m", "mètre": "m", "mtr": "m", "cm": "cm", "centimetres": "cm", "mm": "mm",
	"in": "in", "inch": "in", "inches": "in", `"`: "in", "ft": "ft", "feet": "ft", "yd": "yd", "yds": "yd", "yard": "yd", "yards": "yd",
}

var unitLength = map[string]measure.Unit{
	"m": measure.Metre, "cm": measure.Centimetre, "mm": measure.Millimetre, "in": measure.Inch, "ft": measure.Foot, "yd": measure.Yard,
}

// unitIn finds a unit of length in a heading: in brackets, or as its last word.
func unitIn(heading string) string {
	h := strings.ToLower(heading)
	for _, b := range brackets.FindAllString(h, -1) {
		if u := lengthUnits[strings.Trim(b, "()[]. ")]; u != "" {
			return u
		}
	}
	words := strings.FieldsFunc(h, func(r rune) bool { return strings.ContainsRune(" ()[]/,:", r) })
	if len(words) > 0 && (len(words) > 1 || words[0] != "in") {
		return lengthUnits[strings.Trim(words[len(words)-1], ".")]
	}
	return ""
}

// perUnit finds what a price is per: "price per m", "€/yd", "Preis pro Meter".
func perUnit(heading string) string {
	m := regexp.MustCompile(`(?i)(?:\bper\b|\bpro\b|\bje\b|\bpar\b|\bau\b|/)\s*([\p{L}]+)`).FindStringSubmatch(heading)
	if m == nil {
		return ""
	}
	return lengthUnits[strings.ToLower(m[1])]
}

// weightIn finds a unit of weight in a heading.
func weightIn(heading string) string {
	h := strings.ToLower(heading)
	switch {
	case strings.Contains(h, "gsm"), strings.Contains(h, "g/m"), strings.Contains(h, "g/qm"):
		return "g/m²"
	case strings.Contains(h, "oz"):
		return "oz/yd²"
	}
	return ""
}

// moneyIn finds a currency in a heading, such as "price (EUR)" or "Preis in €".
func moneyIn(heading string) string {
	for _, w := range strings.FieldsFunc(heading, func(r rune) bool { return strings.ContainsRune(" ()[]/,:", r) }) {
		if _, ok := measure.MinorDigits(strings.ToUpper(w)); ok && len(w) == 3 && w == strings.ToUpper(w) {
			return w
		}
		if m, err := measure.ParseMoney("1 "+w, ""); err == nil && len([]rune(w)) == 1 {
			return m.Currency
		}
	}
	return ""
}
