package measure

import (
	"fmt"
	"math/big"
	"strconv"
	"strings"
)

// HeaviestWeight is the heaviest fabric that is taken for meant: 10 kg/m².
const HeaviestWeight = 10_000 * GramPerSquareMetre

// hundred scales a number of percent to Percent.
var hundred = big.NewRat(100, 1)

// ouncePerSquareYard is 1 oz/yd² in mg/m², exactly: 28 349.523125 mg over
// 0.9144² m² (NIST SP 811, appendix B: pound, ounce and yard; 33.905 747… g/m²).
var ouncePerSquareYard = new(big.Rat).Quo(big.NewRat(28_349_523_125, 1_000_000), big.NewRat(9144*9144, 10_000*10_000))

// ParseWeight reads the weight of a fabric: "150 g/m²", "150 gsm", "4.5 oz/yd²",
// "4 1/2 oz", or a bare number, which is g/m² in the metric and oz/yd² in the
// imperial system. The weight is rounded half up to mg/m²; zero, negative and
// more than 10 kg/m² are refused. The error is a *TextError.
func ParseWeight(text string, bare System) (Weight, error) {
	w, wrong := parseWeight(text, bare)
	if wrong != "" {
		return 0, &TextError{Text: text, Wrong: wrong, Want: "a weight such as 150 g/m² or 4.5 oz/yd²"}
	}
	return w, nil
}

func parseWeight(text string, bare System) (Weight, string) {
	if len(text) > longestText {
		return 0, "it is too long to be a weight"
	}
	ts := tokens(plain(text))
	if len(ts) == 0 {
		return 0, "nothing is written"
	}
	v, rest, wrong := number(ts)
	if wrong != "" {
		return 0, wrong
	}
	unit := weightUnit(rest, bare)
	if unit == nil {
		return 0, "the unit is not one of g/m², gsm and oz/yd²"
	}
	n, ok := rounded(v.Mul(v, unit))
	switch {
	case ok && n <= 0:
		return 0, "it must be more than zero"
	case !ok || Weight(n) > HeaviestWeight:
		return 0, "it is more than 10 kg/m²"
	}
	return Weight(n), ""
}

// weightUnit returns the mg/m² of the unit that ts spells, or nil.
func weightUnit(ts []token, bare System) *big.Rat {
	var name strings.Builder
	for _, t := range ts {
		if t.kind != '.' {
			name.WriteString(strings.ReplaceAll(t.text, "²", "2"))
		}
	}
	switch name.String() {
	case "":
		if bare == Imperial {
			return ouncePerSquareYard
		}
		return big.NewRat(int64(GramPerSquareMetre), 1)
	case "g/m2", "g/sqm", "gsm", "g", "g/qm", "gperm2", "g/m^2":
		return big.NewRat(int64(GramPerSquareMetre), 1)
	case "oz/yd2", "oz/sqyd", "oz", "ozperyd2", "oz/sqyard", "oz/yd^2", "ounces", "ounce":
		return ouncePerSquareYard
	}
	return nil
}

// FormatWeight writes w for reading: whole g/m², or oz/yd² to a tenth. Zero is "".
func FormatWeight(w Weight, s System) string {
	if w == 0 {
		return ""
	}
	if s == Metric {
		return fmt.Sprintf("%d g/m²", (w+GramPerSquareMetre/2)/GramPerSquareMetre)
	}
	tenths, _ := rounded(new(big.Rat).Quo(big.NewRat(int64(w)*10, 1), ouncePerSquareYard))
	return strings.TrimSuffix(fmt.Sprintf("%d.%d", tenths/10, tenths%10), ".0") + " oz/yd²"
}

// ExactWeight writes w in g/m² so that it reads back as the same weight.
func ExactWeight(w Weight) string {
	frac := strings.TrimRight(fmt.Sprintf("%03d", w%GramPerSquareMetre), "0")
	if frac != "" {
		frac = "." + frac
	}
	return strconv.FormatInt(int64(w/GramPerSquareMetre), 10) + frac + " g/m²"
}
