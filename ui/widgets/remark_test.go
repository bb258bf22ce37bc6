package widgets

import (
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
)

// A number is never parted from its unit at the end of a line, whatever the width.
func TestNumbersKeepTheirUnits(t *testing.T) {
	test.NewTempApp(t)
	text := "Enough if it is washed first (it shrinks 6 %, assumed): 2.30 m − 4 cm raw ends = 2.26 m, 1 1/4 yd × 60 in, 220 g/m²."
	whole := []string{"6 %,", "2.30 m", "− 4 cm", "2.26 m,", "1 1/4 yd × 60 in,", "220 g/m²."}
	for width := float32(20); width < 500; width += 7 {
		lines := wrapWords(text, width, 14, fyne.TextStyle{})
		for _, w := range whole {
			if !slices.ContainsFunc(lines, func(l string) bool { return strings.Contains(l, w) }) {
				t.Errorf("at %v %q is parted: %q", width, w, lines)
			}
		}
		if got := strings.Join(lines, " "); got != text {
			t.Errorf("at %v it reads %q", width, got)
		}
	}
}
