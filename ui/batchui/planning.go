package batchui

import (
	"context"
	"fmt"
	"slices"
	"time"

	"tallycloth/planner"
	"tallycloth/planner/garment"
	"tallycloth/ui/say"
	"tallycloth/ui/task"
	"tallycloth/ui/widgets"
)

// found is a plan with what it answers.
type found struct {
	asked   planner.Batch // as it was when it was planned
	edits   int
	plan    planner.BatchPlan
	misses  []planner.NearestMiss
	buy     []planner.ClothToBuy
	working bool // misses and buy are being worked out
	times   int  // how often the same question was planned before
	trouble string
}

// run is a planning under way.
type run struct {
	stop    func()
	wanted  int
	seconds int
	plan    planner.BatchPlan
	any     bool
}

// asked is the draft as a question that later changes leave alone.
func (p *Page) asked() planner.Batch {
	b := p.draft
	b.Rows, b.Pins, b.Order = slices.Clone(b.Rows), slices.Clone(b.Pins), slices.Clone(b.Order)
	b.May.Only, b.May.Never, b.May.First = slices.Clone(b.May.Only), slices.Clone(b.May.Never), slices.Clone(b.May.First)
	return b
}

// plan plans the batch away from the window's thread. It goes on while another place is in
// sight; each better plan is drawn when this one is.
func (p *Page) plan() {
	if p.run != nil {
		return
	}
	if len(p.draft.Rows) == 0 {
		p.host.Tell("Nothing is wanted yet. Add garments first.")
		return
	}
	h := p.host
	b, edits := p.asked(), p.edits
	effort, times := p.effort()
	ctx, stop := context.WithCancel(context.Background())
	r := &run{stop: stop, wanted: say.Wants(b.Rows)}
	p.run = r
	h.Tasks.Stop("batch.after")
	p.progress()
	p.ready()
	var got planner.BatchPlan
	h.Tasks.Start("batch.plan", func(work context.Context, show func(func())) (err error) {
		ends := context.AfterFunc(work, stop)
		defer ends()
		frames := task.NewFrames(h.Tasks, nil, func(plan planner.BatchPlan) {
			show(func() { p.came(r, &found{asked: b, edits: edits, plan: plan}) })
		})
		defer frames.Close()
		h.Tasks.Each(ctx, time.Second, func(n int) {
			show(func() {
				if p.run == r {
					r.seconds = n
					p.progress()
				}
			})
		})
		got, err = h.Studio.PlanBatch(ctx, b, effort, frames.Tell)
		return err
	}, func(err error) {
		stopped := ctx.Err() != nil
		stop()
		p.run = nil
		switch {
		case err != nil && stopped:
			p.say("Stopped before there was a plan.", widgets.Careful)
		case err != nil:
			p.say(say.Error(err), widgets.Bad)
		default:
			p.planned(&found{asked: b, edits: edits, plan: got, times: times})
		}
		p.ready()
	})
}

// effort is how long to plan: from the plan in sight on, and where that answers the same
// question twice as long as the last time.
func (p *Page) effort() (planner.BatchEffort, int) {
	e, f := p.host.Planning, p.found
	if f == nil {
		return e, 0
	}
	from := f.asked
	from.Plan = &f.plan
	e.From = &from
	if !p.goesOn() {
		return e, 0
	}
	times := min(f.times+1, 6)
	if e.Rounds == 0 {
		e.Time = max(e.Time, time.Minute) << times
	}
	return e, times
}

// goesOn says whether planning now goes on from the plan in sight, with the same question.
func (p *Page) goesOn() bool { return p.found != nil && p.found.edits == p.edits }

// came shows a better plan of the planning under way.
func (p *Page) came(r *run, f *found) {
	if p.run != r {
		return
	}
	r.plan, r.any = f.plan, true
	p.dirty = true
	first := p.found == nil || p.current == viewCloth
	p.found = f
	if first && len(f.plan.Made) > 0 {
		p.turn(viewCuts)
	} else {
		p.views[p.current].fill()
	}
	p.progress()
}

// progress says how far the planning is.
func (p *Page) progress() {
	text := "Looking which garments the cloth can give …"
	if p.run.any {
		text = say.Planning(p.run.plan, p.run.wanted) + "."
		if p.run.plan.AtMostMore() == 0 {
			text += " Looking for one that wastes less."
		}
	}
	if p.run.seconds > 0 {
		text += fmt.Sprintf(" %d s.", p.run.seconds)
	}
	p.say(text, widgets.Accent)
}

// planned shows the plan that planning ended with, and has what is missing worked out.
func (p *Page) planned(f *found) {
	p.found, p.dirty = f, true
	p.reserved, p.outdated = nil, nil
	p.sum()
	if p.current == viewCloth {
		p.turn(viewCuts)
		if len(f.plan.Made) == 0 {
			p.turn(viewMissing)
		}
	}
	if len(f.plan.Missing) > 0 {
		p.after(f)
	}
	p.fill()
}

// sum says what the plan in sight comes to.
func (p *Page) sum() {
	f := p.found
	text := say.Planned(f.plan, say.Wants(f.asked.Rows))
	if len(f.plan.Made) > 0 {
		text += " " + p.voice().PlanSum(f.plan)
	}
	tone := widgets.Good
	if len(f.plan.Missing) > 0 {
		tone = widgets.Careful
	}
	p.say(text, tone)
}

// after works out the nearest misses of what is not made, and what to buy for it.
func (p *Page) after(f *found) {
	h := p.host
	f.working = true
	h.Tasks.Start("batch.after", func(ctx context.Context, show func(func())) error {
		plan := f.plan
		if plan.AtMostMore() > 0 {
			more, n, err := h.Studio.FillIn(ctx, f.asked, plan)
			if err != nil {
				return err
			}
			if plan = more; n > 0 {
				show(func() { p.filled(f, more) })
			}
		}
		misses, err := h.Studio.NearestMisses(ctx, f.asked, plan)
		if err != nil {
			return err
		}
		show(func() { f.misses = misses; p.refill(f) })
		buy, err := h.Studio.WhatToBuy(ctx, f.asked, plan)
		show(func() { f.buy = buy })
		return err
	}, func(err error) {
		f.working = false
		if err != nil {
			f.trouble = say.Error(err)
		}
		p.refill(f)
	})
}

// filled takes garments into a plan that found cloth beside it.
func (p *Page) filled(f *found, more planner.BatchPlan) {
	f.plan = more
	if p.found != f || p.run != nil {
		return
	}
	p.dirty = true
	p.sum()
	p.fill()
}

// refill shows a plan anew if it is the one in sight.
func (p *Page) refill(f *found) {
	if p.found == f {
		p.views[p.current].fill()
	}
}

// reserveAll reserves the cloth of the plan in sight for all its garments, or says why not.
func (p *Page) reserveAll() {
	f := p.found
	if f == nil || p.run != nil {
		return
	}
	var made []garment.Garment
	p.host.Act("reserve all", func(ctx context.Context) (_ string, err error) {
		made, err = p.host.Studio.ReserveAll(ctx, f.asked, f.plan)
		return "Reserved cloth for " + say.Count(len(made), "garment", "garments") + ". Ctrl+Z releases all of it.", err
	}, func(err error) {
		if err != nil {
			p.say("Nothing was reserved. "+say.Error(err), widgets.Bad)
			return
		}
		p.reserved = nil
		for _, g := range made {
			p.reserved = append(p.reserved, g.ID)
		}
		p.say(say.Count(len(made), "garment is", "garments are")+" reserved now, at the place Garments. Ctrl+Z releases all of it.", widgets.Good)
		p.Shown()
	})
}

// released says again what the plan in sight comes to once nothing is reserved for it any more.
func (p *Page) released() {
	if len(p.reserved) == 0 {
		return
	}
	for _, c := range p.cloths {
		for _, r := range c.Reservations {
			if slices.Contains(p.reserved, r.GarmentID) {
				return
			}
		}
	}
	p.reserved = nil
	if p.found != nil && p.run == nil {
		p.sum()
	}
}

// doubt looks whether the plan in sight still goes with the shelf, and says so where it does not: then
// nothing can be reserved by it.
func (p *Page) doubt() {
	if p.found == nil || p.run != nil || len(p.reserved) > 0 {
		return
	}
	was := p.outdated
	switch p.outdated = p.found.plan.Outdated(p.cloths); {
	case p.outdated != nil:
		p.say(say.Error(p.outdated), widgets.Careful)
	case was != nil:
		p.sum()
	}
}
