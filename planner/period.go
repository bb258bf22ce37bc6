package planner

import (
	"time"

	"tallycloth/stash"
)

// Period is a stretch of time that a person names.
type Period string

// The periods. FromTo has the days that are said with it.
const (
	ThisMonth Period = "this month"
	ThisYear  Period = "this year"
	LastYear  Period = "last year"
	AllTime   Period = "all"
	FromTo    Period = "from – to"
)

// Periods are all of them, as they are offered.
var Periods = []Period{ThisMonth, ThisYear, LastYear, AllTime, FromTo}

// Days are the first and the last day of a period; "" is open, as both are for AllTime
// and FromTo.
func (p Period) Days(today stash.Date) (from, to stash.Date) {
	t, err := time.Parse(dayForm, string(today))
	if err != nil {
		return "", ""
	}
	switch p {
	case ThisMonth:
		first := time.Date(t.Year(), t.Month(), 1, 0, 0, 0, 0, time.UTC)
		return stash.On(first), stash.On(first.AddDate(0, 1, -1))
	case ThisYear:
		return yearDays(t.Year())
	case LastYear:
		return yearDays(t.Year() - 1)
	}
	return "", ""
}

func yearDays(year int) (from, to stash.Date) {
	return stash.On(time.Date(year, 1, 1, 0, 0, 0, 0, time.UTC)), stash.On(time.Date(year, 12, 31, 0, 0, 0, 0, time.UTC))
}

const dayForm = "2006-01-02"

// Midnight is the moment a day begins in a zone, nil for UTC. The day must be valid.
func Midnight(d stash.Date, zone *time.Location) time.Time {
	t, _ := time.ParseInLocation(dayForm, string(d), zoneOf(zone))
	return t
}

// After is the day after a valid day.
func After(d stash.Date) stash.Date { return stash.On(Midnight(d, nil).AddDate(0, 0, 1)) }

// Before is the day before a valid day.
func Before(d stash.Date) stash.Date { return stash.On(Midnight(d, nil).AddDate(0, 0, -1)) }

// Step is how long the spans are that a period is parted into.
type Step int

// The steps.
const (
	ByMonth Step = iota
	ByYear
)

// begin is the first day of the span that a day is in.
func (s Step) begin(d stash.Date) stash.Date {
	t := Midnight(d, nil)
	month := t.Month()
	if s == ByYear {
		month = time.January
	}
	return stash.On(time.Date(t.Year(), month, 1, 0, 0, 0, 0, time.UTC))
}

// next is the first day of the span after the one that begins on a day.
func (s Step) next(begin stash.Date) stash.Date {
	t := Midnight(begin, nil)
	if s == ByYear {
		return stash.On(t.AddDate(1, 0, 0))
	}
	return stash.On(t.AddDate(0, 1, 0))
}
