package list

import (
	"cmp"
	"fmt"

	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// basket is one purchase while its rows are read.
type basket struct {
	p stash.Purchase
	// next is the line of the row that is being read; nil when it makes none.
	next *stash.PurchaseLine
}

// basketOf returns the purchase of a row's cloth, nil when the row speaks of none, and
// links the cloth to it. Rows of one purchase must agree on its facts.
func (p *planner) basketOf(l *line, c *NewCloth) *basket {
	b := l.rec.Bought
	if !b.said() {
		return nil
	}
	got := p.bought[b.No]
	fresh := b.No == "" || got == nil
	if fresh {
		got = &basket{p: stash.Purchase{ID: p.newID()}}
	}
	to := got.p
	for _, why := range []string{
		agree("day", (*string)(&to.Date), string(b.On)), agree("seller", &to.Supplier, b.From), agree("purchase notes", &to.Notes, b.Notes),
		agreeMoney("postage", &to.Postage, b.Postage), agreeMoney("tax", &to.Tax, b.Tax),
	} {
		if why != "" {
			l.refuse("%s than an earlier row of the purchase %s; make them the same, or give the row another purchase", why, b.No)
			return nil
		}
	}
	if fresh && to.Supplier == "" && !p.sellers {
		to.Supplier = l.rec.Fabric.Supplier
	}
	got.next = p.lineOf(l, c)
	check := to
	check.Date = cmp.Or(check.Date, p.today)
	if got.next != nil {
		check.Lines = []stash.PurchaseLine{*got.next}
	}
	if err := check.Validate(); err != nil {
		l.refuse("%s", said(err))
		return nil
	}
	got.p, c.PurchaseID = to, to.ID
	if fresh {
		p.baskets = append(p.baskets, got)
		if b.No != "" {
			p.bought[b.No] = got
		}
	}
	if to.Date == "" {
		l.remark("no day of purchase is given: it is entered as of today, marked “day not known”")
	}
	c.From = to.Supplier
	return got
}

// lineOf is the line of a purchase for a row, nil where the row only belongs to it: a
// leftover of something bought whose quantity stands in another row.
func (p *planner) lineOf(l *line, c *NewCloth) *stash.PurchaseLine {
	b := l.rec.Bought
	if b.No != "" && p.quantities && b.Length == 0 && b.Price == (measure.Money{}) && b.Per == (measure.Money{}) {
		return nil
	}
	quantity := cmp.Or(b.Length, c.Length)
	c.Kind = stash.Bought
	return &stash.PurchaseLine{FabricID: c.FabricID, ClothID: c.ID, Quantity: quantity, Price: p.priceOf(l, quantity)}
}

// take keeps the line that basketOf made; nothing on no basket.
func (b *basket) take() {
	if b == nil || b.next == nil {
		return
	}
	b.p.Lines = append(b.p.Lines, *b.next)
	b.next = nil
}

func agree(what string, to *string, says string) string {
	if says == "" || *to == says {
		return ""
	}
	if *to != "" {
		return fmt.Sprintf("the %s is another (%s, not %s)", what, short(says), short(*to))
	}
	*to = says
	return ""
}

func agreeMoney(what string, to *measure.Money, says measure.Money) string {
	none := measure.Money{}
	if says == none || *to == says {
		return ""
	}
	if *to != none {
		return fmt.Sprintf("the %s is another (%s, not %s)", what, says, *to)
	}
	*to = says
	return ""
}

// dayUnknown is what a purchase without a day notes.
const dayUnknown = "the day is not known; noted when the list was brought in"

// finish puts fabrics and purchases in order into the result.
func (p *planner) finish() {
	for _, e := range p.shelf.entries {
		if !e.known || e.changed {
			p.out.Fabrics = append(p.out.Fabrics, e.fab)
		}
	}
	p.out.Purchases = make([]stash.Purchase, 0, len(p.baskets))
	for _, b := range p.baskets {
		if b.p.Date == "" {
			b.p.Date = p.today
			addNote(&b.p.Notes, dayUnknown)
		}
		p.out.Purchases = append(p.out.Purchases, b.p)
	}
}
