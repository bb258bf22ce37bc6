package planner

import (
	"context"
	"fmt"
	"math"
	"math/big"

	"tallycloth/planner/garment"
	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// Worth is what lies on the shelf, fabric by fabric, at what was paid for it.
type Worth struct {
	OnHand
	Yards
	Pieces  int
	Fabrics []FabricWorth // by name
}

// FabricWorth is what is there of one fabric.
type FabricWorth struct {
	Fabric stash.Fabric
	Yards
	Pieces   int
	Totals   []measure.Money
	Unpriced int // pieces whose cost is not known, in no total
}

// Worth adds up what lies on the shelf.
func (s *Studio) Worth(ctx context.Context) (Worth, error) {
	hand, shelf, err := s.onHand(ctx)
	if err != nil {
		return Worth{}, err
	}
	fabrics, err := s.Fabrics(ctx)
	if err != nil {
		return Worth{}, fmt.Errorf("adding the shelf up: %w", err)
	}
	of := map[stash.ID]*FabricWorth{}
	for _, f := range fabrics {
		of[f.ID] = &FabricWorth{Fabric: f}
	}
	for _, c := range shelf {
		f := of[c.FabricID]
		f.Pieces++
		f.Area += c.Area()
		if cost := hand.Costs[c.ID]; cost.Known {
			f.Totals = measure.Totals(append(f.Totals, cost.Cost)...)
		} else {
			f.Unpriced++
		}
	}
	w := Worth{OnHand: hand, Pieces: len(shelf)}
	for _, f := range fabrics {
		if f := of[f.ID]; f.Pieces > 0 {
			f.Yards = YardsOf(f.Area, f.Fabric.FullWidth)
			w.Yards = w.plus(f.Yards)
			w.Fabrics = append(w.Fabrics, *f)
		}
	}
	return w, nil
}

// GarmentCost is what a garment takes, at what was paid for it.
type GarmentCost struct {
	Garment garment.Garment
	Pattern string
	Cloth   []ClothPart
	Notions []NotionPart
	Area    measure.Area // in the garment
	Waste   measure.Area // its share of what was wasted in cutting
	Totals  []measure.Money
	Joined  stash.Joined // in the currency of the settings
	// Unpriced is how many pieces of cloth and notions it has whose price is not noted.
	Unpriced int
	// Planned says that cloth is reserved and not cut yet: its waste is not known.
	Planned bool
	// Taken is the length that is planned to be taken of its plain cloths, TakenTotals what it costs by
	// that, notions and cloth that is not plain in it; zero where nothing is planned so.
	Taken       measure.Length
	Unwashed    bool // some of it is of cloth that is not washed yet, and will shrink
	TakenTotals []measure.Money
	TakenJoined stash.Joined
}

// ClothPart is what a garment has of one piece of cloth.
type ClothPart struct {
	ClothID      stash.ID
	Fabric, Code string
	Area, Waste  measure.Area
	Planned      bool
	Cost         stash.Cost // of both; what a square metre of the cloth cost is in it
	// Taken is the length of a plain cloth that is planned to be taken, over its whole width, what lies
	// between and beside the pieces in it; with its cost. Zero where that is not known.
	Taken     measure.Length
	TakenCost stash.Cost
}

// NotionPart is what a garment has of a notion, at the price last paid before it was used, or
// first paid afterwards.
type NotionPart struct {
	Name     string
	Quantity float64
	Unit     string
	Cost     measure.Money // the zero value where no price is noted
}

// GarmentCosts returns what garments cost that have cloth or notions, the newest change first:
// the area cut for them with its share of the waste, or what is reserved for them, by area at what
// its cloth cost, and notions. Of what one act wasted of a cloth a garment has as much as it
// has of what was cut.
func (s *Studio) GarmentCosts(ctx context.Context) ([]GarmentCost, error) {
	k := costBook{of: map[stash.ID]*GarmentCost{}, cloth: map[stash.ID]stash.Cloth{}, fabric: map[stash.ID]string{}}
	for _, read := range []func() error{
		func() (err error) { k.garments, err = s.Garments(ctx); return },
		func() (err error) { k.cloths, err = s.EveryCloth(ctx); return },
		func() (err error) { k.purchases, err = s.Purchases(ctx); return },
		func() (err error) { k.cut, err = s.CutParts(ctx); return },
		func() (err error) { k.reserved, err = s.ReservedParts(ctx); return },
		func() (err error) { k.shelf, err = s.Cloths(ctx); return },
		func() (err error) { k.notions, err = s.Notions(ctx); return },
		func() (err error) { k.fabric, err = s.fabricNames(ctx); return },
		func() (err error) { k.settings, err = s.Settings(ctx); return },
	} {
		if err := read(); err != nil {
			return nil, fmt.Errorf("adding up what garments cost: %w", err)
		}
	}
	patterns, err := s.Patterns(ctx)
	if err != nil {
		return nil, fmt.Errorf("adding up what garments cost: %w", err)
	}
	names := map[stash.ID]string{}
	for _, p := range patterns {
		names[p.ID] = p.Name
	}
	return k.add(names), nil
}

// costBook is what the costs of garments are added up from.
type costBook struct {
	garments  []garment.Garment
	cloths    []stash.Cloth
	purchases []stash.Purchase
	cut       []CutPart
	reserved  []CutPart
	shelf     []stash.ClothState
	notions   []stash.Notion
	settings  Settings

	of     map[stash.ID]*GarmentCost
	cloth  map[stash.ID]stash.Cloth
	fabric map[stash.ID]string
}

func (k *costBook) add(patterns map[stash.ID]string) []GarmentCost {
	all := make([]GarmentCost, len(k.garments))
	for i, g := range k.garments {
		all[i] = GarmentCost{Garment: g, Pattern: patterns[g.PatternID]}
		k.of[g.ID] = &all[i]
	}
	for _, c := range k.cloths {
		k.cloth[c.ID] = c
	}
	for from := 0; from < len(k.cut); {
		to := from
		for to < len(k.cut) && k.cut[to].ActID == k.cut[from].ActID && k.cut[to].ClothID == k.cut[from].ClothID {
			to++
		}
		k.cutting(k.cut[from:to])
		from = to
	}
	for _, r := range k.reserved {
		k.part(r.GarmentID, r.ClothID, r.Area, 0, true)
	}
	for _, c := range k.shelf {
		for id, l := range lengthsTaken(c) {
			if p := k.of[id].plannedOn(c.Cloth.ID); p != nil {
				p.Taken = l
				k.of[id].Unwashed = k.of[id].Unwashed || !c.Cloth.Washed
			}
		}
	}
	k.price()
	k.useNotions()
	var out []GarmentCost
	for _, g := range all {
		if len(g.Cloth)+len(g.Notions) > 0 {
			out = append(out, k.total(g))
		}
	}
	return out
}

// cutting shares the waste of one cutting of one cloth over what was cut.
func (k *costBook) cutting(parts []CutPart) {
	var waste measure.Area
	var areas []int64
	for _, p := range parts {
		if p.Waste {
			waste += p.Area
		} else {
			areas = append(areas, int64(p.Area))
		}
	}
	shares := waste.Split(areas)
	for i, share := range shares { // what was cut stands before the waste
		k.part(parts[i].GarmentID, parts[i].ClothID, parts[i].Area, share, false)
	}
}

func (k *costBook) part(garmentID, clothID stash.ID, area, waste measure.Area, planned bool) {
	g := k.of[garmentID]
	if g == nil {
		return
	}
	g.Area, g.Waste = g.Area+area, g.Waste+waste
	g.Planned = g.Planned || planned
	c := k.cloth[clothID]
	for i := range g.Cloth {
		if p := &g.Cloth[i]; p.ClothID == clothID && p.Planned == planned {
			p.Area, p.Waste = p.Area+area, p.Waste+waste
			return
		}
	}
	g.Cloth = append(g.Cloth, ClothPart{ClothID: clothID, Fabric: k.fabric[c.FabricID], Code: c.Code, Area: area, Waste: waste, Planned: planned})
}

// price asks what all parts cost at once.
func (k *costBook) price() {
	var parts []stash.Part
	var into []*stash.Cost
	for _, g := range k.garments {
		of := k.of[g.ID]
		for i := range of.Cloth {
			p := &of.Cloth[i]
			parts = append(parts, stash.Part{ClothID: p.ClothID, Area: p.Area + p.Waste})
			into = append(into, &p.Cost)
			if p.Taken > 0 {
				parts = append(parts, stash.Part{ClothID: p.ClothID, Area: measure.Area(p.Taken) * measure.Area(k.cloth[p.ClothID].Width)})
				into = append(into, &p.TakenCost)
			}
		}
	}
	for i, c := range stash.CostsOfParts(k.cloths, k.purchases, parts) {
		*into[i] = c
	}
}

func (k *costBook) useNotions() {
	for _, n := range k.notions {
		for i, l := range n.Lines {
			if g := k.of[l.GarmentID]; g != nil && l.Move == stash.NotionUsed {
				g.use(NotionPart{Name: n.Name, Quantity: -l.Change, Unit: n.Unit, Cost: paidFor(n, i)})
			}
		}
	}
}

// use adds what was used of a notion: to the same in the same currency, else beside it.
func (g *GarmentCost) use(p NotionPart) {
	for i := range g.Notions {
		if o := &g.Notions[i]; o.Name == p.Name && o.Unit == p.Unit && o.Cost.Currency == p.Cost.Currency {
			o.Quantity = stash.Quantified(o.Quantity + p.Quantity)
			o.Cost.Minor += p.Cost.Minor
			return
		}
	}
	g.Notions = append(g.Notions, p)
}

// paidFor is what the quantity that a line took from hand cost.
func paidFor(n stash.Notion, line int) measure.Money {
	best := -1
	for i, l := range n.Lines {
		if l.Move == stash.NotionBought && l.Paid.Currency != "" && l.Change > 0 && (i < line || best < 0) {
			best = i
		}
	}
	if best < 0 {
		return measure.Money{}
	}
	b := n.Lines[best]
	part := big.NewRat(millionths(-n.Lines[line].Change), millionths(b.Change))
	return measure.RoundedMoney(part.Mul(part, big.NewRat(b.Paid.Minor, 1)), b.Paid.Currency)
}

// millionths is a quantity as it is kept, at least one part.
func millionths(q float64) int64 { return max(int64(math.Round(q*1e6)), 1) }

// total adds up what one garment costs.
func (k *costBook) total(g GarmentCost) GarmentCost {
	var known, taken []measure.Money
	for _, p := range g.Cloth {
		g.Taken += p.Taken
		if p.TakenCost.Known {
			taken = append(taken, p.TakenCost.Cost)
		} else if p.Cost.Known {
			taken = append(taken, p.Cost.Cost)
		}
		if p.Cost.Known {
			known = append(known, p.Cost.Cost)
		} else {
			g.Unpriced++
		}
	}
	for _, p := range g.Notions {
		if p.Cost.Currency != "" {
			known, taken = append(known, p.Cost), append(taken, p.Cost)
		} else {
			g.Unpriced++
		}
	}
	g.Totals = measure.Totals(known...)
	g.Joined = stash.Join(g.Totals, k.settings.Currency, k.settings.Rates.List())
	if g.Taken > 0 {
		g.TakenTotals = measure.Totals(taken...)
		g.TakenJoined = stash.Join(g.TakenTotals, k.settings.Currency, k.settings.Rates.List())
	}
	return g
}
