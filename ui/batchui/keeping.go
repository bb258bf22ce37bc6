package batchui

import (
	"context"
	"strings"

	"fyne.io/fyne/v2"

	"tallycloth/planner"
	"tallycloth/stash"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// keepForm asks for the name that the batch is kept under.
func (p *Page) keepForm() {
	name := widgets.NewField("Name", "tanks for the spring class", nil)
	name.Needed = "Give it a name."
	name.Set(p.draft.Name)
	p.host.Names.Set("form.name", name.Entry)
	f := &widgets.Form{Title: "Keep this batch", Send: "Keep", Say: say.Error, Width: 460, Fields: []*widgets.Field{name}, Rows: [][]fyne.CanvasObject{{name.Object()}},
		Intro: "Another name keeps it beside the plans that are kept already; the same name replaces that one."}
	f.Done = func() error { p.keepAs(strings.TrimSpace(name.Text())); return nil }
	p.host.ShowForm(f)
}

// withPlan is the draft with the plan in sight, where that still answers it.
func (p *Page) withPlan() planner.Batch {
	b := p.asked()
	if p.found != nil && p.found.edits == p.edits {
		plan := p.found.plan
		b.Plan = &plan
	}
	return b
}

// keepAs keeps the batch under a name: in place of the one that has it, or beside the others.
func (p *Page) keepAs(name string) {
	b := p.withPlan()
	if b.Name != name {
		b.ID = stash.NoID
	}
	for _, k := range p.kept {
		if k.Name == name {
			b.ID = k.ID
		}
	}
	b.Name = name
	told := "Kept " + name + " with its plan."
	if b.Plan == nil {
		told = "Kept " + name + ", without a plan."
	}
	p.host.Act("keep batch", func(ctx context.Context) (string, error) {
		var err error
		b, err = p.host.Studio.SaveBatch(ctx, b)
		return told, err
	}, func(err error) {
		if err != nil {
			return
		}
		p.draft.ID, p.draft.Name, p.dirty = b.ID, b.Name, false
		delete(p.toBuy, b.ID)
		p.Shown()
	})
}

// open goes on from a batch that is kept.
func (p *Page) open(b planner.Batch) {
	plan := b.Plan
	b.Plan = nil
	p.draft, p.found = b, nil
	p.edits++
	p.say("", widgets.Quiet)
	if plan == nil {
		p.turn(viewCloth)
	} else {
		p.planned(&found{asked: p.asked(), edits: p.edits, plan: *plan})
		p.turn(viewCuts)
	}
	p.dirty = false
	p.fill()
}

// takeUp goes on from the batch that was in hand when the window closed last.
func (p *Page) takeUp(b *planner.Batch) {
	if b == nil || len(p.draft.Rows) > 0 {
		return
	}
	p.open(*b)
	p.dirty = true // it is under no name yet, or not as it is now
}

// Leaving remembers what is in hand when the window closes, the best plan so far with it.
func (p *Page) Leaving(ctx context.Context) {
	if !p.read || p.host.Studio.ReadOnly() != "" {
		return // what was in hand last time was not even looked at
	}
	var b *planner.Batch
	if p.dirty && len(p.draft.Rows) > 0 {
		now := p.withPlan()
		b = &now
	}
	if err := p.host.Studio.KeepInHand(ctx, b); err != nil {
		p.host.Trouble(err)
	}
}
