package stash

import (
	"cmp"
	"time"

	"tallycloth/stash/measure"
)

// Purchase is what was bought in one go, at one shop.
type Purchase struct {
	ID       ID
	Date     Date
	Supplier string
	Lines    []PurchaseLine
	Postage  measure.Money // shared over the lines by value
	Tax      measure.Money
	Notes    string
}

// PurchaseLine is one fabric length of a purchase.
type PurchaseLine struct {
	FabricID ID
	ClothID  ID
	Quantity measure.Length
	Price    measure.Money // for the whole line
}

// Date is a calendar day, "2006-01-02".
type Date string

// On returns the day of t in t's own zone.
func On(t time.Time) Date { return Date(t.Format("2006-01-02")) }

// Costs returns what each line cost in all: its price and its share of postage and
// tax, shared over the lines by price so that the shares add up exactly. Lines
// without any price share alike. All amounts must be in one currency; those that
// were not said (the zero Money) count as nothing.
func (p Purchase) Costs() ([]measure.Money, error) {
	weights, code := make([]int64, len(p.Lines)), ""
	for _, m := range append([]measure.Money{p.Postage, p.Tax}, prices(p.Lines)...) {
		if m.Currency != "" && code != "" && m.Currency != code {
			return nil, invalid("Log what was paid in each as a purchase of its own", "The purchase is in two currencies, %s and %s", code, m.Currency)
		}
		code = cmp.Or(code, m.Currency)
	}
	for i, l := range p.Lines {
		weights[i] = l.Price.Minor
	}
	out := measure.Money{Minor: p.Postage.Minor + p.Tax.Minor, Currency: code}.Split(weights)
	for i, l := range p.Lines {
		out[i].Minor += l.Price.Minor
	}
	return out, nil
}
