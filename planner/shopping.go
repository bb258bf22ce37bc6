package planner

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"
	"strings"

	"tallycloth/planner/garment"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/list"
)

// ToBuy is one thing on the shopping list: a notion that is below its reorder level, or
// that wanted and reserved garments ask for beyond what is on hand.
type ToBuy struct {
	NotionID stash.ID // NoID: several notions serve, or none is known
	FabricID stash.ID // of a fabric, which is then of FabricKind
	Note     string   // what a fabric is for
	Name     string
	Kind     string
	Unit     string
	OnHand   float64 // of all that serve
	Reorder  float64
	Needed   float64 // by the garments below, less what was used for them already
	Buy      float64 // so that the garments have theirs and the reorder level stays
	Garments []string
}

// asking is what garments ask of the notions that serve one another.
type asking struct {
	ToBuy
	pool  []int // of the notions, in order; empty: none serves
	short float64
}

// ShoppingList returns what is to be bought: the fabrics that a person put on it, by name,
// then notions by kind and name.
//
//  1. A garment that is wanted or reserved asks what its pattern asks in its size, less what
//     was used for it already.
//  2. What asks for notions that a narrower asking has used up is short by the rest alone, so
//     that nothing is on the list twice.
func (s *Studio) ShoppingList(ctx context.Context) ([]ToBuy, error) {
	fail := func(err error) ([]ToBuy, error) { return nil, fmt.Errorf("writing the shopping list: %w", err) }
	notions, err := s.Notions(ctx)
	if err != nil {
		return fail(err)
	}
	garments, err := s.Garments(ctx)
	if err != nil {
		return fail(err)
	}
	patterns := map[stash.ID]pattern.Pattern{}
	all, err := s.Patterns(ctx)
	if err != nil {
		return fail(err)
	}
	for _, p := range all {
		patterns[p.ID] = p
	}
	fabrics, err := s.Fabrics(ctx)
	if err != nil {
		return fail(err)
	}
	var cloths []stash.ClothState
	if slices.ContainsFunc(fabrics, func(f stash.Fabric) bool { return f.Buy > 0 }) {
		if cloths, err = s.Cloths(ctx); err != nil {
			return fail(err)
		}
	}
	set, err := s.Settings(ctx)
	if err != nil {
		return fail(err)
	}
	return append(fabricsToBuy(fabrics, cloths, set.Units), shopping(notions, garments, patterns)...), nil
}

func shopping(notions []stash.Notion, garments []garment.Garment, patterns map[stash.ID]pattern.Pattern) []ToBuy {
	var asked []asking
	for _, g := range garments {
		if g.State != garment.Wanted && g.State != garment.Reserved {
			continue
		}
		for _, need := range patterns[g.PatternID].Notions {
			asked = ask(asked, notions, g, need)
		}
	}
	runShort(asked, notions)
	var out []ToBuy
	for i, n := range notions {
		b := ToBuy{NotionID: n.ID, Name: n.Name, Kind: n.Kind, Unit: n.Unit, OnHand: n.Quantity, Reorder: n.Reorder}
		short := 0.0
		for _, a := range asked {
			if slices.Equal(a.pool, []int{i}) {
				b.Needed, b.Garments, short = a.Needed, a.Garments, a.short
			}
		}
		if n.Short() || short > 0 {
			b.Buy = whole(max(b.Needed+n.Reorder-n.Quantity, short), n.Unit)
			out = append(out, b)
		}
	}
	for _, a := range asked {
		if len(a.pool) != 1 && a.short > 0 {
			a.Buy = whole(a.short, a.Unit)
			out = append(out, a.ToBuy)
		}
	}
	slices.SortStableFunc(out, func(a, b ToBuy) int {
		return cmp.Or(cmp.Compare(strings.ToLower(a.Kind), strings.ToLower(b.Kind)), cmp.Compare(strings.ToLower(a.Name), strings.ToLower(b.Name)))
	})
	return out
}

// ask adds what one garment asks for to what all ask.
func ask(asked []asking, notions []stash.Notion, g garment.Garment, need pattern.NotionNeed) []asking {
	quantity, said := need.Quantity[g.Size]
	if !said {
		quantity = need.Quantity[""]
	}
	pool := serving(notions, need)
	unit := need.Unit
	if len(pool) > 0 {
		unit = notions[pool[0]].Unit
		quantity, _ = stash.ConvertQuantity(quantity, need.Unit, unit)
	}
	for _, i := range pool {
		used, _ := stash.ConvertQuantity(notions[i].UsedFor(g.ID), notions[i].Unit, unit)
		quantity -= used
	}
	if quantity = stash.Quantified(quantity); quantity <= 0 {
		return asked
	}
	at := slices.IndexFunc(asked, func(a asking) bool {
		return slices.Equal(a.pool, pool) && (len(pool) > 0 || strings.EqualFold(a.Name, need.Name) && a.Kind == need.Kind && a.Unit == unit)
	})
	if at < 0 {
		a := asking{pool: pool, ToBuy: ToBuy{Name: need.Name, Kind: need.Kind, Unit: unit}}
		if len(pool) == 1 {
			a.NotionID = notions[pool[0]].ID
		}
		for _, i := range pool {
			have, _ := stash.ConvertQuantity(notions[i].Quantity, notions[i].Unit, unit)
			a.OnHand += have
		}
		at, asked = len(asked), append(asked, a)
	}
	asked[at].Needed = stash.Quantified(asked[at].Needed + quantity)
	if !slices.Contains(asked[at].Garments, g.Name) {
		asked[at].Garments = append(asked[at].Garments, g.Name)
	}
	return asked
}

// serving lists the notions that are what a pattern asks for: those of that name, else,
// where no size is in the name, those of the kind.
func serving(notions []stash.Notion, need pattern.NotionNeed) []int {
	var named, kin []int
	for i, n := range notions {
		if n.Serves(need.Name, need.Kind, need.Unit) {
			named = append(named, i)
		}
		if n.MayServe(need.Name, need.Kind, need.Unit) {
			kin = append(kin, i)
		}
	}
	if len(named) > 0 {
		return named
	}
	return kin
}

// runShort works out what is missing for each asking, the narrow ones first.
func runShort(asked []asking, notions []stash.Notion) {
	order := make([]int, len(asked))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(len(asked[a].pool), len(asked[b].pool)) })
	for k, i := range order {
		a := &asked[i]
		if len(a.pool) == 0 {
			a.short = a.Needed
			continue
		}
		missing := a.Needed - a.OnHand
		for _, j := range order[:k] {
			in := asked[j]
			if len(in.pool) == 0 || !slices.ContainsFunc(in.pool, func(n int) bool { return slices.Contains(a.pool, n) }) {
				continue
			}
			taken, _ := stash.ConvertQuantity(in.Needed-in.short, in.Unit, a.Unit)
			missing += taken
		}
		a.short = max(stash.Quantified(missing), 0)
	}
}

// whole is a quantity one can buy: what is counted comes whole.
func whole(q float64, unit string) float64 {
	if stash.IsLength(unit) {
		return stash.Quantified(q)
	}
	return math.Ceil(stash.Quantified(q))
}

// Why says in words why something is on the shopping list.
func (b ToBuy) Why() string {
	var why []string
	if b.Note != "" {
		why = append(why, "for "+strings.TrimPrefix(b.Note, "for "))
	}
	if b.OnHand < b.Reorder {
		why = append(why, "below "+stash.FormatQuantity(b.Reorder, b.Unit))
	}
	if b.Needed > 0 {
		names := b.Garments
		if len(names) > 3 {
			names = append(slices.Clone(names[:2]), fmt.Sprintf("%d more garments", len(b.Garments)-2))
		}
		why = append(why, stash.FormatQuantity(b.Needed, b.Unit)+" for "+strings.Join(names, ", "))
	}
	return strings.Join(why, "; ")
}

// ShoppingTable is the shopping list as a table, for a file.
func ShoppingTable(items []ToBuy) list.Table {
	t := sheet("Shopping list", "buy", "unit", "name", "kind", "on hand", "reorder at", "asked for", "garments", "note")
	for _, b := range items {
		add(&t, decimal(b.Buy), words(b.Unit), words(b.Name), words(b.Kind), decimal(b.OnHand), decimal(b.Reorder), decimal(b.Needed), words(strings.Join(b.Garments, ", ")), words(b.Note))
	}
	return t
}

// ShoppingText is the shopping list as lines of text, to take along.
func ShoppingText(items []ToBuy) string {
	var out strings.Builder
	for _, b := range items {
		fmt.Fprintf(&out, "%s  %s", stash.FormatQuantity(b.Buy, b.Unit), b.Name)
		if why := b.Why(); why != "" {
			fmt.Fprintf(&out, " (%s)", why)
		}
		out.WriteByte('\n')
	}
	return out.String()
}
