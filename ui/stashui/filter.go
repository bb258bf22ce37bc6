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
	free    bool            // the limits are of what is free
}

// said tells how a filter line was understood, for a person who finds nothing.
func (f filter) said(v say.Voice) string {
	var parts []string
	pick := func(is *bool, yes, no string) {
		switch {
		case is == nil:
		case *is:
			parts = append(parts, yes)
		default:
			parts = append(parts, no)
		}
	}
	pick(f.knit, "knits", "wovens")
	pick(f.washed, "washed", "not washed yet")
	free := ""
	if f.free {
		free = " free"
	}
	if f.length > 0 {
		parts = append(parts, "at least "+v.Length(f.length)+" long"+free)
	}
	if f.width > 0 {
		parts = append(parts, "at least "+v.Width(f.width)+" wide"+free)
	}
	if f.stretch > 0 {
		parts = append(parts, "stretching at least "+measure.FormatPercent(f.stretch)+" across")
	}
	for _, w := range f.words {
		parts = append(parts, "the word “"+w+"”")
	}
	return say.And(parts)
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
		case "free":
			f.free = true
		case "and", "in", "the", "with", "of":
		default:
			f.words = append(f.words, w)
		}
	}
	return f
}
