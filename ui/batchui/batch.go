package batchui

import (
	"context"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"tallycloth/planner"
	"tallycloth/planner/pattern"
	"tallycloth/planner/sizing"
	"tallycloth/stash"
	"tallycloth/ui/page"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// view is one side of the place beside what is wanted.
type view interface {
	object() fyne.CanvasObject
	fill()  // shows anew what is known
	focus() // puts the focus where work begins
}

// Page is the place.
type Page struct {
	host  *page.Host
	draft planner.Batch // what is asked; its Plan stays nil
	edits int           // counts changes of the draft
	// reserved are the garments that cloth was reserved for from the plan in sight.
	reserved []stash.ID
	// outdated says why the plan in sight does not go with the shelf any more, nil where it does.
	outdated error
	dirty    bool // something in hand is not kept in the library
	read     bool // the library was read once

	patterns []pattern.Pattern
	fabrics  []stash.Fabric
	cloths   []stash.ClothState
	people   []sizing.Person
	sizes    map[int]planner.RowSize // proposed for the people of the rows now, by row
	kept     []planner.Batch

	found *found // the plan in sight, nil before there is one
	run   *run   // the planning under way

	title          *widgets.Short
	rows           *widgets.RowList
	empty          fyne.CanvasObject
	asks           *fyne.Container // sentences on cloth and pins
	whole, order   *widgets.Choice
	change, out    *widgets.Button
	start, reserve *widgets.Button
	keep           *widgets.Button
	paper, full    *widgets.Button
	says           *fyne.Container
	stage          *fyne.Container
	views          []view
	buttons        []*widgets.Button
	current        int
	cloth          *clothView
	cuts           *cutsView
	object         fyne.CanvasObject
	toBuy          map[stash.ID]string // of kept plans, once it was worked out
	filling        bool                // choices are being filled in
	stop           *widgets.Button     // ends the planning under way, in a place of its own
	loose          *widgets.Button
	looseBox       *fyne.Container
}

// The views in their order.
const (
	viewCloth = iota
	viewCuts
	viewGarments
	viewMissing
	viewCompare
)

// New returns the place.
func New(h *page.Host) *Page {
	p := &Page{host: h, says: container.NewVBox(), asks: container.NewVBox(), stage: container.NewStack(), current: -1, toBuy: map[stash.ID]string{}}
	left := p.wanted()
	p.cloth, p.cuts = newClothView(p), newCutsView(p)
	p.add("Cloth", "cloth", p.cloth)
	p.add("Plan by cloth", "plan", p.cuts)
	p.add("Garments", "made", newMadeView(p))
	p.add("Not made, to buy", "missing", newMissingView(p))
	p.add("Side by side", "compare", newCompareView(p))
	tabs := container.NewHBox()
	for _, b := range p.buttons {
		tabs.Add(b)
	}
	p.start = widgets.Primary("Plan", p.plan)
	p.stop = widgets.NewButton("Keep the best so far", func() { p.EscapeHere() })
	p.reserve = widgets.NewButton("Reserve all", p.reserveAll)
	p.keep = widgets.NewButton("Keep under a name", p.keepForm)
	fresh := widgets.NewButton("New batch", p.begin)
	p.papers()
	for name, o := range map[string]fyne.CanvasObject{"batch.go": p.start, "batch.stop": p.stop, "batch.reserve": p.reserve, "batch.keep": p.keep, "batch.new": fresh} {
		h.Names.Set(name, o)
	}
	p.title = widgets.ShortLine("", widgets.Quiet)
	head := container.NewBorder(nil, nil, widgets.Heading("Batch"), container.NewHBox(fresh, p.keep, p.paper, p.full, p.stop, p.reserve, p.start), container.NewPadded(container.NewVBox(layout.NewSpacer(), p.title, layout.NewSpacer())))
	right := container.NewPadded(container.NewBorder(container.NewVBox(p.says, tabs), nil, nil, nil, p.stage))
	p.object = container.NewPadded(container.NewBorder(head, nil, nil, nil, widgets.Sides(left, right, 0.4)))
	p.turn(viewCloth)
	p.say("", widgets.Quiet)
	p.ready()
	return p
}

func (p *Page) add(name, key string, v view) {
	i := len(p.views)
	b := widgets.NewButton(name, func() { p.turn(i); p.views[i].focus() })
	p.host.Names.Set("batch.view."+key, b)
	p.views, p.buttons = append(p.views, v), append(p.buttons, b)
}

// turn brings a view into sight.
func (p *Page) turn(i int) {
	p.current = i
	for k, b := range p.buttons {
		b.Importance = widget.LowImportance
		if k == i {
			b.Importance = widget.MediumImportance
		}
		b.Refresh()
	}
	p.views[i].fill()
	p.stage.Objects = []fyne.CanvasObject{p.views[i].object()}
	p.stage.Refresh()
}

// say puts the one sentence above the views.
func (p *Page) say(text string, tone widgets.Tone) {
	if text == "" {
		text, tone = "Say what is wanted and which cloth may be used, then plan.", widgets.Quiet
	}
	p.says.Objects = []fyne.CanvasObject{p.host.Names.Set("batch.says", widgets.Remark("", text, tone))}
	p.says.Refresh()
}

// changed notes that the draft is another one.
func (p *Page) changed() {
	p.edits++
	p.dirty = true
	if p.found != nil && p.run == nil {
		p.say("The plan in sight answers what was asked before. Plan again.", widgets.Careful)
	}
	p.fill()
}

// fill shows everything anew.
func (p *Page) fill() {
	p.fillWanted()
	p.views[p.current].fill()
	p.ready()
}

// ready says what the buttons can do now.
func (p *Page) ready() {
	can := func(b *widgets.Button, ok bool) {
		if ok {
			b.Enable()
		} else {
			b.Disable()
		}
	}
	planned := p.found != nil && len(p.found.plan.Made) > 0 && p.run == nil
	fresh := planned && p.outdated == nil && len(p.reserved) == 0
	can(p.reserve, fresh)
	can(p.paper, planned)
	can(p.full, planned)
	can(p.keep, len(p.draft.Rows) > 0 && p.run == nil)
	can(p.start, len(p.draft.Rows) > 0 && p.run == nil)
	can(p.stop, p.run != nil)
	p.start.SetText("Plan")
	switch {
	case p.goesOn() && p.found.plan.AtMostMore() > 0:
		p.start.SetText("Keep planning")
	case p.found != nil:
		p.start.SetText("Plan again")
	}
	fresh = fresh && p.found.edits == p.edits
	next := p.start
	switch {
	case p.run != nil:
		next = p.stop
	case fresh:
		next = p.reserve
	}
	for _, b := range []*widgets.Button{p.start, p.stop, p.reserve} {
		if b.Importance = widget.MediumImportance; b == next {
			b.Importance = widget.HighImportance
		}
	}
	p.start.Refresh()
	p.stop.Refresh()
	p.reserve.Refresh()
	_, chosen := p.rows.ChosenRow()
	can(p.change, chosen)
	can(p.out, chosen)
	p.title.Set(p.draft.Name, widgets.Quiet)
}

// Object is the place's content.
func (p *Page) Object() fyne.CanvasObject { return p.object }

// Shown reads the library again.
func (p *Page) Shown() {
	var patterns []pattern.Pattern
	var fabrics []stash.Fabric
	var cloths []stash.ClothState
	var people []sizing.Person
	var kept []planner.Batch
	var inHand *planner.Batch
	first := !p.read
	p.host.Tasks.Start("batch.read", func(ctx context.Context, _ func(func())) (err error) {
		if patterns, err = p.host.Studio.Patterns(ctx); err != nil {
			return err
		}
		if fabrics, err = p.host.Studio.Fabrics(ctx); err != nil {
			return err
		}
		if cloths, err = p.host.Studio.Cloths(ctx); err != nil {
			return err
		}
		if people, err = p.host.Studio.People(ctx); err != nil {
			return err
		}
		if kept, err = p.host.Studio.Batches(ctx); err != nil || !first {
			return err
		}
		inHand, err = p.host.Studio.InHand(ctx)
		return err
	}, func(err error) {
		if err != nil {
			p.host.Trouble(err)
			return
		}
		p.patterns, p.fabrics, p.people, p.kept = patterns, fabrics, people, kept
		p.cloths = slices.DeleteFunc(cloths, func(c stash.ClothState) bool { return c.Cloth.Gone })
		if !p.read {
			p.read = true
			p.takeUp(inHand)
		}
		p.released()
		p.doubt()
		p.fill()
		p.proposeSizes()
	})
}

// Open follows a route into the place.
func (p *Page) Open(page.Route) { p.Shown() }

// Focus puts the focus on what is wanted.
func (p *Page) Focus() { p.host.Focus(p.rows) }

// Find puts the focus into the filter line of the cloth.
func (p *Page) Find() {
	p.turn(viewCloth)
	p.host.Focus(p.cloth.filter)
}

// New asks for another row.
func (p *Page) New() { p.addRow() }

// EscapeHere keeps the best so far of a planning under way.
func (p *Page) EscapeHere() bool {
	if p.run == nil {
		return false
	}
	p.run.stop()
	return true
}

// begin starts another batch; what was kept stays kept.
func (p *Page) begin() {
	if p.run != nil {
		p.host.Tell("The planning is still on. Keep the best so far first.")
		return
	}
	p.draft = planner.Batch{May: planner.MayUse{WholeLengths: p.draft.May.WholeLengths}, Order: p.draft.Order}
	p.found = nil
	p.say("", widgets.Quiet)
	p.turn(viewCloth)
	p.changed()
	p.dirty = false
	p.addRow()
}

// patternOf is the pattern of a row; its name says so where it is gone.
func (p *Page) patternOf(id stash.ID) pattern.Pattern {
	for _, q := range p.patterns {
		if q.ID == id {
			return q
		}
	}
	return pattern.Pattern{Name: "a pattern that is gone"}
}

func (p *Page) fabricName(id stash.ID) string {
	for _, f := range p.fabrics {
		if f.ID == id {
			return f.Name
		}
	}
	return "a fabric that is gone"
}

// clothOf is a cloth of the shelf as it is now.
func (p *Page) clothOf(id stash.ID) (stash.ClothState, bool) {
	for _, c := range p.cloths {
		if c.Cloth.ID == id {
			return c, true
		}
	}
	return stash.ClothState{}, false
}

func (p *Page) voice() say.Voice { return p.host.Voice() }
