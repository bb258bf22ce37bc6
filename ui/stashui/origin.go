package stashui

import (
	"context"
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"tallycloth/planner"
	"tallycloth/stash"
	"tallycloth/ui/page"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// addOrigin says where a piece of cloth comes from, what it cost, and which other lots of
// its fabric there are.
func (p *Page) addOrigin(body *fyne.Container, c stash.ClothState, from planner.Origin) {
	if bought := from.Purchase; bought.ID != stash.NoID {
		body.Add(widgets.SubHeading("Purchase"))
		text := say.Day(bought.Date)
		if bought.Supplier != "" {
			text += ", " + bought.Supplier
		}
		if bought.Total.Minor > 0 {
			text += ", " + bought.Total.String() + " in all"
		}
		body.Add(widgets.Remark("", text, widgets.Plain))
		for _, l := range bought.Lines {
			body.Add(p.purchasedLine(l, c.Cloth.ID))
		}
		body.Add(widgets.Remark("", p.costWords(from, c.Cloth), widgets.Plain))
		change := widgets.NewButton("Change purchase", func() { p.ChangePurchase(bought) })
		p.host.Names.Set("stash.purchase", change)
		body.Add(container.NewHBox(change))
	}
	if len(from.Lots) > 0 {
		body.Add(widgets.SubHeading("Also of this fabric"))
		for _, o := range from.Lots {
			body.Add(p.otherLot(o))
		}
	}
}

// costWords says what a piece cost.
func (p *Page) costWords(from planner.Origin, cloth stash.Cloth) string {
	c := from.Cost
	if !c.Known {
		return "What it cost is not noted."
	}
	each := p.host.Voice().CostEach(c, cloth)
	switch {
	case cloth.CutFrom != stash.NoID:
		return fmt.Sprintf("Its part of the cost, by area: %s, which is %s.", c.Cost, each)
	case from.Purchase.Postage.Minor+from.Purchase.Tax.Minor > 0:
		return fmt.Sprintf("It cost %s with its share of postage and tax, which is %s.", c.Cost, each)
	}
	return fmt.Sprintf("It cost %s, which is %s.", c.Cost, each)
}

// purchasedLine is one line of the purchase; the others lead to their cloth.
func (p *Page) purchasedLine(l planner.PurchasedLine, own stash.ID) fyne.CanvasObject {
	text := p.host.Voice().Length(l.Quantity)
	if l.Cloth.Lot != "" {
		text += ", lot " + l.Cloth.Lot
	}
	if l.Price.Currency != "" {
		text += ", " + l.Price.String()
	}
	if l.Cost.Minor != l.Price.Minor {
		text += ", with postage and tax " + l.Cost.String()
	}
	switch {
	case l.ClothID == own:
		return widgets.Remark("· ", "this one: "+text, widgets.Plain)
	case l.Cloth.ID == stash.NoID || l.Cloth.Gone:
		return widgets.Remark("· ", l.Fabric+": "+text+", gone", widgets.Quiet)
	}
	return p.link(l.Fabric+" "+l.Cloth.Code, text, l.ClothID)
}

// otherLot is another piece of the same fabric.
func (p *Page) otherLot(c stash.Cloth) fyne.CanvasObject {
	text := p.host.Voice().Size(c)
	if c.Lot != "" {
		text += ", lot " + c.Lot
	}
	return p.link(c.Code, text, c.ID)
}

// link leads to another piece of cloth.
func (p *Page) link(name, text string, to stash.ID) fyne.CanvasObject {
	open := widget.NewHyperlink(name, nil)
	open.OnTapped = func() { p.host.Go(page.Route{Place: page.Stash, ID: to}) }
	return container.NewBorder(nil, nil, open, nil, midway(widgets.Remark("", text, widgets.Quiet)))
}

// ChangePurchase opens the form that corrects a purchase.
func (p *Page) ChangePurchase(was planner.Purchased) {
	shop := widgets.NewField("Bought from", "shop or market", nil)
	day := needed(p.host.DayField("Day", was.Date), "Say on which day it was bought.")
	postage := widgets.NewField("Postage", "4.90", p.readMoney)
	tax := widgets.NewField("Tax, if not in the prices", "", p.readMoney)
	notes := widgets.NewField("Notes", "", nil)
	shop.Set(was.Supplier)
	postage.Set(was.Postage.String())
	tax.Set(was.Tax.String())
	notes.Set(was.Notes)
	form := &widgets.Form{Title: "Change purchase", About: was.ID.String(), Send: "Keep the changes", Say: say.Error, Width: 640,
		Intro: "Shares of postage and tax follow from the prices. Lengths stay as they were logged.",
		Rows:  [][]fyne.CanvasObject{{shop.Object(), day.Object()}, {postage.Object(), tax.Object()}}, Fields: []*widgets.Field{shop, day, postage, tax, notes}}
	var prices []*widgets.Field
	for i, l := range was.Lines {
		name := fmt.Sprintf("Price of %s %s", p.host.Voice().Length(l.Quantity), l.Fabric)
		if l.Cloth.Lot != "" {
			name += ", lot " + l.Cloth.Lot
		}
		f := widgets.NewField(name, "not noted", p.readMoney)
		f.Set(l.Price.String())
		p.host.Names.Set(fmt.Sprintf("form.price.%d", i+1), f.Entry)
		prices = append(prices, f)
	}
	form.Fields = append(form.Fields, prices...)
	form.Rows = append(form.Rows, pairs(prices)...)
	form.Rows = append(form.Rows, []fyne.CanvasObject{notes.Object()})
	p.host.Names.Set("form.postage", postage.Entry)
	p.host.Names.Set("form.day", day.Entry)
	form.Done = func() error {
		now := was.Purchase
		now.Supplier, now.Notes = strings.TrimSpace(shop.Text()), notes.Text()
		now.Date, _ = p.host.DayIn(day)
		now.Postage, now.Tax = p.amount(postage), p.amount(tax)
		now.Lines = make([]stash.PurchaseLine, len(was.Lines))
		for i, l := range was.Lines {
			now.Lines[i] = l.PurchaseLine
			now.Lines[i].Price = p.amount(prices[i])
		}
		if err := p.host.Studio.ChangePurchase(context.Background(), now); err != nil {
			return err
		}
		p.host.Tell("Kept the changes of the purchase. Ctrl+Z takes them back.")
		p.Shown()
		return nil
	}
	p.open(form)
}

// pairs puts fields side by side.
func pairs(fields []*widgets.Field) [][]fyne.CanvasObject {
	var rows [][]fyne.CanvasObject
	for i := 0; i < len(fields); i += 2 {
		row := []fyne.CanvasObject{fields[i].Object()}
		if i+1 < len(fields) {
			row = append(row, fields[i+1].Object())
		}
		rows = append(rows, row)
	}
	return rows
}
