package batchui

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"tallycloth/planner"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// madeView lists the garments, each with the cloth of its uses of fabric.
type madeView struct {
	page   *Page
	list   *widgets.RowList
	empty  fyne.CanvasObject
	filled fyne.CanvasObject
	whole  *fyne.Container
}

func newMadeView(p *Page) *madeView {
	v := &madeView{page: p, empty: nothingPlanned()}
	v.list = widgets.NewRowList([]widgets.Column{{Title: "Main fabric", Width: 216}, {Title: "Other uses", Width: 150, Yields: 1}})
	v.list.Pictured = true
	v.list.Act = func(r widgets.Row) { v.toCloth(r) }
	p.host.Names.Set("batch.made", v.list)
	v.filled = container.NewBorder(v.list.Header("Garment"), widgets.Remark("", "Enter leads to the layout.", widgets.Quiet), nil, nil, v.list)
	v.whole = container.NewStack(v.filled, v.empty)
	return v
}

func (v *madeView) object() fyne.CanvasObject { return v.whole }
func (v *madeView) focus()                    { v.page.host.Focus(v.list) }

func (v *madeView) fill() {
	f := v.page.found
	hide(v.filled, f == nil)
	hide(v.empty, f != nil)
	v.whole.Refresh()
	if f == nil {
		v.list.Set(nil)
		return
	}
	var rows []widgets.Row
	for g := range f.plan.Made {
		rows = append(rows, v.rowOf(f, g))
	}
	for _, m := range f.plan.Missing {
		w := f.asked.Rows[m.Row]
		w.Count = 1
		name, about, _ := strings.Cut(say.GarmentOf(w, v.page.patternOf(w.PatternID).Name, 1), ", ")
		rows = append(rows, widgets.Row{Key: -1 - m.Row, Title: name, Sub: about, Cells: []widgets.Cell{{Text: fmt.Sprintf("× %d not made", m.Count), Tone: widgets.Bad}}})
	}
	v.list.Set(rows)
}

// rowOf is the line of a garment that is made.
func (v *madeView) rowOf(f *found, g int) widgets.Row {
	made := f.plan.Made[g]
	w := f.asked.Rows[made.Row]
	name, about, _ := strings.Cut(say.GarmentOf(w, v.page.patternOf(w.PatternID).Name, made.Number), ", ")
	row := widgets.Row{Key: g, Drawn: widgets.GarmentPicture(g + 1), Title: fmt.Sprintf("%d  %s", g+1, name), Sub: about, Cells: make([]widgets.Cell, 2)}
	var others []string
	for _, c := range f.plan.Cuts {
		for _, q := range c.Parts {
			if q.Garment != g {
				continue
			}
			at := c.Cloth.Cloth.Code + " " + c.Cloth.Fabric.Name
			if q.Role == pattern.Main {
				row.Cells[0] = widgets.Cell{Text: at, Under: v.under(c, g)}
			} else {
				others = append(others, q.Role+": "+at)
			}
		}
	}
	if len(others) > 0 {
		row.Cells[1] = widgets.Cell{Text: others[0], Under: strings.Join(others[1:], ", ")}
	}
	return row
}

// under says the lot of a cloth and what a garment's place on it depends on.
func (v *madeView) under(c planner.PlannedCut, g int) string {
	var out []string
	if lot := lotOf(c.Cloth); lot != "" {
		out = append(out, lot)
	}
	if ifs := v.page.voice().IfsOfShort(c, g); ifs != "" {
		out = append(out, "if "+ifs)
	}
	return strings.Join(out, ", ")
}

func lotOf(c stash.ClothState) string {
	if c.Cloth.Lot == "" {
		return ""
	}
	return "lot " + c.Cloth.Lot
}

// toCloth leads from a garment to the layout of its main fabric.
func (v *madeView) toCloth(r widgets.Row) {
	f := v.page.found
	g, ok := r.Key.(int)
	if f == nil || !ok {
		return
	}
	if g < 0 {
		v.page.turn(viewMissing)
		return
	}
	var cuts *planner.PlannedCut
	for i, c := range f.plan.Cuts {
		for _, q := range c.Parts {
			if q.Garment == g && (cuts == nil || q.Role == pattern.Main) {
				cuts = &f.plan.Cuts[i]
			}
		}
	}
	if cuts != nil {
		v.page.turn(viewCuts)
		v.page.cuts.list.Choose(cuts.Cloth.Cloth.ID)
		v.page.cuts.focus()
	}
}
