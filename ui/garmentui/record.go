package garmentui

import (
	"context"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"tallycloth/planner"
	"tallycloth/planner/garment"
	"tallycloth/stash"
	"tallycloth/ui/say"
	"tallycloth/ui/stashui"
	"tallycloth/ui/widgets"
)

// recordParts are the parts of a garment's detail that follow from the whole library; they
// are filled in once it was read.
type recordParts struct {
	careful *fyne.Container // cautions
	fit     *fyne.Container // how the size sits on whom it is for
	seams   *fyne.Container // thread by seam
	figures *fyne.Container // fabrics by use, notions, cost, fibres
}

func newRecordParts() recordParts {
	return recordParts{container.NewVBox(), container.NewVBox(), container.NewVBox(), container.NewVBox()}
}

// read fills the parts in for a garment.
func (p *Page) readRecord(parts recordParts, id stash.ID) {
	var r planner.GarmentRecord
	p.host.Tasks.Start("garment.record", func(ctx context.Context, _ func(func())) (err error) {
		r, err = p.host.Studio.GarmentRecord(ctx, id)
		return err
	}, func(err error) {
		if err != nil {
			p.host.Trouble(err)
			return
		}
		p.fillRecord(parts, r)
	})
}

func (p *Page) fillRecord(parts recordParts, r planner.GarmentRecord) {
	for _, c := range r.Cautions {
		parts.careful.Add(widgets.Remark("! ", c.Says(), widgets.Careful))
	}
	p.addFit(parts.fit, r)
	p.addThread(parts.seams, r)
	p.addFigures(parts.figures, r)
	for _, o := range []*fyne.Container{parts.careful, parts.fit, parts.seams, parts.figures} {
		o.Refresh()
	}
	p.stay()
}

// stay goes back to the height at which the garment was before it was shown anew, which it may be too
// short for until all of it was read.
func (p *Page) stay() {
	if p.leaf != nil && p.leaf.Content != nil && p.leaf.Offset.Y < p.height {
		p.leaf.ScrollToOffset(fyne.NewPos(0, p.height))
	}
}

// addFit says how the size sits on whom it is for.
func (p *Page) addFit(body *fyne.Container, r planner.GarmentRecord) {
	if !r.Fit.Known {
		return
	}
	v := p.host.Voice()
	title := "Size and ease"
	if r.Fit.Fabric != "" {
		title += " in " + r.Fit.Fabric
	}
	body.Add(widgets.SubHeading(title))
	body.Add(widgets.Figures(v.FitRows(r)))
	for _, s := range v.GarmentFit(r) {
		body.Add(widgets.Remark("· ", s, widgets.Plain))
	}
}

// addThread lists the thread by seam.
func (p *Page) addThread(body *fyne.Container, r planner.GarmentRecord) {
	v := p.host.Voice()
	body.Add(widgets.SubHeading("Thread by seam"))
	for _, s := range r.Thread.Seams {
		body.Add(widgets.Remark("· ", v.SeamThread(s), widgets.Plain))
	}
	if w := say.Breaks(r.Breaks); w != "" {
		body.Add(widgets.Remark("! ", w, widgets.Careful))
	}
	for _, s := range v.Thread(r.Thread) {
		body.Add(widgets.Remark("", s, widgets.Quiet))
	}
	note := widgets.NewButton("Note a seam", func() { p.noteSeam(r) })
	p.host.Names.Set("garment.seam", note)
	body.Add(container.NewHBox(note))
}

// addFigures lists fabrics by use, notions, cost and fibre content.
func (p *Page) addFigures(body *fyne.Container, r planner.GarmentRecord) {
	v := p.host.Voice()
	if len(r.Fabrics)+len(r.Notions) == 0 {
		return
	}
	body.Add(widgets.SubHeading("What is in it"))
	for _, f := range r.Fabrics {
		body.Add(widgets.Remark("· ", say.Sentence(v.GarmentFabric(f)), widgets.Plain))
	}
	for _, n := range r.Notions {
		body.Add(widgets.Remark("· ", say.Sentence(n.Notion.Name+", "+stash.FormatQuantity(n.Used, n.Notion.Unit)), widgets.Plain))
	}
	if s := v.GarmentCost(r); s != "" {
		body.Add(widgets.Remark("", "Cost: "+s, widgets.Plain))
	}
	if s := say.Blend(r.Blend); s != "" {
		body.Add(widgets.Remark("", "Fibres: "+s, widgets.Plain))
	}
}

// addSaid is what was said of a garment: days, purpose, what it was copied from, notes.
func (p *Page) addSaid(body *fyne.Container, g garment.Garment) {
	lines := [][2]string{{"What it is for: ", g.Record.Purpose}, {"Days: ", say.Days(g)}, {"", g.Notes}}
	if from, ok := p.garment(g.Record.CopyOf); ok {
		text := from.Name
		if strap, _ := from.Strap(); strap > 0 {
			text += ", whose strap was " + p.host.Voice().Fine(strap) + " as fitted"
		}
		lines = append(lines, [2]string{"Made again after ", text})
	}
	if g.Wanted != "" {
		lines = append(lines, [2]string{"Wanted for ", say.Day(g.Wanted)})
	}
	titled := false
	for _, l := range lines {
		if l[1] == "" {
			continue
		}
		if !titled {
			body.Add(widgets.SubHeading("Notes"))
			titled = true
		}
		body.Add(widgets.Remark("", say.Sentence(l[0]+l[1]), widgets.Plain))
	}
}

// addFittings lists what was seen at fittings, and the photos of the garment.
func (p *Page) addFittings(body *fyne.Container, g garment.Garment) {
	body.Add(widgets.SubHeading("Fittings and photos"))
	body.Add(stashui.GarmentFittings{Host: p.host, Garment: g, Focus: p.Focus, Shown: p.Shown}.Object())
}
