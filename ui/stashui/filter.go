package stashui

import (
	"regexp"
	"strings"

	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/ui/say"
)

// Filter reads a filter line of the shelf, such as "knits, at least 1 m, hall", and
// returns what says whether a cloth answers it.
func Filter(v say.Voice, text string) func(stash.ClothState) bool {
	f := filterFor(v, text)
	return func(c stash.ClothState) bool { return indexOf([]stash.ClothState{c}, v.Classes).matches(0, f) }
}

// filterFor reads a filter line with lengths in the person's units.
func filterFor(v say.Voice, text string) filter {
	if v.Units == measure.Imperial {
		return readFilter(text, measure.Yard)
	}
	return readFilter(text, measure.Metre)
}

// filter is what the filter line asks: words that must all be found, and limits.
type filter struct {
	words   []string
	knit    *bool
	washed  *bool
	length  measure.Length  // at least so long, free
	width   measure.Length  // at least so wide
	stretch measure.Percent // at least so much crosswise
}

var (
	lengthAsked  = regexp.MustCompile(`(?i)at least\s+([\d.,/½¼¾ -]+\s*(?:m|cm|mm|yd|in|")?)(\s+wide)?`)
	stretchAsked = regexp.MustCompile(`(?i)stretch(?:es)?\s+(?:over\s+|at least\s+)?([\d.,]+)\s*%?`)
)

// readFilter reads a sentence such as "knits, at least 1 m, stretch over 30 %, hall":
// limits first, every other word must be found in the row.
func readFilter(text string, bare measure.Unit) filter {
	var f filter
	text = lengthAsked.ReplaceAllStringFunc(text, func(s string) string {
		m := lengthAsked.FindStringSubmatch(s)
		l, err := measure.ParseLength(strings.TrimSpace(m[1]), bare)
		if err != nil {
			return s
		}
		if m[2] != "" {
			f.width = l
		} else {
			f.length = l
		}
		return " "
	})
	text = stretchAsked.ReplaceAllStringFunc(text, func(s string) string {
		p, err := measure.ParsePercent(stretchAsked.FindStringSubmatch(s)[1])
		if err != nil {
			return s
		}
		f.stretch = p
		return " "
	})
	yes, no := true, false
	for _, w := range strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return r == ' ' || r == ',' || r == ';' }) {
		switch w {
		case "knit", "knits":
			f.knit = &yes
		case "woven", "wovens":
			f.knit = &no
		case "washed":
			f.washed = &yes
		case "unwashed":
			f.washed = &no
		case "free", "and", "in", "the", "with", "of":
		default:
			f.words = append(f.words, w)
		}
	}
	return f
}
