package stash

import "tallycloth/stash/measure"

// Fibres is the fibre content of a fabric, largest share first. Shares sum to
// 100 %; empty means not known.
type Fibres []Fibre

// Fibre is one constituent and its share by mass.
type Fibre struct {
	Name  string // name of Regulation (EU) No 1007/2011, annex I; "other fibres" allowed
	Share measure.Percent
}
