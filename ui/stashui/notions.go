package stashui

import (
	"context"
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"tallycloth/planner"
	"tallycloth/planner/garment"
	"tallycloth/stash"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// notions is the view of thread, elastic, needles and hardware, with the shopping list.
type notions struct {
	page   *Page
	list   *widgets.RowList
	count  *widget.Label
	empty  fyne.CanvasObject
	right  *fyne.Container
	whole  fyne.CanvasObject
	all    []stash.Notion
	buy    []planner.ToBuy
	wanted stash.ID
}

// Notions opens the notions over the shelf.
func (p *Page) Notions() { p.lay(newNotions(p)) }

func newNotions(p *Page) *notions {
	n := &notions{page: p, count: widget.NewLabel(""), right: container.NewVBox()}
	n.list = widgets.NewRowList([]widgets.Column{
		{Title: "On hand", Width: 118, Right: true}, {Title: "Reorder below", Width: 118, Right: true, Yields: 1}, {Title: "", Width: 90},
	})
	n.list.Chosen = func(widgets.Row) { n.detail() }
	n.list.Act = func(widgets.Row) { n.with(n.use) }
	p.escaping(n.list)
	add := widgets.Primary("Add notion", func() { n.edit(stash.Notion{Unit: stash.NotionUnits[0]}) })
	first := widgets.Primary("Add your first notion", func() { n.edit(stash.Notion{Unit: stash.NotionUnits[0]}) })
	n.empty = container.NewCenter(container.NewVBox(widgets.SubHeading("There are no notions yet"),
		widgets.Line("Thread, needles, elastic, rings and hooks belong here, each with its quantity.", widgets.Quiet), first))
	p.host.Names.Set("notions.add", add)
	p.host.Names.Set("notions.list", n.list)
	top := container.NewVBox(p.heading("Notions", n.count, add), n.list.Header("Notion"))
	n.whole = p.host.Sides("notions", container.NewPadded(container.NewBorder(top, nil, nil, nil, container.NewStack(n.list, n.empty))),
		container.NewVScroll(widgets.Inset(n.right)), 0.6)
	return n
}

func (n *notions) object() fyne.CanvasObject { return n.whole }
func (n *notions) focus()                    { n.page.host.Focus(n.list) }

func (n *notions) shown() {
	var all []stash.Notion
	var buy []planner.ToBuy
	h := n.page.host
	h.Tasks.Start("notions.read", func(ctx context.Context, _ func(func())) (err error) {
		if all, err = h.Studio.Notions(ctx); err != nil {
			return err
		}
		buy, err = h.Studio.ShoppingList(ctx)
		return err
	}, func(err error) {
		if err != nil {
			h.Trouble(err)
			return
		}
		n.all, n.buy = all, buy
		n.fill()
	})
}

func (n *notions) fill() {
	var rows []widgets.Row
	for _, x := range n.all {
		rows = append(rows, rowOfNotion(x))
	}
	n.list.Set(rows)
	n.empty.Hide()
	if len(n.all) == 0 {
		n.empty.Show()
	}
	n.count.SetText(say.Count(len(rows), "notion", "notions"))
	if n.wanted != stash.NoID {
		n.list.Choose(n.wanted)
		n.wanted = stash.NoID
	}
	n.detail()
}

// rowOfNotion is the line of a notion; what runs short says so in words.
func rowOfNotion(x stash.Notion) widgets.Row {
	r := widgets.Row{Key: x.ID, Title: x.Name, Sub: x.Kind, Cells: []widgets.Cell{
		{Text: stash.FormatQuantity(x.Quantity, x.Unit)}, {Tone: widgets.Quiet}, {}}}
	if x.Reorder > 0 {
		r.Cells[1].Text = stash.FormatQuantity(x.Reorder, x.Unit)
	}
	if x.Short() {
		r.Cells[2] = widgets.Cell{Text: "short", Tone: widgets.Careful}
	}
	return r
}

func (n *notions) chosen() (stash.Notion, bool) {
	r, ok := n.list.ChosenRow()
	if !ok {
		return stash.Notion{}, false
	}
	for _, x := range n.all {
		if x.ID == r.Key {
			return x, true
		}
	}
	return stash.Notion{}, false
}

// with does something with the notion that is chosen.
func (n *notions) with(do func(stash.Notion)) {
	if x, ok := n.chosen(); ok {
		do(x)
	}
}

// detail shows the notion that is chosen, and the shopping list.
func (n *notions) detail() {
	n.right.RemoveAll()
	if x, ok := n.chosen(); ok {
		n.showNotion(x)
	}
	n.showShopping()
	n.right.Refresh()
}

func (n *notions) showNotion(x stash.Notion) {
	text := stash.FormatQuantity(x.Quantity, x.Unit) + " on hand"
	if x.Short() {
		text += ", short: below " + stash.FormatQuantity(x.Reorder, x.Unit)
	}
	buy := widgets.NewButton("Note what was bought", func() { n.bought(x) })
	use := widgets.NewButton("Use", func() { n.use(x) })
	change := widgets.NewButton("Count or change", func() { n.edit(x) })
	n.page.host.Names.Set("notions.buy", buy)
	n.page.host.Names.Set("notions.use", use)
	n.page.host.Names.Set("notions.change", change)
	n.right.Add(widgets.Title(x.Name))
	n.right.Add(widgets.Remark("", text, widgets.Quiet))
	n.right.Add(container.NewHBox(use, buy, change))
	if len(x.Lines) > 0 {
		n.right.Add(widgets.SubHeading("History"))
	}
	for i := len(x.Lines) - 1; i >= 0; i-- {
		n.right.Add(widgets.Remark("", n.lineWords(x, x.Lines[i]), widgets.Plain))
	}
}

func (n *notions) lineWords(x stash.Notion, l stash.NotionLine) string {
	change := stash.FormatQuantity(l.Change, x.Unit)
	switch {
	case l.Change < 0:
		change = "− " + stash.FormatQuantity(-l.Change, x.Unit)
	case l.Move == stash.NotionCounted:
		change = "+ " + change
	}
	text := say.Day(l.On) + "  " + string(l.Move) + " " + change + ", " + stash.FormatQuantity(l.After, x.Unit) + " then"
	if g, ok := n.page.garments[l.GarmentID]; ok {
		text += ", for " + g.Name
	}
	if l.Paid.Currency != "" {
		text += ", for " + l.Paid.String()
	}
	if l.Note != "" {
		text += ": " + l.Note
	}
	return text
}

// garmentChoice lists the garments that something may be used for, newest change first.
func (p *Page) garmentChoice() (words []string, by map[string]stash.ID) {
	words, by = []string{"no garment"}, map[string]stash.ID{}
	for _, g := range p.garmentsInOrder {
		if g.State == garment.GivenUp {
			continue
		}
		word := g.Name
		for k := 2; by[word] != stash.NoID; k++ {
			word = fmt.Sprintf("%s (%d)", g.Name, k)
		}
		words, by[word] = append(words, word), g.ID
	}
	return words, by
}

// saved shows what was saved of a notion.
func (n *notions) saved(x stash.Notion, err error, told string) error {
	if err != nil {
		return err
	}
	n.wanted = x.ID
	n.page.host.Tell(told + " " + stash.FormatQuantity(x.Quantity, x.Unit) + " on hand.")
	n.shown()
	return nil
}

// quantityField reads a quantity in the unit that unit returns.
func quantityField(name, hint string, unit func() string) *widgets.Field {
	return widgets.NewField(name, hint, func(text string) (string, error) {
		q, err := stash.ParseQuantity(text, unit())
		if err != nil {
			return "", err
		}
		return "= " + stash.FormatQuantity(q, unit()), nil
	})
}

func quantityIn(f *widgets.Field, unit string) float64 {
	q, err := stash.ParseQuantity(f.Text(), unit)
	if err != nil {
		return 0
	}
	return q
}

// bought opens the form for more of a notion.
func (n *notions) bought(x stash.Notion) {
	p := n.page
	q := needed(quantityField("How much", "5", func() string { return x.Unit }), "Say how much you bought.")
	paid := widgets.NewField("Price paid (if known)", "2.50", p.readMoney)
	note := widgets.NewField("Bought from, or other notes", "", nil)
	p.host.Names.Set("form.quantity", q.Entry)
	p.host.Names.Set("form.paid", paid.Entry)
	f := &widgets.Form{Title: "Bought: " + x.Name, Send: "Note it", Say: say.Error,
		Rows: [][]fyne.CanvasObject{{q.Object(), paid.Object()}, {note.Object()}}, Fields: []*widgets.Field{q, paid, note}}
	f.Done = func() error {
		now, err := p.host.Studio.BuyNotion(context.Background(), x.ID, quantityIn(q, x.Unit), p.amount(paid), strings.TrimSpace(note.Text()))
		return n.saved(now, err, "Noted.")
	}
	p.open(f)
}

// use opens the form that takes some of a notion from hand.
func (n *notions) use(x stash.Notion) {
	p := n.page
	q := needed(quantityField("How much", "60", func() string { return x.Unit }), "Say how much was used.")
	words, by := p.garmentChoice()
	who := widgets.NewChoice("For which garment", words, nil)
	note := widgets.NewField("Notes", "", nil)
	p.host.Names.Set("form.quantity", q.Entry)
	p.host.Names.Set("form.garment", who)
	f := &widgets.Form{Title: "Use " + x.Name, Send: "Take it from hand", Say: say.Error,
		Rows: [][]fyne.CanvasObject{{q.Object(), who.Object()}, {note.Object()}}, Fields: []*widgets.Field{q, note}}
	f.Done = func() error {
		now, err := p.host.Studio.UseNotion(context.Background(), x.ID, quantityIn(q, x.Unit), by[who.Selected], strings.TrimSpace(note.Text()))
		return n.saved(now, err, "Taken from hand.")
	}
	p.open(f)
}
