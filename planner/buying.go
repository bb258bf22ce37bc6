package planner

import (
	"context"
	"fmt"
	"strings"

	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// Buying is a purchase of one or several lines, as a person logs it. Each line becomes a
// cloth of its own, also where its fabric is known already: lots are never mixed.
type Buying struct {
	Date     stash.Date // "" is today
	Supplier string
	Notes    string
	// Postage and Tax are shared over the lines by price. Amounts without a currency are
	// in that of the settings; all must be in one.
	Postage, Tax measure.Money
	TaxRate      measure.Percent // instead of Tax: of the prices, without the postage (ours)
	Receipt      []byte          // a photo of it, as AddPhoto takes one, or nil
	Lines        []BuyingLine
}

// BuyingLine is one length, or one piece, of a fabric that was bought.
type BuyingLine struct {
	FabricID stash.ID     // a known fabric, or NoID and Fabric below
	Fabric   stash.Fabric // a new fabric (ID ignored); lines that give the same name share it
	Length   measure.Length
	Width    measure.Length // of a piece that is not of full width; else zero
	// Price is for the line, the zero value when not said. Where Per is given it is the
	// price of each PerLength instead, and Price must be zero.
	Price     measure.Money
	Per       measure.Money
	PerLength measure.Length
	Lot       string
	Place     string
	Notes     string
	Washed    bool
	Trued     bool // both ends are straight already
}

// Bought is a purchase as it was logged: what each of its lines became and cost in all.
type Bought struct {
	Purchase stash.Purchase
	Cloths   []stash.ClothState
	Costs    []measure.Money
}

// LogPurchase adds a length that was bought: a Buying of one line.
func (s *Studio) LogPurchase(ctx context.Context, f PurchaseForm) (stash.ClothState, error) {
	b, err := s.LogBuying(ctx, Buying{Date: f.Date, Supplier: f.Supplier, Lines: []BuyingLine{{
		FabricID: f.FabricID, Fabric: f.Fabric, Length: f.Length, Price: f.Price, Lot: f.Lot, Place: f.Place, Washed: f.Washed, Trued: f.Trued,
	}}})
	if err != nil {
		return stash.ClothState{}, err
	}
	return b.Cloths[0], nil
}

// LogBuying adds all that was bought in one go as one act, so that one undo takes it back:
// the purchase, a cloth for each line and the fabrics that are new.
func (s *Studio) LogBuying(ctx context.Context, b Buying) (Bought, error) {
	set, err := s.Settings(ctx)
	if err != nil {
		return Bought{}, fmt.Errorf("logging a purchase: %w", err)
	}
	if b.Date == "" {
		b.Date = s.today()
	}
	sharing, err := b.Share(set.Currency)
	if err != nil {
		return Bought{}, err
	}
	e := entry{studio: s, byName: map[string]stash.Fabric{}}
	e.purchase = stash.Purchase{ID: s.newID(), Date: b.Date, Supplier: strings.TrimSpace(b.Supplier), Notes: b.Notes, Postage: sharing.Postage, Tax: sharing.Tax}
	for i, l := range b.Lines {
		if err := e.take(ctx, l, sharing.Prices[i]); err != nil {
			return Bought{}, ofLine(len(b.Lines), i, err)
		}
	}
	if err := e.purchase.Validate(); err != nil {
		return Bought{}, err
	}
	put := e.put
	if b.Receipt != nil {
		receipt, err := s.takePhoto(ctx, PhotoForm{Of: stash.OfPurchase, OfID: e.purchase.ID, Kind: stash.Receipt, File: b.Receipt})
		if err != nil {
			return Bought{}, err
		}
		put = func(ctx context.Context, tx Tx) error {
			if err := e.put(ctx, tx); err != nil {
				return err
			}
			return receipt.put(ctx, tx)
		}
	}
	if err := s.act(ctx, e.sentence(ctx), func(tx Tx) error { return put(ctx, tx) }); err != nil {
		return Bought{}, err
	}
	out := Bought{Purchase: e.purchase, Costs: sharing.Costs}
	for _, c := range e.cloths {
		state, err := s.Cloth(ctx, c.ID)
		if err != nil {
			return Bought{}, fmt.Errorf("looking at what was logged: %w", err)
		}
		out.Cloths = append(out.Cloths, state)
	}
	return out, nil
}

// ofLine says in which line of several something is wrong.
func ofLine(lines, i int, err error) error {
	own, ok := err.(*stash.Error)
	if !ok || lines < 2 {
		return err
	}
	told := *own
	told.What = fmt.Sprintf("Line %d: %s", i+1, own.What)
	return &told
}

// entry is a purchase while its lines are taken in.
type entry struct {
	studio   *Studio
	purchase stash.Purchase
	fresh    []stash.Fabric // new, in the order of the lines
	byName   map[string]stash.Fabric
	cloths   []stash.Cloth
	named    []string // the fabric of each line
}

func (e *entry) take(ctx context.Context, l BuyingLine, price measure.Money) error {
	fab, err := e.fabric(ctx, l)
	if err != nil {
		return err
	}
	c, err := l.cloth(fab)
	if err != nil {
		return err
	}
	c.ID, c.FabricID, c.PurchaseID = e.studio.newID(), fab.ID, e.purchase.ID
	e.cloths, e.named = append(e.cloths, c), append(e.named, fab.Name)
	e.purchase.Lines = append(e.purchase.Lines, stash.PurchaseLine{FabricID: fab.ID, ClothID: c.ID, Quantity: l.Length, Price: price})
	return nil
}

// fabric returns the fabric of a line: a known one, one that is new in an earlier line, or
// one that is new here.
func (e *entry) fabric(ctx context.Context, l BuyingLine) (stash.Fabric, error) {
	if l.FabricID != stash.NoID {
		f, err := e.studio.Fabric(ctx, l.FabricID)
		if err != nil {
			return f, fmt.Errorf("logging a purchase: %w", err)
		}
		return f, nil
	}
	f := l.Fabric
	f.Name = strings.TrimSpace(f.Name)
	key := strings.ToLower(f.Name)
	if earlier, ok := e.byName[key]; ok {
		if f.FullWidth != 0 && f.FullWidth != earlier.FullWidth || f.Construction != "" && f.Construction != earlier.Construction {
			return f, invalid("Describe it alike, or give one of them another name", "Two lines describe the new fabric %s differently", f.Name)
		}
		return earlier, nil
	}
	f.ID = e.studio.newID()
	if f.Supplier == "" {
		f.Supplier = e.purchase.Supplier
	}
	if err := f.Validate(); err != nil {
		return f, err
	}
	e.fresh, e.byName[key] = append(e.fresh, f), f
	return f, nil
}

// cloth is what a line becomes, still without IDs and code.
func (l BuyingLine) cloth(fab stash.Fabric) (stash.Cloth, error) {
	full := fab.OpenWidth()
	c := stash.Cloth{Lot: strings.TrimSpace(l.Lot), Place: strings.TrimSpace(l.Place), Notes: l.Notes, Length: l.Length, Width: full,
		RawStart: !l.Trued, RawEnd: !l.Trued, SelvedgeLow: !fab.Tubular, SelvedgeHigh: !fab.Tubular, Washed: l.Washed}
	switch {
	case l.Length <= 0:
		return c, invalid("Say how much was bought", "The length must be more than zero")
	case l.Width < 0 || l.Width > full:
		return c, invalid("Leave the width empty for a length of full width", "A length of %s cannot be wider than the fabric", fab.Name)
	case l.Width > 0 && l.Width < full:
		c.Width, c.SelvedgeLow, c.SelvedgeHigh = l.Width, false, false
	}
	return c, nil
}

func (e *entry) put(ctx context.Context, tx Tx) error {
	for _, f := range e.fresh {
		if err := tx.PutFabric(ctx, f); err != nil {
			return err
		}
	}
	if err := tx.PutPurchase(ctx, e.purchase); err != nil {
		return err
	}
	for _, c := range e.cloths {
		if err := arrive(ctx, tx, stash.Bought, c, e.purchase.Supplier); err != nil {
			return err
		}
	}
	return e.bought(ctx, tx)
}

// sentence says what was logged: the length of one line, or how many there are.
func (e *entry) sentence(ctx context.Context) string {
	if len(e.cloths) == 1 {
		return fmt.Sprintf("Logged %s of %s", e.studio.long(ctx, e.cloths[0].Length), e.named[0])
	}
	said, seen := []string{}, map[string]bool{}
	for _, n := range e.named {
		if !seen[n] {
			said, seen[n] = append(said, n), true
		}
	}
	return fmt.Sprintf("Logged %d lengths: %s", len(e.cloths), strings.Join(said, ", "))
}
