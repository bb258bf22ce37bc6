package stashui

import (
	"context"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"tallycloth/planner"
	"tallycloth/stash"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// goodFor says what a leftover is still good for. What nobody has worked out yet is, once
// the detail stands.
func (p *Page) goodFor(c stash.ClothState, known planner.GoodFor) fyne.CanvasObject {
	const most = 6
	words := container.NewVBox()
	show := func(g planner.GoodFor) {
		words.Objects = []fyne.CanvasObject{widgets.Remark("", say.GoodFor(g, most), widgets.Plain)}
		words.Refresh()
	}
	show(known)
	p.host.Names.Set("stash.goodfor", words)
	p.host.Tasks.Stop("stash.goodfor")
	if known.Unknown > 0 {
		var found planner.GoodFor
		p.host.Tasks.Start("stash.goodfor", func(ctx context.Context, _ func(func())) (err error) {
			found, err = p.host.Studio.WorkOutUses(ctx, c, nil)
			return err
		}, func(err error) {
			if p.host.Trouble(err); err == nil {
				show(found)
			}
		})
	}
	return container.NewVBox(widgets.SubHeading("Good for"), words)
}
