package garmentui

import (
	"context"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"tallycloth/planner/garment"
	"tallycloth/stash"
	"tallycloth/ui/answer"
	"tallycloth/ui/page"
	"tallycloth/ui/paperui"
	"tallycloth/ui/say"
	"tallycloth/ui/stashui"
	"tallycloth/ui/widgets"
)

// show fills the detail for a garment.
func (p *Page) show(id stash.ID) {
	p.cutting = nil
	g, ok := p.garment(id)
	if !ok {
		p.nothingChosen()
		return
	}
	before := p.leaf
	p.leaf = container.NewVScroll(nil)
	body := container.NewVBox(widgets.Title(g.Name), widgets.Remark("", p.about(g), widgets.Quiet),
		widgets.Remark("", say.Sentence("next: "+p.next(g).words), widgets.Accent), p.actions(g))
	parts := newRecordParts()
	body.Add(parts.careful)
	for _, r := range p.kept[g.ID] {
		p.addFabric(body, g, r)
	}
	if len(p.kept[g.ID]) == 0 && (g.State == garment.Wanted || g.State == garment.Reserved) {
		body.Add(widgets.Remark("", "No fabric is reserved yet.", widgets.Plain))
	}
	body.Add(parts.fit)
	body.Add(p.adjustments(g))
	p.addWork(body, g)
	p.addStrips(body, g)
	p.addFittings(body, g)
	p.addStitches(body, g)
	body.Add(parts.seams)
	body.Add(parts.figures)
	p.addSaid(body, g)
	p.leaf.Content = widgets.Inset(body)
	p.height = 0
	if p.shownID == g.ID && before != nil { // the same garment stays at the same height
		p.leaf.Offset, p.height = before.Offset, before.Offset.Y
	}
	p.shownID = g.ID
	p.detail.Objects = []fyne.CanvasObject{p.leaf}
	p.detail.Refresh()
	p.readRecord(parts, g.ID)
}

// papers are what goes onto paper of a garment, what is cut once its cloth is reserved, after what
// changes or copies it.
func (p *Page) papers(g garment.Garment) fyne.CanvasObject {
	change := widgets.NewButton("Change", func() { p.change(g) })
	again := widgets.NewButton("Make it again", func() { p.again(g) })
	p.host.Names.Set("garment.change", change)
	p.host.Names.Set("garment.again", again)
	read := paperui.Of(p.host, g.ID)
	project := widgets.NewButton("Project sheet", func() { paperui.Project(p.host, g.ID) })
	p.host.Names.Set("garment.project", project)
	if len(p.kept[g.ID]) == 0 {
		return container.NewHBox(change, again, project)
	}
	list := widgets.NewButton("Cut list", func() { paperui.CutList(p.host, read) })
	p.host.Names.Set("garment.cutlist", list)
	sheet := widgets.NewButton("Cutting sheet", func() { p.sheet(g) })
	full := widgets.NewButton("Full size", func() { paperui.FullSize(p.host, read) })
	p.host.Names.Set("garment.sheet", sheet)
	p.host.Names.Set("garment.full", full)
	return container.NewVBox(container.NewHBox(change, again), container.NewHBox(sheet, list, full, project))
}

// sheet opens the cutting sheet, from which a reserved garment is marked cut.
func (p *Page) sheet(g garment.Garment) {
	if p.ticks[g.ID] == nil {
		p.ticks[g.ID] = paperui.Ticks{}
	}
	paperui.Sheet(p.host, paperui.Of(p.host, g.ID), p.ticks[g.ID], func() { p.cut(g) })
}

// addFabric shows a reservation: the cloth with this garment's pattern pieces on it.
func (p *Page) addFabric(body *fyne.Container, g garment.Garment, r stash.Reservation) {
	c, ok := p.cloths[r.ClothID]
	if !ok {
		return
	}
	open := widget.NewHyperlink(c.Fabric.Name+" "+c.Cloth.Code, nil)
	open.OnTapped = func() { p.host.Go(page.Route{Place: page.Stash, ID: c.Cloth.ID}) }
	body.Add(container.NewHBox(widgets.SubHeading("Used for "+r.UsedFor), open))
	view := widgets.NewLayoutView(fyne.NewSize(240, 200))
	v := p.host.Voice()
	pic := answer.Picture(v, c, nil)
	pic.Reserved = nil
	for _, other := range c.Reservations {
		for _, q := range other.Pieces {
			piece := widgets.PicturePiece{Name: q.Name, Outline: q.Outline}
			if other.ID == r.ID {
				piece.Top = q.GrainTo
				pic.Pieces = append(pic.Pieces, piece)
				continue
			}
			if o, ok := p.garment(other.GarmentID); ok && other.GarmentID != g.ID {
				piece.Note = o.Name
			}
			pic.Reserved = append(pic.Reserved, piece)
		}
	}
	view.Away = p.host.Away("garment " + r.ID.String())
	view.Draw(pic)
	view.Hovered = p.host.Tell
	view.LieOn(p.leaf)
	body.Add(view)
}

// addStrips lists the binding strips kept with the garment.
func (p *Page) addStrips(body *fyne.Container, g garment.Garment) {
	if len(g.Strips) == 0 {
		return
	}
	v := p.host.Voice()
	body.Add(widgets.SubHeading("Strips"))
	if when := say.StripsWhen(g.StripsToLength(p.patterns[g.PatternID])); when != "" {
		body.Add(widgets.Remark("", when, widgets.Accent))
	}
	if after := v.AfterTakeIn(g); after != "" {
		body.Add(widgets.Remark("", after, widgets.Accent))
	}
	if strap := v.Strap(g); strap != "" {
		body.Add(widgets.Remark("", strap, widgets.Good))
	}
	for _, s := range g.Strips {
		n := max(s.Strip.Job.Count, 1)
		body.Add(widgets.Remark("", s.Edge+": "+say.Count(n, "strip", "strips")+", "+v.Fine(s.Strip.CutLength)+" long, "+v.Fine(s.Strip.CutWidth)+" wide.", widgets.Plain))
	}
}

// addStitches shows the stitches noted on the garment; until it is cut, those of its fabrics
// that it will take over.
func (p *Page) addStitches(body *fyne.Container, g garment.Garment) {
	var of []stash.ID
	for _, r := range p.kept[g.ID] {
		of = append(of, p.cloths[r.ClothID].Fabric.ID)
	}
	body.Add(stashui.GarmentStitching(p.host, g, p.fabrics, of, p.Focus, p.Shown).Object())
	seen := map[stash.ID]bool{}
	for _, id := range of {
		f := p.fabrics[id]
		if g.State != garment.Reserved || seen[id] || len(f.Stitches) == 0 {
			continue
		}
		seen[id] = true
		body.Add(widgets.Remark("", "Noted on "+f.Name+", and kept with the garment once it is cut:", widgets.Quiet))
		for _, n := range f.Stitches {
			body.Add(widgets.Remark("· ", say.Stitch(n), widgets.Quiet))
		}
	}
}

func (p *Page) release(g garment.Garment) {
	p.host.Act("release", func(ctx context.Context) (string, error) {
		n, err := p.host.Studio.Release(ctx, g.ID)
		return "Released " + say.Count(n, "piece of cloth", "pieces of cloth") + " that " + g.Name + " had. Ctrl+Z reserves them again.", err
	}, func(error) { p.Shown() })
}

// goOn notes that a garment came a step further.
func (p *Page) goOn(g garment.Garment, to garment.State) {
	g.State = to
	p.host.Act("go on", func(ctx context.Context) (string, error) {
		return g.Name + " is marked " + string(to) + ". Ctrl+Z takes it back.", p.host.Studio.SaveGarment(ctx, g)
	}, func(error) { p.Shown() })
}

func (p *Page) giveUp(g garment.Garment) {
	g.State = garment.GivenUp
	p.host.Act("give up", func(ctx context.Context) (string, error) {
		return "Gave up " + g.Name + ". Ctrl+Z wants it again.", p.host.Studio.SaveGarment(ctx, g)
	}, func(error) { p.Shown() })
}
