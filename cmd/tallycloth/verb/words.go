package verb

import (
	"strings"

	"tallycloth/stash"
)

// pad fills a word up to a column of so many letters, with a space after it at least.
func pad(s string, n int) string {
	if k := n - len([]rune(s)); k > 0 {
		return s + strings.Repeat(" ", k)
	}
	return s + " "
}

// pieces counts the outlines that reservations keep.
func pieces(rs []stash.Reservation) int {
	n := 0
	for _, r := range rs {
		n += len(r.Pieces)
	}
	return n
}
