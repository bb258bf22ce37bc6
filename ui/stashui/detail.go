package stashui

import (
	"context"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"tallycloth/planner"
	"tallycloth/planner/match"
	"tallycloth/stash"
	"tallycloth/ui/answer"
	"tallycloth/ui/page"
	"tallycloth/ui/paperui"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

func (p *Page) nothingChosen() {
	p.detail.Objects = []fyne.CanvasObject{container.NewCenter(widgets.Line("Choose a piece of cloth to see it to scale.", widgets.Quiet))}
	p.detail.Refresh()
}

// mostTold is how many lines of its history the detail of a cloth tells; the place History has all.
const mostTold = 200

// show fills the detail for a cloth, its history read beside the window.
func (p *Page) show(id stash.ID) {
	c, ok := p.cloth(id)
	if !ok {
		p.nothingChosen()
		return
	}
	var lines []planner.PastLine
	var from planner.Origin
	var photos []seenPhoto
	var good planner.GoodFor
	p.host.Tasks.Start("stash.detail", func(ctx context.Context, _ func(func())) (err error) {
		if from, err = p.host.Studio.Origin(ctx, id); err != nil {
			return err
		}
		if photos, err = p.photosOf(ctx, c); err != nil {
			return err
		}
		if c.Cloth.Leftover() {
			if good, err = p.host.Studio.GoodFor(ctx, c); err != nil {
				return err
			}
		}
		lines, err = p.host.Studio.History(ctx, planner.Past{Code: c.Cloth.Code}, 0, mostTold)
		return err
	}, func(err error) {
		p.host.Trouble(err)
		if now, ok := p.chosen(); p.making != nil || !ok || now.Cloth.ID != id {
			return // something else is in sight meanwhile
		}
		p.detail.Objects = []fyne.CanvasObject{p.detailOf(c, lines, from, photos, good)}
		p.detail.Refresh()
	})
}

func (p *Page) detailOf(c stash.ClothState, lines []planner.PastLine, from planner.Origin, photos []seenPhoto, good planner.GoodFor) fyne.CanvasObject {
	v := p.host.Voice()
	view := widgets.NewLayoutView(fyne.NewSize(240, 240))
	view.Away = p.host.Away("cloth")
	view.Draw(p.picture(v, c))
	p.host.Names.Set("stash.view", view)
	make_ := widgets.NewButton("What can it make?", p.whatCanItMake)
	make_.Importance = widget.HighImportance
	measureIt := widgets.NewButton("Measure stretch", func() { p.MeasureStretch(c.Fabric) })
	p.host.Names.Set("stash.make", make_)
	p.host.Names.Set("stash.measure", measureIt)
	actions := container.NewHBox(make_, measureIt)
	if c.Cloth.RawStart || c.Cloth.RawEnd {
		actions.Add(widgets.NewButton("Ends cut straight", func() { p.trueEnds(c) }))
	}
	if !c.Cloth.Washed {
		wash := widgets.NewButton("Wash", func() { p.wash(c) })
		p.host.Names.Set("stash.wash", wash)
		actions.Add(wash)
	}
	more := p.moreActions(c)
	body := container.NewVBox(
		widgets.Title(c.Fabric.Name),
		widgets.Remark("", c.Cloth.Code+" · "+v.Size(c.Cloth)+" · "+v.Area(c.FreeArea)+" free of "+v.Area(c.Area), widgets.Quiet),
		view, actions, p.photoRow(c, photos), facts(v, c))
	if care := stash.ParseCare(c.Fabric.Care).String(); care != "" {
		body.Add(widgets.Remark("", "Care: "+care+".", widgets.Plain))
	}
	if c.Cloth.Leftover() {
		body.Add(p.goodFor(c, good))
	}
	if len(c.Reservations) > 0 {
		body.Add(widgets.SubHeading("Reserved"))
		for _, r := range c.Reservations {
			body.Add(p.reservedLine(r))
		}
	}
	p.addOrigin(body, c, from)
	body.Add(p.stitchesOf(c.Fabric, photos))
	body.Add(widgets.SubHeading("History"))
	told := planner.Told(lines)
	for i := range told {
		body.Add(widgets.Remark("", v.PastOf(told[i]), widgets.Plain))
	}
	body.Add(more)
	sheet := container.NewVScroll(widgets.Inset(body))
	view.LieOn(sheet)
	return sheet
}

// moreActions are the less usual things to do with a cloth, in two rows.
func (p *Page) moreActions(c stash.ClothState) fyne.CanvasObject {
	named := func(name, words string, do func()) fyne.CanvasObject {
		b := widgets.NewButton(words, do)
		p.host.Names.Set(name, b)
		return b
	}
	first := container.NewHBox()
	if c.Cloth.Plain() {
		first.Add(named("stash.again", "Measure again", func() { p.measureAgain(c) }))
	}
	first.Add(named("stash.move", "Move", func() { p.move(c) }))
	first.Add(named("stash.flaw", "Flaw found", func() { p.flaw(c) }))
	first.Add(named("stash.buy", "Buy more", func() { p.buyMore(c.Fabric) }))
	first.Add(named("stash.labels", "Labels", func() { p.Labels(c) }))
	second := container.NewHBox(named("stash.change", "Change fabric", func() { p.EditFabric(c.Fabric) }),
		named("stash.care", "Care", func() { p.Care(c.Fabric) }),
		widgets.NewButton("Give away", func() { p.leave(c, "Gave away", p.host.Studio.GiveAway) }),
		widgets.NewButton("Discard", func() { p.leave(c, "Discarded", p.host.Studio.Discard) }))
	rows := container.NewVBox(first, second)
	if len(c.Reservations) > 0 {
		read := paperui.OfCloth(p.host, c.Cloth.ID)
		rows.Add(container.NewHBox(named("stash.sheet", "Cutting sheet", func() { paperui.Sheet(p.host, read, nil, nil) }),
			named("stash.cutlist", "Cut list", func() { paperui.CutList(p.host, read) }),
			named("stash.full", "Full size", func() { paperui.FullSize(p.host, read) })))
	}
	return rows
}

// picture is the cloth to scale, its reserved parts under their garments' names.
func (p *Page) picture(v say.Voice, c stash.ClothState) widgets.ClothPicture {
	pic := answer.Picture(v, c, nil)
	pic.Reserved = nil
	for _, r := range c.Reservations {
		name := p.garments[r.GarmentID].Name
		for _, q := range r.Pieces {
			pic.Reserved = append(pic.Reserved, widgets.PicturePiece{Name: q.Name, Note: name, Outline: q.Outline})
		}
	}
	return pic
}

func (p *Page) reservedLine(r stash.Reservation) fyne.CanvasObject {
	g := p.garments[r.GarmentID]
	open := widget.NewHyperlink(g.Name, nil)
	open.OnTapped = func() { p.host.Go(page.Route{Place: page.Garments, ID: g.ID}) }
	return container.NewHBox(open, widgets.Line(r.UsedFor+", "+say.Count(len(r.Pieces), "pattern piece", "pattern pieces"), widgets.Quiet))
}

// facts is what is known of the fabric, in two columns.
func facts(v say.Voice, c stash.ClothState) fyne.CanvasObject {
	f, a := c.Fabric, stash.Assumed(c.Fabric)
	rows := [][2]string{
		{"How it is made", say.Construction(f.Construction)},
		{"Fibres", orUnknown(f.Fibres.String())},
		{"Weight", v.Weight(f.Weight)},
		{"Full width", fullWidth(v, f)},
		{"Stretch crosswise", v.Stretch(f.Crosswise.Stretch, a.Crosswise.Stretch)},
		{"Stretch lengthwise", v.Stretch(f.Lengthwise.Stretch, a.Lengthwise.Stretch)},
		{"Recovery crosswise", say.Reading(f.Crosswise.Recovery, a.Crosswise.Recovery)},
		{"Narrows when pulled", narrowing(f)},
		{"Last tested", tested(f)},
		{"Direction", say.Direction(f.Direction)},
		{"Washed", yesNo(c.Cloth.Washed)},
		{"Dye lot", orUnknown(c.Cloth.Lot)},
		{"Where", orUnknown(c.Cloth.Place)},
		{"Supplier", orUnknown(f.Supplier)},
		{"On the shopping list", toBuy(v, f)},
	}
	grid := container.New(&factLayout{})
	for _, r := range rows {
		grid.Add(widgets.Line(r[0], widgets.Quiet))
		grid.Add(widgets.Line(r[1], widgets.Plain))
	}
	return grid
}

// fullWidth is the width of a fabric, of a tube both ways.
func fullWidth(v say.Voice, f stash.Fabric) string {
	if f.Tubular {
		return v.Width(f.FullWidth) + " flat, a tube: " + v.Width(f.OpenWidth()) + " slit"
	}
	return v.Width(f.FullWidth)
}

// narrowing says how much a fabric narrows while it is pulled, crosswise and lengthwise.
func narrowing(f stash.Fabric) string {
	a := stash.Assumed(f)
	if !f.Crosswise.Narrowing.Known && !f.Lengthwise.Narrowing.Known {
		return say.Reading(f.Crosswise.Narrowing, a.Crosswise.Narrowing)
	}
	var out []string
	for _, g := range []struct {
		r    stash.Reading
		name string
	}{{f.Crosswise.Narrowing, "crosswise"}, {f.Lengthwise.Narrowing, "lengthwise"}} {
		if g.r.Known {
			out = append(out, say.Percent(g.r.Value)+" "+g.name)
		}
	}
	return say.And(out)
}

// tested says when the stretch was tested last, and by how many readings.
func tested(f stash.Fabric) string {
	if len(f.Bench) == 0 {
		return "never"
	}
	last := f.Bench[len(f.Bench)-1].Date
	n := 0
	for _, r := range f.Bench {
		if r.Date == last {
			n++
		}
	}
	return say.Day(last) + ", " + say.Count(n, "test", "tests")
}

// factLayout puts names and values in two columns close to each other.
type factLayout struct{}

func (*factLayout) sizes(o []fyne.CanvasObject) (name, value, row float32) {
	for i, c := range o {
		s := c.MinSize()
		if i%2 == 0 {
			name = max(name, s.Width)
		} else {
			value = max(value, s.Width)
		}
		row = max(row, s.Height)
	}
	return name, value, row + 5
}

// Layout places the rows.
func (l *factLayout) Layout(o []fyne.CanvasObject, _ fyne.Size) {
	name, _, row := l.sizes(o)
	for i, c := range o {
		c.Resize(c.MinSize())
		c.Move(fyne.NewPos(float32(i%2)*(name+18), float32(i/2)*row))
	}
}

// MinSize is what the rows take.
func (l *factLayout) MinSize(o []fyne.CanvasObject) fyne.Size {
	name, value, row := l.sizes(o)
	return fyne.NewSize(min(name+18+value, 420), float32((len(o)+1)/2)*row)
}

func orUnknown(s string) string {
	if s == "" {
		return "not noted"
	}
	return s
}

func yesNo(b bool) string {
	if b {
		return "yes"
	}
	return "not yet"
}

// making is the answer to "What can it make?" for one cloth.
type making struct {
	cloth   stash.ClothState
	results []planner.Making
	list    *widgets.RowList
	panel   *answer.Panel
	state   *widget.Label
}

// whatCanItMake compares the chosen cloth with every pattern, size and use.
func (p *Page) whatCanItMake() {
	c, ok := p.chosen()
	if !ok {
		p.host.Tell("Choose a piece of cloth first.")
		return
	}
	m := &making{cloth: c, list: widgets.NewRowList(nil), panel: answer.NewPanel(fyne.NewSize(240, 190)), state: widget.NewLabel("Looking …")}
	p.host.Tasks.Stop("stash.detail")
	p.making = m
	m.panel.Hover = p.host.Tell
	m.panel.View.Away = p.host.Away("making")
	m.list.Chosen = func(r widgets.Row) { m.showRow(p, r.Key.(int)) }
	m.list.Act = func(r widgets.Row) { p.findFor(m.results[r.Key.(int)]) }
	m.list.Key = func(k fyne.KeyName) {
		if k == fyne.KeyEscape {
			p.back()
		}
	}
	back := widgets.NewButton("Back", p.back)
	reserve := widgets.NewButton("Reserve for a garment", func() { p.reserveChosen() })
	reserve.Importance = widget.HighImportance
	p.host.Names.Set("making.list", m.list)
	p.host.Names.Set("making.reserve", reserve)
	p.host.Names.Set("making.back", back)
	top := container.NewVBox(
		container.NewBorder(nil, nil, widgets.SubHeading("What can it make?"), container.NewHBox(back, reserve)),
		widgets.Remark("", c.Fabric.Name+" "+c.Cloth.Code, widgets.Quiet), m.state)
	split := widgets.Stacked(m.list, container.NewVScroll(m.panel.Object()), 0.4)
	p.detail.Objects = []fyne.CanvasObject{widgets.Inset(container.NewBorder(top, nil, nil, nil, split))}
	p.detail.Refresh()
	p.host.Focus(m.list)
	p.host.Tasks.Start("stash.make", func(ctx context.Context, show func(func())) error {
		results, err := p.host.Studio.WhatCanItMake(ctx, c.Cloth.ID, func(r planner.Making) {
			show(func() { m.results = append(m.results, r); m.fill(p) })
		})
		if err == nil {
			show(func() { m.results = results; m.fill(p) })
		}
		return err
	}, func(err error) {
		m.state.SetText(say.Count(len(m.results), "answer", "answers") + ", best first.")
		if err != nil {
			m.state.SetText(say.Error(err))
		}
		if len(m.results) > 0 {
			if _, ok := m.list.ChosenRow(); !ok {
				m.list.Choose(0)
			}
		}
	})
}

func (m *making) fill(p *Page) {
	v := p.host.Voice()
	var rows []widgets.Row
	for i, r := range m.results {
		rows = append(rows, widgets.Row{Key: i, Title: r.Pattern.Name + ", size " + r.Size + ", " + r.Role,
			Sub: say.Mark(r.Verdict.Grade) + " " + v.Verdict(r.Verdict), SubTone: answer.Tone(r.Verdict.Grade)})
	}
	m.list.Set(rows)
}

func (m *making) showRow(p *Page, i int) {
	if i < len(m.results) {
		m.panel.Show(p.host.Voice(), m.cloth, m.results[i].Verdict)
	}
}

func (p *Page) back() {
	p.host.Tasks.Stop("stash.make")
	if m := p.making; m != nil {
		p.making = nil
		p.show(m.cloth.Cloth.ID)
	}
	p.Focus()
}

// findFor leads to the pattern, where cloth is compared for that size.
func (p *Page) findFor(m planner.Making) {
	p.host.Go(page.Route{Place: page.Patterns, ID: m.Pattern.ID, Size: m.Size, Do: page.FindFabric})
}

// reserveChosen keeps the cloth for a new garment of the pattern and size chosen.
func (p *Page) reserveChosen() {
	m := p.making
	r, ok := m.list.ChosenRow()
	if !ok {
		return
	}
	made := m.results[r.Key.(int)]
	if v := made.Verdict; v.Grade > match.EnoughIf || v.Layout == nil && len(v.Keep) == 0 {
		p.host.Tell("Only cloth that is enough, by a layout or by the yardage table, can be reserved.")
		return
	}
	f := planner.Finding{Cloth: m.cloth, Verdict: made.Verdict}
	p.host.Act("reserve", func(ctx context.Context) (string, error) {
		g, err := p.host.Studio.NewGarment(ctx, made.Pattern.ID, made.Size, "", "")
		if err != nil {
			return "", err
		}
		_, err = p.host.Studio.Reserve(ctx, g.ID, f, made.Role)
		return "Reserved " + m.cloth.Fabric.Name + " for " + g.Name + ".", err
	}, func(err error) {
		if err == nil {
			p.back()
		}
	})
}
