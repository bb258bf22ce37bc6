package planner

import (
	"context"
	"fmt"
	"slices"

	"tallycloth/planner/match"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// UsualWidths are the widths that knits are sold in (common practice).
var UsualWidths = []measure.Length{112 * measure.Centimetre, 140 * measure.Centimetre, 150 * measure.Centimetre, 160 * measure.Centimetre}

// ClothToBuy is fabric to buy for garments that the shelf cannot give: those that can share
// one length, together.
type ClothToBuy struct {
	Role     string
	Asks     pattern.Role     // what the fabric must be
	FabricID stash.ID         // a fabric named for it, else NoID
	Fabric   string           // its name, or what it is used for
	For      []MissingGarment // by row
	Lengths  []BuyingWidth    // at each width
}

// BuyingWidth is how much to buy at one width.
type BuyingWidth struct {
	Width measure.Length
	// Needed is what the layout takes, with raw ends and for the change in washing; Buy is
	// that rounded up to what the shop sells; Apart is what each garment by itself would come
	// to, rounded up for each. ByTable says that it is estimated by the yardage table.
	Needed, Buy, Apart measure.Length
	ByTable            bool
	Layout             match.Together
}

// Saves is what buying for the garments together saves.
func (b BuyingWidth) Saves() measure.Length { return max(b.Apart-b.Buy, 0) }

// comparedWidth is the width that what to buy is compared at, where it is a usual one.
const comparedWidth = 150 * measure.Centimetre

// BuyInAll is what is to be bought in all at the width that plans are compared by, 150 cm, or
// else the widest there is.
func BuyInAll(items []ClothToBuy) measure.Length {
	var sum measure.Length
	for _, item := range items {
		if len(item.Lengths) == 0 {
			continue
		}
		i := slices.IndexFunc(item.Lengths, func(l BuyingWidth) bool { return l.Width == comparedWidth })
		if i < 0 {
			i = len(item.Lengths) - 1
		}
		sum += item.Lengths[i].Buy
	}
	return sum
}

// buyingSteps is how long each length to buy is searched, in steps of the layout engine.
const buyingSteps = 24

// WhatToBuy says what to buy for the garments of a batch that a plan does not make, by kind
// of fabric and usual width; a fabric named for a use is bought at its own width. Garments
// whose uses ask the same of their fabric share a length.
func (s *Studio) WhatToBuy(ctx context.Context, b Batch, p BatchPlan) ([]ClothToBuy, error) {
	w, err := s.bench(ctx, b)
	if err != nil {
		return nil, err
	}
	set, err := s.Settings(ctx)
	if err != nil {
		return nil, fmt.Errorf("working out what to buy: %w", err)
	}
	fabrics, err := s.Fabrics(ctx)
	if err != nil {
		return nil, fmt.Errorf("working out what to buy: %w", err)
	}
	var out []ClothToBuy
	var shares [][]match.Share
	for _, m := range p.Missing {
		if m.Row >= len(w.uses) {
			return nil, refused("Plan the batch again", "The rows have changed since the plan was made")
		}
		for k := range w.uses[m.Row] {
			item := w.toBuy(m.Row, k, fabrics)
			i := slices.IndexFunc(out, func(o ClothToBuy) bool { return sharesCloth(o, item) })
			if i < 0 {
				i, out, shares = len(out), append(out, item), append(shares, nil)
			}
			out[i].For = append(out[i].For, m)
			shares[i] = append(shares[i], match.Share{Q: w.asks[m.Row][k], N: m.Count})
		}
	}
	for i := range out {
		if err := s.lengths(ctx, &out[i], shares[i], fabrics, set); err != nil {
			return nil, fmt.Errorf("working out what to buy: %w", err)
		}
	}
	return out, nil
}

// toBuy is a use of fabric of a row as something to buy. Strips that follow the main fabric
// are bought with it.
func (w *bench) toBuy(row, k int, fabrics []stash.Fabric) ClothToBuy {
	u, main := w.uses[row][k], w.uses[row][0]
	if u.rule.From == SameFabric {
		u = use{role: main.role, rule: main.rule}
	}
	asks, _ := w.patterns[row].Role(u.role)
	item := ClothToBuy{Role: u.role, Asks: asks, Fabric: u.role}
	if u.rule.From == NamedFabric {
		item.FabricID = u.rule.Fabrics[0]
		if i := slices.IndexFunc(fabrics, func(f stash.Fabric) bool { return f.ID == item.FabricID }); i >= 0 {
			item.Fabric = fabrics[i].Name
		}
	}
	return item
}

// sharesCloth says whether two uses can be cut from one length.
func sharesCloth(a, b ClothToBuy) bool {
	a.Asks.Optional, b.Asks.Optional = false, false
	return a.Role == b.Role && a.FabricID == b.FabricID && a.Asks == b.Asks
}

// lengths works out how much to buy at each width.
func (s *Studio) lengths(ctx context.Context, item *ClothToBuy, shares []match.Share, fabrics []stash.Fabric, set Settings) error {
	kinds := []stash.Fabric{}
	if i := slices.IndexFunc(fabrics, func(f stash.Fabric) bool { return f.ID == item.FabricID }); i >= 0 && item.FabricID != stash.NoID {
		kinds = append(kinds, fabrics[i])
	} else {
		for _, w := range UsualWidths {
			kinds = append(kinds, usualFabric(item.Asks, w))
		}
	}
	for _, f := range kinds {
		whole, byTable, err := match.LeastTogether(ctx, f, shares, buyingSteps)
		if err != nil {
			return err
		}
		if whole.Used == 0 {
			continue // too narrow for some pattern piece
		}
		b := BuyingWidth{Width: f.FullWidth, Layout: whole, ByTable: byTable}
		b.Needed = bought(whole.Used, f, set)
		b.Buy = roundUp(b.Needed, set.ShopIncrement)
		for _, one := range shares {
			n := one.N
			one.N = 1
			apart, _, err := match.LeastTogether(ctx, f, []match.Share{one}, buyingSteps)
			if err != nil {
				return err
			}
			b.Apart += measure.Length(n) * roundUp(bought(apart.Used, f, set), set.ShopIncrement)
		}
		item.Lengths = append(item.Lengths, b)
	}
	return nil
}

// usualFabric is a fabric as it is usually sold that a use asks for: a knit with its usual
// direction, or a woven one.
func usualFabric(asks pattern.Role, width measure.Length) stash.Fabric {
	f := stash.Fabric{FullWidth: width, SelvedgeLoss: measure.Centimetre, Construction: stash.Jersey, Direction: stash.SameWayInGarment}
	if !asks.Knit && asks.StretchAround == 0 && asks.StretchAlong == 0 {
		f.Construction, f.Direction = stash.WovenPlain, stash.EitherWay
	}
	return f
}

// bought is what is to be bought so that a length is there after washing, with both raw ends. What was
// not measured is assumed to shrink as its construction does.
func bought(length measure.Length, f stash.Fabric, set Settings) measure.Length {
	change := min(stash.Assumed(f).Lengthwise.Shrinkage.Value, 0)
	return stash.BeforeWashing(length, change) + 2*set.EndLoss
}

// roundUp rounds a length up to what a shop sells.
func roundUp(l, increment measure.Length) measure.Length {
	if increment <= 0 {
		return l
	}
	return (l + increment - 1) / increment * increment
}
