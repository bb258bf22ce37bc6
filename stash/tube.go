package stash

import (
	"regexp"

	"tallycloth/stash/measure"
)

var twice = regexp.MustCompile(`^\s*(?:2|two|twice)\s*[x×*]\s*(.+)$|^\s*twice\s+(.+)$`)

// ParseFullWidth reads the full width of a fabric; "2 × 50 cm" is a tube, 50 cm lying flat. A
// bare number takes the unit.
func ParseFullWidth(text string, unit measure.Unit) (width measure.Length, tube bool, err error) {
	if m := twice.FindStringSubmatch(text); m != nil {
		text, tube = m[1]+m[2], true
	}
	width, err = measure.ParsePositiveLength(text, unit)
	return width, tube, err
}
