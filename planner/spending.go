package planner

import (
	"context"
	"errors"
	"fmt"
	"slices"

	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// Spending is what was bought in a period, and the totals of it.
type Spending struct {
	From, To  stash.Date  // "" is open
	Purchases []Purchased // newest first
	Totals    []measure.Money
	Joined    stash.Joined // in the currency of the settings
}

// Purchased is a purchase with what became of its lines.
type Purchased struct {
	stash.Purchase
	Lines []PurchasedLine
	Total measure.Money // the zero value where no amount was noted
}

// PurchasedLine is one line: its cloth as it is now, and what it cost with its share.
type PurchasedLine struct {
	stash.PurchaseLine
	Fabric string
	Cloth  stash.Cloth
	Cost   measure.Money
}

// OnHand is what lies on the shelf, by what it cost.
type OnHand struct {
	Costs    map[stash.ID]stash.Cost // by cloth
	Totals   []measure.Money
	Joined   stash.Joined // in the currency of the settings
	Unpriced int          // pieces of cloth whose cost is not known, in no total
}

// Spending returns what was bought from one day to another, both included, with totals per
// currency: prices, postage and tax. An empty day leaves that end open.
func (s *Studio) Spending(ctx context.Context, from, to stash.Date) (Spending, error) {
	out := Spending{From: from, To: to}
	if from != "" && to != "" && from > to {
		return out, invalid("Say the earlier day first", "The period from %s to %s is empty", from, to)
	}
	for _, d := range []stash.Date{from, to} {
		if !d.Valid() {
			return out, invalid("Write it as 2026-03-02", "%q is not a day", d)
		}
	}
	all, err := s.Purchases(ctx)
	if err != nil {
		return out, fmt.Errorf("adding purchases up: %w", err)
	}
	set, err := s.Settings(ctx)
	if err != nil {
		return out, fmt.Errorf("adding purchases up: %w", err)
	}
	g, err := s.allGoods(ctx)
	if err != nil {
		return out, fmt.Errorf("adding purchases up: %w", err)
	}
	var paid []measure.Money
	for _, p := range all {
		if p.Date < from || to != "" && p.Date > to {
			continue
		}
		out.Purchases = append(out.Purchases, g.purchased(p))
		paid = append(append(paid, p.Postage, p.Tax), prices(p)...)
	}
	out.Totals = measure.Totals(paid...)
	out.Joined = stash.Join(out.Totals, set.Currency, set.Rates.List())
	return out, nil
}

func prices(p stash.Purchase) []measure.Money {
	out := make([]measure.Money, len(p.Lines))
	for i, l := range p.Lines {
		out[i] = l.Price
	}
	return out
}

func (s *Studio) fabricNames(ctx context.Context) (map[stash.ID]string, error) {
	all, err := s.Fabrics(ctx)
	names := make(map[stash.ID]string, len(all))
	for _, f := range all {
		names[f.ID] = f.Name
	}
	return names, err
}

// goods are the names of fabrics and the cloth that purchases are of.
type goods struct {
	fabric map[stash.ID]string
	cloth  map[stash.ID]stash.Cloth
}

// allGoods reads what any purchase may be of.
func (s *Studio) allGoods(ctx context.Context) (g goods, err error) {
	if g.fabric, err = s.fabricNames(ctx); err != nil {
		return g, err
	}
	every, err := s.EveryCloth(ctx)
	g.cloth = make(map[stash.ID]stash.Cloth, len(every))
	for _, c := range every {
		g.cloth[c.ID] = c
	}
	return g, err
}

// fewLines is how many lines of a purchase are looked up one by one: of more, as a list
// brings them, all cloth is read at once.
const fewLines = 40

// goodsOf reads what one purchase is of.
func (s *Studio) goodsOf(ctx context.Context, p stash.Purchase) (goods, error) {
	if len(p.Lines) > fewLines {
		return s.allGoods(ctx)
	}
	g := goods{map[stash.ID]string{}, map[stash.ID]stash.Cloth{}}
	for _, l := range p.Lines {
		c, err := s.Cloth(ctx, l.ClothID)
		if errors.Is(err, stash.ErrNotFound) {
			c.Fabric, err = s.Fabric(ctx, l.FabricID)
		}
		if err != nil && !errors.Is(err, stash.ErrNotFound) {
			return g, err
		}
		g.fabric[l.FabricID], g.cloth[l.ClothID] = c.Fabric.Name, c.Cloth
	}
	return g, nil
}

// purchased looks at what the lines of a purchase cost and became. One in two currencies,
// from a list brought in, has no shares and no total.
func (g goods) purchased(p stash.Purchase) Purchased {
	out := Purchased{Purchase: p}
	costs, broken := p.Costs()
	for i, l := range p.Lines {
		line := PurchasedLine{PurchaseLine: l, Fabric: g.fabric[l.FabricID], Cloth: g.cloth[l.ClothID], Cost: l.Price}
		if broken == nil {
			line.Cost = costs[i]
			out.Total.Minor += costs[i].Minor
			out.Total.Currency = costs[i].Currency
		}
		out.Lines = append(out.Lines, line)
	}
	return out
}

// OnHand returns what each piece of cloth on the shelf cost and what they come to per
// currency: of a length that was cut, the leftovers count by their area.
func (s *Studio) OnHand(ctx context.Context) (OnHand, error) {
	out, _, err := s.onHand(ctx)
	return out, err
}

// onHand returns the cloth on the shelf too.
func (s *Studio) onHand(ctx context.Context) (OnHand, []stash.Cloth, error) {
	fail := func(err error) (OnHand, []stash.Cloth, error) {
		return OnHand{}, nil, fmt.Errorf("adding the shelf up: %w", err)
	}
	set, err := s.Settings(ctx)
	if err != nil {
		return fail(err)
	}
	purchases, err := s.Purchases(ctx)
	if err != nil {
		return fail(err)
	}
	cloths, err := s.EveryCloth(ctx)
	if err != nil {
		return fail(err)
	}
	costs := stash.CostsOf(cloths, purchases)
	shelf := slices.DeleteFunc(cloths, func(c stash.Cloth) bool { return c.Gone })
	out := OnHand{Costs: make(map[stash.ID]stash.Cost, len(shelf))}
	var known []measure.Money
	for _, c := range shelf {
		cost := costs[c.ID]
		out.Costs[c.ID] = cost
		if !cost.Known {
			out.Unpriced++
			continue
		}
		known = append(known, cost.Cost)
	}
	out.Totals = measure.Totals(known...)
	out.Joined = stash.Join(out.Totals, set.Currency, set.Rates.List())
	return out, shelf, nil
}

// withOrigins returns cloth with all that it was cut from, gone or not.
func (s *Studio) withOrigins(ctx context.Context, shelf []stash.ClothState) ([]stash.Cloth, error) {
	var out []stash.Cloth
	seen := map[stash.ID]bool{stash.NoID: true}
	for _, c := range shelf {
		seen[c.Cloth.ID] = true
		out = append(out, c.Cloth)
	}
	for i := 0; i < len(out); i++ {
		id := out[i].CutFrom
		if seen[id] {
			continue
		}
		seen[id] = true
		c, err := s.Cloth(ctx, id)
		if err != nil && !errors.Is(err, stash.ErrNotFound) {
			return nil, err
		}
		if err == nil {
			out = append(out, c.Cloth)
		}
	}
	return out, nil
}

// Origin is where a piece of cloth comes from: what it cost and the purchase, with its own
// line first.
type Origin struct {
	Cost     stash.Cost
	Purchase Purchased // without an ID where none is known
	// Lots are the other pieces of the same fabric on the shelf.
	Lots []stash.Cloth
}

// Origin returns what is known of how a cloth came.
func (s *Studio) Origin(ctx context.Context, id stash.ID) (Origin, error) {
	fail := func(err error) (Origin, error) {
		return Origin{}, fmt.Errorf("looking at how cloth came: %w", err)
	}
	c, err := s.Cloth(ctx, id)
	if err != nil {
		return fail(err)
	}
	cloths, err := s.withOrigins(ctx, []stash.ClothState{c})
	if err != nil {
		return fail(err)
	}
	var out Origin
	var purchases []stash.Purchase
	for _, x := range cloths {
		if x.PurchaseID == stash.NoID {
			continue
		}
		p, err := s.Purchase(ctx, x.PurchaseID)
		if err != nil && !errors.Is(err, stash.ErrNotFound) {
			return fail(err)
		}
		if err == nil {
			purchases = append(purchases, p)
		}
	}
	out.Cost = stash.CostsOf(cloths, purchases)[id]
	if len(purchases) > 0 {
		g, err := s.goodsOf(ctx, purchases[0])
		if err != nil {
			return fail(err)
		}
		out.Purchase = g.purchased(purchases[0])
	}
	alike, err := s.ClothsOf(ctx, c.Cloth.FabricID)
	if err != nil {
		return fail(err)
	}
	for _, o := range alike {
		if o.Cloth.ID != id {
			out.Lots = append(out.Lots, o.Cloth)
		}
	}
	return out, nil
}

// ChangePurchase keeps another day, seller, notes or other amounts for a purchase, as one
// act. What was bought stays as it is: a wrong length is measured again at the cloth.
func (s *Studio) ChangePurchase(ctx context.Context, p stash.Purchase) error {
	if err := p.Validate(); err != nil {
		return err
	}
	if _, err := p.Costs(); err != nil {
		return err
	}
	from := ""
	if p.Supplier != "" {
		from = " from " + p.Supplier
	}
	return s.act(ctx, fmt.Sprintf("Changed the purchase of %s%s", p.Date, from), func(tx Tx) error {
		was, err := tx.Purchase(ctx, p.ID)
		if err != nil {
			return err
		}
		same := func(a, b stash.PurchaseLine) bool {
			return a.ClothID == b.ClothID && a.FabricID == b.FabricID && a.Quantity == b.Quantity
		}
		if !slices.EqualFunc(was.Lines, p.Lines, same) {
			return refused("Change its day, seller or amounts; log another purchase for what is missing", "What was bought stays as it was logged")
		}
		return tx.PutPurchase(ctx, p)
	})
}

// KeepRate keeps a rate that a person typed, "1 USD = 0.92 EUR", with today's day. It takes
// the place of any between the same currencies.
func (s *Studio) KeepRate(ctx context.Context, text string) (stash.Rate, error) {
	set, err := s.Settings(ctx)
	if err != nil {
		return stash.Rate{}, fmt.Errorf("keeping a rate: %w", err)
	}
	r, err := stash.ParseRate(text, set.Currency, s.today())
	if err != nil {
		return stash.Rate{}, err
	}
	return r, s.changeSettings(ctx, "Noted that "+r.String(), func(set *Settings) { set.Rates = set.Rates.With(r) })
}

// DropRate forgets the rate between two currencies.
func (s *Studio) DropRate(ctx context.Context, r stash.Rate) error {
	return s.changeSettings(ctx, "Forgot that "+r.String(), func(set *Settings) { set.Rates = set.Rates.Without(r.Unit, r.In) })
}

func (s *Studio) changeSettings(ctx context.Context, sentence string, change func(*Settings)) error {
	set, err := s.Settings(ctx)
	if err != nil {
		return fmt.Errorf("changing the settings: %w", err)
	}
	change(&set)
	return s.act(ctx, sentence, func(tx Tx) error { return tx.PutSettings(ctx, set) })
}
