package dxf

import (
	"strconv"
	"strings"
)

// The layers of ASTM D6673, by their numbers, from memory.
const (
	boundaryLayer  = 1 // the cutting line, and the words about a piece
	turnLayer      = 2 // points where a line has a corner
	curveLayer     = 3 // points that a curve goes through
	notchLayer     = 4 // V-shaped and slit notches
	gradeLayer     = 5 // reference lines for grading
	mirrorLayer    = 6 // the line a half is mirrored about
	grainLayer     = 7
	internalLayer  = 8 // lines inside that are not cut
	stripeLayer    = 9
	plaidLayer     = 10
	cutoutLayer    = 11 // lines inside that are cut
	drillLayer     = 13
	sewLayer       = 14
	wordsLayer     = 15 // words to be drawn on the piece
	tNotchLayer    = 80
	uNotchLayer    = 83 // 81 castle, 82 check
	boundaryChecks = 84 // the boundary with its curves drawn out
	lastChecks     = 87 // 85 inner lines, 86 cutouts, 87 sew lines
)

// layerNumber reads the number that a layer is named by, with or without the word
// layer before it; -1 for any other name.
func layerNumber(name string) int {
	s := strings.TrimSpace(name)
	if len(s) > 5 && strings.EqualFold(s[:5], "layer") {
		s = strings.Trim(s[5:], " _-")
	}
	n, err := strconv.Atoi(s)
	if err != nil || n < 0 {
		return -1
	}
	return n
}
