package planner

import (
	"context"
	"fmt"
	"slices"
	"time"

	"tallycloth/stash"
)

// BackupWhy says why a back-up was made.
type BackupWhy string

// The occasions of a back-up.
const (
	EachDay      BackupWhy = "day"           // on start, at most once a day
	BeforeForm   BackupWhy = "before-form"   // before a newer version changed the library
	BeforeList   BackupWhy = "before-list"   // before a list was brought in
	BeforeReturn BackupWhy = "before-return" // before an earlier back-up took the library's place
)

// Backup is one back-up in the library's folder.
type Backup struct {
	Path  string
	Why   BackupWhy
	At    time.Time
	Bytes int64
}

// BackupRule says how many of the back-ups stay: the newest of each of so many days,
// weeks (from Monday) and months that have one.
type BackupRule struct {
	Days, Weeks, Months int
}

// UsualBackups is the rule of a new library (ours).
var UsualBackups = BackupRule{Days: 7, Weeks: 4, Months: 12}

// beforeKept is how long one made before a great change stays in any case.
const beforeKept = 31 * 24 * time.Hour

// Spare returns the back-ups that the rule does not keep, days being those of zone. The
// newest always stays, and so does for a month each one made before a great change.
func (r BackupRule) Spare(all []Backup, now time.Time, zone *time.Location) []Backup {
	newest := slices.Clone(all)
	slices.SortStableFunc(newest, func(a, b Backup) int { return b.At.Compare(a.At) })
	keep := map[string]bool{}
	for _, period := range []struct {
		most int
		of   func(time.Time) string
	}{
		{max(r.Days, 1), func(t time.Time) string { return t.Format(time.DateOnly) }},
		{r.Weeks, func(t time.Time) string { y, w := t.ISOWeek(); return fmt.Sprint(y, "/", w) }},
		{r.Months, func(t time.Time) string { return t.Format("2006-01") }},
	} {
		seen := map[string]bool{}
		for _, b := range newest {
			if p := period.of(b.At.In(zone)); !seen[p] && len(seen) < period.most {
				seen[p], keep[b.Path] = true, true
			}
		}
	}
	var spare []Backup
	for _, b := range newest {
		if keep[b.Path] || b.Why != EachDay && now.Sub(b.At) < beforeKept {
			continue
		}
		spare = append(spare, b)
	}
	return spare
}

// Returning is what would change if a back-up took the place of the library.
type Returning struct {
	Backup Backup
	// Gone are the newest acts that the back-up does not have, at most GoneShown, and
	// how many there are in all; Back counts those that only the back-up has.
	Gone        []stash.Act
	GoneAll     int
	Back        int
	Then        time.Time // of the last act in the back-up; zero when it has none
	Counts      []ReturnCount
	OtherOrigin bool // they have no act in common: it is a back-up of another library
}

// GoneShown is how many acts Returning lists.
const GoneShown = 200

// ReturnCount is how many there are of something now and in the back-up.
type ReturnCount struct {
	One, Many string
	Now, Then int
}

// BackUpToday makes the back-up of the day unless there is one already, or nothing was
// done since the newest; then it removes those that the rule does not keep. It says
// which it made; the zero Backup when none was due. It takes as long as the library is
// large and may be stopped.
func (s *Studio) BackUpToday(ctx context.Context) (Backup, error) {
	due, all, err := s.backupDue(ctx)
	if err != nil || !due {
		return Backup{}, err
	}
	made, err := s.KeepBackup(ctx, EachDay)
	if err != nil {
		return Backup{}, err
	}
	set, err := s.Settings(ctx)
	if err != nil {
		return made, fmt.Errorf("reading how many back-ups stay: %w", err)
	}
	return made, s.DropBackups(ctx, set.BackupRule().Spare(append(all, made), s.now(), s.now().Location()))
}

func (s *Studio) backupDue(ctx context.Context) (bool, []Backup, error) {
	if s.ReadOnly() != "" {
		return false, nil, nil
	}
	acts, err := s.Acts(ctx, 1)
	if err != nil || len(acts) == 0 {
		return false, nil, err
	}
	all, err := s.Backups(ctx)
	if err != nil {
		return false, nil, err
	}
	today := s.now().Format(time.DateOnly)
	for _, b := range all {
		if !b.At.Before(acts[0].At) || b.Why == EachDay && b.At.In(s.now().Location()).Format(time.DateOnly) == today {
			return false, all, nil
		}
	}
	return true, all, nil
}

// backUpBefore keeps a back-up before a great change; an empty library needs none.
func (s *Studio) backUpBefore(ctx context.Context, why BackupWhy) error {
	acts, err := s.Acts(ctx, 1)
	if err != nil || len(acts) == 0 {
		return err
	}
	_, err = s.KeepBackup(ctx, why)
	return err
}

// BackupRule is the person's rule; libraries from before it have the usual.
func (s Settings) BackupRule() BackupRule {
	if s.Backups == (BackupRule{}) {
		return UsualBackups
	}
	return s.Backups
}
