package list

import (
	"fmt"
	"time"

	"tallycloth/stash"
)

type day = stash.Date
type reading = stash.Reading

// Order is which of day and month comes first where both are numbers.
type Order = stash.DayOrder

// The orders; an empty one is left to the contents.
const (
	DayFirst   = stash.DayFirst
	MonthFirst = stash.MonthFirst
)

// orders counts what the days of a column show.
type orders struct {
	dayFirst, monthFirst, open int
	example                    string
}

func (o *orders) look(text string) {
	d, ok := stash.SpellDay(text, "")
	switch a, b := d.First, d.Second; {
	case !ok || !d.Slashed || a == b:
	case a > 12 && b <= 12:
		o.dayFirst++
	case b > 12 && a <= 12:
		o.monthFirst++
	case a <= 12 && b <= 12:
		if o.open++; o.example == "" {
			o.example = text
		}
	}
}

func (o orders) order() Order {
	switch {
	case o.dayFirst > 0 && o.monthFirst == 0:
		return DayFirst
	case o.monthFirst > 0 && o.dayFirst == 0:
		return MonthFirst
	}
	return ""
}

const wantDay = "write it as 2026-03-02"

// readDay reads a day as people write it. A year of two digits is the last such year
// that is not after the next (derived here). open is true when the order of day and
// month is not decided. Days that do not exist, that lie after tomorrow or before
// 1900 are refused.
func readDay(text string, order Order, today stash.Date) (_ stash.Date, open bool, err error) {
	d, ok := stash.SpellDay(text, order)
	if !ok {
		return "", false, fmt.Errorf("%q is not a day; %s", short(text), wantDay)
	}
	now, err := time.Parse(time.DateOnly, string(today))
	if err != nil {
		return "", false, fmt.Errorf("today is not a day: %w", err)
	}
	t, wrong := d.In(now.Year() + 1)
	switch {
	case wrong != "":
		return "", d.Open, fmt.Errorf("%q is not a day: %s; %s", short(text), wrong, wantDay)
	case t.After(now.AddDate(0, 0, 1)):
		return "", d.Open, fmt.Errorf("%q lies in the future; look at the year", short(text))
	case t.Year() < 1900:
		return "", d.Open, fmt.Errorf("%q is too long ago; look at the year", short(text))
	}
	return stash.On(t), d.Open, nil
}

// short keeps a long text from filling a sentence.
func short(s string) string {
	const most = 40
	if r := []rune(s); len(r) > most {
		return string(r[:most]) + "…"
	}
	return s
}
