package measure

import (
	"fmt"
	"strconv"
	"strings"
)

// MostPercent is the largest percent, either sign, that is taken for meant: no
// cloth stretches to more than eleven times its length.
const MostPercent = 1000 * OnePercent

// ParsePercent reads a percent: "12.5 %", "12,5", "5", "-5%", "2 1/2 %",
// "5 percent", rounded half away from zero to 1/100 %. A minus sign is accepted
// (dimensional change). The error is a *TextError.
func ParsePercent(text string) (Percent, error) {
	p, wrong := parsePercent(text)
	if wrong != "" {
		return 0, &TextError{Text: text, Wrong: wrong, Want: "a percent such as 40 % or 12.5"}
	}
	return p, nil
}

func parsePercent(text string) (Percent, string) {
	if len(text) > longestText {
		return 0, "it is too long to be a percent"
	}
	ts := tokens(plain(text))
	if len(ts) == 0 {
		return 0, "nothing is written"
	}
	sign := Percent(1)
	if ts[0].kind == '-' || ts[0].kind == '+' {
		if ts[0].kind == '-' {
			sign = -1
		}
		ts = ts[1:]
	}
	v, rest, wrong := number(ts)
	if wrong != "" {
		return 0, wrong
	}
	if len(rest) > 0 && rest[0].kind == 'w' && isPercentWord(rest[0].text) {
		rest = rest[1:]
	}
	if len(rest) > 0 {
		return 0, fmt.Sprintf("%q after the number is not understood", shortened(rest[0].text))
	}
	n, ok := rounded(v.Mul(v, hundred))
	if !ok || Percent(n) > MostPercent {
		return 0, "it is more than 1000 %"
	}
	return sign * Percent(n), ""
}

func isPercentWord(s string) bool {
	return s == "%" || s == "percent" || s == "pct"
}

// FormatPercent writes p with as many decimals as it needs, at most two, and a
// space before the sign: "12.5 %", "-5 %". It reads back as p.
func FormatPercent(p Percent) string { return shortPercent(p) + " %" }

// shortPercent is FormatPercent without the sign.
func shortPercent(p Percent) string {
	sign := ""
	if p < 0 {
		sign, p = "-", -p
	}
	frac := strings.TrimRight(fmt.Sprintf("%02d", p%OnePercent), "0")
	if frac != "" {
		frac = "." + frac
	}
	return sign + strconv.FormatInt(int64(p/OnePercent), 10) + frac
}
