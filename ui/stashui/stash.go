package stashui

import (
	"context"
	"errors"
	"sync"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"tallycloth/planner/garment"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/ui/answer"
	"tallycloth/ui/page"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// Page is the shelf: the cloth there is, and what is known of the one chosen.
type Page struct {
	host   *page.Host
	filter *widgets.Entry
	list   *widgets.RowList
	header fyne.CanvasObject
	count  *widget.Label
	empty  fyne.CanvasObject
	none   *noHits
	left   *fyne.Container
	detail *fyne.Container
	shelf  fyne.CanvasObject // list and detail
	object *fyne.Container   // the shelf, or a list being brought in over it

	cloths   *shelfIndex
	known    bool // whether the shelf was read: until then nobody knows that it is empty
	fabrics  []stash.Fabric
	garments map[stash.ID]garment.Garment
	// garmentsInOrder are the same, newest change first.
	garmentsInOrder []garment.Garment

	making *making // what the chosen cloth can make, when asked
	wanted stash.ID
	lost   stash.ID // what was chosen when it went, to be chosen again when Redo or Undo brings it back
	// logForm and addForm keep what was typed in a form that was closed; formShelf is
	// the shelf they were made for.
	logForm, addForm *widgets.Form
	buying           *buying // what logForm fills
	formShelf        string
	outForm          *widgets.Form
	lister           *lister
	drawer           *drawer   // a leftover on a grid, while it is being drawn
	tracer           *tracer   // a leftover from a photo, while it is being taken
	over             overShelf // notions or purchases, when they lie over the shelf
}

// metricSize is the room for "2.355 m × 159.5 cm".
const metricSize = 126

// New returns the place.
func New(h *page.Host) *Page {
	p := &Page{host: h, detail: container.NewStack(), cloths: indexOf(nil, stash.StretchClasses{})}
	p.filter = widgets.NewEntry("Filter: knits, at least 1 m, stretch over 30 %, hall cupboard")
	p.filter.OnChanged = func(string) { p.find(); p.list.ScrollToTop() }
	p.filter.OnSubmitted = func(string) { p.Focus() }
	p.filter.Escape = func() { p.filter.SetText(""); p.Focus() }
	p.list = widgets.NewRowList([]widgets.Column{
		{Title: "Size", Width: metricSize, Right: true}, {Title: "Stretch across", Width: 76, Right: true, Hint: "How far it stretches across, from selvedge to selvedge. In slanted figures: assumed by how it is made, until you measure it."},
		{Title: "and along", Width: 54, Right: true, Yields: 3, Hint: "How far it stretches along the selvedges. In slanted figures: assumed by how it is made, until you measure it."}, {Title: "Free", Width: 56, Right: true, Yields: 1}, {Title: "Where", Width: 98, Yields: 2},
	})
	p.list.Pictured = true
	p.list.Tell = p.host.Tell
	p.list.Chosen = func(r widgets.Row) {
		p.making = nil
		p.host.Settle("stash.list", func() { p.show(r.Key.(stash.ID)) })
	}
	p.list.Act = func(widgets.Row) { p.whatCanItMake() }
	p.count = widget.NewLabel("")
	p.empty = p.emptyShelf()
	p.none = p.newNoHits()
	p.empty.Hide()
	log := widgets.NewButton("Log purchase", p.LogPurchase)
	log.Importance = widget.HighImportance
	add := widgets.NewButton("Add leftover", p.AddLeftover)
	bring := widgets.NewButton("Bring in a list", p.BringIn)
	export := widgets.NewButton("Export", p.Export)
	h.Names.Set("stash.bring", bring)
	h.Names.Set("stash.export", export)
	h.Names.Set("stash.log", log)
	h.Names.Set("stash.add", add)
	h.Names.Set("stash.filter", p.filter)
	h.Names.Set("stash.list", p.list)
	p.header = p.list.Header("Fabric")
	top := container.NewVBox(container.NewBorder(nil, nil, container.NewHBox(widgets.Heading("Stash"), p.count), container.NewHBox(export, bring, add, log)), container.NewBorder(nil, nil, nil, p.elsewhere(), p.filter), p.header)
	p.left = container.NewBorder(top, nil, nil, nil, container.NewStack(p.list, p.empty, p.none.object))
	split := h.Sides("stash", container.NewPadded(p.left), p.detail, 0.6)
	p.shelf = split
	p.object = container.NewStack(split)
	p.nothingChosen()
	return p
}

// Object is the place's content.
func (p *Page) Object() fyne.CanvasObject { return p.object }

// Focus puts the focus on the list.
func (p *Page) Focus() {
	if p.over != nil {
		p.over.focus()
		return
	}
	if p.bringing() {
		p.host.Focus(p.lister.file.Entry)
		return
	}
	p.host.Focus(p.list)
}

// Find puts the focus into the filter line.
func (p *Page) Find() {
	p.toShelf()
	p.host.Focus(p.filter)
}

// New logs a purchase.
func (p *Page) New() { p.LogPurchase() }

// Open chooses a cloth.
func (p *Page) Open(r page.Route) {
	if r.Do == page.Shopping {
		p.Notions()
		return
	}
	p.toShelf()
	p.wanted = r.ID
	p.filter.SetText("")
	p.Shown()
}

// Shown reads the shelf again.
func (p *Page) Shown() {
	classes := p.host.Voice().Classes
	var cloths *shelfIndex
	var fabrics []stash.Fabric
	var garments []garment.Garment
	p.host.Tasks.Start("stash.read", func(ctx context.Context, _ func(func())) error {
		var beside sync.WaitGroup
		var errs [3]error
		beside.Go(func() { fabrics, errs[0] = p.host.Studio.Fabrics(ctx) })
		beside.Go(func() { garments, errs[1] = p.host.Studio.Garments(ctx) })
		found, err := p.host.Studio.Cloths(ctx)
		cloths, errs[2] = indexOf(found, classes), err
		beside.Wait()
		return errors.Join(errs[:]...)
	}, func(err error) {
		if err != nil {
			p.host.Trouble(err)
			return
		}
		p.cloths, p.fabrics, p.known = cloths, fabrics, true
		p.garments, p.garmentsInOrder = map[stash.ID]garment.Garment{}, garments
		for _, g := range garments {
			p.garments[g.ID] = g
		}
		p.fill()
		if p.bringing() {
			p.lister.plan() // the rows may become something else now
		}
		if p.over != nil {
			p.over.shown()
		}
	})
}

// fill lists what answers the filter and shows the cloth chosen as it is now. Cloth that was
// chosen when it went is chosen again when Undo or Redo brings it back.
func (p *Page) fill() {
	was, had := p.list.ChosenRow()
	same := p.find()
	if _, has := p.list.ChosenRow(); had && !has {
		p.lost = was.Key.(stash.ID)
	} else if !has && p.lost != stash.NoID && p.list.Choose(p.lost) {
		p.lost = stash.NoID
	}
	if same && p.making == nil {
		if c, ok := p.chosen(); ok {
			p.show(c.Cloth.ID)
		}
	}
}

// find lists what answers the filter; it says whether the cloth that was chosen still is.
func (p *Page) find() (same bool) {
	if !p.known {
		return false
	}
	v := p.host.Voice()
	shelf, found := p.cloths, p.cloths.answer(filterFor(v, p.filter.Text))
	p.list.Widen(0, metricSize)
	if v.Units == measure.Imperial {
		p.list.Widen(0, 160)
	}
	chosen, had := p.list.ChosenRow()
	p.list.SetLazy(len(found), func(i int) any { return shelf.cloths[found[i]].Cloth.ID },
		func(i int) widgets.Row { return rowOf(v, shelf.cloths[found[i]], shelf.longest) })
	p.empty.Hide()
	if len(shelf.cloths) == 0 {
		p.empty.Show()
	}
	p.none.show(filterFor(v, p.filter.Text), len(found) == 0 && len(shelf.cloths) > 0)
	p.count.SetText(say.Count(len(found), "piece of cloth", "pieces of cloth"))
	if p.wanted != stash.NoID {
		p.list.Choose(p.wanted)
		p.wanted = stash.NoID
		return false
	}
	if len(found) == 1 && len(shelf.cloths) > 1 { // the only one that answers is what was looked for
		p.list.Choose(shelf.cloths[found[0]].Cloth.ID)
	}
	now, ok := p.list.ChosenRow()
	if !ok {
		p.nothingChosen()
	}
	return ok && had && now.Key == chosen.Key
}

// rowOf is the line of a cloth.
func rowOf(v say.Voice, c stash.ClothState, longest measure.Length) widgets.Row {
	s := answer.SwatchOf(c, longest)
	sub := c.Cloth.Code
	if c.Fabric.ColourName != "" {
		sub += " · " + c.Fabric.ColourName
	}
	if c.Cloth.Lot != "" {
		sub += " · lot " + c.Cloth.Lot
	}
	if f := c.Fabric.Fibres.String(); f != "" {
		sub += " · " + f
	}
	around, assumedA := stretchOf(c.Fabric, true)
	along, assumedB := stretchOf(c.Fabric, false)
	size := widgets.Cell{Text: v.Size(c.Cloth)}
	if !c.Cloth.Plain() {
		size.Under = "at most: odd outline"
	}
	where := widgets.Cell{Text: c.Cloth.Place, Tone: widgets.Quiet}
	if !c.Cloth.Washed {
		where.Under = "not washed yet"
	}
	return widgets.Row{Key: c.Cloth.ID, Swatch: &s, Title: c.Fabric.Name, Sub: sub, Cells: []widgets.Cell{
		size,
		{Text: around, Italic: assumedA},
		{Text: along, Italic: assumedB},
		freeCell(v, c),
		where,
	}}
}

// freeCell says what of a cloth is free: all of it, or its area.
func freeCell(v say.Voice, c stash.ClothState) widgets.Cell {
	switch {
	case c.Area <= 0:
		return widgets.Cell{}
	case c.FreeArea == c.Area:
		return widgets.Cell{Text: "all", Tone: widgets.Quiet}
	}
	return widgets.Cell{Text: v.Area(c.FreeArea)}
}

// stretchOf is the stretch along one grain; assumed where it was not measured.
func stretchOf(f stash.Fabric, crosswise bool) (text string, assumed bool) {
	known, full := f.Lengthwise.Stretch, stash.Assumed(f).Lengthwise.Stretch
	if crosswise {
		known, full = f.Crosswise.Stretch, stash.Assumed(f).Crosswise.Stretch
	}
	if known.Known {
		return say.Percent(known.Value), false
	}
	return say.Percent(full.Value), true
}

// emptyShelf says what belongs here and offers the first action.
func (p *Page) emptyShelf() fyne.CanvasObject {
	log := widgets.NewButton("Log your first purchase", p.LogPurchase)
	log.Importance = widget.HighImportance
	bring := widgets.NewButton("Bring in a list you keep already", p.BringIn)
	add := widgets.NewButton("Add a leftover", p.AddLeftover)
	demo := widgets.NewButton("Open the demo studio", p.host.Demo)
	p.host.Names.Set("stash.first", log)
	p.host.Names.Set("stash.firstlist", bring)
	p.host.Names.Set("stash.firstleftover", add)
	p.host.Names.Set("stash.demo", demo)
	return container.NewCenter(container.NewVBox(
		widgets.SubHeading("The shelf is empty"),
		widgets.Line("Lengths of fabric and leftovers belong here, each with its size.", widgets.Quiet),
		log, add, bring, demo))
}

func (p *Page) chosen() (stash.ClothState, bool) {
	r, ok := p.list.ChosenRow()
	if !ok {
		return stash.ClothState{}, false
	}
	return p.cloth(r.Key.(stash.ID))
}

func (p *Page) cloth(id stash.ID) (stash.ClothState, bool) {
	return p.cloths.find(id)
}
