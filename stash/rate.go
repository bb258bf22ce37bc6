package stash

import (
	"encoding/json"
	"fmt"
	"math/big"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"tallycloth/stash/measure"
)

// Rate is what one unit of a currency was worth in another on the day a person typed it:
// 1 Unit = Value/OneRate In. It is good for a rough total, never for a price.
type Rate struct {
	Unit  string // ISO 4217
	Value int64  // in units of 1/OneRate
	In    string // ISO 4217
	Typed Date
}

// OneRate is the Value of a rate of one to one: rates have nine decimals.
const OneRate = 1_000_000_000

// ratePattern is a count or none, a currency, a number and a currency or none.
var ratePattern = regexp.MustCompile(`^([0-9]+\s*)?([^0-9\s=:.,]+)\s*[=:]?\s*([0-9]+(?:[.,][0-9]+)?)\s*([^0-9\s=:.,]*)$`)

// ParseRate reads "1 USD = 0.92 EUR", "100 JPY = 0,61 EUR" or "USD 0.92", the last in the
// currency usual. The error is an Error of kind Invalid that says what to type.
func ParseRate(text, usual string, typed Date) (Rate, error) {
	refuse := func(what string, args ...any) (Rate, error) {
		return Rate{}, invalid(fmt.Sprintf("Write it as 1 USD = 0.92 %s", usual), what, args...)
	}
	m := ratePattern.FindStringSubmatch(strings.TrimSpace(text))
	if m == nil || len(text) > 60 {
		return refuse("%.40q is no rate between two currencies", text)
	}
	r := Rate{In: usual, Typed: typed}
	var err error
	if r.Unit, err = measure.ParseCurrency(m[2], usual); err != nil {
		return refuse("%q is no currency", m[2])
	}
	if m[4] != "" {
		if r.In, err = measure.ParseCurrency(m[4], usual); err != nil {
			return refuse("%q is no currency", m[4])
		}
	}
	if r.Unit == r.In {
		return refuse("A rate is between two currencies, not %s and %s", r.Unit, r.In)
	}
	value, _ := new(big.Rat).SetString(strings.Replace(m[3], ",", ".", 1))
	if m[1] != "" {
		count, _ := new(big.Rat).SetString(strings.TrimSpace(m[1]))
		if count.Sign() == 0 {
			return refuse("A rate for no %s says nothing", r.Unit)
		}
		value.Quo(value, count)
	}
	r.Value = measure.RoundedMoney(value.Mul(value, big.NewRat(OneRate, 1)), "").Minor
	if r.Value <= 0 || r.Value > OneRate*OneRate {
		return refuse("The rate must be more than zero, and less than a thousand million")
	}
	return r, nil
}

// String writes the rate, "1 USD = 0.92 EUR".
func (r Rate) String() string {
	whole, rest := r.Value/OneRate, strings.TrimRight(strconv.FormatInt(OneRate+r.Value%OneRate, 10)[1:], "0")
	if rest != "" {
		rest = "." + rest
	}
	return fmt.Sprintf("1 %s = %d%s %s", r.Unit, whole, rest, r.In)
}

// Validate says what cannot be about a rate: nil, or an Error of kind Invalid.
func (r Rate) Validate() error {
	_, one := measure.MinorDigits(r.Unit)
	_, other := measure.MinorDigits(r.In)
	switch {
	case !one || !other || r.Unit == r.In:
		return invalid("Write it as 1 USD = 0.92 EUR", "A rate is between two currencies, not %q and %q", r.Unit, r.In)
	case r.Value <= 0 || r.Value > OneRate*OneRate:
		return invalid("Type it again", "The rate of %s to %s must be more than zero", r.Unit, r.In)
	case r.Typed == "" || !r.Typed.Valid():
		return invalid("Type it again", "It is not known on which day the rate of %s to %s was typed", r.Unit, r.In)
	}
	return nil
}

// Between says whether the rate is between two currencies, either way round.
func (r Rate) Between(a, b string) bool {
	return r.Unit == a && r.In == b || r.Unit == b && r.In == a
}

// Convert returns an amount in the other currency of the rate, to the nearest minor unit;
// ok is false when the amount is in neither.
func (r Rate) Convert(m measure.Money) (other measure.Money, ok bool) {
	value, to := big.NewRat(r.Value, OneRate), r.In
	switch m.Currency {
	case r.Unit:
	case r.In:
		value, to = value.Inv(value), r.Unit
	default:
		return measure.Money{}, false
	}
	from, ok1 := measure.MinorDigits(m.Currency)
	digits, ok2 := measure.MinorDigits(to)
	if !ok1 || !ok2 {
		return measure.Money{}, false
	}
	value.Mul(value, big.NewRat(m.Minor, 1))
	value.Mul(value, new(big.Rat).SetFrac(tenTo(digits), tenTo(from)))
	return measure.RoundedMoney(value, to), true
}

func tenTo(n int) *big.Int { return new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(n)), nil) }

// Joined is totals of several currencies in one, as far as rates were typed for them.
type Joined struct {
	Total   measure.Money
	Used    []Rate   // empty: the total is exact, of one currency alone
	Missing []string // currencies that are not in the total, for want of a rate
}

// Join adds totals up in one currency by rates; of two rates between the same currencies
// the one typed later stands.
func Join(totals []measure.Money, in string, rates []Rate) Joined {
	j := Joined{Total: measure.Money{Currency: in}}
	for _, m := range totals {
		if m.Currency == in {
			j.Total.Minor += m.Minor
			continue
		}
		r, ok := rateBetween(rates, m.Currency, in)
		if !ok {
			j.Missing = append(j.Missing, m.Currency)
			continue
		}
		part, _ := r.Convert(m)
		j.Total.Minor += part.Minor
		j.Used = append(j.Used, r)
	}
	return j
}

func rateBetween(rates []Rate, a, b string) (best Rate, ok bool) {
	for _, r := range rates {
		if r.Between(a, b) && (!ok || r.Typed >= best.Typed) {
			best, ok = r, true
		}
	}
	return best, ok
}

// Rates is a set of rates, at most one between any two currencies. Sets compare with ==;
// the zero value is empty.
type Rates struct{ lines string }

// List returns the rates in the order of their codes.
func (s Rates) List() []Rate {
	var out []Rate
	for line := range strings.Lines(s.lines) {
		var r Rate
		if _, err := fmt.Sscan(line, &r.Unit, &r.In, &r.Value, &r.Typed); err == nil {
			out = append(out, r)
		}
	}
	return out
}

func ratesOf(list []Rate) Rates {
	slices.SortFunc(list, func(a, b Rate) int { return strings.Compare(a.Unit+a.In, b.Unit+b.In) })
	var lines strings.Builder
	for _, r := range list {
		fmt.Fprintln(&lines, r.Unit, r.In, r.Value, r.Typed)
	}
	return Rates{lines.String()}
}

// With returns the set with r in place of any rate between the same currencies. r must be
// valid.
func (s Rates) With(r Rate) Rates { return ratesOf(append(s.Without(r.Unit, r.In).List(), r)) }

// Without returns the set without the rate between two currencies.
func (s Rates) Without(a, b string) Rates {
	return ratesOf(slices.DeleteFunc(s.List(), func(r Rate) bool { return r.Between(a, b) }))
}

// MarshalJSON writes the set as a list.
func (s Rates) MarshalJSON() ([]byte, error) { return json.Marshal(s.List()) }

// UnmarshalJSON reads a list. A rate that cannot be is an error.
func (s *Rates) UnmarshalJSON(doc []byte) error {
	var list []Rate
	if err := json.Unmarshal(doc, &list); err != nil {
		return fmt.Errorf("reading rates: %w", err)
	}
	for _, r := range list {
		if err := r.Validate(); err != nil {
			return fmt.Errorf("reading rates: %w", err)
		}
	}
	*s = ratesOf(list)
	return nil
}
