package batchui

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"tallycloth/planner"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// missingView says what cannot be made, what stands against it, and what to buy.
type missingView struct {
	page  *Page
	body  *fyne.Container
	allow *widgets.Button
	on    *widgets.Button // goes on planning where more may be possible
	whole *container.Scroll
}

func newMissingView(p *Page) *missingView {
	v := &missingView{page: p, body: container.NewVBox()}
	v.allow = widgets.NewButton("Allow whole lengths, and plan again", func() {
		p.edit(func(b *planner.Batch) { b.May.WholeLengths = true })
		if p.run == nil {
			p.plan()
		}
	})
	v.on = widgets.NewButton("Keep planning", func() {
		if p.run == nil {
			p.plan()
		}
	})
	p.host.Names.Set("batch.allow", v.allow)
	p.host.Names.Set("batch.on", v.on)
	v.whole = container.NewVScroll(widgets.Inset(v.body))
	return v
}

func (v *missingView) object() fyne.CanvasObject { return v.whole }

// focus puts the focus on the first thing that can be pressed here, if it is there.
func (v *missingView) focus() {
	for _, b := range []*widgets.Button{v.on, v.allow} {
		if len(v.body.Objects) > 0 && b.Visible() && v.page.run == nil {
			v.page.host.Focus(b)
			return
		}
	}
}

func (v *missingView) fill() {
	defer v.whole.Refresh()
	v.body.RemoveAll()
	f := v.page.found
	v.allow.Hide()
	v.on.Hide()
	switch {
	case f == nil:
		v.body.Add(nothingPlanned())
		return
	case len(f.plan.Missing) == 0:
		v.body.Add(widgets.Verdict("✓", "Everything that is wanted can be made. Nothing is to be bought.", widgets.Good))
		return
	}
	for _, m := range f.plan.Missing {
		w := f.asked.Rows[m.Row]
		one := w
		one.Count = 1
		v.body.Add(widgets.Verdict("×", fmt.Sprintf("%s: %d of %d not made", say.GarmentOf(one, v.page.patternOf(w.PatternID).Name, 1), m.Count, max(w.Count, 1)), widgets.Bad))
		if f.misses != nil {
			for _, text := range v.page.voice().Misses(m.Row, f.misses) {
				v.body.Add(widgets.Remark("·", text, widgets.Plain))
			}
		}
	}
	hide(v.allow, f.asked.May.WholeLengths || f.misses == nil)
	if n := f.plan.AtMostMore(); n > 0 && v.page.goesOn() && v.page.run == nil {
		v.body.Add(widgets.Remark("", say.MayBeMore(n), widgets.Careful))
		v.on.Show()
	}
	v.body.Add(container.NewHBox(v.on, v.allow))
	v.body.Add(widgets.SubHeading("What to buy"))
	for i, item := range f.buy {
		v.item(f, i, item)
	}
	switch {
	case f.trouble != "":
		v.body.Add(widgets.Remark("", f.trouble, widgets.Bad))
	case f.working || v.page.run != nil:
		v.body.Add(widgets.Remark("", "Working out what comes nearest and what to buy …", widgets.Quiet))
	default:
		v.body.Add(widgets.Remark("", "Lengths are rounded up to what the shop sells, with both raw ends and what washing takes.", widgets.Quiet))
	}
}

// item adds a fabric to buy with its lengths at the usual widths.
func (v *missingView) item(f *found, i int, item planner.ClothToBuy) {
	voice := v.page.voice()
	var whom []string
	for _, m := range item.For {
		w := f.asked.Rows[m.Row]
		w.Count = 1
		whom = append(whom, fmt.Sprintf("%d × %s", m.Count, say.GarmentOf(w, v.page.patternOf(w.PatternID).Name, 1)))
	}
	v.body.Add(widgets.Remark("", voice.ToBuy(item)+", for "+say.And(whom)+":", widgets.Plain))
	if len(item.Lengths) == 0 {
		v.body.Add(widgets.Remark("·", "None of the usual widths is wide enough.", widgets.Careful))
	}
	for _, b := range item.Lengths {
		v.body.Add(widgets.Remark("·", voice.Buying(b)+".", widgets.Plain))
	}
	if len(item.Lengths) > 0 {
		put := widgets.NewButton("Put on the shopping list", func() { v.page.shop(item, say.And(whom)) })
		v.page.host.Names.Set(fmt.Sprintf("batch.shop.%d", i+1), put)
		v.body.Add(container.NewHBox(put))
	}
}
