package measure

import (
	"fmt"
	"strings"

	iso "github.com/bojanz/currency"
	"golang.org/x/text/currency"
)

// MinorDigits returns how many decimals a currency has (EUR 2, JPY 0, KWD 3, CLF 4); ok
// is false for what is no currency code.
//
//  1. Codes in use are those of ISO 4217 list one, with its minor units.
//  2. Codes that were withdrawn stay known, since people keep old receipts. ISO 4217 gives
//     no minor units for them; those of the Unicode CLDR stand.
//  3. Units of account, metals and codes for tests are no currencies one pays with.
func MinorDigits(code string) (digits int, ok bool) {
	if n, ok := iso.GetDigits(code); ok {
		return int(n), true
	}
	u, err := currency.ParseISO(code)
	if err != nil || u.String() != code || strings.HasPrefix(code, "X") {
		return 0, false
	}
	digits, _ = currency.Standard.Rounding(u)
	return digits, true
}

// wantCurrency is what a currency is written as.
const wantCurrency = "the three letters of its ISO 4217 code, such as EUR, USD, GBP or JPY"

// ParseCurrency reads a currency as its code, in any case, or as its sign: "eur", "€". A
// sign that several currencies share means usual when that is among them, else the
// first. The error is a *TextError.
func ParseCurrency(text, usual string) (code string, err error) {
	word := strings.TrimSpace(plain(text))
	if word == "" {
		return "", &TextError{Text: text, Wrong: "nothing is written", Want: wantCurrency}
	}
	if code = currencyOf(word, usual); len(code) == 3 {
		if _, ok := MinorDigits(code); ok {
			return code, nil
		}
	}
	return "", &TextError{Text: text, Wrong: noCurrency(word), Want: wantCurrency}
}

// noCurrency says that a word is no currency.
func noCurrency(word string) string {
	return fmt.Sprintf("%q is no currency of today or before", shortened(strings.ToUpper(word)))
}

// symbols are the signs a person may type instead of a code, with the
// currencies they may mean; the field's own is taken when it is among them, else the first.
var symbols = map[string][]string{
	"€":  {"EUR"},
	"£":  {"GBP", "EGP", "GIP", "FKP"},
	"¥":  {"JPY", "CNY"},
	"$":  {"USD", "CAD", "AUD", "NZD", "SGD", "HKD", "MXN", "TWD"},
	"kr": {"SEK", "NOK", "DKK", "ISK"},
	"zł": {"PLN"},
	"₹":  {"INR"},
}

// currencyOf returns the code that a sign or code means.
func currencyOf(sign, bare string) string {
	if sign == "" {
		return bare
	}
	codes := symbols[sign]
	if len(codes) == 0 {
		return strings.ToUpper(sign)
	}
	for _, c := range codes {
		if c == bare {
			return c
		}
	}
	return codes[0]
}
