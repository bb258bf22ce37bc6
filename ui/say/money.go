package say

import (
	"strings"

	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// Money writes an amount, or that none is noted.
func Money(m measure.Money) string {
	if m.Currency == "" {
		return "not noted"
	}
	return m.String()
}

// Totals writes totals per currency, and what they are about together by the rates that
// were typed: "31.00 EUR and 2000 JPY; together about 43.20 EUR (1 JPY = 0.0061 EUR, typed
// 4 May 2026)". A joined total is always called about, with the day of each rate.
func Totals(totals []measure.Money, j stash.Joined) string {
	if len(totals) == 0 {
		return "nothing noted"
	}
	var parts []string
	for _, m := range totals {
		parts = append(parts, m.String())
	}
	out := And(parts)
	if len(j.Used) == 0 {
		return out
	}
	var rates []string
	for _, r := range j.Used {
		rates = append(rates, r.String()+", typed "+Day(r.Typed))
	}
	out += "; together about " + j.Total.String() + " (" + strings.Join(rates, "; ") + ")"
	if len(j.Missing) > 0 {
		out += ", without " + And(j.Missing) + ", for which no rate is noted"
	}
	return out
}

// And joins words: "a", "a and b", "a, b and c".
func And(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}

// CostEach writes what a cloth costs for each length and area: "15.03 EUR a metre as wide as it is,
// 9.39 EUR a square metre". Makers reckon by the length; an odd outline has only the area.
func (v Voice) CostEach(c stash.Cost, cloth stash.Cloth) string {
	length, area, of, square := measure.Metre, cloth.Area(), "a metre", "a square metre"
	if v.Units == measure.Imperial {
		length, of, square = measure.Yard, "a yard", "a square yard"
	}
	if area <= 0 {
		return c.PerSquareMetre.String() + " a square metre"
	}
	text := c.Per(int64(length)*int64(length), int64(area)).String() + " " + square
	if cloth.Plain() {
		text = c.Per(int64(length), int64(cloth.Length)).String() + " " + of + " at this width, " + text
	}
	return text
}
