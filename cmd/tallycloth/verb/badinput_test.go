package verb_test

import (
	"testing"

	"tallycloth/cmd/tallycloth/verb"
)

// TestWhatWasTypedCannotBe: each slip is refused with the words that help, and the
// library stays as empty as it was.
func TestWhatWasTypedCannotBe(t *testing.T) {
	for name, c := range map[string]struct {
		args  []string
		words []string
	}{
		"text for a length":           {[]string{"log", "Moss", "two yards", "--width", "150"}, []string{"two yards", "no number", "1 1/4 yd"}},
		"zero below the line":         {[]string{"log", "Moss", "1 1/0 yd", "--width", "150"}, []string{"zero below the line"}},
		"zero below, in a width":      {[]string{"log", "Moss", "2 m", "--width", "45 3/0 in"}, []string{"--width", "zero below the line"}},
		"no length":                   {[]string{"log", "Moss", "0 m", "--width", "150"}, []string{"more than zero"}},
		"zero width":                  {[]string{"log", "Moss", "2 m", "--width", "0"}, []string{"--width", "more than zero"}},
		"negative width":              {[]string{"log", "Moss", "2 m", "--width", "-150"}, []string{"--width", "negative"}},
		"not a number":                {[]string{"log", "Moss", "NaN", "--width", "150"}, []string{"NaN"}},
		"absurd":                      {[]string{"log", "Moss", "11 km", "--width", "150"}, []string{"km"}},
		"fibres reach 97 %":           {[]string{"log", "Moss", "2 m", "--width", "150", "--fibres", "92% cotton 5% elastane"}, []string{"97 %", "3 % is missing"}},
		"fibres reach 103 %":          {[]string{"log", "Moss", "2 m", "--width", "150", "--fibres", "98% cotton 5% elastane"}, []string{"103 %"}},
		"text for a percent":          {[]string{"log", "Moss", "2 m", "--width", "150", "--stretch-across", "plenty"}, []string{"--stretch-across", "40 %"}},
		"no currency":                 {[]string{"log", "Moss", "2 m", "--width", "150", "--price", "12 shells"}, []string{"--price", "12.50 EUR"}},
		"negative price":              {[]string{"log", "Moss", "2 m", "--width", "150", "--price", "-12"}, []string{"--price", "negative"}},
		"no kind of fabric":           {[]string{"log", "Moss", "2 m", "--width", "150", "--kind", "cheese"}, []string{"cheese", "jersey"}},
		"a fabric nobody knows":       {[]string{"log", "Moss", "2 m"}, []string{"--width"}},
		"too many words":              {[]string{"log", "Moss", "jersey", "2 m", "--width", "150"}, []string{"quotes"}},
		"too few words":               {[]string{"log", "Moss"}, []string{"a length"}},
		"text for a count":            {[]string{"strips", "--edge", "60", "--count", "two"}, []string{"--count", "whole number"}},
		"no such option":              {[]string{"list", "cloth", "--color", "red"}, []string{"color", "--help"}},
		"an option without its value": {[]string{"list", "cloth", "--library"}, []string{"--library"}},
		"nothing to list":             {[]string{"list"}, []string{"fabrics, cloth, patterns"}},
		"an edge of text":             {[]string{"strips", "--edge", "round the neck"}, []string{"--edge", "no number"}},
		"an edge of nothing":          {[]string{"strips", "--edge", "0"}, []string{"--edge", "more than zero"}},
		"a turn of text":              {[]string{"strips", "--edge", "60", "--turning", "all the way"}, []string{"degrees"}},
		"a finish nobody knows":       {[]string{"strips", "--edge", "60", "--finish", "glue"}, []string{"glue", "folded band"}},
		"no pattern":                  {[]string{"strips"}, []string{"--pattern"}},
		"a pattern nobody knows":      {[]string{"strips", "--pattern", "Fennel"}, []string{"pattern", "demo"}},
	} {
		t.Run(name, func(t *testing.T) {
			d := newDesk(t).made()
			d.refused(verb.Mistyped, c.words, c.args...)
			for _, what := range []string{"fabrics", "cloth", "history"} {
				var left []map[string]any
				if d.answer(&left, "list", what); len(left) > 0 {
					t.Errorf("%s has %d entries afterwards", what, len(left))
				}
			}
		})
	}
}
