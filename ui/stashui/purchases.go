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
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// purchases is the view of what was bought in a period, with totals per currency.
type purchases struct {
	page     *Page
	from, to *widgets.Field
	rate     *widgets.Field
	list     *widgets.RowList
	count    *widget.Label
	totals   *fyne.Container
	right    *fyne.Container
	whole    fyne.CanvasObject
	spent    planner.Spending
	hand     planner.OnHand
}

// Purchases opens what was bought over the shelf.
func (p *Page) Purchases() { p.lay(newPurchases(p)) }

func newPurchases(p *Page) *purchases {
	v := &purchases{page: p, count: widget.NewLabel(""), totals: container.NewVBox(), right: container.NewVBox()}
	v.from = p.host.DayField("From (empty: the first)", "")
	v.to = p.host.DayField("To (empty: the last)", "")
	for _, f := range []*widgets.Field{v.from, v.to} {
		f.Changed = v.shown
		f.Entry.OnSubmitted = func(string) { v.focus() }
		f.Entry.Escape = v.focus
	}
	v.rate = widgets.NewField("A rate, to join totals", "1 USD = 0.92 "+p.host.Settings().Currency, func(text string) (string, error) {
		r, err := stash.ParseRate(text, p.host.Settings().Currency, "")
		if err != nil {
			return "", fmt.Errorf("%s", say.Error(err))
		}
		return "= " + r.String(), nil
	})
	v.rate.Entry.OnSubmitted = func(string) { v.keepRate() }
	v.list = widgets.NewRowList([]widgets.Column{{Title: "Lines", Width: 46, Right: true, Yields: 1}, {Title: "In all", Width: 150, Right: true}})
	v.list.Chosen = func(widgets.Row) { v.detail() }
	p.escaping(v.list)
	log := widgets.Primary("Log purchase", p.LogPurchase)
	for name, o := range map[string]fyne.CanvasObject{"purchases.list": v.list, "purchases.from": v.from.Entry, "purchases.to": v.to.Entry,
		"purchases.rate": v.rate.Entry, "purchases.log": log} {
		p.host.Names.Set(name, o)
	}
	top := container.NewVBox(p.heading("Purchases", v.count, log), container.NewGridWithColumns(2, v.from.Object(), v.to.Object()), v.totals, v.list.Header("Purchase"))
	v.whole = p.host.Sides("purchases", container.NewPadded(container.NewBorder(top, nil, nil, nil, v.list)), container.NewVScroll(widgets.Inset(v.right)), 0.6)
	return v
}

func (v *purchases) object() fyne.CanvasObject { return v.whole }
func (v *purchases) focus()                    { v.page.host.Focus(v.list) }

func (v *purchases) shown() {
	h := v.page.host
	from, begins := h.DayIn(v.from)
	to, ends := h.DayIn(v.to)
	if !begins || !ends {
		return // a day is still being typed
	}
	var spent planner.Spending
	var hand planner.OnHand
	h.Tasks.Start("purchases.read", func(ctx context.Context, _ func(func())) (err error) {
		if spent, err = h.Studio.Spending(ctx, from, to); err != nil {
			return err
		}
		hand, err = h.Studio.OnHand(ctx)
		return err
	}, func(err error) {
		if err != nil {
			h.Trouble(err)
			return
		}
		v.spent, v.hand = spent, hand
		v.fill()
	})
}

func (v *purchases) fill() {
	var rows []widgets.Row
	for _, p := range v.spent.Purchases {
		rows = append(rows, rowOfPurchase(p))
	}
	v.list.Set(rows)
	v.count.SetText(say.Count(len(rows), "purchase", "purchases"))
	v.totals.RemoveAll()
	v.totals.Add(widgets.Remark("", "Bought: "+say.Totals(v.spent.Totals, v.spent.Joined)+".", widgets.Plain))
	text := "On the shelf, by what it cost: " + say.Totals(v.hand.Totals, v.hand.Joined) + "."
	if v.hand.Unpriced > 0 {
		text += " Of " + say.Count(v.hand.Unpriced, "piece of cloth", "pieces of cloth") + " the price is not noted."
	}
	v.totals.Add(widgets.Remark("", text, widgets.Quiet))
	v.totals.Refresh()
	v.detail()
}

func rowOfPurchase(p planner.Purchased) widgets.Row {
	title := say.Day(p.Date)
	if p.Supplier != "" {
		title += ", " + p.Supplier
	}
	var fabrics []string
	for _, l := range p.Lines {
		name := l.Fabric
		if l.Cloth.Lot != "" {
			name += " (lot " + l.Cloth.Lot + ")"
		}
		fabrics = append(fabrics, name)
	}
	return widgets.Row{Key: p.ID, Title: title, Sub: strings.Join(fabrics, ", "), Cells: []widgets.Cell{
		{Text: fmt.Sprint(len(p.Lines)), Tone: widgets.Quiet}, {Text: say.Money(p.Total)}}}
}

// detail shows the purchase that is chosen, and the rates.
func (v *purchases) detail() {
	v.right.RemoveAll()
	if r, ok := v.list.ChosenRow(); ok {
		for _, p := range v.spent.Purchases {
			if p.ID == r.Key {
				v.showPurchase(p)
			}
		}
	}
	v.showRates()
	v.right.Refresh()
}

func (v *purchases) showPurchase(p planner.Purchased) {
	v.right.Add(widgets.Title(say.Day(p.Date)))
	if p.Supplier != "" {
		v.right.Add(widgets.Remark("", p.Supplier, widgets.Quiet))
	}
	for _, l := range p.Lines {
		v.right.Add(v.page.purchasedLine(l, stash.NoID))
	}
	for _, m := range []struct {
		name, amount string
	}{{"Postage", p.Postage.String()}, {"Tax", p.Tax.String()}, {"In all", p.Total.String()}} {
		if m.amount != "" && !strings.HasPrefix(m.amount, "0 ") {
			v.right.Add(widgets.Line(m.name+": "+m.amount, widgets.Plain))
		}
	}
	if p.Notes != "" {
		v.right.Add(widgets.Remark("", p.Notes, widgets.Quiet))
	}
	change := widgets.NewButton("Change purchase", func() { v.page.ChangePurchase(p) })
	v.page.host.Names.Set("purchases.change", change)
	v.right.Add(container.NewHBox(change))
}

// showRates lists the rates that a person typed, and takes another.
func (v *purchases) showRates() {
	v.right.Add(widgets.SubHeading("Rates"))
	v.right.Add(widgets.Remark("", "A rate joins totals of several currencies, about. It changes no price.", widgets.Quiet))
	for _, r := range v.page.host.Settings().Rates.List() {
		forget := widgets.NewButton("Forget", func() { v.dropRate(r) })
		forget.Importance = widget.LowImportance
		v.page.host.Names.Set("purchases.forget."+r.Unit+r.In, forget)
		v.right.Add(container.NewBorder(nil, nil, nil, forget, midway(widgets.Remark("", r.String()+", typed "+say.Day(r.Typed), widgets.Plain))))
	}
	keep := widgets.NewButton("Keep the rate", v.keepRate)
	v.page.host.Names.Set("purchases.keep", keep)
	v.right.Add(v.rate.Object())
	v.right.Add(container.NewHBox(keep))
}

func (v *purchases) keepRate() {
	if v.rate.Text() == "" || !v.rate.Valid() {
		v.page.host.Focus(v.rate.Entry)
		return
	}
	text := v.rate.Text()
	v.page.host.Act("rate", func(ctx context.Context) (string, error) {
		r, err := v.page.host.Studio.KeepRate(ctx, text)
		return "Noted: " + r.String() + ".", err
	}, func(err error) {
		if err == nil {
			v.rate.Set("")
			v.shown()
		}
	})
}

func (v *purchases) dropRate(r stash.Rate) {
	v.page.host.Act("rate", func(ctx context.Context) (string, error) {
		return "Forgot: " + r.String() + ". Ctrl+Z brings it back.", v.page.host.Studio.DropRate(ctx, r)
	}, func(error) { v.shown() })
}
