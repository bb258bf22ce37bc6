package bindingui

import (
	"context"
	"fmt"
	"image/color"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"tallycloth/planner"
	"tallycloth/planner/binding"
	"tallycloth/planner/garment"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/ui/page"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// typed is the word for an edge that no pattern has.
const typed = "an edge I measured"

// Page is the place Binding.
type Page struct {
	host   *page.Host
	object fyne.CanvasObject

	pattern, size, edge *widgets.Choice
	parts               *partTable
	drawing             *drawnEdge
	finish              *finishFields
	how                 *howFields
	from                *fromFields
	name                *widgets.Entry // of an edge that is typed
	kept                keptEdges
	edgeTools           *fyne.Container // what only a typed edge has
	count               *widgets.Field
	closed              *widgets.Check
	shown               *answerView
	reserve             *widgets.Button
	papers              []*widgets.Button // what goes onto paper or is copied: wants an answer
	one, every          *fyne.Container   // the fields of one edge; all edges in words
	whose               *widget.Label     // the garment that the strips are for

	patterns []pattern.Pattern
	garments []garment.Garment
	jobs     []binding.Job   // of the pattern and size chosen
	garment  stash.ID        // the garment a route came from, or NoID
	held     map[string]held // how each edge is held in while all of them are shown
	filling  bool            // fields are being filled in: do not work strips out yet
	answer   *planner.BindingAnswer
}

// New returns the place.
func New(h *page.Host) *Page {
	p := &Page{host: h, held: map[string]held{}}
	p.pattern = widgets.NewChoice("Pattern", []string{typed}, func(string) { p.chosePattern() })
	p.size = widgets.NewChoice("Size", nil, func(string) { p.choseSize() })
	p.edge = widgets.NewChoice("Edge to finish", nil, func(string) { p.choseEdge() })
	p.parts = newPartTable(h, p.work)
	p.finish = newFinishFields(h, p.work)
	p.how = newHowFields(h, p.work)
	p.from = newFromFields(h, func() { p.quietly(func() { p.finish.words(p.from.now().Thickness) }); p.tellEvery(); p.work() })
	p.name = widgets.NewEntry("neck")
	p.name.OnChanged = func(string) { p.work() }
	p.kept.list = container.NewVBox()
	p.count = widgets.NewField("How many alike", "1", readCount)
	p.count.Set("1")
	p.count.Changed = p.work
	p.closed = widgets.NewCheck("It is a ring", func(bool) { p.work() })
	p.shown = newAnswerView()
	p.reserve = widgets.NewButton("Reserve strips", p.Reserve)
	p.reserve.Importance = widget.HighImportance
	p.reserve.Disable()
	print, guide, numbers := widgets.NewButton("Print", p.Print), widgets.NewButton("Marking guide", p.Guide), widgets.NewButton("Copy numbers", p.Copy)
	p.papers = []*widgets.Button{print, guide, numbers}
	for name, o := range map[string]fyne.CanvasObject{
		"binding.pattern": p.pattern, "binding.size": p.size, "binding.edge": p.edge, "binding.reserve": p.reserve,
		"binding.count": p.count.Entry, "binding.closed": p.closed, "binding.answer": p.shown.box,
		"binding.name": p.name, "binding.print": print, "binding.guide": guide, "binding.copy": numbers,
	} {
		h.Names.Set(name, o)
	}
	p.whose = widget.NewLabel("")
	p.whose.Truncation = fyne.TextTruncateEllipsis
	h.Names.Set("binding.whose", p.whose)
	p.object = p.build()
	p.fillSizes(pattern.Pattern{})
	return p
}

func (p *Page) build() fyne.CanvasObject {
	button := func(name, text string, tapped func()) fyne.CanvasObject {
		b := widgets.NewButton(text, tapped)
		p.host.Names.Set(name, b)
		return b
	}
	p.edgeTools = container.NewVBox(container.NewBorder(nil, nil, nil, container.NewVBox(widgets.Caption(" "), button("binding.keep", "Keep it, add another edge", p.KeepEdge)), labelled("The edge is called", p.name)), p.kept.list)
	p.parts.tools.Add(button("binding.draw", "Draw the edge", p.Draw))
	p.one = container.NewVBox(
		widgets.SubHeading("The edge, on the stitching line"),
		p.parts.object,
		container.NewGridWithColumns(3, p.count.Object(), container.NewVBox(widgets.Caption(" "), p.closed), layout.NewSpacer()),
		p.edgeTools,
		widgets.SubHeading("The finish"),
		p.finish.object,
		widgets.SubHeading("Held in, cut and joined"),
		p.how.object,
		container.NewHBox(button("binding.own", "Technique of your own", p.OwnTechnique), button("binding.worked", "These strips worked", p.Worked)))
	p.every = container.NewVBox()
	left := container.NewVBox(
		container.NewGridWithColumns(3, p.pattern.Object(), p.size.Object(), p.edge.Object()),
		p.from.choice.Object(), // in sight from the first moment: how far a strip may stretch rests on it
		p.one, p.every,
		widgets.SubHeading("The cloth to cut from"),
		p.from.object,
	)
	head := container.NewBorder(nil, nil, widgets.Heading("Binding"), container.NewHBox(button("binding.elastic", "Elastic", p.Elastic), button("binding.bias", "Bias", p.Bias), p.papers[2], p.papers[1], p.papers[0], p.reserve), p.whose)
	wide := canvas.NewRectangle(color.Transparent) // one edge or all of them: the line between stays where it is
	wide.SetMinSize(fyne.NewSize(leastLine, 0))
	split := widgets.Sides(
		container.NewVScroll(widgets.Inset(container.NewStack(wide, left))),
		p.shown.scroll, 0.46)
	return container.NewBorder(container.NewPadded(head), nil, nil, nil, split)
}

// Object is the place's content.
func (p *Page) Object() fyne.CanvasObject { return p.object }

// Focus puts the focus on the choice of an edge.
func (p *Page) Focus() { p.host.Focus(p.pattern) }

// Find does the same: there is nothing to filter.
func (p *Page) Find() { p.Focus() }

// New starts with an edge of one's own.
func (p *Page) New() {
	p.pattern.SetSelected(typed)
	p.parts.focus()
}

// Open takes over the pattern and size of a garment, or a pattern in a size.
func (p *Page) Open(r page.Route) {
	p.garment = stash.NoID
	p.read(func() {
		p.choose(r.ID, r.Size)
		for _, g := range p.garments {
			if g.ID == r.ID {
				p.garment = g.ID
				p.choose(g.PatternID, g.Size)
				p.from.kept(g.ID)
			}
		}
	})
}

// choose fills pattern and size in.
func (p *Page) choose(id stash.ID, size string) {
	for _, q := range p.patterns {
		if q.ID == id {
			p.quietly(func() { p.pattern.SetSelected(q.Name); p.fillSizes(q) })
			p.quietly(func() { p.size.SetSelected(size) })
			p.choseSize()
		}
	}
}

// Shown reads again what can be chosen.
func (p *Page) Shown() { p.read(nil) }

func (p *Page) read(then func()) {
	var patterns []pattern.Pattern
	var garments []garment.Garment
	var cloths []stash.ClothState
	p.host.Tasks.Start("binding.read", func(ctx context.Context, _ func(func())) (err error) {
		if patterns, err = p.host.Studio.Patterns(ctx); err != nil {
			return err
		}
		if garments, err = p.host.Studio.Garments(ctx); err != nil {
			return err
		}
		cloths, err = p.host.Studio.Cloths(ctx)
		return err
	}, func(err error) {
		if err != nil {
			p.host.Trouble(err)
			return
		}
		p.patterns, p.garments = patterns, garments
		p.quietly(func() {
			words, bare := []string{typed}, []string(nil)
			for _, q := range patterns {
				if len(q.Edges) > 0 {
					words = append(words, q.Name)
				} else {
					bare = append(bare, q.Name+noEdges)
				}
			}
			words = append(words, bare...)
			p.pattern.Words(words)
			p.from.set(cloths)
			p.finish.words(p.from.now().Thickness)
		})
		if then != nil {
			then()
		}
		p.work()
	})
}

// quietly fills fields in without working strips out after each.
func (p *Page) quietly(f func()) {
	was := p.filling
	p.filling = true
	f()
	p.filling = was
}

func (p *Page) patternNow() (pattern.Pattern, bool) {
	for _, q := range p.patterns {
		if q.Name == p.pattern.Selected {
			return q, true
		}
	}
	return pattern.Pattern{}, false
}

// noEdges stands behind the name of a pattern of which no edge is known.
const noEdges = " (its edges are not known)"

func (p *Page) chosePattern() {
	q, ok := p.patternNow()
	if name, bare := strings.CutSuffix(p.pattern.Selected, noEdges); bare {
		p.host.Tell("Which edges of " + name + " are to be finished is not known. Measure one on its paper, type its parts here or press “Draw the edge”.")
	}
	p.fillSizes(q)
	p.edgeTools.Show()
	if ok {
		p.edgeTools.Hide()
	}
	if !ok {
		p.tellWhose(stash.NoID)
		p.jobs = nil
		clear(p.how.caught)
		p.quietly(func() { p.edge.Words(nil) })
		p.work()
		return
	}
	p.choseSize()
}

// fillSizes offers the sizes of a pattern.
func (p *Page) fillSizes(q pattern.Pattern) {
	for _, c := range []*widgets.Choice{p.size, p.edge} {
		c.Object().Hide()
		if len(q.Sizes) > 0 {
			c.Object().Show()
		}
	}
	var sizes []string
	for _, s := range q.Sizes {
		sizes = append(sizes, s.Name)
	}
	p.quietly(func() { p.size.Words(sizes) })
}

// choseSize reads the edges of the pattern in the size.
func (p *Page) choseSize() {
	q, ok := p.patternNow()
	if !ok || p.filling {
		return
	}
	size := p.size.Selected
	p.tellWhose(p.ownGarment(q.ID, size))
	var jobs []binding.Job
	p.host.Tasks.Start("binding.edges", func(ctx context.Context, _ func(func())) (err error) {
		if id := p.ownGarment(q.ID, size); id != stash.NoID {
			jobs, err = p.host.Studio.GarmentEdgeJobs(ctx, id)
			return err
		}
		jobs, err = p.host.Studio.EdgeJobs(ctx, q.ID, size)
		return err
	}, func(err error) {
		if err != nil {
			p.shown.trouble(err)
			return
		}
		p.jobs = jobs
		var words []string
		if len(jobs) > 1 {
			words = append(words, allEdges)
		}
		for _, j := range jobs {
			words = append(words, j.Name)
		}
		p.quietly(func() { p.edge.Words(words) })
		p.choseEdge()
	})
}

// ownGarment is the garment a route came from while its own pattern and size are chosen: its
// edges are measured as it is adjusted.
func (p *Page) ownGarment(patternID stash.ID, size string) stash.ID {
	for _, g := range p.garments {
		if g.ID == p.garment && g.PatternID == patternID && g.Size == size {
			return g.ID
		}
	}
	return stash.NoID
}

// tellWhose says beside the heading for which garment strips are worked out.
func (p *Page) tellWhose(id stash.ID) {
	p.whose.SetText("")
	for _, g := range p.garments {
		if g.ID == id && id != stash.NoID {
			p.whose.SetText("for " + g.Name)
		}
	}
}

// allEdges works the strips of every edge of a pattern out together, so that they are
// cut from the same cloth.
const allEdges = "all of them"

// choseEdge fills the edge's parts and finish in.
func (p *Page) choseEdge() {
	if p.filling {
		return
	}
	p.one.Show()
	p.every.Hide()
	if p.edge.Selected == allEdges {
		p.one.Hide()
		p.tellEvery()
		p.every.Show()
	}
	if j, ok := p.jobNow(); ok {
		p.quietly(func() {
			p.parts.set(j.Segments)
			p.finish.set(j.Finish)
			p.how.set(j)
			p.count.Set(countText(j.Count))
			p.closed.SetChecked(j.Closed)
		})
	}
	p.work()
}

// tellEvery lists the edges again where all are shown: what they can be held in by hangs on the fabric.
func (p *Page) tellEvery() {
	if p.edge != nil && p.edge.Selected == allEdges {
		p.every.Objects = p.edgesInWords()
		p.every.Refresh()
	}
}

// edgesInWords lists the edges of the pattern as they are finished.
func (p *Page) edgesInWords() []fyne.CanvasObject {
	v := p.host.Voice()
	out := []fyne.CanvasObject{widgets.SubHeading("The edges, on the stitching line")}
	for _, j := range p.jobs {
		var whole measure.Length
		for _, s := range j.Segments {
			whole += s.Whole()
		}
		text := j.Name + ", " + v.Fine(whole)
		if j.Count > 1 {
			text += fmt.Sprintf(", %d of them", j.Count)
		}
		out = append(out, widgets.Remark("· ", say.Sentence(text+": "+string(j.Finish.Technique)+", "+v.Fine(j.Finish.Width)+" wide"), widgets.Plain), p.heldChoice(j).Object())
	}
	return append(out, widgets.Remark("", "Choose one of them above to change its parts or its finish.", widgets.Quiet))
}

// jobNow is the pattern's edge that is chosen, if one is.
func (p *Page) jobNow() (binding.Job, bool) {
	for _, j := range p.jobs {
		if j.Name == p.edge.Selected {
			return j, true
		}
	}
	return binding.Job{}, false
}
