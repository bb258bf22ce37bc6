package stash

import (
	"strings"
	"unicode"

	"tallycloth/stash/measure"
)

// ConvertQuantity returns a quantity in another unit; ok is false where the units are not
// of one kind. Units of length convert, others must be the same word, one or many of it.
func ConvertQuantity(q float64, from, to string) (converted float64, ok bool) {
	a, okA := measure.UnitNamed(from)
	b, okB := measure.UnitNamed(to)
	switch {
	case okA && okB:
		return Quantified(q * float64(a) / float64(b)), true
	case okA || okB:
		return 0, false
	}
	return q, plainWord(from) == plainWord(to)
}

// IsLength says whether a unit of notions is a length.
func IsLength(unit string) bool {
	_, ok := measure.UnitNamed(unit)
	return ok
}

// plainWord is a word in lower case and singular, as far as an s makes the plural.
func plainWord(w string) string {
	w = strings.ToLower(strings.TrimSpace(w))
	if len(w) > 3 && !strings.HasSuffix(w, "ss") {
		w = strings.TrimSuffix(w, "s")
	}
	return w
}

// plainWords are the words of a name, without signs.
func plainWords(name string) []string {
	out := strings.FieldsFunc(name, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
	for i := range out {
		out[i] = plainWord(out[i])
	}
	return out
}

// Serves says whether the notion is what a pattern asks for by name, kind and unit.
//
//  1. Kinds are the same, or the pattern names none; units are of one kind.
//  2. Every word of the name asked for is in the name of the notion: "polyester thread" is
//     served by "Polyester thread 120, white", "elastic 30 mm" not by "Elastic 8 mm".
func (n Notion) Serves(name, kind, unit string) bool {
	if !n.alike(kind, unit) {
		return false
	}
	have := map[string]bool{}
	for _, w := range plainWords(n.Name) {
		have[w] = true
	}
	for _, w := range plainWords(name) {
		if !have[w] {
			return false
		}
	}
	return true
}

// MayServe says whether the notion is of the kind asked for, where the name asked for has
// no figure that sets a size.
func (n Notion) MayServe(name, kind, unit string) bool {
	return kind != "" && n.alike(kind, unit) && !strings.ContainsFunc(name, unicode.IsDigit)
}

func (n Notion) alike(kind, unit string) bool {
	_, ok := ConvertQuantity(1, n.Unit, unit)
	return ok && (kind == "" || plainWord(kind) == plainWord(n.Kind))
}
