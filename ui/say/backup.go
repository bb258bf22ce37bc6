package say

import (
	"fmt"
	"strings"
	"time"

	"tallycloth/planner"
)

// BackupWhy says when a back-up was made, in words.
func BackupWhy(w planner.BackupWhy) string {
	switch w {
	case planner.EachDay:
		return "of the day"
	case planner.BeforeForm:
		return "before a newer version of the program"
	case planner.BeforeList:
		return "before a list was brought in"
	case planner.BeforeReturn:
		return "before going back to another"
	}
	return "a file of your own"
}

// Moment writes a day and time of day in the person's own zone.
func Moment(t time.Time) string { return t.Local().Format("2 Jan 2006, 15:04") }

// Bytes writes the size of a file, in thousands as disks are sold.
func Bytes(n int64) string {
	switch {
	case n < 1_000_000:
		return fmt.Sprintf("%d kB", max(n/1000, 1))
	case n < 10_000_000:
		return fmt.Sprintf("%.1f MB", float64(n)/1e6)
	}
	return fmt.Sprintf("%d MB", n/1_000_000)
}

// Returning says in sentences what going back to a back-up would change.
func Returning(r planner.Returning) []string {
	var out []string
	switch {
	case r.OtherOrigin:
		out = append(out, "This is a back-up of another library: everything here would be replaced by it.")
	case r.GoneAll == 0 && r.Back == 0:
		out = append(out, "It has all that the library has: nothing would change.")
	case r.GoneAll > 0:
		out = append(out, Sentence(Count(r.GoneAll, "thing", "things")+" that you did since would be gone"))
	}
	if r.Back > 0 && !r.OtherOrigin {
		out = append(out, Sentence(Count(r.Back, "thing", "things")+" that only the back-up knows would be there again"))
	}
	var counts []string
	for _, c := range r.Counts {
		if c.Now != c.Then {
			counts = append(counts, fmt.Sprintf("%s instead of %d", Count(c.Then, c.One, c.Many), c.Now))
		}
	}
	if len(counts) > 0 {
		out = append(out, "There would be "+strings.Join(counts, ", ")+".")
	}
	return out
}
