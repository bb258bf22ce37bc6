package say

import (
	"fmt"
	"strings"

	"tallycloth/planner"
	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// Kind says what happened to a cloth, from the kind of a line of history and its note.
func Kind(l planner.PastLine) string {
	switch {
	case l.Kind == stash.Reversed:
		return "taken back: " + l.Note
	case l.TakenBack:
		return string(l.Kind) + " (taken back since)"
	}
	return string(l.Kind)
}

// Told says what happened of what is told in one line: of an act that was taken back, or that took
// another back, what it was in its own words.
func Told(t planner.PastTold) string {
	switch {
	case !t.Together() || t.Sentence == "":
		return Kind(t.PastLine)
	case t.TakenBack:
		return Sentence(t.Sentence)
	}
	return strings.TrimSuffix(Sentence(t.Sentence), ".")
}

// Undone says what a line of an act was that does not stand, or that another act took back or did again.
func Undone(l planner.PastLine) string {
	switch {
	case l.Kind != stash.Reversed:
		return string(l.Kind)
	case l.Note == string(stash.Reversed):
		return "done again"
	}
	return string(stash.MovementKind(l.Note)) + ", taken back"
}

// Besides is what else a line tells: its note, or that an act does not stand any more.
func Besides(t planner.PastTold) string {
	switch {
	case t.Kind == stash.Reversed:
		return ""
	case t.TakenBack:
		return "taken back since"
	}
	return Note(t.PastLine)
}

// PastOf writes what is told in one line of a cloth's own history.
func (v Voice) PastOf(t planner.PastTold) string {
	if !t.Together() {
		return v.Happened(t.Movement, t.BoughtOn)
	}
	text := t.At.Format("2 Jan 2006") + "  " + strings.TrimSuffix(Told(t), ".")
	if more := Besides(t); more != "" {
		text += " (" + more + ")"
	}
	return text
}

// Note is what else a line of history says.
func Note(l planner.PastLine) string {
	note := l.Note
	if l.Kind == stash.Reversed {
		note = ""
	}
	if l.BoughtOn != "" && l.BoughtOn != stash.On(l.At) {
		if note != "" {
			note += "; "
		}
		note += "on " + Day(l.BoughtOn)
	}
	return note
}

// Yards writes a length of fabric at its full width, with its sign; nothing for nothing. As sums of
// areas are no lengths that anybody measured, long ones have two decimals in either system.
func (v Voice) Yards(y planner.Yards) string {
	if y.Area == 0 && y.Length == 0 {
		return ""
	}
	return v.signed(y.Length)
}

// YardsAndArea writes both: "4.25 m (6.80 m²)".
func (v Voice) YardsAndArea(y planner.Yards) string {
	return v.signed(y.Length) + " (" + v.Area(y.Area) + ")"
}

func (v Voice) signed(l measure.Length) string {
	unit, name := measure.Metre, " m"
	if v.Units == measure.Imperial {
		unit, name = measure.Yard, " yd"
	}
	switch {
	case l < 0:
		return "− " + v.signed(-l)
	case l < unit:
		return v.Length(l)
	}
	return fmt.Sprintf("%.2f", float64(l)/float64(unit)) + name
}

// Period says which days are meant.
func Period(from, to stash.Date) string {
	switch {
	case from == "" && to == "":
		return "the whole history"
	case from == "":
		return "up to " + Day(to)
	case to == "":
		return "from " + Day(from)
	}
	return "from " + Day(from) + " to " + Day(to)
}

// Span names a span of a period: a year, a month, or its days where it is neither whole.
func Span(s planner.YardageSpan, step planner.Step) string {
	t := planner.Midnight(s.From, nil)
	if step == planner.ByYear {
		return t.Format("2006")
	}
	return t.Format("Jan 2006")
}

// Day of a moment as lists show it: 5 Mar 2026.
func ShortDay(d stash.Date) string {
	if d == "" || !d.Valid() {
		return string(d)
	}
	return planner.Midnight(d, nil).Format("2 Jan 2006")
}
