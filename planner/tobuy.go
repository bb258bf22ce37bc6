package planner

import (
	"context"
	"fmt"
	"strings"

	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// PlanToBuy puts so much of a fabric on the shopping list, what for if that is said; no
// length takes it off. What is bought of it in full width comes off by itself.
func (s *Studio) PlanToBuy(ctx context.Context, fabricID stash.ID, length measure.Length, what string) (stash.Fabric, error) {
	f, err := s.Fabric(ctx, fabricID)
	if err != nil {
		return f, fmt.Errorf("writing the shopping list: %w", err)
	}
	f = planned(f, length, what)
	if err := f.Validate(); err != nil {
		return f, err
	}
	sentence := fmt.Sprintf("Put %s of %s on the shopping list", s.long(ctx, length), f.Name)
	if length == 0 {
		sentence = "Took " + f.Name + " off the shopping list"
	}
	err = s.act(ctx, sentence, func(tx Tx) error {
		now, err := tx.Fabric(ctx, fabricID)
		if err != nil {
			return err
		}
		f = planned(now, length, what)
		return tx.PutFabric(ctx, f)
	})
	return f, err
}

func planned(f stash.Fabric, length measure.Length, what string) stash.Fabric {
	f.Buy, f.BuyFor = length, strings.TrimSpace(what)
	if length == 0 {
		f.BuyFor = ""
	}
	return f
}

// bought takes what was bought of known fabrics off the shopping list.
func (e *entry) bought(ctx context.Context, tx Tx) error {
	for i, l := range e.purchase.Lines {
		f, err := tx.Fabric(ctx, l.FabricID)
		if err != nil {
			return err
		}
		if f.Buy == 0 || e.cloths[i].Width < f.OpenWidth() {
			continue
		}
		if err := tx.PutFabric(ctx, planned(f, max(f.Buy-l.Quantity, 0), f.BuyFor)); err != nil {
			return err
		}
	}
	return nil
}

// FabricKind is the kind of fabrics on the shopping list, among notions.
const FabricKind = "fabric"

// fabricsToBuy are the fabrics on the shopping list, in metres or yards; on hand is what is
// free, as a length of full width.
func fabricsToBuy(fabrics []stash.Fabric, cloths []stash.ClothState, system measure.System) []ToBuy {
	unit, name := measure.Metre, "m"
	if system == measure.Imperial {
		unit, name = measure.Yard, "yd"
	}
	var out []ToBuy
	for _, f := range fabrics {
		if f.Buy == 0 {
			continue
		}
		free := measure.Area(0)
		for _, c := range cloths {
			if c.Fabric.ID == f.ID {
				free += c.FreeArea
			}
		}
		in := func(um int64) float64 { return stash.Quantified(float64(um) / float64(unit)) }
		out = append(out, ToBuy{FabricID: f.ID, Name: f.Name, Kind: FabricKind, Unit: name, Buy: in(int64(f.Buy)), OnHand: in(int64(free) / int64(f.OpenWidth())), Note: f.BuyFor})
	}
	return out
}
