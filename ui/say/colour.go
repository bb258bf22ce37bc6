package say

import (
	"strings"

	"github.com/lucasb-eyer/go-colorful"
)

// plain colours by the words a person has for them, in sRGB.
var colourWords = []struct {
	name string
	hex  string
}{
	{"black", "#000000"}, {"white", "#ffffff"}, {"grey", "#808080"}, {"light grey", "#c8c8c8"}, {"red", "#e00000"}, {"dark red", "#800000"}, {"orange", "#ff8000"},
	{"yellow", "#ffe000"}, {"green", "#00a000"}, {"light green", "#60ff60"}, {"turquoise", "#00b0b0"}, {"light blue", "#60c0ff"}, {"blue", "#0000e0"}, {"dark blue", "#000070"},
	{"purple", "#800080"}, {"pink", "#ff60c0"}, {"magenta", "#ff00ff"}, {"brown", "#804000"},
}

// ColourOf is the colour, written #rrggbb, that a plain word stands for; false for any other word.
func ColourOf(word string) (string, bool) {
	word = strings.ToLower(strings.TrimSpace(word))
	if other, ok := alike[word]; ok {
		word = other
	}
	for _, w := range colourWords {
		if w.name == word {
			return w.hex, true
		}
	}
	return "", false
}

// alike are other words for plain colours.
var alike = map[string]string{"gray": "grey", "rose": "pink", "teal": "turquoise", "violet": "purple", "mauve": "purple", "navy": "dark blue"}

// ColourName is the plain word nearest to a colour written #rrggbb, by the distance CIEDE2000; ""
// for anything else.
func ColourName(hex string) string {
	c, err := colorful.Hex(hex)
	if err != nil {
		return ""
	}
	best, name := 1e9, ""
	for _, w := range colourWords {
		k, err := colorful.Hex(w.hex)
		if d := c.DistanceCIEDE2000(k); err == nil && d < best {
			best, name = d, w.name
		}
	}
	return name
}
