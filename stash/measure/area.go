package measure

import (
	"fmt"
	"math/big"
	"strings"
)

// squareYard is 1 yd² in µm², exactly.
const squareYard = int64(Yard) * int64(Yard)

// FormatArea writes a to a hundredth of m² or yd²: "1.55 m²", "0.5 yd²". It is for
// reading only; areas are worked out, never typed.
func FormatArea(a Area, s System) string {
	if a < 0 {
		return "-" + FormatArea(-a, s)
	}
	unit, name := int64(Metre)*int64(Metre), " m²"
	if s == Imperial {
		unit, name = squareYard, " yd²"
	}
	n, _ := rounded(new(big.Rat).Mul(big.NewRat(int64(a), unit), hundred))
	text := fmt.Sprintf("%d.%02d", n/100, n%100)
	return strings.TrimSuffix(strings.TrimRight(text, "0"), ".") + name
}
