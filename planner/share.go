package planner

import (
	"cmp"

	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// Sharing is what the lines of a purchase cost: prices, and with their shares of postage
// and tax. Costs add up to Total exactly.
type Sharing struct {
	Prices       []measure.Money // the zero value where none was said
	Costs        []measure.Money
	Postage, Tax measure.Money
	Total        measure.Money
}

// Share works out what each line costs in all, before anything is logged. Amounts without
// a currency are in the one given. It refuses two currencies, and a price said twice.
func (b Buying) Share(currency string) (Sharing, error) {
	if len(b.Lines) == 0 {
		return Sharing{}, invalid("Add what was bought, line by line", "The purchase has no line")
	}
	in := func(m measure.Money) measure.Money {
		if m.Currency == "" && m.Minor != 0 {
			m.Currency = currency
		}
		return m
	}
	s := Sharing{Postage: in(b.Postage), Tax: in(b.Tax)}
	p := stash.Purchase{Postage: s.Postage, Tax: s.Tax}
	for i, l := range b.Lines {
		price, err := l.price()
		if err != nil {
			return Sharing{}, ofLine(len(b.Lines), i, err)
		}
		s.Prices = append(s.Prices, in(price))
		p.Lines = append(p.Lines, stash.PurchaseLine{Price: in(price)})
	}
	if s.Postage.Minor < 0 || s.Tax.Minor < 0 {
		return Sharing{}, invalid("Leave it empty if you do not know it", "Postage and tax cannot be negative")
	}
	if b.TaxRate != 0 {
		if b.Tax.Minor != 0 {
			return Sharing{}, invalid("Say one of them", "The tax is said as an amount and as a percent")
		}
		s.Tax = taxOn(s.Prices, b.TaxRate)
		p.Tax = s.Tax
	}
	var err error
	if s.Costs, err = p.Costs(); err != nil {
		return Sharing{}, err
	}
	for _, c := range s.Costs {
		s.Total.Minor += c.Minor
		s.Total.Currency = c.Currency
	}
	return s, nil
}

// taxOn is so many percent of prices, rounded to the nearest minor unit, half up.
func taxOn(prices []measure.Money, rate measure.Percent) measure.Money {
	var sum measure.Money
	for _, p := range prices {
		sum.Minor += p.Minor
		sum.Currency = cmp.Or(sum.Currency, p.Currency)
	}
	const whole = 100 * int64(measure.OnePercent)
	sum.Minor = (2*sum.Minor*int64(rate) + whole) / (2 * whole)
	return sum
}

// price is what the line costs by itself: as said, or by its length.
func (l BuyingLine) price() (measure.Money, error) {
	none := measure.Money{}
	switch {
	case l.Price.Minor < 0 || l.Per.Minor < 0:
		return none, invalid("Leave it empty if you do not know it", "A price cannot be negative")
	case l.Per == none:
		return l.Price, nil
	case l.Price != none:
		return none, invalid("Say one of them", "The price is said for the line and for each length")
	case l.PerLength <= 0:
		return none, invalid("Say for how much it is, such as 1 m", "The price is for a length of nothing")
	}
	price := l.Per.Times(int64(l.Length), int64(l.PerLength))
	if price.Minor > mostPrice {
		return none, invalid("Look at the length and the price again", "%s for each %d cm comes to more than anyone pays for fabric", l.Per, l.PerLength/measure.Centimetre)
	}
	return price, nil
}

// mostPrice is the largest price in minor units that is taken for meant, as for one that is typed.
const mostPrice = 1_000_000_000_000
