package stash

import (
	"regexp"
	"slices"
	"strings"
)

// Treatment is one of the kinds of treatment that care symbols speak of.
type Treatment int

// The treatments in the order of ISO 3758, natural drying after tumble drying.
const (
	Washing Treatment = iota
	Bleaching
	TumbleDrying
	NaturalDrying
	Ironing
	ProfessionalCare
	treatments // how many there are
)

// String names the treatment.
func (t Treatment) String() string {
	return [...]string{"washing", "bleaching", "tumble drying", "drying", "ironing", "professional care"}[t]
}

// Treatments lists them in order.
func Treatments() []Treatment {
	var out []Treatment
	for t := range treatments {
		out = append(out, t)
	}
	return out
}

// careWords are what the symbols of ISO 3758 say, in words of our own (the set of symbols and
// their temperatures from memory, testdata/care). The most that a fabric bears is meant.
var careWords = [treatments][]string{
	Washing: {"wash at 95 °C", "wash at 70 °C", "wash at 60 °C", "wash at 60 °C mild", "wash at 50 °C", "wash at 50 °C mild", "wash at 40 °C", "wash at 40 °C mild",
		"wash at 40 °C very mild", "wash at 30 °C", "wash at 30 °C mild", "wash at 30 °C very mild", "wash by hand", "do not wash"},
	Bleaching:        {"any bleach", "oxygen bleach only", "do not bleach"},
	TumbleDrying:     {"tumble dry", "tumble dry low", "do not tumble dry"},
	NaturalDrying:    {"line dry", "drip dry", "dry flat", "drip dry flat", "line dry in the shade", "drip dry in the shade", "dry flat in the shade", "drip dry flat in the shade"},
	Ironing:          {"iron at 200 °C", "iron at 150 °C", "iron at 110 °C", "do not iron"},
	ProfessionalCare: {"dry clean", "dry clean mild", "dry clean in hydrocarbons", "dry clean in hydrocarbons mild", "wet clean", "wet clean mild", "wet clean very mild", "do not dry clean"},
}

// CareWords are what can be said of a treatment.
func CareWords(t Treatment) []string { return slices.Clone(careWords[t]) }

// careAlso are other words that people use for the same.
var careAlso = map[string]string{
	"95 °c": "wash at 95 °C", "60 °c": "wash at 60 °C", "40 °c": "wash at 40 °C", "30 °c": "wash at 30 °C", "hand wash": "wash by hand", "hand wash only": "wash by hand",
	"cold hand wash": "wash by hand", "no bleach": "do not bleach", "no tumble drying": "do not tumble dry", "no dryer": "do not tumble dry", "no tumble dry": "do not tumble dry",
	"dried flat": "dry flat", "flat dry": "dry flat", "dry on the line": "line dry", "dry in the shade": "line dry in the shade", "iron low": "iron at 110 °C",
	"cool iron": "iron at 110 °C", "warm iron": "iron at 150 °C", "hot iron": "iron at 200 °C", "no ironing": "do not iron", "no iron": "do not iron",
	"dry clean only": "dry clean", "no dry cleaning": "do not dry clean",
}

// Care is how a fabric is to be treated. What a label does not say is "".
type Care struct {
	Says  [treatments]string // one of CareWords each, or ""
	Other string             // what else was noted
}

// ParseCare reads a note on care: words that it knows, with commas or semicolons between, by
// treatment; all else stays as it is in Other. Of two words for one treatment the second
// stays in Other.
func ParseCare(text string) Care {
	var c Care
	var other []string
	for _, part := range strings.FieldsFunc(text, func(r rune) bool { return r == ',' || r == ';' || r == '\n' }) {
		part = strings.Join(strings.Fields(part), " ")
		t, word := careWord(part)
		switch {
		case part == "":
		case word == "" || c.Says[t] != "":
			other = append(other, part)
		default:
			c.Says[t] = word
		}
	}
	c.Other = strings.Join(other, "; ")
	return c
}

// degrees is a temperature as people type it.
var degrees = regexp.MustCompile(`([0-9])\s*(?:°|º|degrees)(?:\s*c\b)?`)

// careWord finds a word for care, capitals and the degree sign aside.
func careWord(part string) (Treatment, string) {
	plain := func(s string) string { return degrees.ReplaceAllString(strings.ToLower(s), "$1 °c") }
	said := plain(part)
	if also, ok := careAlso[said]; ok {
		said = plain(also)
	}
	for t, words := range careWords {
		for _, w := range words {
			if plain(w) == said {
				return Treatment(t), w
			}
		}
	}
	return 0, ""
}

// String writes the care in the order of treatments; ParseCare reads it back.
func (c Care) String() string {
	var out []string
	for _, s := range append(c.Says[:len(c.Says):len(c.Says)], c.Other) {
		if s != "" {
			out = append(out, s)
		}
	}
	return strings.Join(out, "; ")
}
