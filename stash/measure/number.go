package measure

import (
	"math/big"
	"strings"
)

// longestText is the longest text that is read as a quantity at all.
const longestText = 80

// vulgar are the fractions that Unicode has as one character.
var vulgar = map[rune]string{
	'½': "1/2", '⅓': "1/3", '⅔': "2/3", '¼': "1/4", '¾': "3/4", '⅕': "1/5", '⅖': "2/5", '⅗': "3/5", '⅘': "4/5",
	'⅙': "1/6", '⅚': "5/6", '⅐': "1/7", '⅛': "1/8", '⅜': "3/8", '⅝': "5/8", '⅞': "7/8", '⅑': "1/9", '⅒': "1/10",
}

// plain rewrites the many ways to type the same character to one: lower case,
// ordinary spaces, dashes, slashes and quotes, fractions with a slash.
func plain(text string) string {
	var b strings.Builder
	for _, r := range strings.ToLower(text) {
		switch {
		case vulgar[r] != "":
			b.WriteString(" " + vulgar[r])
		case strings.ContainsRune("\u00a0\u2009\u202f\u2007\t", r):
			b.WriteByte(' ')
		case strings.ContainsRune("″”“", r):
			b.WriteByte('"')
		case strings.ContainsRune("′’‘", r):
			b.WriteByte('\'')
		case strings.ContainsRune("⁄∕", r):
			b.WriteByte('/')
		case strings.ContainsRune("−–—‐‑", r):
			b.WriteByte('-')
		default:
			b.WriteRune(r)
		}
	}
	return strings.ReplaceAll(strings.TrimSpace(b.String()), "''", `"`)
}

// token is one run of a text: a number, a word, or a single sign.
type token struct {
	kind rune // 'n' number, 'w' word, else the sign itself
	text string
}

func digit(c rune) bool { return c >= '0' && c <= '9' }

// wordy says whether a rune may stand in the name of a unit.
func wordy(c rune) bool {
	return !digit(c) && !strings.ContainsRune(" .,/-+\"'", c)
}

// tokens splits a plain text. A point or comma belongs to a number only between
// or before digits.
func tokens(text string) []token {
	var out []token
	rs := []rune(text)
	for i := 0; i < len(rs); {
		j := i + 1
		switch c := rs[i]; {
		case c == ' ':
		case digit(c) || (c == '.' || c == ',') && j < len(rs) && digit(rs[j]):
			for j < len(rs) && (digit(rs[j]) || (rs[j] == '.' || rs[j] == ',') && j+1 < len(rs) && digit(rs[j+1])) {
				j++
			}
			out = append(out, token{'n', string(rs[i:j])})
		case wordy(c):
			for j < len(rs) && wordy(rs[j]) {
				j++
			}
			out = append(out, token{'w', string(rs[i:j])})
		default:
			out = append(out, token{c, string(c)})
		}
		i = j
	}
	return out
}

// whole says whether a number token has digits only.
func whole(s string) bool { return !strings.ContainsAny(s, ".,") }

// decimal reads a number token with a decimal point or a decimal comma, exactly.
// More than one of them is refused: "1.250,00" is a matter of region.
func decimal(s string) (*big.Rat, string) {
	if strings.Count(s, ".")+strings.Count(s, ",") > 1 {
		return nil, "it has more than one decimal sign"
	}
	s = strings.Replace(s, ",", ".", 1)
	if strings.HasPrefix(s, ".") {
		s = "0" + s
	}
	r, ok := new(big.Rat).SetString(s)
	if !ok {
		return nil, "it is not a number"
	}
	return r, ""
}

// number reads a number off the front of ts: a decimal, a fraction "3/8", or a
// whole number with a fraction, "1 1/4" or "1-1/4". It returns what is left, and
// what was wrong or "".
func number(ts []token) (v *big.Rat, rest []token, wrong string) {
	if len(ts) > 0 && ts[0].kind == '-' {
		return nil, ts, "it is negative"
	}
	if len(ts) == 0 || ts[0].kind != 'n' {
		return nil, ts, "there is no number where one is expected"
	}
	if f, rest, wrong := fraction(ts); f != nil || wrong != "" {
		return f, rest, wrong
	}
	v, wrong = decimal(ts[0].text)
	if wrong != "" {
		return nil, ts, wrong
	}
	rest = ts[1:]
	after := rest
	if len(after) > 0 && after[0].kind == '-' {
		after = after[1:]
	}
	f, left, wrong := fraction(after)
	if wrong != "" {
		return nil, ts, wrong
	}
	if f == nil {
		return v, rest, ""
	}
	if !whole(ts[0].text) {
		return nil, ts, "a decimal number and a fraction do not go together"
	}
	return v.Add(v, f), left, ""
}

// fraction reads "3/8" off the front of ts; nil without complaint when ts does
// not start with a number and a slash.
func fraction(ts []token) (v *big.Rat, rest []token, wrong string) {
	if len(ts) < 2 || ts[0].kind != 'n' || ts[1].kind != '/' {
		return nil, ts, ""
	}
	if len(ts) < 3 || ts[2].kind != 'n' {
		return nil, ts, "the fraction has nothing below the line"
	}
	if !whole(ts[0].text) || !whole(ts[2].text) {
		return nil, ts, "a fraction needs whole numbers above and below the line"
	}
	above, _ := new(big.Int).SetString(ts[0].text, 10)
	below, _ := new(big.Int).SetString(ts[2].text, 10)
	if below.Sign() == 0 {
		return nil, ts, "there is a zero below the line"
	}
	return new(big.Rat).SetFrac(above, below), ts[3:], ""
}

// rounded returns v rounded half away from zero; ok is false when it does not
// fit 62 bits.
func rounded(v *big.Rat) (n int64, ok bool) {
	twice := new(big.Int).Mul(v.Num(), big.NewInt(2))
	if v.Sign() < 0 {
		twice.Sub(twice, v.Denom())
	} else {
		twice.Add(twice, v.Denom())
	}
	q := twice.Quo(twice, new(big.Int).Mul(v.Denom(), big.NewInt(2)))
	return q.Int64(), q.BitLen() < 63
}
