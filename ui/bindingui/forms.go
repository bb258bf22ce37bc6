package bindingui

import (
	"context"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"tallycloth/planner/binding"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/ui/paper"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// Worked keeps on the fabric that these strips worked.
func (p *Page) Worked() {
	f := p.from.now()
	if p.answer == nil || f.ID == stash.NoID {
		p.host.Tell("Choose the fabric of the strips: what worked is kept with it.")
		return
	}
	strips := p.answer.Strips
	drew := widgets.NewField("Straps drew out by, if measured", "3 %", readShare)
	note := widgets.NewField("What to remember", "lies flat, next time 1 cm shorter", nil)
	p.host.Names.Set("binding.worked.drawn", drew.Entry)
	p.host.Names.Set("binding.worked.note", note.Entry)
	form := &widgets.Form{Title: "These strips worked", Send: "Keep", Say: say.Error, Width: 460, Fields: []*widgets.Field{drew, note},
		Intro: "Ratio, widths and today's date are kept with " + f.Name + ", and offered the next time it is finished like this.",
		Rows:  [][]fyne.CanvasObject{{drew.Object()}, {note.Object()}}}
	form.Done = func() error {
		drawn := 0.0
		if d, err := measure.ParsePercent(drew.Text()); err == nil {
			drawn = d.Fraction()
		}
		words := note.Text()
		p.host.Act("keep strips that worked", func(ctx context.Context) (string, error) {
			for _, s := range strips {
				if _, err := p.host.Studio.KeepStrip(ctx, f.ID, s, drawn, words); err != nil {
					return "", err
				}
			}
			return "Noted on " + f.Name + ".", nil
		}, func(error) { p.Shown() })
		return nil
	}
	p.host.ShowForm(form)
	p.host.Names.Set("binding.worked.send", form.SendButton())
}

// OwnTechnique adds a way to finish an edge by its layers in words, drawn while they are typed.
func (p *Page) OwnTechnique() {
	name := widgets.NewField("Its name", "Rolled rim", nil)
	name.Needed = "Give it a short name."
	drawn := widgets.NewSceneView(360, 130)
	layers := widgets.NewField("Its layers", "two widths, two seams, one turn, wraps the edge", func(text string) (string, error) {
		r, err := binding.ParseRecipe(text)
		if err != nil {
			return "", err
		}
		return r.String(), nil
	})
	layers.Needed = "Say which layers lie in it."
	layers.Changed = func() {
		r, err := binding.ParseRecipe(layers.Text())
		if err != nil {
			return
		}
		f := binding.Finish{Technique: "own", Own: r, Width: measure.Centimetre, Seam: 8 * measure.Millimetre, Turn: 2 * measure.Millimetre, Caught: binding.CaughtPlain}
		if w, err := f.CutWidth(); err == nil {
			drawn.Draw(paper.SectionScene(p.host.Voice(), binding.Strip{Job: binding.Job{Finish: f}, CutWidth: w}))
		}
	}
	p.host.Names.Set("binding.own.name", name.Entry)
	p.host.Names.Set("binding.own.layers", layers.Entry)
	own := p.ownTechniques()
	form := &widgets.Form{Title: "A technique of your own", Send: "Add", Say: say.Error, Width: 520, Fields: []*widgets.Field{name, layers},
		Intro: "Count the layers across the strip: finished widths, seams, turns of cloth, caught edges; then how it lies: wraps the edge, stands above the edge, or turned in.",
		Rows:  [][]fyne.CanvasObject{{name.Object()}, {layers.Object()}, {drawn}, {own}}}
	form.Done = func() error {
		said, words := name.Text(), layers.Text()
		if _, err := binding.ParseRecipe(words); err != nil {
			return err
		}
		p.host.Act("add a technique", func(ctx context.Context) (string, error) {
			return "Added the technique " + said + ".", p.host.Studio.AddTechnique(ctx, said, words)
		}, func(error) { p.Shown() })
		return nil
	}
	p.host.ShowForm(form)
	p.host.Names.Set("binding.own.send", form.SendButton())
}

// ownTechniques lists the techniques that were added, each with a button that removes it; Undo brings
// it back. Strips that were worked out keep their layers.
func (p *Page) ownTechniques() *fyne.Container {
	list := container.NewVBox()
	for _, o := range p.host.Settings().Techniques.List() {
		name := o.Name
		var row fyne.CanvasObject
		drop := widgets.NewButton("Remove", func() {
			p.host.Act("remove a technique", func(ctx context.Context) (string, error) {
				return "Removed the technique " + name + ". Undo brings it back.", p.host.Studio.DropTechnique(ctx, name)
			}, func(err error) {
				if err == nil {
					list.Remove(row)
				}
				p.Shown()
			})
		})
		p.host.Names.Set("binding.own.drop."+name, drop)
		row = container.NewBorder(nil, nil, nil, container.NewVBox(drop), widgets.Remark("", say.Sentence(name+": "+o.Layers), widgets.Plain))
		list.Add(row)
	}
	return list
}

// lengthField is a field of a length in a form.
func (p *Page) lengthField(name, text string, changed func()) *widgets.Field {
	f := widgets.NewField(name, text, p.how.length)
	f.Set(text)
	f.Changed = changed
	return f
}

func (p *Page) lengthOf(f *widgets.Field) measure.Length {
	l, err := measure.ParseLength(f.Text(), p.how.bare())
	if err != nil {
		return 0
	}
	return l
}

func shareOf(f *widgets.Field) measure.Percent {
	s, err := measure.ParsePercent(f.Text())
	if err != nil {
		return 0
	}
	return s
}

// usual is the usual length in the person's units.
func (p *Page) usual(metric, imperial string) string {
	if p.host.Voice().Units == measure.Imperial {
		return imperial
	}
	return metric
}

// Elastic works elastic for a waist or leg out while its measures are typed.
func (p *Page) Elastic() {
	told := container.NewVBox()
	var tell func()
	length := func(name, text string) *widgets.Field { return p.lengthField(name, text, func() { tell() }) }
	share := func(name, text string) *widgets.Field {
		f := widgets.NewField(name, text, readShare)
		f.Set(text)
		f.Changed = func() { tell() }
		return f
	}
	girth, width, lap := length("Girth of the body there", ""), length("Width of the elastic", p.usual("2 cm", "3/4 in")), length("Lap", p.usual("13 mm", "1/2 in"))
	factor, stretch, hip := share("Share of the girth", "90 %"), share("The elastic stretches", ""), length("Must pass (hip)", "")
	ease, under := length("Casing wider by", p.usual("3 mm", "1/8 in")), length("Turned under", "0")
	tell = func() {
		e := binding.Elastic{Girth: p.lengthOf(girth), Factor: shareOf(factor).Fraction(), Lap: p.lengthOf(lap), Stretch: shareOf(stretch), Passes: p.lengthOf(hip),
			Width: p.lengthOf(width), EaseIn: p.lengthOf(ease), TurnUnder: p.lengthOf(under), Units: p.host.Settings().Units}
		cut, err := e.Work()
		told.Objects = nil
		if err != nil {
			told.Add(widgets.Remark("", say.Error(err), widgets.Quiet))
		} else {
			told.Add(widgets.Remark("", say.Sentence(cut.Text(e.Units)), widgets.Plain))
			for _, c := range cut.Checks {
				told.Add(checkLine(c))
			}
		}
		told.Refresh()
	}
	tell()
	for name, f := range map[string]*widgets.Field{"girth": girth, "width": width, "lap": lap, "share": factor, "stretch": stretch, "hip": hip} {
		p.host.Names.Set("binding.elastic."+name, f.Entry)
	}
	p.host.Names.Set("binding.elastic.told", told)
	form := &widgets.Form{Title: "Elastic for a waist or leg", Send: "Copy numbers", Say: say.Error, Width: 620,
		Intro: "Elastic may contain latex: ask who will wear it.",
		Rows: [][]fyne.CanvasObject{{girth.Object(), factor.Object(), lap.Object()}, {width.Object(), stretch.Object(), hip.Object()},
			{ease.Object(), under.Object()}, {told}}}
	form.Done = func() error { return p.copyTold(told) }
	p.host.ShowForm(form)
	p.host.Focus(girth.Entry)
}

// Bias works continuous bias out, from a rectangle and the reverse.
func (p *Page) Bias() {
	told := container.NewVBox()
	var tell func()
	length := func(name, text string) *widgets.Field { return p.lengthField(name, text, func() { tell() }) }
	wide, long, cut, seam, wanted := length("Rectangle wide", p.usual("50 cm", "20 in")), length("and long", p.usual("50 cm", "20 in")), length("Bias cut", p.usual("4 cm", "1 1/2 in")), length("Seams of the tube", p.usual("6 mm", "1/4 in")), length("Bias wanted", "")
	tell = func() {
		v := p.host.Voice()
		c := binding.Continuous{Width: p.lengthOf(wide), Length: p.lengthOf(long), CutWidth: p.lengthOf(cut), Seam: p.lengthOf(seam)}
		told.Objects = nil
		most, _ := binding.BiasYield(c.Width, c.Length, c.CutWidth)
		told.Add(widgets.Remark("", "A rectangle of "+v.Fine(c.Width)+" by "+v.Fine(c.Length)+" gives "+v.Length(c.Yield())+" of bias; its area allows "+v.Length(most)+" at most.", widgets.Plain))
		if w := p.lengthOf(wanted); w > 0 {
			if side, err := binding.SquareFor(w, c.CutWidth, c.Seam); err == nil {
				told.Add(widgets.Remark("", "For "+v.Length(w)+" take a square of "+v.Fine(side)+".", widgets.Plain))
			} else {
				told.Add(widgets.Remark("", say.Error(err), widgets.Careful))
			}
			if l, err := binding.RectangleFor(w, c.Width, c.CutWidth, c.Seam); err == nil {
				told.Add(widgets.Remark("", "Or "+v.Fine(l)+" of cloth "+v.Fine(c.Width)+" wide.", widgets.Plain))
			}
		}
		told.Refresh()
	}
	tell()
	for name, f := range map[string]*widgets.Field{"wide": wide, "long": long, "cut": cut, "seam": seam, "wanted": wanted} {
		p.host.Names.Set("binding.bias."+name, f.Entry)
	}
	p.host.Names.Set("binding.bias.told", told)
	form := &widgets.Form{Title: "Continuous bias", Send: "Copy numbers", Say: say.Error, Width: 560,
		Rows: [][]fyne.CanvasObject{{wide.Object(), long.Object(), wanted.Object()}, {cut.Object(), seam.Object()}, {told}}}
	form.Done = func() error { return p.copyTold(told) }
	p.host.ShowForm(form)
	p.host.Focus(wide.Entry)
}

// copyTold puts what was worked out where other programs paste from.
func (p *Page) copyTold(told *fyne.Container) error {
	text := ""
	for _, o := range told.Objects {
		if s, ok := o.(interface{ Said() string }); ok {
			text += s.Said() + "\n"
		}
	}
	fyne.CurrentApp().Clipboard().SetContent(text)
	p.host.Tell("The numbers are copied: paste them where you want them.")
	return nil
}
