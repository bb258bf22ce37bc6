package batchui

import (
	"tallycloth/planner"
	"tallycloth/stash"
	"tallycloth/ui/paperui"
	"tallycloth/ui/widgets"
)

// papers makes the buttons of what goes onto paper of the plan in sight.
func (p *Page) papers() {
	p.paper = widgets.NewButton("On paper", func() {
		if p.found != nil {
			paperui.Batch(p.host, p.inSight(), func(id stash.ID) string { return p.patternOf(id).Name })
		}
	})
	p.full = widgets.NewButton("Full size", func() {
		if p.found != nil {
			paperui.FullSize(p.host, paperui.OfBatch(p.host, p.inSight()))
		}
	})
	p.host.Names.Set("batch.paper", p.paper)
	p.host.Names.Set("batch.full", p.full)
}

// inSight is what the plan in sight answers, with it.
func (p *Page) inSight() planner.Batch {
	b, plan := p.found.asked, p.found.plan
	b.Plan = &plan
	return b
}
