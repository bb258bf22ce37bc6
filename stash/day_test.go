package stash_test

import (
	"errors"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"tallycloth/stash"
	"tallycloth/stash/measure"
)

func TestParseDay(t *testing.T) {
	const today = "2026-11-27"
	for text, want := range map[string]stash.Date{
		"2026-03-15": "2026-03-15", "15.03.2026": "2026-03-15", "15. 3. 2026": "2026-03-15", "15.3.26": "2026-03-15",
		"3.4.2026":  "2026-04-03", // points stand in day, month, year
		"15/3/2026": "2026-03-15", "3/15/2026": "2026-03-15", "4/4/2026": "2026-04-04",
		"15 March 2026": "2026-03-15", "March 15, 2026": "2026-03-15", "15. März 2026": "2026-03-15", " 15  mar 2026 ": "2026-03-15",
		"1 June 2027": "2027-06-01", "1.6.30": "2030-06-01", "29.2.2024": "2024-02-29",
	} {
		if got, err := stash.ParseDay(text, today); err != nil || got != want {
			t.Errorf("%q is read as %q, %v; want %q", text, got, err, want)
		}
	}
}

// What is refused says first what to write instead; where a day can be read either way both are offered.
func TestParseDayRefuses(t *testing.T) {
	for text, cure := range map[string]string{
		"":           "Write 2026-03-15 or 15 March 2026: it is not a day.",
		"tomorrow":   "Write 2026-03-15 or 15 March 2026: it is not a day.",
		"3/4/2026":   "Write 3 April 2026 or 4 March 2026: it can be read either way.",
		"30.02.2026": "Write 2026-03-15 or 15 March 2026: February 2026 has no day 30.",
		"1.13.2026":  "Write 2026-03-15 or 15 March 2026: there is no month 13.",
		"1.1.0026":   "Write 2026-03-15 or 15 March 2026: it is too long ago.",
	} {
		got, err := stash.ParseDay(text, "2026-11-27")
		var wrong *measure.TextError
		if !errors.As(err, &wrong) || got != "" || wrong.Cure() != cure {
			t.Errorf("%q is read as %q, %v", text, got, err)
		}
	}
}

// Every day of the calendar reads back from each way of writing it that names its month or year first.
func TestParseDayReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := time.Date(1900, 1, 1, 0, 0, 0, 0, time.UTC).AddDate(0, 0, rapid.IntRange(0, 80_000).Draw(t, "days"))
		form := rapid.SampledFrom([]string{"2006-01-02", "02.01.2006", "2.1.2006", "2 January 2006", "January 2, 2006", "2 Jan 2006", "20060102"}).Draw(t, "form")
		got, err := stash.ParseDay(d.Format(form), "2026-11-27")
		if err != nil || got != stash.On(d) {
			t.Fatalf("%s is read as %s, %v", d.Format(form), got, err)
		}
	})
}

func FuzzParseDay(f *testing.F) {
	for _, s := range []string{"2026-03-15", "15/3/26", "March 15, 2026", "99.99.9999", "3/4/2026", strings.Repeat("1", 90)} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		if d, err := stash.ParseDay(s, "2026-11-27"); (err == nil) != (d != "") || !d.Valid() {
			t.Errorf("%q is read as %q, %v", s, d, err)
		}
	})
}
