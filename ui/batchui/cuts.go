package batchui

import (
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"tallycloth/planner"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/ui/answer"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// cutsView is the plan cloth by cloth: its layout, and the garments on it.
type cutsView struct {
	page      *Page
	list      *widgets.RowList
	drawing   *widgets.LayoutView
	garments  *widgets.RowList
	pin, free *widgets.Button
	not       *widgets.Button
	about     *fyne.Container // what is to be known of the chosen garment
	shown     stash.ID
	empty     fyne.CanvasObject
	filled    fyne.CanvasObject
	whole     *fyne.Container
}

func newCutsView(p *Page) *cutsView {
	v := &cutsView{page: p, about: container.NewVBox()}
	v.list = widgets.NewRowList([]widgets.Column{{Title: "Garments", Width: 60, Right: true}, {Title: "What is left, the largest", Width: 150, Right: true}, {Title: "Waste", Width: 64, Right: true, Yields: 1}})
	v.list.Pictured = true
	v.list.Chosen = func(widgets.Row) { v.show() }
	v.drawing = widgets.NewLayoutView(fyne.NewSize(240, 150))
	v.drawing.Hovered = p.host.Tell
	v.drawing.Away = p.host.Away("batch")
	v.garments = widgets.NewRowList(nil)
	v.garments.Pictured = true
	v.garments.Chosen = func(widgets.Row) { v.ready() }
	v.garments.Act = func(widgets.Row) { v.toggle() }
	v.pin = widgets.NewButton("Keep it on this cloth", func() { v.keep(true) })
	v.free = widgets.NewButton("Let it go elsewhere", func() { v.keep(false) })
	v.not = widgets.NewButton("Leave this cloth out", v.leaveOut)
	for _, l := range []*widgets.RowList{v.list, v.garments} {
		l.Key = func(k fyne.KeyName) {
			if k == fyne.KeyEscape {
				p.EscapeHere()
			}
		}
	}
	for name, o := range map[string]fyne.CanvasObject{"batch.cuts": v.list, "batch.layout": v.drawing, "batch.garments": v.garments, "batch.pin": v.pin, "batch.free": v.free, "batch.cutsnot": v.not} {
		p.host.Names.Set(name, o)
	}
	v.empty = nothingPlanned()
	upper := container.NewBorder(v.list.Header("Cloth"), nil, nil, nil, v.list)
	side := container.NewBorder(v.garments.Header("Garment"), container.NewVBox(v.about, v.pin, v.free, v.not), nil, nil, v.garments)
	v.filled = widgets.Stacked(upper, widgets.Sides(side, container.NewPadded(v.drawing), 0.36), 0.27)
	v.whole = container.NewStack(v.filled, v.empty)
	return v
}

// nothingPlanned stands where a plan would be.
func nothingPlanned() fyne.CanvasObject {
	return container.NewCenter(container.NewVBox(widgets.SubHeading("Nothing is planned yet"),
		widgets.Line("Plan lays the garments on the cloth that may be used.", widgets.Quiet)))
}

func (v *cutsView) object() fyne.CanvasObject { return v.whole }
func (v *cutsView) focus()                    { v.page.host.Focus(v.list) }

// cut is what the plan in sight cuts from a cloth.
func (v *cutsView) cut(id stash.ID) (planner.PlannedCut, bool) {
	if v.page.found == nil {
		return planner.PlannedCut{}, false
	}
	for _, c := range v.page.found.plan.Cuts {
		if c.Cloth.Cloth.ID == id {
			return c, true
		}
	}
	return planner.PlannedCut{}, false
}

func (v *cutsView) chosen() (planner.PlannedCut, bool) {
	r, ok := v.list.ChosenRow()
	if !ok {
		return planner.PlannedCut{}, false
	}
	return v.cut(r.Key.(stash.ID))
}

// fill lists the cloths that are cut.
func (v *cutsView) fill() {
	f, voice := v.page.found, v.page.voice()
	some := f != nil && len(f.plan.Cuts) > 0
	hide(v.filled, !some)
	hide(v.empty, some)
	v.whole.Refresh()
	if !some {
		v.list.Set(nil)
		return
	}
	var longest measure.Length
	for _, c := range f.plan.Cuts {
		longest = max(longest, c.Cloth.Cloth.Length)
	}
	var rows []widgets.Row
	for _, c := range f.plan.Cuts {
		s := answer.SwatchOf(c.Cloth, longest)
		sub := c.Cloth.Cloth.Code + " · " + voice.Size(c.Cloth.Cloth)
		if c.Whole {
			sub += " · a whole length"
		}
		left := widgets.Cell{Text: "nothing", Tone: widgets.Quiet}
		if len(c.Left) > 0 {
			left = widgets.Cell{Text: leftSize(voice, c, 0)}
			if n := len(c.Left) - 1; n > 0 {
				left.Under = fmt.Sprintf("and %d more", n)
			}
		}
		rows = append(rows, widgets.Row{Key: c.Cloth.Cloth.ID, Swatch: &s, Title: c.Cloth.Fabric.Name, Sub: sub,
			Cells: []widgets.Cell{{Text: fmt.Sprint(len(garmentsOn(c)))}, left, {Text: voice.Area(c.Waste), Tone: widgets.Quiet}}})
	}
	v.list.Set(rows)
	if _, ok := v.list.ChosenRow(); !ok {
		v.list.Choose(rows[0].Key)
		return
	}
	v.show()
}

func hide(o fyne.CanvasObject, hidden bool) {
	if hidden {
		o.Hide()
	} else {
		o.Show()
	}
}

// leftSize is the length and width of the straight part of a leftover.
func leftSize(voice say.Voice, c planner.PlannedCut, i int) string {
	b := c.Left[i].Straight
	return voice.Free(measure.Length(b.Length())) + " × " + voice.Width(measure.Length(b.Width()))
}

// garmentsOn are the garments that a cut gives something to, in order.
func garmentsOn(c planner.PlannedCut) []int {
	var out []int
	for _, q := range c.Parts {
		if !slices.Contains(out, q.Garment) {
			out = append(out, q.Garment)
		}
	}
	slices.Sort(out)
	return out
}

// show draws the chosen cloth with its garments beside.
func (v *cutsView) show() {
	c, ok := v.chosen()
	if !ok {
		v.garments.Set(nil)
		v.ready()
		return
	}
	pic := v.page.picture(c)
	if v.shown == c.Cloth.Cloth.ID {
		v.drawing.Follow(pic)
	} else {
		v.drawing.Draw(pic)
	}
	v.shown = c.Cloth.Cloth.ID
	var rows []widgets.Row
	for _, g := range garmentsOn(c) {
		rows = append(rows, v.garmentRow(c, g))
	}
	v.garments.Set(rows)
	if _, ok := v.garments.ChosenRow(); !ok && len(rows) > 0 {
		v.garments.Choose(rows[0].Key)
	}
	v.ready()
}

// garmentRow is a garment on a cloth, with the paper and line it is drawn with.
func (v *cutsView) garmentRow(c planner.PlannedCut, g int) widgets.Row {
	f := v.page.found
	made := f.plan.Made[g]
	row := f.asked.Rows[made.Row]
	name, rest, _ := strings.Cut(say.GarmentOf(row, v.page.patternOf(row.PatternID).Name, made.Number), ", ")
	if v.kept(c, g) {
		rest = "stays here · " + rest
	}
	return widgets.Row{Key: g, Drawn: widgets.GarmentPicture(g + 1), Title: fmt.Sprintf("%d  %s", g+1, name), Sub: rest}
}

// kept says whether a garment is kept on a cloth.
func (v *cutsView) kept(c planner.PlannedCut, g int) bool {
	return slices.ContainsFunc(c.Parts, func(q planner.PlannedPart) bool {
		return q.Garment == g && v.page.pinned(v.page.found.plan.Made[g].Row, q.Role, c.Cloth.Cloth.ID) > 0
	})
}

// tell says what is to be known of a garment on a cloth.
func (v *cutsView) tell(c planner.PlannedCut, g int) {
	p := v.page
	var uses []string
	byTable := false
	for _, q := range c.Parts {
		if q.Garment == g {
			uses = append(uses, q.Role)
			byTable = byTable || len(q.Keep) > 0
		}
	}
	text := p.garmentName(p.found, g) + ": used for " + say.And(uses)
	if ifs := p.voice().IfsOf(c, g); ifs != "" {
		text += ", if " + ifs
	}
	if byTable {
		text += ", by the yardage table"
	}
	v.about.Add(p.host.Names.Set("batch.about", widgets.Remark("", text+". Its outlines are drawn with "+widgets.GarmentLine(g+1)+".", widgets.Quiet)))
}

// ready says what the buttons can do, and what is to be known of the chosen garment.
func (v *cutsView) ready() {
	c, onCloth := v.chosen()
	r, ok := v.garments.ChosenRow()
	kept := false
	v.about.RemoveAll()
	if ok && onCloth {
		kept = v.kept(c, r.Key.(int))
		v.tell(c, r.Key.(int))
	}
	v.about.Refresh()
	same := v.page.found != nil && v.page.sameRows()
	for b, can := range map[*widgets.Button]bool{v.pin: ok && same, v.free: ok && same && kept, v.not: onCloth} {
		if can {
			b.Enable()
		} else {
			b.Disable()
		}
	}
}

// sameRows says whether what is wanted is still what the plan in sight answers, row by row.
func (p *Page) sameRows() bool {
	return slices.EqualFunc(p.draft.Rows, p.found.asked.Rows, func(a, b planner.Wanted) bool {
		return a.PatternID == b.PatternID && a.Size == b.Size
	})
}

func (v *cutsView) toggle() {
	if v.free.Disabled() {
		v.keep(true)
		return
	}
	v.keep(false)
}

// keep keeps the chosen garment on the chosen cloth in the next plan, or lets it go.
func (v *cutsView) keep(on bool) {
	c, ok := v.chosen()
	r, has := v.garments.ChosenRow()
	if !ok || !has || v.pin.Disabled() {
		return
	}
	g := r.Key.(int)
	var roles []string
	for _, q := range c.Parts {
		if q.Garment == g {
			roles = append(roles, q.Role)
		}
	}
	v.page.togglePin(v.page.found.plan.Made[g].Row, roles, c.Cloth.Cloth.ID, on)
	v.page.host.Tell(map[bool]string{true: "It stays on " + c.Cloth.Cloth.Code + " when you plan again.", false: "It may go elsewhere when you plan again."}[on])
}

// leaveOut leaves the chosen cloth out of the next plan.
func (v *cutsView) leaveOut() {
	if c, ok := v.chosen(); ok {
		v.page.mark(c.Cloth.Cloth.ID, false, true)
		v.page.host.Tell(c.Cloth.Cloth.Code + " is left out when you plan again.")
	}
}

// garmentName names a garment of a plan, with its number in it.
func (p *Page) garmentName(f *found, g int) string {
	m := f.plan.Made[g]
	row := f.asked.Rows[m.Row]
	return fmt.Sprintf("%d  ", g+1) + say.GarmentOf(row, p.patternOf(row.PatternID).Name, m.Number)
}

// picture is the drawing of a cloth with every garment on it in its own paper and line.
func (p *Page) picture(c planner.PlannedCut) widgets.ClothPicture {
	v := p.voice()
	pic := answer.Picture(v, c.Cloth, nil)
	for _, q := range c.Parts {
		name := p.garmentName(p.found, q.Garment)
		laid := answer.Picture(v, c.Cloth, &q.Layout)
		pic.Folds = append(pic.Folds, laid.Folds...)
		for _, one := range laid.Pieces {
			one.Tint = q.Garment + 1
			one.Note = fmt.Sprintf("no. %d", q.Garment+1)
			pic.Pieces = append(pic.Pieces, one)
		}
		if len(q.Keep) > 2 {
			pic.Pieces = append(pic.Pieces, widgets.PicturePiece{Name: name, Note: q.Role + ", by the yardage table", Outline: q.Keep, Tint: q.Garment + 1})
		}
	}
	pic.FreeFrom, pic.FreeTo, pic.FreeLabel = 0, 0, ""
	for i, l := range c.Left {
		pic.Left = append(pic.Left, widgets.LeftPiece{Outline: l.Outline, Straight: l.Straight, Size: leftSize(v, c, i)})
	}
	return pic
}
