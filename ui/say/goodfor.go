package say

import (
	"fmt"
	"strings"

	"tallycloth/planner"
)

// GoodFor says what a leftover is still good for, at most so many uses by name; proved ones
// and those by the yardage table apart.
func GoodFor(g planner.GoodFor, most int) string {
	proved, about := usesNamed(g, true, most), usesNamed(g, false, most)
	var out []string
	if proved != "" {
		out = append(out, "Still enough, by a layout, for "+proved+".")
	}
	if about != "" {
		out = append(out, "About enough, by the yardage table, for "+about+".")
	}
	switch {
	case g.Unknown > 0:
		out = append(out, Count(g.Unknown, "pattern is", "patterns are")+" still being looked at …")
	case len(out) == 0:
		out = append(out, "Good for nothing in the library that is known to be enough.")
	}
	return strings.Join(out, " ")
}

func usesNamed(g planner.GoodFor, proved bool, most int) string {
	var words []string
	for _, u := range g.Uses {
		if u.Proved == proved {
			words = append(words, u.Pattern.Name+", "+u.Role+" ("+sizesNamed(u.Sizes)+")")
		}
	}
	if more := len(words) - most; more > 0 {
		return strings.Join(words[:most], "; ") + fmt.Sprintf("; and %d more", more)
	}
	return strings.Join(words, "; ")
}

// sizesNamed names up to three sizes, and counts more.
func sizesNamed(sizes []planner.Use) string {
	if len(sizes) == 1 {
		return "size " + sizes[0].Size
	}
	if len(sizes) > 3 {
		return Count(len(sizes), "size", "sizes") + ", " + sizes[0].Size + " to " + sizes[len(sizes)-1].Size
	}
	var names []string
	for _, s := range sizes {
		names = append(names, s.Size)
	}
	return "sizes " + And(names)
}
