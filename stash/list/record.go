package list

import (
	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// Record is what one row of a list says.
type Record struct {
	FabricNo string // rows with the same number are of one fabric
	Fabric   stash.Fabric
	Cloth    stash.Cloth
	CutFrom  string // code of the cloth it was cut from
	Currency string
	Bought   Bought
	// What no fact is made of is kept in the notes of cloth and fabric.
	extra, extraFabric string
}

// Bought is what a row says about a purchase.
type Bought struct {
	No           string // rows with the same number were bought in one go
	On           stash.Date
	From         string
	Length       measure.Length
	Price        measure.Money // for the whole length
	Per          measure.Money // for a unit of length
	Postage, Tax measure.Money // of the whole purchase
	Notes        string
}

// said says whether the row speaks of a purchase at all.
func (b Bought) said() bool {
	none := measure.Money{}
	return b.No != "" || b.On != "" || b.From != "" || b.Length != 0 || b.Price != none || b.Per != none || b.Postage != none || b.Tax != none || b.Notes != ""
}
