package historyui

import (
	"context"
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"tallycloth/planner"
	"tallycloth/planner/exchange/sheet"
	"tallycloth/stash"
	"tallycloth/ui/page"
	"tallycloth/ui/records"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// value is what lies on the shelf at what was paid for it.
type value struct {
	page  *Page
	says  *fyne.Container
	list  *widgets.RowList
	whole fyne.CanvasObject
}

func newValue(p *Page) *value {
	v := &value{page: p, says: container.NewVBox()}
	v.list = widgets.NewRowList([]widgets.Column{{Title: "Pieces", Width: 60, Right: true, Yields: 1}, {Title: "Yardage", Width: 110, Right: true}, {Title: "Area", Width: 100, Right: true, Yields: 2}, {Title: "Paid", Width: 150, Right: true}})
	p.host.Names.Set("history.fabrics", v.list)
	v.whole = container.NewBorder(container.NewVBox(widgets.Caption(" "), v.says, v.list.Header("Fabric")), nil, nil, nil, v.list)
	return v
}

func (v *value) object() fyne.CanvasObject { return v.whole }
func (v *value) focus()                    { v.page.host.Focus(v.list) }
func (v *value) asks() bool                { return false }

func (v *value) shown() {
	var got planner.Worth
	v.page.read("value", func(ctx context.Context) (err error) {
		got, err = v.page.host.Studio.Worth(ctx)
		return err
	}, func() {
		f := records.Worth(v.page.host.Voice(), got)
		sentences(v.says, append(f.Lines, f.Notes...))
		v.list.Set(worthRows(f.Table))
		v.page.count.SetText("")
		v.whole.Refresh()
	})
}

// worthRows are the rows of a table, what is not noted beneath the sums so that those stand in one column.
func worthRows(t sheet.Table) []widgets.Row {
	rows := rowsOf(t, byIndex)
	for _, r := range rows {
		paid := &r.Cells[len(r.Cells)-1]
		if sum, more, ok := strings.Cut(paid.Text, " and "); ok {
			paid.Text, paid.Under = sum, "and "+more
		}
	}
	return rows
}

func (v *value) figures(ctx context.Context, _ int) (records.Figures, error) {
	got, err := v.page.host.Studio.Worth(ctx)
	return records.Worth(v.page.host.Voice(), got), err
}

// costs is what garments cost.
type costs struct {
	page  *Page
	says  *fyne.Container
	list  *widgets.RowList
	right *fyne.Container
	whole fyne.CanvasObject
	all   []planner.GarmentCost
}

func newCosts(p *Page) *costs {
	c := &costs{page: p, says: container.NewVBox(), right: container.NewVBox()}
	c.list = widgets.NewRowList([]widgets.Column{{Title: "State", Width: 80, Yields: 1}, {Title: "Cloth", Width: 90, Right: true}, {Title: "Waste", Width: 90, Right: true, Yields: 2}, {Title: "Cost", Width: 170, Right: true}})
	c.list.Chosen = func(widgets.Row) { c.detail() }
	c.list.Act = func(widgets.Row) { c.toGarment() }
	p.host.Names.Set("history.garments", c.list)
	left := container.NewBorder(container.NewVBox(widgets.Caption(" "), c.says, c.list.Header("Garment")), nil, nil, nil, c.list)
	c.whole = p.host.Sides("costs", left, container.NewVScroll(widgets.Inset(c.right)), 0.62)
	return c
}

func (c *costs) object() fyne.CanvasObject { return c.whole }
func (c *costs) focus()                    { c.page.host.Focus(c.list) }
func (c *costs) asks() bool                { return false }

func (c *costs) shown() {
	var all []planner.GarmentCost
	c.page.read("costs", func(ctx context.Context) (err error) {
		all, err = c.page.host.Studio.GarmentCosts(ctx)
		return err
	}, func() {
		c.all = all
		v := c.page.host.Voice()
		f := records.Costs(v, all)
		sentences(c.says, f.Notes)
		var rows []widgets.Row
		for _, g := range all {
			rows = append(rows, widgets.Row{Key: g.Garment.ID, Title: g.Garment.Name, Sub: aboutGarment(g), Cells: []widgets.Cell{
				{Text: string(g.Garment.State), Tone: widgets.Quiet}, {Text: v.Area(g.Area)}, {Text: wasteWords(v, g), Tone: widgets.Quiet}, {Text: records.CostOf(g)}}})
		}
		c.list.Set(rows)
		c.page.count.SetText(say.Count(len(all), "garment", "garments"))
		c.detail()
		c.whole.Refresh()
	})
}

func aboutGarment(g planner.GarmentCost) string {
	text := g.Pattern
	if g.Garment.Size != "" {
		text += ", size " + g.Garment.Size
	}
	return text
}

func wasteWords(v say.Voice, g planner.GarmentCost) string {
	if g.Planned && g.Waste == 0 {
		return "not cut yet"
	}
	return v.Area(g.Waste)
}

// detail shows what the garment that is chosen takes.
func (c *costs) detail() {
	c.right.RemoveAll()
	defer c.right.Refresh()
	r, ok := c.list.ChosenRow()
	if !ok {
		if len(c.all) == 0 {
			c.right.Add(widgets.Remark("", "Garments stand here once cloth is reserved or cut for them, or notions are used.", widgets.Quiet))
		}
		return
	}
	v := c.page.host.Voice()
	for _, g := range c.all {
		if g.Garment.ID != r.Key {
			continue
		}
		c.right.Add(widgets.Title(g.Garment.Name))
		for _, p := range records.PartsOf(v, g) {
			text := p[0]
			if p[1] != "" {
				text += ": " + p[1]
			}
			if p[2] != "" {
				text += " and " + p[2] + " of waste"
			}
			c.right.Add(widgets.Remark("·", text+", "+p[3], widgets.Plain))
		}
		c.right.Add(widgets.Remark("", "In all: "+say.Totals(g.Totals, g.Joined)+".", widgets.Plain))
		if g.Unpriced > 0 {
			c.right.Add(widgets.Remark("", fmt.Sprintf("Of %s no price is noted.", say.Count(g.Unpriced, "part", "parts")), widgets.Careful))
		}
	}
	open := widgets.NewButton("Show the garment", c.toGarment)
	c.page.host.Names.Set("history.togarment", open)
	c.right.Add(container.NewHBox(open))
}

func (c *costs) toGarment() {
	if r, ok := c.list.ChosenRow(); ok {
		c.page.host.Go(page.Route{Place: page.Garments, ID: r.Key.(stash.ID)})
	}
}

func (c *costs) figures(ctx context.Context, _ int) (records.Figures, error) {
	all, err := c.page.host.Studio.GarmentCosts(ctx)
	return records.Costs(c.page.host.Voice(), all), err
}

// shopping is what is to be bought.
type shopping struct {
	page  *Page
	list  *widgets.RowList
	says  *fyne.Container
	whole fyne.CanvasObject
}

func newShopping(p *Page) *shopping {
	s := &shopping{page: p, says: container.NewVBox()}
	s.list = widgets.NewRowList([]widgets.Column{{Title: "Buy", Width: 120, Right: true}, {Title: "On hand", Width: 120, Right: true}})
	s.list.Act = func(widgets.Row) { s.toNotions() }
	open := widgets.NewButton("Go to the notions", s.toNotions)
	p.host.Names.Set("history.tobuy", s.list)
	p.host.Names.Set("history.tonotions", open)
	s.whole = container.NewBorder(container.NewVBox(container.NewBorder(nil, nil, nil, open, s.says), s.list.Header("What")), nil, nil, nil, s.list)
	return s
}

func (s *shopping) object() fyne.CanvasObject { return s.whole }
func (s *shopping) focus()                    { s.page.host.Focus(s.list) }
func (s *shopping) asks() bool                { return false }
func (s *shopping) toNotions()                { s.page.host.Go(page.Route{Place: page.Stash, Do: page.Shopping}) }

func (s *shopping) shown() {
	var items []planner.ToBuy
	s.page.read("shopping", func(ctx context.Context) (err error) {
		items, err = s.page.host.Studio.ShoppingList(ctx)
		return err
	}, func() {
		sentences(s.says, records.Shopping(items).Lines)
		var rows []widgets.Row
		for i, b := range items {
			rows = append(rows, widgets.Row{Key: i, Title: b.Name, Sub: b.Why(), Cells: []widgets.Cell{
				{Text: stash.FormatQuantity(b.Buy, b.Unit)}, {Text: stash.FormatQuantity(b.OnHand, b.Unit), Tone: widgets.Quiet}}})
		}
		s.list.Set(rows)
		s.page.count.SetText("")
		s.whole.Refresh()
	})
}

func (s *shopping) figures(ctx context.Context, _ int) (records.Figures, error) {
	items, err := s.page.host.Studio.ShoppingList(ctx)
	return records.Shopping(items), err
}
