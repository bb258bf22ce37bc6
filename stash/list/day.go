package list

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"time"

	"tallycloth/stash"
)

type day = stash.Date
type reading = stash.Reading

// Order is which of day and month comes first where both are numbers.
type Order string

// The orders; an empty one is left to the contents.
const (
	DayFirst   Order = "day first"
	MonthFirst Order = "month first"
)

var (
	yearFirst = regexp.MustCompile(`^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})(?:[t ]\d{1,2}:\d{2}(?::\d{2})?)?$`)
	yearLast  = regexp.MustCompile(`^(\d{1,2})\s*([-/.])\s*(\d{1,2})\s*[-/.]\s*(\d{4}|\d{2})$`)
	dayMonth  = regexp.MustCompile(`^(?:[a-z]+,?\s+)?(\d{1,2})(?:st|nd|rd|th|er)?\.?[ -]+(?:of )?([\p{L}]+)\.?,?[ -]+(\d{4}|\d{2})$`)
	monthDay  = regexp.MustCompile(`^([\p{L}]+)\.? (\d{1,2})(?:st|nd|rd|th)?,? (\d{4}|\d{2})$`)
	eightNums = regexp.MustCompile(`^(\d{4})(\d{2})(\d{2})$`)
)

// months are the names of months in English, German and French, and their short forms.
var months = map[string]int{
	"january": 1, "jan": 1, "januar": 1, "jänner": 1, "janvier": 1, "janv": 1,
	"february": 2, "feb": 2, "februar": 2, "février": 2, "fevrier": 2, "févr": 2, "fév": 2,
	"march": 3, "mar": 3, "märz": 3, "mär": 3, "mrz": 3, "mars": 3,
	"april": 4, "apr": 4, "avril": 4, "avr": 4,
	"may": 5, "mai": 5,
	"june": 6, "jun": 6, "juni": 6, "juin": 6,
	"july": 7, "jul": 7, "juli": 7, "juillet": 7, "juil": 7,
	"august": 8, "aug": 8, "août": 8, "aout": 8,
	"september": 9, "sep": 9, "sept": 9, "septembre": 9,
	"october": 10, "oct": 10, "oktober": 10, "okt": 10, "octobre": 10,
	"november": 11, "nov": 11, "novembre": 11,
	"december": 12, "dec": 12, "dezember": 12, "dez": 12, "décembre": 12, "decembre": 12, "déc": 12,
}

// numbersOf returns the two numbers and the year of a day such as 3/4/2026, and whether
// its order has to be decided: points always stand in day, month, year (common practice).
func numbersOf(text string) (a, b int, year string, open, ok bool) {
	m := yearLast.FindStringSubmatch(text)
	if m == nil {
		return 0, 0, "", false, false
	}
	a, _ = strconv.Atoi(m[1])
	b, _ = strconv.Atoi(m[3])
	return a, b, m[4], m[2] != ".", true
}

// orders counts what the days of a column show.
type orders struct {
	dayFirst, monthFirst, open int
	example                    string
}

func (o *orders) look(text string) {
	a, b, _, open, ok := numbersOf(text)
	switch {
	case !ok || !open || a == b:
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
func readDay(text string, order Order, today stash.Date) (d stash.Date, open bool, err error) {
	s := strings.ToLower(strings.Join(strings.Fields(text), " "))
	if m := firstMatch(s, yearFirst, eightNums); m != nil {
		d, err = dayOf(text, m[1], atoi(m[2]), atoi(m[3]), today)
		return d, false, err
	}
	if m := dayMonth.FindStringSubmatch(s); m != nil && months[m[2]] > 0 {
		d, err = dayOf(text, m[3], months[m[2]], atoi(m[1]), today)
		return d, false, err
	}
	if m := monthDay.FindStringSubmatch(s); m != nil && months[m[1]] > 0 {
		d, err = dayOf(text, m[3], months[m[1]], atoi(m[2]), today)
		return d, false, err
	}
	a, b, year, slashed, ok := numbersOf(s)
	if !ok {
		return "", false, fmt.Errorf("%q is not a day; %s", short(text), wantDay)
	}
	dayNo, monthNo := a, b
	if slashed && (order == MonthFirst && b <= 31 && a <= 12 || order != DayFirst && b > 12 && a <= 12) {
		dayNo, monthNo = b, a
	}
	open = slashed && order == "" && a <= 12 && b <= 12 && a != b
	d, err = dayOf(text, year, monthNo, dayNo, today)
	return d, open, err
}

func firstMatch(s string, exps ...*regexp.Regexp) []string {
	for _, e := range exps {
		if m := e.FindStringSubmatch(s); m != nil {
			return m
		}
	}
	return nil
}

func atoi(s string) int {
	n, _ := strconv.Atoi(s)
	return n
}

func dayOf(text, year string, month, dayNo int, today stash.Date) (stash.Date, error) {
	y := atoi(year)
	now, err := time.Parse("2006-01-02", string(today))
	if err != nil {
		return "", fmt.Errorf("today is not a day: %w", err)
	}
	if len(year) == 2 {
		for y += 1900; y+100 <= now.Year()+1; y += 100 {
		}
	}
	t := time.Date(y, time.Month(month), dayNo, 0, 0, 0, 0, time.UTC)
	switch {
	case month < 1 || month > 12:
		return "", fmt.Errorf("%q is not a day: there is no month %d; %s", short(text), month, wantDay)
	case dayNo < 1 || t.Day() != dayNo || int(t.Month()) != month:
		return "", fmt.Errorf("%q is not a day: %s %d has no day %d; %s", short(text), time.Month(month), y, dayNo, wantDay)
	case t.After(now.AddDate(0, 0, 1)):
		return "", fmt.Errorf("%q lies in the future; look at the year", short(text))
	case y < 1900:
		return "", fmt.Errorf("%q is too long ago; look at the year", short(text))
	}
	return stash.On(t), nil
}

// short keeps a long text from filling a sentence.
func short(s string) string {
	const most = 40
	if r := []rune(s); len(r) > most {
		return string(r[:most]) + "…"
	}
	return s
}
