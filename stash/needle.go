package stash

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// Needle is what a note says of a needle.
type Needle struct {
	NM    int  // hundredths of a millimetre of blade (DIN 5325), 0 not said
	Size  int  // the other number of a pair such as 75/11, 0 not said
	Round bool // a point for knits: ball point, jersey or stretch
}

// needleSizes pairs sizes with NM as published needle tables print them (testdata/needles).
// Up to 18 they follow NM = 60 + 5·(size − 8).
var needleSizes = map[int]int{8: 60, 9: 65, 10: 70, 11: 75, 12: 80, 14: 90, 16: 100, 18: 110, 19: 120}

// roundWords tell a needle for knits; the letters are names of points in the trade: SES
// light, SUK medium, SKF heavy ball point (SUK and SKF from memory).
var roundWords = []string{"ball", "jersey", "stretch", "ses", "suk", "skf"}

var (
	numberIn = regexp.MustCompile(`[0-9]+(?:[.,][0-9]+)?`)
	wordIn   = regexp.MustCompile(`[\p{L}]+`)
)

// ReadNeedle reads a needle as people note it: "75/11 ball point", "stretch 90", "SUK 80".
func ReadNeedle(text string) Needle {
	var n Needle
	for _, word := range wordIn.FindAllString(strings.ToLower(text), -1) {
		for _, round := range roundWords {
			n.Round = n.Round || word == round || len(round) > 3 && strings.HasPrefix(word, round)
		}
	}
	for _, s := range numberIn.FindAllString(text, -1) {
		v, err := strconv.Atoi(s)
		switch {
		case err != nil: // the distance of twin needles, such as 4.0
		case v >= 50 && v <= 200 && n.NM == 0:
			n.NM = v
		case v >= 7 && v <= 24 && n.Size == 0:
			n.Size = v
		}
	}
	return n
}

// NeedleFor says which needle is usual for a knit, with sizes by weight; "" for a woven
// fabric. Fine knits 60–70, medium 75–80, coarse 90–100, with elastane up to 90 (from
// memory); what is fine and coarse in g/m² is ours.
func NeedleFor(f Fabric) string {
	if !f.Construction.Knit() {
		return ""
	}
	point := "a ball point needle"
	elastane := f.Fibres.Share("elastane") > 0
	if elastane || f.Construction == SwimKnit || f.Construction == PowerNet {
		point = "a ball point or stretch needle"
	}
	sizes := "75/11 or 80/12"
	switch w := Assumed(f).Weight; {
	case w < 150*gsm:
		sizes = "60/8 to 70/10"
	case w >= 280*gsm && elastane:
		sizes = "80/12 or 90/14"
	case w >= 280*gsm:
		sizes = "90/14 or 100/16"
	}
	return point + ", usually " + sizes
}

// Doubts are plain sentences about what speaks against a stitch note on a fabric: a needle
// that may cut the threads of a knit, a pair of needle sizes that does not go together, a
// plain lockstitch where the seam must stretch (all common practice). A note that is fine
// has none.
func (n StitchNote) Doubts(f Fabric) []string {
	var out []string
	needle := ReadNeedle(n.Needle)
	knit := f.Construction.Knit()
	switch {
	case knit && strings.TrimSpace(n.Needle) == "":
		out = append(out, "No needle is noted. A knit wants "+NeedleFor(f)+".")
	case knit && !needle.Round:
		out = append(out, "The needle noted is no ball point or stretch needle: it may cut threads of a knit, and holes run from there. Take "+NeedleFor(f)+".")
	}
	if nm, known := needleSizes[needle.Size]; known && needle.NM > 0 && nm != needle.NM {
		out = append(out, fmt.Sprintf("Needle size %d goes with %d, not with %d: look at the packet again.", needle.Size, nm, needle.NM))
	}
	if knit && !n.Still && PlainLockstitch(n.Stitch) {
		out = append(out, "A plain lockstitch breaks where a seam must stretch. Take a narrow zigzag, an overlock or a cover stitch, or say that this seam need not stretch.")
	}
	return out
}

// Stitches that stretch, by words and by their numbers in ISO 4915 (304 is zigzag
// lockstitch, 400 chain, 500 overedge, 600 covering stitches), and words for the one that
// does not (301).
var (
	stretchyStitches = []string{"zig", "overlock", "overedge", "serge", "cover", "chain", "stretch", "elastic", "triple", "step", "lightning", "knit", "honeycomb"}
	plainStitches    = []string{"lockstitch", "straight", "plain", "running"}
)

// PlainLockstitch says whether a stitch is noted that does not stretch with the cloth.
func PlainLockstitch(stitch string) bool {
	text := strings.ToLower(stitch)
	for _, s := range numberIn.FindAllString(text, -1) {
		if n, err := strconv.Atoi(s); err == nil && (n == 304 || n >= 400 && n < 700) {
			return false
		}
	}
	has := func(words []string) bool {
		return slices.ContainsFunc(words, func(w string) bool { return strings.Contains(text, w) })
	}
	if has(stretchyStitches) {
		return false
	}
	return has(plainStitches) || strings.Contains(text, "lock stitch") || slices.Contains(numberIn.FindAllString(text, -1), "301")
}
