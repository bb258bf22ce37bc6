package measure

import (
	"strings"
	"unicode"
)

// Words cuts a text at its blanks into what stays together on a line: a quantity is one word, its number,
// fraction, sign and unit, and so are two sizes with × between them.
func Words(text string) []string {
	var out []string
	start := 0
	all := append([]rune(text), ' ')
	for i, c := range all {
		if !unicode.IsSpace(c) || c == ' ' && tied(all[:i], all[i+1:]) {
			continue
		}
		if i > start {
			out = append(out, string(all[start:i]))
		}
		start = i + 1
	}
	return out
}

// tying are what a number is kept together with on a line, sign and fraction as well.
var tying = map[string]bool{"%": true, "mm": true, "cm": true, "m": true, "in": true, "yd": true, "m²": true, "yd²": true,
	"g/m²": true, "oz/yd²": true, "g": true, "×": true}

// tied says whether the blank between two parts of a text belongs to a quantity: before a unit, a
// fraction or the second of two sizes, after a minus sign.
func tied(before, after []rune) bool {
	if len(before) == 0 || len(after) == 0 {
		return false
	}
	last := before[len(before)-1]
	if (last == '−' || last == '×') && unicode.IsDigit(after[0]) {
		return true
	}
	word, _, _ := strings.Cut(string(after[:min(len(after), 12)]), " ")
	word = strings.TrimRight(word, ".,;:)!?\n")
	if tying[word] {
		return unicode.IsDigit(last) || word == "×"
	}
	top, bottom, cut := strings.Cut(word, "/")
	return cut && unicode.IsDigit(last) && digitsOnly(top) && digitsOnly(bottom)
}

func digitsOnly(s string) bool {
	return s != "" && strings.IndexFunc(s, func(r rune) bool { return !unicode.IsDigit(r) }) < 0
}
