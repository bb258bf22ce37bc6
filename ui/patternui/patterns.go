package patternui

import (
	"context"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"tallycloth/planner/garment"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/shape"
	"tallycloth/ui/page"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// Page is the place Patterns.
type Page struct {
	host   *page.Host
	filter *widgets.Entry
	list   *widgets.RowList
	empty  fyne.CanvasObject
	detail *fyne.Container
	shelf  fyne.CanvasObject // list and detail
	object *fyne.Container   // the shelf, or the comparison over it

	patterns []pattern.Pattern
	garments []garment.Garment
	size     map[stash.ID]string // size last looked at, by pattern
	wanted   page.Route
	find     *finder // the comparison, while it is in sight
	bring    *importer
	tracer   *pieceTracer
	folk     *people
	draft    *quick
}

// New returns the place.
func New(h *page.Host) *Page {
	p := &Page{host: h, detail: container.NewStack(), size: map[stash.ID]string{}}
	p.filter = widgets.NewEntry("Filter: name, kind or maker")
	p.filter.OnChanged = func(string) { p.fill() }
	p.filter.OnSubmitted = func(string) { p.Focus() }
	p.filter.Escape = func() { p.filter.SetText(""); p.Focus() }
	p.list = widgets.NewRowList([]widgets.Column{{Title: "Sizes", Width: 66, Yields: 1}, {Title: "Asks of its main fabric", Width: 170, Yields: 2}})
	p.list.Pictured = true
	p.list.Chosen = func(r widgets.Row) { p.show(r.Key.(stash.ID)) }
	p.list.Act = func(widgets.Row) { p.FindFabric() }
	bring := widgets.NewButton("Bring in outlines", p.New)
	bring.Importance = widget.HighImportance
	quick := widgets.NewButton("Quick outline", p.Quick)
	people := widgets.NewButton("People", p.People)
	trace := widgets.NewButton("Trace a picture", p.TracePiece)
	h.Names.Set("patterns.trace", trace)
	h.Names.Set("patterns.quick", quick)
	h.Names.Set("patterns.people", people)
	p.empty = p.noPatterns()
	top := container.NewVBox(container.NewBorder(nil, nil, widgets.Heading("Patterns"), container.NewHBox(people, quick, trace, bring)), p.filter, p.list.Header("Pattern"))
	left := container.NewBorder(top, nil, nil, nil, container.NewStack(p.list, p.empty))
	split := h.Sides("patterns", container.NewPadded(left), p.detail, 0.5)
	p.shelf = split
	p.object = container.NewStack(split)
	h.Names.Set("patterns.list", p.list)
	h.Names.Set("patterns.filter", p.filter)
	h.Names.Set("patterns.bring", bring)
	p.nothingChosen()
	return p
}

func (p *Page) noPatterns() fyne.CanvasObject {
	first := widgets.NewButton("Bring in outlines", p.New)
	first.Importance = widget.HighImportance
	quick := widgets.NewButton("Quick outline", p.Quick)
	p.host.Names.Set("patterns.quick.first", quick)
	demo := widgets.NewButton("Open the demo studio", p.host.Demo)
	p.host.Names.Set("patterns.first", first)
	p.host.Names.Set("patterns.demo", demo)
	return container.NewCenter(container.NewVBox(
		widgets.SubHeading("No patterns yet"),
		widgets.Line("Patterns belong here, with their pattern pieces in every size.", widgets.Quiet),
		widgets.Line("Outlines come from SVG drawings of a vector editor, or approximate ones from measurements.", widgets.Quiet),
		first, quick, demo))
}

// Object is the place's content.
func (p *Page) Object() fyne.CanvasObject { return p.object }

// Focus puts the focus on the list in sight.
func (p *Page) Focus() {
	if p.find != nil {
		p.host.Focus(p.find.list)
		return
	}
	p.host.Focus(p.list)
}

// UndoHere takes the last step of a layout in hand back.
func (p *Page) UndoHere() bool { return p.find != nil && p.find.Undo() }

// RedoHere does again the step of a layout in hand that was taken back last.
func (p *Page) RedoHere() bool { return p.find != nil && p.find.Redo() }

// EscapeHere stops the search that goes on from the layout in sight.
func (p *Page) EscapeHere() bool { return p.find != nil && p.find.halted() }

// Find puts the focus into the filter line.
func (p *Page) Find() {
	if p.find != nil {
		p.back()
	}
	p.host.Focus(p.filter)
}

// Open chooses a pattern, and compares the shelf with it if the route asks so.
func (p *Page) Open(r page.Route) {
	p.wanted = r
	p.filter.SetText("")
	p.Shown()
}

// Shown reads the patterns again. A comparison in sight is made again too, since the
// shelf may have changed.
func (p *Page) Shown() {
	var patterns []pattern.Pattern
	var garments []garment.Garment
	p.host.Tasks.Start("patterns.read", func(ctx context.Context, _ func(func())) (err error) {
		if patterns, err = p.host.Studio.Patterns(ctx); err != nil {
			return err
		}
		garments, err = p.host.Studio.Garments(ctx)
		return err
	}, func(err error) {
		if err != nil {
			p.host.Trouble(err)
			return
		}
		p.patterns, p.garments = patterns, garments
		p.fill()
		if p.folk.inSight() {
			p.folk.read()
		}
		if p.find != nil && p.wanted.ID == stash.NoID {
			p.find.look()
		}
		p.follow()
	})
}

// follow does what a route asked for, once the patterns are there.
func (p *Page) follow() {
	r := p.wanted
	p.wanted = page.Route{}
	q, ok := p.pattern(r.ID)
	if !ok {
		return
	}
	if p.find != nil {
		p.back()
	}
	if _, has := q.Size(r.Size); has {
		p.size[q.ID] = r.Size
	}
	p.list.Choose(q.ID)
	p.show(q.ID)
	if r.Do == page.FindFabric {
		p.compare(q, p.sizeOf(q), r.For)
	}
}

func (p *Page) fill() {
	words := strings.Fields(strings.ToLower(p.filter.Text))
	var rows []widgets.Row
	for _, q := range p.patterns {
		hay := strings.ToLower(q.Name + " " + q.Kind + " " + q.Maker)
		if has(hay, words) {
			rows = append(rows, rowOf(q))
		}
	}
	p.list.Set(rows)
	p.empty.Hide()
	if len(p.patterns) == 0 {
		p.empty.Show()
	}
	if r, ok := p.list.ChosenRow(); ok {
		p.show(r.Key.(stash.ID))
	} else {
		p.nothingChosen()
	}
}

func has(hay string, words []string) bool {
	for _, w := range words {
		if !strings.Contains(hay, w) {
			return false
		}
	}
	return true
}

func rowOf(q pattern.Pattern) widgets.Row {
	sub := q.Kind
	if q.Maker != "" {
		sub += " · " + q.Maker
	}
	sizes := ""
	if n := len(q.Sizes); n > 0 {
		sizes = q.Sizes[0].Name
		if n > 1 {
			sizes += " – " + q.Sizes[n-1].Name
		}
	}
	asks := "not said"
	if r, ok := q.Role(pattern.Main); ok {
		asks = say.AsksShort(r)
	}
	return widgets.Row{Key: q.ID, Title: q.Name, Sub: strings.Trim(sub, " ·"), Drawn: widgets.Silhouettes(silhouettes(q)),
		Cells: []widgets.Cell{{Text: sizes}, {Text: asks}}}
}

// silhouettes are the whole outlines of a pattern's pieces in its middle size, the
// largest three.
func silhouettes(q pattern.Pattern) []shape.Ring {
	if len(q.Sizes) == 0 {
		return nil
	}
	size := q.Sizes[len(q.Sizes)/2].Name
	var out []shape.Ring
	for _, piece := range q.Pieces {
		if r := piece.Whole(size); len(r) > 2 && len(out) < 3 {
			out = append(out, r)
		}
	}
	return out
}

func (p *Page) pattern(id stash.ID) (pattern.Pattern, bool) {
	for _, q := range p.patterns {
		if q.ID == id {
			return q, true
		}
	}
	return pattern.Pattern{}, false
}

// chosen is the pattern chosen in the list.
func (p *Page) chosen() (pattern.Pattern, bool) {
	r, ok := p.list.ChosenRow()
	if !ok {
		return pattern.Pattern{}, false
	}
	return p.pattern(r.Key.(stash.ID))
}

// sizeOf is the size last looked at, else the middle one.
func (p *Page) sizeOf(q pattern.Pattern) string {
	if s, ok := p.size[q.ID]; ok {
		return s
	}
	if len(q.Sizes) == 0 {
		return ""
	}
	return q.Sizes[len(q.Sizes)/2].Name
}

// FindFabric compares the shelf with the pattern chosen.
func (p *Page) FindFabric() {
	q, ok := p.chosen()
	if !ok {
		p.host.Tell("Choose a pattern first.")
		return
	}
	p.compare(q, p.sizeOf(q), stash.NoID)
}

// OutOfSight are the views of the place that wait for their turn: they take on a new look too.
func (p *Page) OutOfSight() []fyne.CanvasObject {
	all := []fyne.CanvasObject{p.shelf}
	if p.folk != nil {
		all = append(all, p.folk.object)
	}
	if p.draft != nil {
		all = append(all, p.draft.object)
	}
	return slices.DeleteFunc(all, func(o fyne.CanvasObject) bool { return slices.Contains(p.object.Objects, o) })
}
