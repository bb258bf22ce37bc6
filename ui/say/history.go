package say

import (
	"fmt"

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
