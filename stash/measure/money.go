package measure

import (
	"fmt"
	"strconv"
	"strings"
)

// mostMoney is the largest amount, in minor units, that is taken for meant.
const mostMoney = 1_000_000_000_000

// ParseMoney reads an amount: "12.50", "12,50", "€ 12.50", "12.50 EUR", "1,234.50",
// "1.234,50", "1 234,50". Without a code or sign it is in the currency given.
//
//  1. A sign is decimal when no more digits follow it than the currency has decimals.
//  2. Signs before it set off thousands and must have three digits between them.
//  3. More decimals than the currency has are refused, not rounded.
//
// Negative amounts are refused. The error is a *TextError.
func ParseMoney(text, bare string) (Money, error) {
	m, wrong := parseMoney(text, bare)
	if wrong == "" {
		return m, nil
	}
	want := "an amount such as 12.50"
	if bare != "" {
		want += " (in " + bare + ")"
	}
	want += " or 12.50 EUR"
	if _, sign := splitMoney(text); sign != "" {
		if _, ok := MinorDigits(currencyOf(sign, bare)); !ok {
			want += ", with " + wantCurrency
		}
	}
	return Money{}, &TextError{Text: text, Wrong: wrong, Want: want, Like: "an amount such as 12.50"}
}

func parseMoney(text, bare string) (Money, string) {
	if len(text) > longestText {
		return Money{}, "it is too long to be an amount"
	}
	amount, sign := splitMoney(text)
	switch {
	case amount == "" && sign == "":
		return Money{}, "nothing is written"
	case amount == "":
		return Money{}, "there is no number"
	case strings.HasPrefix(amount, "-"):
		return Money{}, "it is negative"
	}
	code := currencyOf(sign, bare)
	digits, ok := MinorDigits(code)
	if !ok {
		return Money{}, noCurrency(firstNonEmpty(sign, bare))
	}
	n, wrong := minorUnits(amount, digits)
	return Money{Minor: n, Currency: code}, wrong
}

// splitMoney parts the digits with their signs from the currency's code or sign
// before or after.
func splitMoney(text string) (amount, sign string) {
	p := strings.TrimSpace(plain(text))
	isAmount := func(r rune) bool { return digit(r) || strings.ContainsRune(".,-", r) }
	from := strings.IndexFunc(p, isAmount)
	if from < 0 {
		return "", p
	}
	to := strings.LastIndexFunc(p, isAmount) + 1
	return strings.TrimSpace(p[from:to]), strings.TrimSpace(p[:from] + p[to:])
}

func firstNonEmpty(a, b string) string {
	if a != "" {
		return a
	}
	return b
}

// minorUnits reads digits with decimal and thousands signs as a count of minor units.
func minorUnits(amount string, digits int) (int64, string) {
	whole, frac := amount, ""
	if i := strings.LastIndexAny(amount, ".,"); i >= 0 {
		after := amount[i+1:]
		switch {
		case len(after) <= digits && strings.Contains(amount[:i], amount[i:i+1]):
			return 0, "the same sign sets off thousands and decimals"
		case len(after) <= digits:
			whole, frac = amount[:i], after
		case digits == 0 && (len(after) != 3 || i == 0):
			return 0, "it has decimals, and this currency has none"
		case len(after) != 3 || i == 0:
			return 0, fmt.Sprintf("it has more than %d decimals", digits)
		}
	}
	whole, wrong := ungrouped(whole)
	if wrong != "" {
		return 0, wrong
	}
	n, err := strconv.ParseInt(whole+frac+strings.Repeat("0", digits-len(frac)), 10, 64)
	if err != nil {
		return 0, "it is not a number"
	}
	if n > mostMoney {
		return 0, "it is more than anyone pays for fabric"
	}
	return n, ""
}

// ungrouped takes the signs out that set off thousands.
func ungrouped(s string) (string, string) {
	if s == "" {
		return "0", ""
	}
	groups := strings.FieldsFunc(s, func(r rune) bool { return strings.ContainsRune("., '", r) })
	for i, g := range groups {
		if i > 0 && len(g) != 3 || i == 0 && len(groups) > 1 && len(g) > 3 {
			return "", "thousands are set off by threes"
		}
	}
	if strings.Count(s, ".") > 0 && strings.Count(s, ",") > 0 {
		return "", "it has more than one decimal sign"
	}
	return strings.Join(groups, ""), ""
}

// String writes the amount with its code, "12.50 EUR"; the zero Money is "". It
// reads back as the same amount unless it is negative.
func (m Money) String() string {
	if m.Currency == "" && m.Minor == 0 {
		return ""
	}
	digits, _ := MinorDigits(m.Currency)
	sign, n := "", m.Minor
	if n < 0 {
		sign, n = "-", -n
	}
	out := fmt.Sprintf("%0*d", digits+1, n)
	if digits > 0 {
		out = out[:len(out)-digits] + "." + out[len(out)-digits:]
	}
	return strings.TrimSpace(sign + out + " " + m.Currency)
}

// Split shares m over the weights so that the shares sum to m exactly: each gets
// its part rounded down, then one minor unit more goes to the largest remainders,
// the earlier of equals first ("largest remainder", derived here). Weights that
// sum to zero share alike; negative weights count as zero.
func (m Money) Split(weights []int64) []Money {
	out := make([]Money, len(weights))
	if len(weights) == 0 {
		return out
	}
	for i, n := range split(m.Minor, weights) {
		out[i] = Money{Minor: n, Currency: m.Currency}
	}
	return out
}
