package batchui

import (
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"tallycloth/planner"
	"tallycloth/planner/batch"
	"tallycloth/stash"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// The words for which lengths may be cut into.
var wholeWords = []string{"leftovers only", "whole lengths as well"}

// wanted makes the side with what is wanted.
func (p *Page) wanted() fyne.CanvasObject {
	p.rows = widgets.NewRowList([]widgets.Column{{Title: "How many", Width: 66, Right: true}, {Title: "Priority", Width: 54, Right: true}, {Title: "By", Width: 86, Right: true, Yields: 1}})
	p.rows.Chosen = func(widgets.Row) { p.ready() }
	p.rows.Act = func(widgets.Row) { p.changeRow() }
	p.rows.Key = func(k fyne.KeyName) {
		switch k {
		case fyne.KeyDelete, fyne.KeyBackspace:
			p.takeOut()
		case fyne.KeyEscape:
			p.EscapeHere()
		}
	}
	add := widgets.NewButton("Add garments", p.addRow)
	p.change = widgets.NewButton("Change", p.changeRow)
	p.out = widgets.NewButton("Take out", p.takeOut)
	p.whole = widgets.NewChoice("Cut from", wholeWords, func(string) {
		p.edit(func(b *planner.Batch) { b.May.WholeLengths = p.whole.SelectedIndex() == 1 })
	})
	var orders []string
	for _, o := range say.Orders() {
		orders = append(orders, say.Order(o))
	}
	p.order = widgets.NewChoice("Of plans that make as many garments, the one with", orders, func(string) {
		p.edit(func(b *planner.Batch) { b.Order = say.Orders()[max(p.order.SelectedIndex(), 0)] })
	})
	p.loose = widgets.NewButton("Let all go", func() { p.edit(func(b *planner.Batch) { b.Pins = nil }) })
	which := widgets.NewButton("Choose cloth", func() { p.turn(viewCloth); p.views[viewCloth].focus() })
	first := widgets.Primary("Add garments", p.addRow)
	p.empty = container.NewCenter(container.NewVBox(widgets.SubHeading("Nothing is wanted yet"),
		widgets.Line("Garments that you want to make belong here,", widgets.Quiet), widgets.Line("a row for each pattern and size.", widgets.Quiet), first))
	for name, o := range map[string]fyne.CanvasObject{"batch.rows": p.rows, "batch.add": add, "batch.change": p.change, "batch.out": p.out, "batch.first": first,
		"batch.whole": p.whole, "batch.order": p.order, "batch.loose": p.loose, "batch.which": which} {
		p.host.Names.Set(name, o)
	}
	p.looseBox = container.NewHBox(p.loose)
	top := container.NewVBox(container.NewBorder(nil, nil, widgets.SubHeading("Wanted"), container.NewHBox(p.out, p.change, add)), p.rows.Header("Garment"))
	cut := container.NewBorder(nil, nil, nil, container.NewVBox(widgets.Caption(" "), which), p.whole.Object())
	foot := container.NewVBox(cut, p.order.Object(), p.asks, p.looseBox)
	return container.NewPadded(container.NewBorder(top, foot, nil, nil, container.NewStack(p.rows, p.empty)))
}

// edit changes the draft, unless its choices are only being filled in.
func (p *Page) edit(f func(*planner.Batch)) {
	if p.filling {
		return
	}
	f(&p.draft)
	p.sizes = nil
	p.changed()
	p.proposeSizes()
}

// fillWanted lists what is wanted and says which cloth may be used.
func (p *Page) fillWanted() {
	p.filling = true
	defer func() { p.filling = false }()
	var rows []widgets.Row
	for i, w := range p.draft.Rows {
		rows = append(rows, p.rowOf(i, w))
	}
	p.rows.Set(rows)
	p.empty.Hide()
	if len(rows) == 0 {
		p.empty.Show()
	}
	p.whole.SetSelectedIndex(0)
	if p.draft.May.WholeLengths {
		p.whole.SetSelectedIndex(1)
	}
	at := slices.IndexFunc(say.Orders(), func(o []batch.Criterion) bool { return slices.Equal(o, p.draft.Order) })
	p.order.SetSelectedIndex(max(at, 0))
	p.asks.RemoveAll()
	p.asks.Add(widgets.Remark("", p.mayWords(), widgets.Quiet))
	pins := 0
	for _, pin := range p.draft.Pins {
		pins += max(pin.Count, 1)
		c, _ := p.clothOf(pin.Cloth)
		name := "a row that is gone"
		if pin.Row < len(p.draft.Rows) {
			name = p.patternOf(p.draft.Rows[pin.Row].PatternID).Name + ", size " + p.draft.Rows[pin.Row].Size
		}
		p.asks.Add(widgets.Remark("·", fmt.Sprintf("%s of %s stays on %s.", say.Sentence(pin.Role)[:len(pin.Role)], say.Count(max(pin.Count, 1), "garment", "garments")+" ("+name+")", c.Cloth.Code), widgets.Plain))
	}
	p.looseBox.Hidden = pins == 0
	p.asks.Refresh()
	p.object.Refresh()
}

// rowOf is the line of a row.
func (p *Page) rowOf(i int, w planner.Wanted) widgets.Row {
	q := p.patternOf(w.PatternID)
	sub := []string{"size " + w.Size}
	if z, ok := p.sizes[i]; ok && z.Person.ID == w.PersonID {
		sub[0] += say.OtherSize(w.Size, z.Choice.Size)
	}
	if w.Variant != "" {
		sub = append(sub, w.Variant)
	}
	if w.For != "" {
		sub = append(sub, "for "+w.For)
	}
	for _, s := range w.Adjustments {
		sub = append(sub, p.voice().Adjustment(s))
	}
	if len(w.Colours) > 0 {
		sub = append(sub, "in "+strings.Join(p.colourWords(w.Colours), " or "))
	}
	for _, u := range w.Uses {
		sub = append(sub, u.Role+": "+say.Rule(u, p.fabricName))
	}
	return widgets.Row{Key: i, Title: q.Name, Sub: strings.Join(sub, " · "), Cells: []widgets.Cell{
		{Text: fmt.Sprint(max(w.Count, 1))}, {Text: fmt.Sprint(max(w.Priority, 1)), Tone: widgets.Quiet}, {Text: say.ShortDay(w.Date), Tone: widgets.Quiet}}}
}

// colourWords name colours as the fabrics of the library have them.
func (p *Page) colourWords(colours []string) []string {
	var out []string
	for _, c := range colours {
		name := c
		if word := say.ColourName(c); word != "" {
			if hex, _ := say.ColourOf(word); strings.EqualFold(hex, c) {
				name = word
			}
		}
		for _, f := range p.fabrics {
			if strings.EqualFold(f.Colour, c) && f.ColourName != "" {
				name = f.ColourName
				break
			}
		}
		if !slices.Contains(out, name) {
			out = append(out, name)
		}
	}
	return out
}

// mayWords says which cloth may be used.
func (p *Page) mayWords() string {
	may := p.draft.May
	n := 0
	for _, c := range p.cloths {
		if may.Allows(c) {
			n++
		}
	}
	text := say.Count(n, "piece of cloth", "pieces of cloth") + " may be used"
	if len(may.Only) > 0 {
		text += ", chosen ones alone"
	}
	if k := len(may.Never); k > 0 {
		text += fmt.Sprintf(", %d left out", k)
	}
	if k := len(may.First); k > 0 {
		text += fmt.Sprintf(", %d to be used up first", k)
	}
	return text + "."
}

// takeOut takes the chosen row out, with what was kept in place for it.
func (p *Page) takeOut() {
	r, ok := p.rows.ChosenRow()
	if !ok {
		return
	}
	i := r.Key.(int)
	p.edit(func(b *planner.Batch) {
		b.Rows = slices.Delete(slices.Clone(b.Rows), i, i+1)
		var pins []planner.BatchPin
		for _, pin := range b.Pins {
			switch {
			case pin.Row > i:
				pin.Row--
				fallthrough
			case pin.Row < i:
				pins = append(pins, pin)
			}
		}
		b.Pins = pins
	})
	p.Focus()
}

// togglePin keeps the uses of a garment on a cloth, or lets them go.
func (p *Page) togglePin(row int, roles []string, cloth stash.ID, on bool) {
	p.edit(func(b *planner.Batch) {
		pins := slices.Clone(b.Pins)
		for _, role := range roles {
			k := slices.IndexFunc(pins, func(x planner.BatchPin) bool { return x.Row == row && x.Role == role && x.Cloth == cloth })
			switch {
			case on && k < 0:
				pins = append(pins, planner.BatchPin{Row: row, Role: role, Cloth: cloth, Count: 1})
			case on:
				pins[k].Count++
			case k >= 0 && pins[k].Count > 1:
				pins[k].Count--
			case k >= 0:
				pins = slices.Delete(pins, k, k+1)
			}
		}
		b.Pins = pins
	})
}

// pinned counts how many of a use of a row are kept on a cloth.
func (p *Page) pinned(row int, role string, cloth stash.ID) int {
	n := 0
	for _, x := range p.draft.Pins {
		if x.Row == row && x.Role == role && x.Cloth == cloth {
			n += max(x.Count, 1)
		}
	}
	return n
}
