package stash

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"time"

	"tallycloth/stash/measure"
)

// DayOrder is which of day and month comes first where both are numbers.
type DayOrder string

// The orders; an empty one is left to the contents.
const (
	DayFirst   DayOrder = "day first"
	MonthFirst DayOrder = "month first"
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

// SpelledDay is a day as a text spells it; whether the calendar has it is not looked at.
type SpelledDay struct {
	Day, Month int
	Year       string // four digits, or two
	// Slashed says that both were numbers with a stroke or hyphen between, First before
	// Second; Open that the order of the two is not decided.
	Slashed, Open bool
	First, Second int
}

// SpellDay takes a day apart as people write it: 2026-03-15, 15.03.2026, 15/3/26, 15 March 2026,
// March 15, 2026. Points always stand in day, month, year (common practice).
func SpellDay(text string, order DayOrder) (d SpelledDay, ok bool) {
	s := strings.ToLower(strings.Join(strings.Fields(text), " "))
	if m := firstMatch(s, yearFirst, eightNums); m != nil {
		return SpelledDay{Year: m[1], Month: atoi(m[2]), Day: atoi(m[3])}, true
	}
	if m := dayMonth.FindStringSubmatch(s); m != nil && months[m[2]] > 0 {
		return SpelledDay{Year: m[3], Month: months[m[2]], Day: atoi(m[1])}, true
	}
	if m := monthDay.FindStringSubmatch(s); m != nil && months[m[1]] > 0 {
		return SpelledDay{Year: m[3], Month: months[m[1]], Day: atoi(m[2])}, true
	}
	m := yearLast.FindStringSubmatch(s)
	if m == nil {
		return d, false
	}
	a, b := atoi(m[1]), atoi(m[3])
	d = SpelledDay{Year: m[4], Day: a, Month: b, Slashed: m[2] != ".", First: a, Second: b}
	if d.Slashed && (order == MonthFirst && b <= 31 && a <= 12 || order != DayFirst && b > 12 && a <= 12) {
		d.Day, d.Month = b, a
	}
	d.Open = d.Slashed && order == "" && a <= 12 && b <= 12 && a != b
	return d, true
}

// In returns the day in the calendar, or what is wrong with it as a clause. A year of two
// digits is the last such year that is not after latest.
func (d SpelledDay) In(latest int) (t time.Time, wrong string) {
	y := atoi(d.Year)
	if len(d.Year) == 2 {
		for y += 1900; y+100 <= latest; y += 100 {
		}
	}
	t = time.Date(y, time.Month(d.Month), d.Day, 0, 0, 0, 0, time.UTC)
	switch {
	case d.Month < 1 || d.Month > 12:
		return t, fmt.Sprintf("there is no month %d", d.Month)
	case d.Day < 1 || t.Day() != d.Day || int(t.Month()) != d.Month:
		return t, fmt.Sprintf("%s %d has no day %d", time.Month(d.Month), y, d.Day)
	}
	return t, ""
}

// ParseDay reads a day as a person types it into a field, in any form that SpellDay knows and
// that cannot be misread: 15/3/2026 is one, 3/4/2026 is not. A year of two digits is at most ten
// years ahead (ours). The error is a *measure.TextError.
func ParseDay(text string, today Date) (Date, error) {
	wrong := measure.TextError{Text: text, Wrong: "it is not a day", Want: "a day such as 2026-03-15, 15.3.2026 or 15 March 2026", Like: "2026-03-15 or 15 March 2026"}
	d, ok := SpellDay(text, "")
	if !ok {
		return "", &wrong
	}
	now, err := time.Parse(time.DateOnly, string(today))
	if err != nil {
		return "", fmt.Errorf("today is not a day: %w", err)
	}
	t, why := d.In(now.Year() + 10)
	switch {
	case why != "":
		wrong.Wrong = why
		return "", &wrong
	case d.Open:
		other := time.Date(t.Year(), time.Month(d.Day), d.Month, 0, 0, 0, 0, time.UTC)
		wrong.Wrong = "it can be read either way"
		wrong.Like = t.Format("2 January 2006") + " or " + other.Format("2 January 2006")
		wrong.Want = wrong.Like
		return "", &wrong
	case t.Year() < 1900:
		wrong.Wrong = "it is too long ago"
		return "", &wrong
	}
	return On(t), nil
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
	n, _ := strconv.Atoi(s) // digits only
	return n
}
