package stash

import (
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
