package measure

import (
	"cmp"
	"math/big"
	"slices"
)

// Totals adds amounts up, one total for each currency, by code. The zero Money, an amount
// that was not said, counts as nothing.
func Totals(amounts ...Money) []Money {
	var out []Money
	for _, m := range amounts {
		if m.Currency == "" {
			continue
		}
		i, found := slices.BinarySearchFunc(out, m.Currency, func(a Money, code string) int { return cmp.Compare(a.Currency, code) })
		if !found {
			out = slices.Insert(out, i, Money{Currency: m.Currency})
		}
		out[i].Minor += m.Minor
	}
	return out
}

// Times returns m × num/den, rounded to the nearest minor unit, halves up. den must not be
// zero; a result beyond an int64 is the largest there is.
func (m Money) Times(num, den int64) Money {
	r := new(big.Rat).SetFrac(new(big.Int).Mul(big.NewInt(m.Minor), big.NewInt(num)), big.NewInt(den))
	return RoundedMoney(r, m.Currency)
}

// RoundedMoney returns a count of minor units as an amount: the nearest, halves up.
func RoundedMoney(minor *big.Rat, code string) Money {
	twice := new(big.Int).Mul(minor.Num(), big.NewInt(2))
	twice.Add(twice, minor.Denom())
	q := new(big.Int).Div(twice, new(big.Int).Mul(minor.Denom(), big.NewInt(2))) // floored: the denominator is positive
	if !q.IsInt64() {
		return Money{Minor: 1<<63 - 1, Currency: code}
	}
	return Money{Minor: q.Int64(), Currency: code}
}
