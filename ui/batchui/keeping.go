package batchui

import (
	"context"
	"slices"
	"strings"

	"fyne.io/fyne/v2"

	"tallycloth/planner"
	"tallycloth/stash"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// unfinished is the name of what was in hand when the window closed.
const unfinished = "Unfinished, from last time"

// keepForm asks for the name that the batch is kept under.
func (p *Page) keepForm() {
	name := widgets.NewField("Name", "tanks for the spring class", nil)
	name.Needed = "Give it a name."
	if p.draft.Name != unfinished {
		name.Set(p.draft.Name)
	}
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

// keepAs keeps the batch under a name: in place of the one that has it, or of what was
// unfinished, or beside the others.
func (p *Page) keepAs(name string) {
	b := p.withPlan()
	if b.Name != name && b.Name != unfinished {
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

// takeUp goes on from what was unfinished when the window closed last.
func (p *Page) takeUp() {
	for _, b := range p.kept {
		if b.Name == unfinished && len(p.draft.Rows) == 0 {
			p.open(b)
		}
	}
}

// Leaving keeps what is in hand when the window closes, the best plan so far with it.
func (p *Page) Leaving(ctx context.Context) {
	if !p.dirty || len(p.draft.Rows) == 0 || p.host.Studio.ReadOnly() != "" {
		return
	}
	b := p.withPlan()
	if b.Name != unfinished {
		b.ID, b.Name = stash.NoID, unfinished
		for _, k := range p.kept {
			if k.Name == unfinished {
				b.ID = k.ID
			}
		}
	}
	if _, err := p.host.Studio.SaveBatch(ctx, b); err != nil {
		p.host.Trouble(err)
	}
}

// outOfDate says whether a cloth of the plan in sight is another now: gone, of another size, washed, or with
// something else reserved on it.
func (p *Page) outOfDate() bool {
	if p.found == nil {
		return false
	}
	for _, cut := range p.found.plan.Cuts {
		was := cut.Cloth
		i := slices.IndexFunc(p.cloths, func(c stash.ClothState) bool { return c.Cloth.ID == was.Cloth.ID })
		if i < 0 {
			return true
		}
		now := p.cloths[i]
		same := slices.EqualFunc(now.Reservations, was.Reservations, func(a, b stash.Reservation) bool { return a.ID == b.ID })
		if !same || now.Cloth.Length != was.Cloth.Length || now.Cloth.Width != was.Cloth.Width || now.Cloth.Washed != was.Cloth.Washed {
			return true
		}
	}
	return false
}

// age says that a plan is out of date, and again what it comes to where it is not any more.
func (p *Page) age() {
	was := p.aged
	p.aged = p.run == nil && len(p.reserved) == 0 && p.outOfDate()
	switch {
	case p.aged:
		p.say("The cloth of this plan changed since it was made: plan again.", widgets.Careful)
	case was && p.found != nil && p.run == nil && len(p.reserved) == 0:
		p.sum()
	}
}
