package scene

import (
	"strings"
	"unicode"

	"tallycloth/stash/measure"
)

// TextWidth returns how wide a text is at a line height of 1, never less than what the
// program's own font takes (a test of exchange/sheet compares them), so that what is placed here fits
// when it is drawn. The font's size is taken as 0.8 of the line height.
func TextWidth(text string) float64 {
	const size = 0.8
	w := 0.0
	for _, r := range text {
		w += runeWidth(r)
	}
	return w * size
}

// runeWidth is an upper bound of a rune's advance, in ems.
func runeWidth(r rune) float64 {
	switch {
	case r == ' ':
		return 0.34
	case strings.ContainsRune("iljI.,:;'|!()[]tfr/-·", r):
		return 0.47
	case strings.ContainsRune("mwMW@%…—½¼¾⅛⅜⅝⅞#&æœÆŒ→←≥≤−≈", r):
		return 1.01
	case r >= 0x0590: // scripts that the wider font has, or a box stands for
		return 1.2
	case unicode.IsUpper(r) || strings.ContainsRune("×=+<>~", r):
		return 0.87
	}
	return 0.66
}

// say writes a length in µm for reading.
func say(l int64, units measure.System, kind measure.Kind) string {
	return measure.Style{System: units, Kind: kind}.Format(measure.Length(l))
}

// gridSteps are the steps of a grid, in µm, finest first.
var gridSteps = map[measure.System][]int64{
	measure.Metric:   {10_000, 50_000, 100_000, 200_000, 500_000, 1_000_000},
	measure.Imperial: {25_400, 76_200, 228_600, 457_200, 914_400},
}

// gridStep returns the finest step that parts a length into at most some 24.
func gridStep(length int64, units measure.System) int64 {
	steps := gridSteps[units]
	for _, s := range steps {
		if length <= 24*s {
			return s
		}
	}
	return steps[len(steps)-1]
}
