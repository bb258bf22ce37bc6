package batchui

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"tallycloth/planner"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/ui/answer"
	"tallycloth/ui/say"
	"tallycloth/ui/stashui"
	"tallycloth/ui/widgets"
)

// clothView says which cloth may be used.
type clothView struct {
	page               *Page
	filter             *widgets.Entry
	list               *widgets.RowList
	usual, first, not  *widgets.Button
	onlyThese, noLimit *widgets.Button
	empty              fyne.CanvasObject
	whole              fyne.CanvasObject
}

func newClothView(p *Page) *clothView {
	v := &clothView{page: p}
	v.filter = widgets.NewEntry("Filter: knits, at least 1 m, stretch over 30 %, hall cupboard")
	v.filter.OnChanged = func(string) { v.fill() }
	v.filter.OnSubmitted = func(string) { v.focus() }
	v.filter.Escape = func() { v.filter.SetText(""); v.focus() }
	v.list = widgets.NewRowList([]widgets.Column{{Title: "Size", Width: 116, Right: true, Yields: 1}, {Title: "May it be used?", Width: 190}})
	v.list.Pictured = true
	v.list.Chosen = func(widgets.Row) { v.ready() }
	v.list.Act = func(widgets.Row) { v.next() }
	v.usual = widgets.NewButton("Use it as usual", func() { v.mark(false, false) })
	v.first = widgets.NewButton("Use it up first", func() { v.mark(true, false) })
	v.not = widgets.NewButton("Leave it out", func() { v.mark(false, true) })
	v.onlyThese = widgets.NewButton("Use only these", v.only)
	v.noLimit = widgets.NewButton("All as usual", func() {
		p.edit(func(b *planner.Batch) { b.May = planner.MayUse{WholeLengths: b.May.WholeLengths} })
	})
	for name, o := range map[string]fyne.CanvasObject{"batch.filter": v.filter, "batch.cloth": v.list, "batch.cloth.usual": v.usual, "batch.cloth.first": v.first,
		"batch.cloth.not": v.not, "batch.cloth.only": v.onlyThese, "batch.cloth.all": v.noLimit} {
		p.host.Names.Set(name, o)
	}
	v.empty = container.NewCenter(container.NewVBox(widgets.SubHeading("There is no cloth on the shelf yet"),
		widgets.Line("Log a purchase or add a leftover at the place Stash.", widgets.Quiet), widgets.NewButton("Open the demo studio", p.host.Demo)))
	top := container.NewVBox(container.NewBorder(nil, nil, nil, container.NewHBox(v.onlyThese, v.noLimit), v.filter), v.list.Header("Cloth"))
	foot := container.NewVBox(container.NewHBox(v.usual, v.first, v.not))
	v.whole = container.NewBorder(top, foot, nil, nil, container.NewStack(v.list, v.empty))
	return v
}

func (v *clothView) object() fyne.CanvasObject { return v.whole }
func (v *clothView) focus()                    { v.page.host.Focus(v.list) }

// fill lists the cloth that answers the filter.
func (v *clothView) fill() {
	p := v.page
	voice := p.voice()
	answers := stashui.Filter(voice, v.filter.Text)
	var longest measure.Length
	for _, c := range p.cloths {
		longest = max(longest, c.Cloth.Length)
	}
	var rows []widgets.Row
	for _, c := range p.cloths {
		if !answers(c) {
			continue
		}
		s := answer.SwatchOf(c, longest)
		kind := "leftover"
		switch {
		case planner.WholeLength(c):
			kind = "whole length"
		case planner.Uncut(c):
			kind = "a length, partly reserved"
		case len(c.Reservations) > 0:
			kind = "leftover, partly reserved"
		}
		rows = append(rows, widgets.Row{Key: c.Cloth.ID, Swatch: &s, Title: c.Fabric.Name, Sub: c.Cloth.Code + " · " + kind,
			Cells: []widgets.Cell{{Text: voice.Size(c.Cloth)}, v.mayCell(c)}})
	}
	v.list.Widen(0, 116)
	if voice.Units == measure.Imperial {
		v.list.Widen(0, 164)
	}
	v.list.Set(rows)
	v.empty.Hide()
	if len(p.cloths) == 0 {
		v.empty.Show()
	}
	v.ready()
	v.whole.Refresh()
}

// mayCell says whether a cloth may be used, with a sign beside the colour.
func (v *clothView) mayCell(c stash.ClothState) widgets.Cell {
	may := v.page.draft.May
	switch {
	case slices.Contains(may.Never, c.Cloth.ID):
		return widgets.Cell{Text: "× left out", Tone: widgets.Bad}
	case len(may.Only) > 0 && !slices.Contains(may.Only, c.Cloth.ID):
		return widgets.Cell{Text: "– not among those chosen", Tone: widgets.Quiet}
	case !may.Allows(c):
		return widgets.Cell{Text: "– only leftovers are cut", Tone: widgets.Quiet}
	case slices.Contains(may.First, c.Cloth.ID):
		return widgets.Cell{Text: "✓ to be used up first", Tone: widgets.Accent}
	}
	return widgets.Cell{Text: "✓ yes", Tone: widgets.Good}
}

func (v *clothView) ready() {
	_, ok := v.list.ChosenRow()
	for _, b := range []*widgets.Button{v.usual, v.first, v.not} {
		if ok {
			b.Enable()
		} else {
			b.Disable()
		}
	}
	if len(v.list.Rows()) == 0 {
		v.onlyThese.Disable()
	} else {
		v.onlyThese.Enable()
	}
}

// mark says how the chosen cloth may be used.
func (v *clothView) mark(first, never bool) {
	if r, ok := v.list.ChosenRow(); ok {
		v.page.mark(r.Key.(stash.ID), first, never)
	}
}

// mark says how a cloth may be used.
func (p *Page) mark(id stash.ID, first, never bool) {
	with := func(ids []stash.ID, in bool) []stash.ID {
		ids = slices.DeleteFunc(slices.Clone(ids), func(x stash.ID) bool { return x == id })
		if in {
			ids = append(ids, id)
		}
		return ids
	}
	p.edit(func(b *planner.Batch) {
		b.May.First, b.May.Never = with(b.May.First, first), with(b.May.Never, never)
		if len(b.May.Only) > 0 && !never {
			b.May.Only = with(b.May.Only, true)
		}
	})
}

// next goes round with Enter: as usual, first, left out.
func (v *clothView) next() {
	r, ok := v.list.ChosenRow()
	if !ok {
		return
	}
	id, may := r.Key.(stash.ID), v.page.draft.May
	first, never := slices.Contains(may.First, id), slices.Contains(may.Never, id)
	v.page.mark(id, !first && !never, first)
}

// only lets the cloth be used alone that the filter shows.
func (v *clothView) only() {
	var ids []stash.ID
	for _, r := range v.list.Rows() {
		ids = append(ids, r.Key.(stash.ID))
	}
	v.page.edit(func(b *planner.Batch) {
		b.May.Only = ids
		b.May.Never = slices.DeleteFunc(slices.Clone(b.May.Never), func(x stash.ID) bool { return slices.Contains(ids, x) })
	})
	v.page.host.Tell("Only " + say.Count(len(ids), "piece of cloth", "pieces of cloth") + " may be used now.")
}
