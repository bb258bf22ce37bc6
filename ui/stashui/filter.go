package stashui

import (
	"regexp"
	"strings"

	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// filter is what the filter line asks: words that must all be found, and limits.
type filter struct {
	classes stash.StretchClasses // words for stretch
	words   []string
	knit    *bool
	washed  *bool
	length  measure.Length  // at least so long
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

// matches says whether a cloth answers the filter.
func (f filter) matches(c stash.ClothState) bool {
	fab := c.Fabric
	switch {
	case f.knit != nil && *f.knit != fab.Construction.Knit():
		return false
	case f.washed != nil && *f.washed != c.Cloth.Washed:
		return false
	case f.length > 0 && c.Cloth.Length < f.length:
		return false
	case f.width > 0 && c.Cloth.Width < f.width:
		return false
	case f.stretch > 0 && stash.Assumed(fab).Crosswise.Stretch.Value < f.stretch:
		return false
	}
	full := stash.Assumed(fab)
	hay := strings.ToLower(strings.Join([]string{fab.Name, f.classes.Of(full.Crosswise.Stretch.Value), f.classes.Of(full.Lengthwise.Stretch.Value), string(fab.Construction), fab.Fibres.String(), fab.ColourName,
		c.Cloth.Code, c.Cloth.Lot, c.Cloth.Place, fab.Supplier, strings.Join(fab.Tags, " "), c.Cloth.Notes}, " "))
	for _, w := range f.words {
		if !strings.Contains(hay, w) {
			return false
		}
	}
	return true
}
