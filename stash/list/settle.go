package list

import (
	"cmp"
	"fmt"
	"slices"

	"tallycloth/stash/measure"
)

// Settled is a column with all that was decided of it.
type Settled struct {
	Column
	Heading string
	// Assumed says that Unit is the usual one, because nothing in the list says it.
	Assumed bool
	// ByList says that Decimal was decided by the other columns of the list.
	ByList bool
	def    *def
}

// Question is what only the person can decide.
type Question struct {
	Column  int
	What    string // a sentence
	Do      string // what to choose, a sentence
	Choices []string
}

// Settle decides what a mapping leaves open, column by column: units by heading, the
// sign of decimals and the order of day and month by what is impossible otherwise. A
// decimal sign that no number of its column shows is taken from the other columns,
// when those agree. What stays open becomes a question.
func Settle(t Table, m Mapping) ([]Settled, []Question) {
	out := make([]Settled, len(m.Columns))
	looks := make([]looked, len(m.Columns))
	var all evidence
	for k, c := range m.Columns {
		out[k] = Settled{Column: c, Heading: t.At(m.Headings, k).Text, def: defOf[c.Field]}
		if out[k].def == nil {
			continue
		}
		looks[k] = look(t, m, k, out[k].def.form())
		out[k].settleUnit(m, looks[k])
		all.points += looks[k].numbers.points
		all.commas += looks[k].numbers.commas
	}
	questions := twice(out)
	for k := range out {
		if out[k].def != nil {
			questions = append(questions, out[k].settleSigns(k, looks[k], all)...)
		}
	}
	if !slices.ContainsFunc(out, func(s Settled) bool { return s.Field == FabricName }) {
		questions = append(questions, Question{Column: -1, What: "No column says what the fabric is called", Do: "Choose the column with the names of the fabrics"})
	}
	return out, questions
}

// twice asks about a fact that two columns say.
func twice(cols []Settled) []Question {
	var out []Question
	seen := map[Field]int{}
	for k, c := range cols {
		if c.def == nil {
			continue
		}
		if first, ok := seen[c.Field]; ok {
			out = append(out, Question{Column: k, What: fmt.Sprintf("The columns %s and %s both say %q", cols[first].name(first), c.name(k), c.Field), Do: "Choose something else for one of them, or keep it as a note"})
			continue
		}
		seen[c.Field] = k
	}
	return out
}

// name is how a column is called to a person.
func (s Settled) name(k int) string {
	if s.Heading != "" {
		return "“" + short(s.Heading) + "”"
	}
	return fmt.Sprintf("%d", k+1)
}

// looked is what the cells of a column show.
type looked struct {
	numbers evidence
	days    orders
	bare    []measure.Length // the first bare numbers, in metres, to judge a unit by
}

func look(t Table, m Mapping, column int, f form) looked {
	var l looked
	if f == plainForm {
		return l
	}
	for i := m.Headings + 1; i < len(t.Rows); i++ {
		c := t.At(i, column)
		switch {
		case c.Text == "" || c.Kind == Day:
		case f == dayForm:
			l.days.look(c.Text)
		default:
			if c.Kind == Words {
				l.numbers.look(c.Text)
			}
			if f == lengthForm && len(l.bare) < lookedAt {
				text, _ := plainNumbers(c.Text, Undecided)
				if v, err := measure.ParseLength(text, measure.Metre); err == nil && isBare(text) {
					l.bare = append(l.bare, v)
				}
			}
		}
	}
	return l
}

// isBare says whether a text is a number without a unit.
func isBare(text string) bool {
	_, err := measure.ParseLength(text, 0)
	l, _ := measure.ParseLength(text, 0)
	return err == nil && l == 0
}

// likely are the widths and lengths that fabric has, to choose between units that
// nothing says (common practice: bolts are 20 cm to 4 m wide and hold up to 60 m).
var likely = map[measure.Kind][2]measure.Length{
	measure.Width: {20 * cm, 4 * measure.Metre}, measure.FabricLength: {2 * cm, 60 * measure.Metre},
}

func (s *Settled) settleUnit(m Mapping, l looked) {
	if s.Unit != "" {
		return
	}
	switch s.def.form() {
	case lengthForm:
		if s.Unit = unitIn(s.Heading); s.Unit == "" {
			s.Unit, s.Assumed = usualUnit(s.def.kind, m.Units, l.bare), true
		}
	case moneyForm:
		if s.Field == PricePer {
			s.Unit = perUnit(s.Heading)
		}
		if s.Unit == "" {
			s.Unit = moneyIn(s.Heading)
		}
	case numberForm:
		s.Unit = weightIn(s.Heading)
	}
}

// usualUnit is the person's own unit for a kind of length, or the first other in which
// the middle one of the bare numbers is a likely length.
func usualUnit(k measure.Kind, units measure.System, bare []measure.Length) string {
	own := map[measure.Kind][]string{
		measure.FabricLength: {"m", "cm", "yd", "in"}, measure.Width: {"cm", "m", "in"}, measure.PieceLength: {"mm", "cm"},
	}[k]
	if units == measure.Imperial {
		own = map[measure.Kind][]string{
			measure.FabricLength: {"yd", "in", "m", "cm"}, measure.Width: {"in", "cm", "m"}, measure.PieceLength: {"in", "mm"},
		}[k]
	}
	limits, known := likely[k]
	if len(bare) == 0 || !known {
		return own[0]
	}
	slices.Sort(bare)
	middle := float64(bare[len(bare)/2]) / float64(measure.Metre)
	for _, u := range own {
		if v := measure.Length(middle * float64(unitLength[u])); v >= limits[0] && v <= limits[1] {
			return u
		}
	}
	return own[0]
}

// settleSigns decides decimals and days, or asks.
func (s *Settled) settleSigns(k int, l looked, all evidence) []Question {
	if s.def.form() == dayForm && s.Order == "" {
		if s.Order = l.days.order(); s.Order == "" && l.days.open > 0 {
			return []Question{{Column: k, Choices: []string{string(DayFirst), string(MonthFirst)},
				What: fmt.Sprintf("In the column %s, %s could be two different days", s.name(k), l.days.example), Do: "Choose whether the day or the month comes first"}}
		}
		return nil
	}
	if s.Decimal != Undecided || s.def.form() == plainForm {
		return nil
	}
	s.Decimal = l.numbers.decimal()
	if s.Decimal == Undecided && l.numbers.points+l.numbers.commas == 0 {
		s.Decimal = all.decimal()
		s.ByList = s.Decimal != Undecided
	}
	if s.Decimal == Undecided && l.numbers.open > 0 {
		return []Question{{Column: k, Choices: []string{string(Point), string(Comma)},
			What: fmt.Sprintf("In the column %s, %s could be a thousand or have three decimals", s.name(k), l.numbers.example),
			Do:   "Choose whether decimals have a point or a comma"}}
	}
	return nil
}

// perLength is the length that a price of this column is for.
func (s Settled) perLength(m Mapping) measure.Length {
	if u := unitLength[s.Unit]; u != 0 {
		return u
	}
	if u := unitLength[perUnit(s.Heading)]; u != 0 {
		return u
	}
	if m.Units == measure.Imperial {
		return measure.Yard
	}
	return measure.Metre
}

// currency is what bare amounts of this column are in.
func (s Settled) currency(rec *Record, m Mapping) string {
	own := s.Unit
	if unitLength[own] != 0 {
		own = moneyIn(s.Heading)
	}
	return cmp.Or(rec.Currency, own, m.Currency)
}
