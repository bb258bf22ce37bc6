package stashui

import (
	"context"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"tallycloth/planner"
	"tallycloth/ui/page"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// noHits stands where the list would be when nothing answers the filter: what was looked for, how to
// see everything again, and of an old code what became of that cloth.
type noHits struct {
	page   *Page
	says   *fyne.Container
	object fyne.CanvasObject
	code   string // asked about last
}

func (p *Page) newNoHits() *noHits {
	n := &noHits{page: p, says: container.NewVBox()}
	n.object = container.NewBorder(widgets.Inset(n.says), nil, nil, nil)
	n.object.Hide()
	p.host.Names.Set("stash.nohits", n.says)
	return n
}

// show says that nothing answers a filter, or goes away.
func (n *noHits) show(f filter, nothing bool) {
	n.code = ""
	if !nothing {
		n.object.Hide()
		return
	}
	n.fill(widgets.SubHeading("Nothing on the shelf is like that"),
		widgets.Paragraph(say.Sentence("It was looked for "+f.said(n.page.host.Voice()))+" Words are looked for in name, colour, fibres, kind, stretch, code, lot, place and notes."))
	if len(f.words) == 1 {
		n.ask(f.words[0])
	}
}

// fill shows what is told, with the way back to everything under it.
func (n *noHits) fill(told ...fyne.CanvasObject) {
	all := widgets.NewButton("Show everything (Esc)", func() { n.page.filter.SetText(""); n.page.Focus() })
	n.page.host.Names.Set("stash.all", all)
	n.says.Objects = append(told, container.NewHBox(all))
	n.object.Show()
	n.says.Refresh()
}

// ask looks whether a word is the code of a cloth that is gone.
func (n *noHits) ask(code string) {
	n.code = code
	var b planner.Became
	var found bool
	n.page.host.Tasks.Start("stash.became", func(ctx context.Context, _ func(func())) (err error) {
		b, found, err = n.page.host.Studio.WhatBecame(ctx, code)
		return err
	}, func(err error) {
		switch {
		case err != nil:
			n.page.host.Trouble(err)
		case found && n.code == code:
			n.tell(b)
		}
	})
}

// tell says what became of a cloth and leads to what is left of it.
func (n *noHits) tell(b planner.Became) {
	ways := container.NewHBox()
	for i, c := range b.Left {
		if i == 3 {
			break // the sentence names the others
		}
		ways.Add(n.way("Show "+c.Code, "stash.left."+c.Code, page.Route{Place: page.Stash, ID: c.ID}))
	}
	n.fill(widgets.SubHeading(b.Cloth.Code+" is an old code"), widgets.Paragraph(say.Sentence(b.Words())), ways)
}

func (n *noHits) way(text, name string, to page.Route) fyne.CanvasObject {
	b := widgets.NewButton(text, func() { n.page.Open(to) })
	n.page.host.Names.Set(name, b)
	return b
}
