package batchui

import (
	"context"
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"tallycloth/planner"
	"tallycloth/stash"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// compareView holds kept plans side by side, the one in sight above them.
type compareView struct {
	page       *Page
	list       *widgets.RowList
	open, drop *widgets.Button
	empty      fyne.CanvasObject
	whole      fyne.CanvasObject
}

// inSight is the key of the plan in sight.
const inSight = "in sight"

func newCompareView(p *Page) *compareView {
	v := &compareView{page: p}
	v.list = widgets.NewRowList([]widgets.Column{{Title: "Made, by priority", Width: 130}, {Title: "Whole", Width: 48, Right: true, Yields: 1}, {Title: "Waste", Width: 66, Right: true},
		{Title: "Cloths", Width: 46, Right: true, Yields: 2}, {Title: "To buy for the rest", Width: 130, Right: true, Yields: 3}})
	v.list.Chosen = func(widgets.Row) { v.ready() }
	v.list.Act = func(widgets.Row) { v.toOpen() }
	v.open = widgets.NewButton("Open", v.toOpen)
	v.drop = widgets.NewButton("Take off the list", v.toDrop)
	p.host.Names.Set("batch.kept", v.list)
	p.host.Names.Set("batch.open", v.open)
	p.host.Names.Set("batch.drop", v.drop)
	v.empty = container.NewCenter(container.NewVBox(widgets.SubHeading("No plan is kept yet"), widgets.Line("Keep plans under names to compare them here.", widgets.Quiet)))
	v.whole = container.NewBorder(v.list.Header("Plan"), container.NewHBox(v.open, v.drop), nil, nil, container.NewStack(v.list, v.empty))
	return v
}

func (v *compareView) object() fyne.CanvasObject { return v.whole }
func (v *compareView) focus()                    { v.page.host.Focus(v.list) }

func (v *compareView) fill() {
	p := v.page
	p.workOutBuying()
	var rows []widgets.Row
	if f := p.found; f != nil && p.dirty {
		b := f.asked
		b.Name, b.Plan = "The plan in sight", &f.plan
		row := v.rowOf(b)
		row.Key = inSight
		row.Cells[4] = widgets.Cell{Text: p.buyShort(f.buy), Under: buyUnder(f.buy)}
		if len(f.plan.Missing) > 0 && f.working {
			row.Cells[4] = widgets.Cell{Text: "…"}
		}
		rows = append(rows, row)
	}
	for _, b := range p.kept {
		rows = append(rows, v.rowOf(b))
	}
	v.list.Set(rows)
	hide(v.empty, len(rows) > 0)
	v.ready()
	v.whole.Refresh()
}

// rowOf is the line of a batch.
func (v *compareView) rowOf(b planner.Batch) widgets.Row {
	sub := say.Count(say.Wants(b.Rows), "garment wanted", "garments wanted")
	if b.Changed != "" {
		sub += " · " + say.ShortDay(b.Changed)
	}
	row := widgets.Row{Key: b.ID, Title: b.Name, Sub: sub, Cells: make([]widgets.Cell, 5)}
	if b.Plan == nil {
		row.Cells[0] = widgets.Cell{Text: "not planned", Tone: widgets.Quiet}
		return row
	}
	made, under, _ := strings.Cut(say.ByPriority(b.Rows, *b.Plan), ", ")
	row.Cells[0] = widgets.Cell{Text: made, Under: under}
	row.Cells[1] = widgets.Cell{Text: fmt.Sprint(b.Plan.Score.Whole)}
	row.Cells[2] = widgets.Cell{Text: v.page.voice().Area(say.Wasted(*b.Plan))}
	row.Cells[3] = widgets.Cell{Text: fmt.Sprint(len(b.Plan.Cuts))}
	text, under, _ := strings.Cut(v.page.toBuy[b.ID], "\n")
	row.Cells[4] = widgets.Cell{Text: text, Under: under}
	return row
}

func (v *compareView) ready() {
	r, ok := v.list.ChosenRow()
	kept := ok && r.Key != inSight
	for _, b := range []*widgets.Button{v.open, v.drop} {
		if kept && v.page.run == nil {
			b.Enable()
		} else {
			b.Disable()
		}
	}
}

// buyShort is what is to be bought in all, for a column.
func (p *Page) buyShort(items []planner.ClothToBuy) string {
	if len(items) == 0 {
		return "nothing"
	}
	return p.voice().Length(planner.BuyInAll(items))
}

func buyUnder(items []planner.ClothToBuy) string {
	if len(items) == 0 {
		return ""
	}
	return say.Count(len(items), "kind of fabric", "kinds of fabric")
}

// workOutBuying works out what is to be bought for kept plans, one after another.
func (p *Page) workOutBuying() {
	var todo []planner.Batch
	for _, b := range p.kept {
		if _, known := p.toBuy[b.ID]; known || b.Plan == nil {
			continue
		}
		if len(b.Plan.Missing) == 0 {
			p.toBuy[b.ID] = "nothing"
			continue
		}
		p.toBuy[b.ID] = "…"
		todo = append(todo, b)
	}
	if len(todo) == 0 {
		return
	}
	h := p.host
	h.Tasks.Start("batch.buying", func(ctx context.Context, show func(func())) error {
		for _, b := range todo {
			items, err := h.Studio.WhatToBuy(ctx, b, *b.Plan)
			show(func() {
				p.toBuy[b.ID] = p.buyShort(items) + "\n" + buyUnder(items)
				if err != nil {
					p.toBuy[b.ID] = "cannot be said\n" + say.Error(err)
				}
				if p.current == viewCompare {
					p.views[viewCompare].fill()
				}
			})
		}
		return ctx.Err()
	}, nil)
}

func (v *compareView) chosen() (planner.Batch, bool) {
	if r, ok := v.list.ChosenRow(); ok {
		for _, b := range v.page.kept {
			if b.ID == r.Key {
				return b, true
			}
		}
	}
	return planner.Batch{}, false
}

// toOpen goes on from a kept plan.
func (v *compareView) toOpen() {
	if b, ok := v.chosen(); ok && v.page.run == nil {
		v.page.open(b)
	}
}

func (v *compareView) toDrop() {
	b, ok := v.chosen()
	if !ok {
		return
	}
	p := v.page
	p.host.Act("drop batch", func(ctx context.Context) (string, error) {
		return "Took " + b.Name + " off the list. Ctrl+Z puts it back.", p.host.Studio.DropBatch(ctx, b.ID)
	}, func(error) {
		if p.draft.ID == b.ID {
			p.draft.ID = stash.NoID
		}
		p.Shown()
	})
}
