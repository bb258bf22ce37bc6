package stash

import (
	"math/big"

	"tallycloth/stash/measure"
)

// Cost is what a piece of cloth cost: price with its share of postage and tax, or, for a
// leftover, its part by area of what it was cut from. What was cut away as waste is in
// what was cut out, not in the leftover.
type Cost struct {
	// Known is false when no price was noted.
	Known bool
	Cost  measure.Money
	// PerSquareMetre is the cost over the area of the cloth as it is: shrinking and
	// straightened ends make a square metre dearer.
	PerSquareMetre measure.Money
	PurchaseID     ID // of the length it comes from, or NoID
}

// Per is what a unit costs where so much of it cost the whole, rounded to the nearest minor
// unit: of a length per metre or yard, of an area per square yard. Both are above zero.
func (c Cost) Per(unit, of int64) measure.Money {
	each := new(big.Rat).Mul(big.NewRat(c.Cost.Minor, 1), big.NewRat(unit, of))
	return measure.RoundedMoney(each, c.Cost.Currency)
}

// Amount is the cost, the zero Money where it is not known.
func (c Cost) Amount() measure.Money {
	if !c.Known {
		return measure.Money{}
	}
	return c.Cost
}

// exact is a cost before it is rounded.
type exact struct {
	minor    *big.Rat // nil: not known
	currency string
	purchase ID
}

// CostsOf returns the cost of each cloth. Cloths are to hold those that others were cut
// from, gone or not; where one is missing its leftovers have no known cost. Amounts are
// rounded to the nearest minor unit, once.
func CostsOf(cloths []Cloth, purchases []Purchase) map[ID]Cost {
	c := costingOf(cloths, purchases)
	out := make(map[ID]Cost, len(cloths))
	for _, x := range cloths {
		out[x.ID] = c.of(x).rounded(areaWhenThere(x))
	}
	return out
}

// Part is some area of a cloth, as it is or was.
type Part struct {
	ClothID ID
	Area    measure.Area
}

// CostsOfParts returns what parts of cloth cost, each its share by area of its cloth, with the
// same rules as CostsOf; a part of a cloth that is not given has no known cost.
func CostsOfParts(cloths []Cloth, purchases []Purchase, parts []Part) []Cost {
	c := costingOf(cloths, purchases)
	out := make([]Cost, len(parts))
	for i, p := range parts {
		x, ok := c.cloth[p.ClothID]
		if whole := areaWhenThere(x); ok && whole > 0 {
			e := c.of(x)
			if e.minor != nil {
				e.minor = new(big.Rat).Mul(e.minor, big.NewRat(int64(p.Area), int64(whole)))
			}
			out[i] = e.rounded(p.Area)
		}
	}
	return out
}

func costingOf(cloths []Cloth, purchases []Purchase) costing {
	c := costing{cloth: map[ID]Cloth{}, line: map[ID]exact{}, done: map[ID]exact{}}
	for _, x := range cloths {
		c.cloth[x.ID] = x
	}
	for _, p := range purchases {
		c.take(p)
	}
	return c
}

type costing struct {
	cloth      map[ID]Cloth
	line, done map[ID]exact
}

// take notes what the lines of a purchase cost. One in two currencies says nothing.
func (c *costing) take(p Purchase) {
	costs, err := p.Costs()
	for i, l := range p.Lines {
		e := exact{purchase: p.ID}
		if err == nil && (l.Price.Currency != "" || costs[i].Minor > 0) {
			e.minor, e.currency = big.NewRat(costs[i].Minor, 1), costs[i].Currency
		}
		c.line[l.ClothID] = e
	}
}

// of returns the cost of a cloth, from its line or from what it was cut from.
func (c *costing) of(x Cloth) exact {
	if e, ok := c.done[x.ID]; ok {
		return e
	}
	e, bought := c.line[x.ID]
	if parent, ok := c.cloth[x.CutFrom]; ok && !bought && x.CutFrom != NoID && areaWhenThere(parent) > 0 {
		c.done[x.ID] = exact{} // no cloth is cut from itself, however far round
		if e = c.of(parent); e.minor != nil {
			e.minor = new(big.Rat).Mul(e.minor, big.NewRat(int64(areaWhenThere(x)), int64(areaWhenThere(parent))))
		}
	}
	c.done[x.ID] = e
	return e
}

// areaWhenThere is the area of a cloth, for one that is gone what it had when it went.
func areaWhenThere(c Cloth) measure.Area {
	c.Gone = false
	return c.Area()
}

func (e exact) rounded(area measure.Area) Cost {
	if e.minor == nil {
		return Cost{PurchaseID: e.purchase}
	}
	out := Cost{Known: true, Cost: measure.RoundedMoney(e.minor, e.currency), PurchaseID: e.purchase}
	if area > 0 {
		per := new(big.Rat).Mul(e.minor, big.NewRat(int64(measure.Metre)*int64(measure.Metre), int64(area)))
		out.PerSquareMetre = measure.RoundedMoney(per, e.currency)
	}
	return out
}
