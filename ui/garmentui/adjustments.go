package garmentui

import (
	"context"
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"tallycloth/planner"
	"tallycloth/planner/adjust"
	"tallycloth/planner/garment"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// adjustments is the part of a garment's detail with its adjustments, filled in once they were read.
func (p *Page) adjustments(g garment.Garment) fyne.CanvasObject {
	box := container.NewVBox(widgets.SubHeading("Adjustments"))
	var a planner.Adjusted
	p.host.Tasks.Start("garment.adjusted", func(ctx context.Context, _ func(func())) (err error) {
		a, err = p.host.Studio.AdjustedGarment(ctx, g.ID)
		return err
	}, func(err error) {
		if err != nil {
			a = planner.Adjusted{Garment: g}
			box.Add(widgets.Remark("! ", say.Error(err), widgets.Careful))
		}
		p.fillAdjustments(box, a)
		box.Refresh()
		p.stay()
	})
	return box
}

func (p *Page) fillAdjustments(box *fyne.Container, a planner.Adjusted) {
	v := p.host.Voice()
	g := a.Garment
	if len(g.Adjustments) == 0 {
		box.Add(widgets.Remark("", "The pattern is as it was drafted.", widgets.Quiet))
	}
	for i, s := range g.Adjustments {
		box.Add(widgets.Remark("", fmt.Sprintf("%d. %s", i+1, v.Adjustment(s)), widgets.Plain))
		box.Add(p.adjustmentButtons(a, i+1, s))
	}
	for _, s := range v.Adjusted(a.Plain, a.Sewn) {
		box.Add(widgets.Remark("· ", say.Sentence(s), widgets.Quiet))
	}
	for _, s := range a.Notes {
		box.Add(widgets.Remark("! ", s, widgets.Careful))
	}
	if g.State == garment.GivenUp {
		return
	}
	for i, o := range a.Offers {
		take := widgets.NewButton("Take over", func() { p.takeOver(g, o) })
		take.Importance = widget.LowImportance
		p.host.Names.Set(fmt.Sprintf("adjust.take.%d", i+1), take)
		box.Add(container.NewBorder(nil, nil, nil, container.NewVBox(take), widgets.Remark("", say.Sentence(o.From+": "+v.Adjustment(o.Step)), widgets.Accent)))
	}
	add := widgets.NewButton("Adjust it", func() { p.adjustForm(a, 0) })
	p.host.Names.Set("adjust.add", add)
	box.Add(container.NewHBox(add))
}

// adjustmentButtons change, remove and keep an adjustment.
func (p *Page) adjustmentButtons(a planner.Adjusted, n int, s adjust.Step) fyne.CanvasObject {
	g := a.Garment
	change := widgets.NewButton("Change", func() { p.adjustForm(a, n) })
	remove := widgets.NewButton("Remove", func() { p.dropAdjustment(g, n) })
	row := container.NewHBox(change, remove)
	p.host.Names.Set(fmt.Sprintf("adjust.change.%d", n), change)
	p.host.Names.Set(fmt.Sprintf("adjust.remove.%d", n), remove)
	if who := strings.TrimSpace(g.For); who != "" && s.Keeps() && !a.Keeps(s) { // one who is not on the list yet is asked for
		keep := widgets.NewButton("Keep for "+who, func() { p.keepAdjustment(g, n) })
		p.host.Names.Set(fmt.Sprintf("adjust.keep.%d", n), keep)
		keep.Importance = widget.LowImportance
		row.Add(keep)
	}
	change.Importance, remove.Importance = widget.LowImportance, widget.LowImportance
	if g.State.Step() >= garment.Cut.Step() && !s.AfterCut { // its cloth was cut by it
		change.Disable()
		remove.Disable()
	}
	return row
}

func (p *Page) takeOver(g garment.Garment, o planner.Offer) {
	p.adjusting("take over", func(ctx context.Context) (planner.Adjustment, error) {
		return p.host.Studio.TakeOver(ctx, g.ID, []adjust.Step{o.Step})
	}, "Taken over.")
}

func (p *Page) dropAdjustment(g garment.Garment, n int) {
	p.adjusting("drop adjustment", func(ctx context.Context) (planner.Adjustment, error) {
		return p.host.Studio.DropAdjustment(ctx, g.ID, n)
	}, "Removed the adjustment.")
}

// adjusting changes adjustments and tells what became of cloth and strips.
func (p *Page) adjusting(name string, do func(context.Context) (planner.Adjustment, error), told string) {
	p.host.Act(name, func(ctx context.Context) (string, error) {
		out, err := do(ctx)
		if w := out.Words(); w != "" {
			told += " " + w
		}
		return told + " Ctrl+Z takes it back.", err
	}, func(error) { p.Shown() })
}

func (p *Page) keepAdjustment(g garment.Garment, n int) {
	p.host.Act("keep adjustment", func(ctx context.Context) (string, error) {
		who, err := p.host.Studio.KeepAdjustment(ctx, g.ID, n)
		return "Kept for " + who.Name + ": it is offered at their next garments.", err
	}, func(error) { p.Shown() })
}
