package planner_test

import (
	"fmt"
	"slices"
	"testing"
	"time"

	"tallycloth/planner"
	"tallycloth/planner/plannertest"
	"tallycloth/stash/stashtest"

	"pgregory.net/rapid"
)

// TestBackupRule: one back-up a day for two years leaves 7 days, 4 weeks and 12 months.
func TestBackupRule(t *testing.T) {
	now := time.Date(2026, 11, 25, 9, 0, 0, 0, time.UTC) // a Wednesday
	var all []planner.Backup
	for d := range 730 {
		at := now.AddDate(0, 0, -d)
		all = append(all, planner.Backup{Path: at.Format(time.DateOnly), Why: planner.EachDay, At: at})
	}
	spare := planner.UsualBackups.Spare(all, now, time.UTC)
	var kept []string
	for _, b := range all {
		if !slices.Contains(spare, b) {
			kept = append(kept, b.Path)
		}
	}
	want := []string{
		"2026-11-25", "2026-11-24", "2026-11-23", "2026-11-22", "2026-11-21", "2026-11-20", "2026-11-19", // days; Sundays end weeks
		"2026-11-15", "2026-11-08", "2026-10-31", "2026-09-30", "2026-08-31", "2026-07-31", "2026-06-30", "2026-05-31",
		"2026-04-30", "2026-03-31", "2026-02-28", "2026-01-31", "2025-12-31",
	}
	if !slices.Equal(kept, want) {
		t.Errorf("kept %v, want %v", kept, want)
	}
}

// TestBackupRuleAlways: the newest stays, the rule bounds how many do, what it kept it keeps
// when asked again, and nothing made before a great change goes within a month.
func TestBackupRuleAlways(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		now := time.Date(2026, 6, 1, 12, 0, 0, 0, time.UTC)
		var all []planner.Backup
		for i, h := range rapid.SliceOfN(rapid.IntRange(0, 24*800), 1, 40).Draw(t, "hours ago") {
			why := rapid.SampledFrom([]planner.BackupWhy{planner.EachDay, planner.BeforeList}).Draw(t, "why")
			all = append(all, planner.Backup{Path: fmt.Sprint(i), Why: why, At: now.Add(-time.Duration(h) * time.Hour)})
		}
		r := planner.BackupRule{Days: rapid.IntRange(0, 9).Draw(t, "days"), Weeks: rapid.IntRange(0, 5).Draw(t, "weeks"), Months: rapid.IntRange(0, 14).Draw(t, "months")}
		spare := r.Spare(all, now, time.UTC)
		left := slices.DeleteFunc(slices.Clone(all), func(b planner.Backup) bool { return slices.Contains(spare, b) })
		newest := slices.MaxFunc(all, func(a, b planner.Backup) int { return a.At.Compare(b.At) })
		days := 0
		for _, b := range left {
			if b.Why == planner.EachDay || now.Sub(b.At) > 31*24*time.Hour {
				days++
			}
		}
		if most := max(r.Days, 1) + r.Weeks + r.Months; days > most {
			t.Fatalf("%d stay, at most %d may", days, most)
		}
		if !slices.ContainsFunc(left, func(b planner.Backup) bool { return b.At.Equal(newest.At) }) {
			t.Fatal("the newest is gone")
		}
		if again := r.Spare(left, now, time.UTC); len(again) > 0 {
			t.Fatalf("the same rule drops %v of what it kept", again)
		}
		for _, b := range spare {
			if b.Why != planner.EachDay && now.Sub(b.At) < 30*24*time.Hour {
				t.Fatalf("%+v went too soon", b)
			}
		}
	})
}

// TestBackUpToday: once a day, and only when something was done since the last.
func TestBackUpToday(t *testing.T) {
	s, now := clocked(t)
	made := func() bool {
		t.Helper()
		b, err := s.BackUpToday(t.Context())
		if err != nil {
			t.Fatal(err)
		}
		return b != planner.Backup{}
	}
	if made() {
		t.Error("an empty library was backed up")
	}
	log := func(name string) {
		t.Helper()
		*now = now.Add(time.Minute)
		set := planner.DefaultSettings()
		set.TextPercent = 80 + int(name[0]-'a')
		if err := s.SaveSettings(t.Context(), set); err != nil {
			t.Fatal(err)
		}
		*now = now.Add(time.Minute)
	}
	log("a")
	if !made() || made() {
		t.Error("not exactly one on the first day")
	}
	log("b")
	if made() {
		t.Error("two on one day")
	}
	*now = now.AddDate(0, 0, 1)
	if !made() {
		t.Error("none on the day after")
	}
	*now = now.AddDate(0, 0, 1)
	if made() {
		t.Error("one although nothing was done")
	}
}

// clocked is a studio with a clock that the test sets.
func clocked(t *testing.T) (*planner.Studio, *time.Time) {
	t.Helper()
	at := time.Date(2026, 5, 4, 10, 0, 0, 0, time.UTC)
	now := func() time.Time { return at }
	ids := stashtest.IDs()
	return planner.NewStudio(planner.Config{Store: plannertest.New(now, ids), Now: now, NewID: ids}), &at
}
