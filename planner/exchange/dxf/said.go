package dxf

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"

	"tallycloth/planner/exchange/drawn"
	"tallycloth/planner/pattern"
)

// said is what the words of a block say about its piece.
type said struct {
	name, size, letter, material string
	cut                          int // 0 when it is not said
	pairs, fixed, bare           bool
	grain                        pattern.GrainRule
	notes                        []string
	labels                       []mark // names of lines drawn on it, at their first points
}

// mostLabels name lines of one piece.
const mostLabels = 200

// read takes the words of a block; those that name a line are kept with their place.
func (s *said) read(texts []mark, about string, n *notes) {
	for _, t := range texts {
		if k, value, ok := keyed(t.text); ok && k == pieceKey && value != "" {
			about = value
			break
		}
	}
	for _, t := range texts {
		k, value, ok := keyed(t.text)
		switch {
		case !ok:
			s.note(t.text)
		case (k == edgeKey || k == stripeKey) && len(s.labels) < mostLabels:
			t.text = value
			t.layer = k
			s.labels = append(s.labels, t)
		case k == quantityKey:
			s.quantity(value, about, n)
		case k == noteKey:
			s.annotation(value)
		case k == categoryKey:
			s.note("category " + value)
		default:
			if into := map[string]*string{pieceKey: &s.name, sizeKey: &s.size, materialKey: &s.material}[k]; into != nil && *into == "" {
				*into = value
			}
		}
	}
}

// note keeps words for the pattern's notes.
func (s *said) note(text string) {
	if text = strings.Join(strings.Fields(text), " "); text != "" && len(s.notes) < 50 {
		s.notes = append(s.notes, text)
	}
}

// annotation reads a note that is ours, or keeps it.
func (s *said) annotation(text string) {
	low := strings.ToLower(text)
	switch {
	case low == pairsNote:
		s.pairs = true
	case low == crosswiseNote:
		s.grain = pattern.Crosswise
	case low == biasNote:
		s.grain = pattern.Bias
	case low == fixedNote:
		s.fixed = true
	case low == bareNote:
		s.bare = true
	case strings.HasPrefix(low, letterNote) && len(text) < 20:
		s.letter = text[len(letterNote):]
	default:
		s.note(text)
	}
}

// mostCut is how often a piece may be cut; more is taken for a mistake.
const mostCut = 99

// quantity reads how many are cut: one number, or two for those as drawn and mirrored.
func (s *said) quantity(text, about string, n *notes) {
	numbers := strings.FieldsFunc(text, func(r rune) bool { return !unicode.IsDigit(r) })
	var v []int
	for _, x := range numbers {
		if k, err := strconv.Atoi(x); err == nil && k <= mostCut {
			v = append(v, k)
		}
	}
	switch {
	case len(v) == 1 && len(numbers) == 1 && v[0] > 0:
		s.cut = v[0]
	case len(v) == 2 && len(numbers) == 2 && v[0]+v[1] > 0:
		s.cut, s.pairs = v[0]+v[1], v[0] == v[1]
		n.add(drawn.Counts, about, fmt.Sprintf("its quantity %q was taken for so many as drawn and so many mirrored", shorten(text)), "Check how often it is cut, and whether in pairs.")
	default:
		n.add(drawn.Counts, about, fmt.Sprintf("its quantity %q is not understood", shorten(text)), "Say how often it is cut.")
	}
}
