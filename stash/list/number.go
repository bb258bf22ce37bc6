package list

import "strings"

// Decimal is the sign that sets off decimals in a column.
type Decimal string

// The decimal signs; Undecided is left to the contents.
const (
	Undecided Decimal = ""
	Point     Decimal = "point"
	Comma     Decimal = "comma"
)

// sign is what one number shows of how decimals are written.
type sign byte

const (
	showsNothing sign = iota
	showsPoint
	showsComma
	either // 1.250 and 1,250: one with three decimals, or thousands
)

// isGroup says whether a rune may set off thousands besides point and comma.
func isGroup(r rune) bool { return strings.ContainsRune(" \u00a0\u2009\u202f\u2007'’", r) }

func isDigit(r rune) bool { return r >= '0' && r <= '9' }

// numberAt returns the end of the number that begins at i: digits, points and commas
// between them, and blanks or apostrophes before groups of exactly three.
func numberAt(rs []rune, i int) int {
	j, group := i, 0
	for j < len(rs) {
		switch c := rs[j]; {
		case isDigit(c):
			group++
		case (c == '.' || c == ',') && j+1 < len(rs) && isDigit(rs[j+1]):
			group = 0
		case isGroup(c) && group >= 1 && group <= 3 && threeDigits(rs[j+1:]):
			group = 0
		default:
			return j
		}
		j++
	}
	return j
}

// threeDigits says whether rs begins with exactly three digits that are no part of a fraction.
func threeDigits(rs []rune) bool {
	n := 0
	for n < len(rs) && isDigit(rs[n]) {
		n++
	}
	return n == 3 && (len(rs) == 3 || !strings.ContainsRune("/⁄∕", rs[3]))
}

// plainNumber reads one number of numberAt as digits with a decimal point, when dec
// decides what it leaves open. ok is false for what is no number either way, such as
// 1.2.3; the text is then returned as it is.
func plainNumber(s string, dec Decimal) (out string, shows sign, ok bool) {
	grouped := strings.ContainsFunc(s, isGroup)
	s = strings.Map(func(r rune) rune {
		if isGroup(r) {
			return -1
		}
		return r
	}, s)
	points, commas := strings.Count(s, "."), strings.Count(s, ",")
	switch {
	case points+commas == 0:
		return s, showsNothing, true
	case points > 0 && commas > 0:
		return bothSigns(s, points, commas)
	case points+commas > 1:
		return thousands(s, points > 0)
	}
	at := strings.IndexAny(s, ".,")
	before, after := s[:at], s[at+1:]
	shows = showsPoint
	if commas > 0 {
		shows = showsComma
	}
	decimals := before + "." + after
	if len(after) != 3 || len(before) > 3 || before == "" || before[0] == '0' || grouped {
		return decimals, shows, true
	}
	if dec == Undecided || (dec == Comma) == (shows == showsComma) {
		return decimals, either, true
	}
	return before + after, either, true
}

// bothSigns reads 1,234.50 or 1.234,50: the last sign is the decimal one.
func bothSigns(s string, points, commas int) (string, sign, bool) {
	shows, dec, group, count := showsPoint, ".", ",", points
	if strings.LastIndex(s, ",") > strings.LastIndex(s, ".") {
		shows, dec, group, count = showsComma, ",", ".", commas
	}
	whole, frac, _ := strings.Cut(s, dec)
	if count != 1 || !byThrees(whole, group) {
		return s, showsNothing, false
	}
	return strings.ReplaceAll(whole, group, "") + "." + frac, shows, true
}

// thousands reads 1.234.567 or 1,234,567, which shows the other sign to be the decimal one.
func thousands(s string, points bool) (string, sign, bool) {
	group, shows := ",", showsPoint
	if points {
		group, shows = ".", showsComma
	}
	if !byThrees(s, group) {
		return s, showsNothing, false
	}
	return strings.ReplaceAll(s, group, ""), shows, true
}

func byThrees(s, group string) bool {
	for i, g := range strings.Split(s, group) {
		if i > 0 && len(g) != 3 || i == 0 && (len(g) > 3 || g == "") {
			return false
		}
	}
	return true
}

// plainNumbers rewrites every number of a text so that it has a decimal point at most.
// open is true when one of them could be read two ways and dec is Undecided.
func plainNumbers(text string, dec Decimal) (out string, open bool) {
	var b strings.Builder
	rs := []rune(text)
	for i := 0; i < len(rs); {
		if !isDigit(rs[i]) {
			b.WriteRune(rs[i])
			i++
			continue
		}
		j := numberAt(rs, i)
		n, shows, _ := plainNumber(string(rs[i:j]), dec)
		open = open || shows == either && dec == Undecided
		b.WriteString(n)
		i = j
	}
	return b.String(), open
}

// evidence counts what the numbers of texts show.
type evidence struct {
	points, commas, open int
	example              string // of a number that could be read two ways
}

func (e *evidence) look(text string) {
	rs := []rune(text)
	for i := 0; i < len(rs); {
		if !isDigit(rs[i]) {
			i++
			continue
		}
		j := numberAt(rs, i)
		switch _, shows, _ := plainNumber(string(rs[i:j]), Undecided); shows {
		case showsPoint:
			e.points++
		case showsComma:
			e.commas++
		case either:
			if e.open++; e.example == "" {
				e.example = string(rs[i:j])
			}
		}
		i = j
	}
}

// decimal says what the evidence decides: Undecided when it shows both or nothing.
func (e evidence) decimal() Decimal {
	switch {
	case e.points > 0 && e.commas == 0:
		return Point
	case e.commas > 0 && e.points == 0:
		return Comma
	}
	return Undecided
}
