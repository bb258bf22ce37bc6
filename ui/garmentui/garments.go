package garmentui

import (
	"cmp"
	"context"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"tallycloth/planner/garment"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/ui/answer"
	"tallycloth/ui/page"
	"tallycloth/ui/paperui"
	"tallycloth/ui/widgets"
)

// Page is the list of garments and the one chosen.
type Page struct {
	host   *page.Host
	filter *widgets.Entry
	list   *widgets.RowList
	empty  fyne.CanvasObject
	detail *fyne.Container
	leaf   *container.Scroll // of the detail in sight
	height float32           // at which it is to stay
	object fyne.CanvasObject
	wanted stash.ID

	ticks   map[stash.ID]paperui.Ticks // what was ticked as cut
	cutting *cutting                   // while a garment is being marked cut
	shownID stash.ID                   // the garment it shows

	garments []garment.Garment
	patterns map[stash.ID]pattern.Pattern
	cloths   map[stash.ID]stash.ClothState
	kept     map[stash.ID][]stash.Reservation // live reservations by garment
	fabrics  map[stash.ID]stash.Fabric
}

// lifeline are the states a garment goes through; its row shows how far it is.
var lifeline = []garment.State{garment.Wanted, garment.Reserved, garment.Cut, garment.Sewing, garment.Fitted, garment.Finished}

// New returns the place.
func New(h *page.Host) *Page {
	p := &Page{host: h, detail: container.NewStack(), ticks: map[stash.ID]paperui.Ticks{}}
	p.filter = widgets.NewEntry("Filter: name, pattern, person or state")
	p.filter.OnChanged = func(string) { p.fill() }
	p.filter.OnSubmitted = func(string) { p.Focus() }
	p.filter.Escape = func() { p.filter.SetText(""); p.Focus() }
	p.list = widgets.NewRowList([]widgets.Column{{Title: "Next", Width: 190}, {Title: "State", Width: 70, Yields: 1}})
	p.list.Pictured = true
	p.list.Chosen = func(r widgets.Row) { p.show(r.Key.(stash.ID)) }
	p.list.Act = func(r widgets.Row) { p.act(r.Key.(stash.ID)) }
	want := widgets.NewButton("Want a garment", p.New)
	want.Importance = widget.HighImportance
	p.empty = container.NewCenter(container.NewVBox(widgets.SubHeading("No garments yet"),
		widgets.Line("What you want to make and what you made belongs here.", widgets.Quiet),
		widgets.NewButton("Choose a pattern", func() { h.Go(page.Route{Place: page.Patterns}) })))
	h.Names.Set("garments.list", p.list)
	h.Names.Set("garments.filter", p.filter)
	h.Names.Set("garments.new", want)
	top := container.NewVBox(container.NewBorder(nil, nil, widgets.Heading("Garments"), want), p.filter, p.list.Header("Garment"))
	left := container.NewBorder(top, nil, nil, nil, container.NewStack(p.list, p.empty))
	split := h.Sides("garments", container.NewPadded(left), p.detail, 0.55)
	p.object = split
	p.nothingChosen()
	return p
}

// Object is the place's content.
func (p *Page) Object() fyne.CanvasObject { return p.object }

// Focus puts the focus on the list.
func (p *Page) Focus() { p.host.Focus(p.list) }

// Find puts the focus into the filter line.
func (p *Page) Find() { p.host.Focus(p.filter) }

// Open chooses a garment.
func (p *Page) Open(r page.Route) {
	p.wanted = r.ID
	p.filter.SetText("")
	p.Shown()
}

// Shown reads the garments again.
func (p *Page) Shown() {
	var garments []garment.Garment
	patterns := map[stash.ID]pattern.Pattern{}
	cloths := map[stash.ID]stash.ClothState{}
	kept := map[stash.ID][]stash.Reservation{}
	fabrics := map[stash.ID]stash.Fabric{}
	p.host.Tasks.Start("garments.read", func(ctx context.Context, _ func(func())) error {
		gs, err := p.host.Studio.Garments(ctx)
		if err != nil {
			return err
		}
		garments = gs
		ps, err := p.host.Studio.Patterns(ctx)
		if err != nil {
			return err
		}
		for _, q := range ps {
			patterns[q.ID] = q
		}
		fs, err := p.host.Studio.Fabrics(ctx)
		if err != nil {
			return err
		}
		for _, f := range fs {
			fabrics[f.ID] = f
		}
		cs, err := p.host.Studio.Cloths(ctx)
		for _, c := range cs {
			cloths[c.Cloth.ID] = c
			for _, r := range c.Reservations {
				kept[r.GarmentID] = append(kept[r.GarmentID], r)
			}
		}
		for _, of := range kept { // pattern pieces are looked for first, strips after them
			slices.SortStableFunc(of, func(a, b stash.Reservation) int { return stripsLast(a) - stripsLast(b) })
		}
		return err
	}, func(err error) {
		if err != nil {
			p.host.Trouble(err)
			return
		}
		slices.SortStableFunc(garments, func(a, b garment.Garment) int {
			return cmp.Or(stage(a.State)-stage(b.State), cmp.Compare(a.Wanted, b.Wanted))
		})
		p.garments, p.patterns, p.cloths, p.kept, p.fabrics = garments, patterns, cloths, kept, fabrics
		p.fill()
	})
}

// stage orders states by their next step; what is over comes last.
func stage(s garment.State) int {
	if i := slices.Index(lifeline, s); i >= 0 {
		return i
	}
	return len(lifeline)
}

func (p *Page) fill() {
	words := strings.Fields(strings.ToLower(p.filter.Text))
	var rows []widgets.Row
	for _, g := range p.garments {
		hay := strings.ToLower(g.Name + " " + p.patterns[g.PatternID].Name + " " + g.For + " " + g.Variant + " " + g.Record.Purpose + " " + string(g.State) + " " + g.Notes)
		if !slices.ContainsFunc(words, func(w string) bool { return !strings.Contains(hay, w) }) {
			rows = append(rows, p.rowOf(g))
		}
	}
	p.list.Set(rows)
	p.empty.Hide()
	if len(p.garments) == 0 {
		p.empty.Show()
	}
	if p.wanted != stash.NoID {
		p.list.Choose(p.wanted)
		p.wanted = stash.NoID
		return
	}
	if r, ok := p.list.ChosenRow(); ok {
		p.show(r.Key.(stash.ID))
	} else {
		p.nothingChosen()
	}
}

func (p *Page) rowOf(g garment.Garment) widgets.Row {
	done := stage(g.State) + 1
	if g.State == garment.GivenUp {
		done = 0
	}
	row := widgets.Row{Key: g.ID, Title: g.Name, Stitches: done, StitchesOf: len(lifeline),
		Sub:   p.about(g),
		Cells: []widgets.Cell{{Text: p.next(g).short}, {Text: string(g.State), Tone: widgets.Quiet}}}
	for _, r := range p.kept[g.ID] {
		row.Swatches = append(row.Swatches, answer.SwatchOf(p.cloths[r.ClothID], 0))
	}
	return row
}

// about is pattern, size, variant and person in a line, without what the name of the garment says.
func (p *Page) about(g garment.Garment) string {
	var s []string
	if name := p.patterns[g.PatternID].Name; !strings.HasPrefix(g.Name, name) {
		s = append(s, name)
	}
	if g.Sized() != g.Name {
		s = append(s, "size "+g.Size)
	}
	if g.Variant != "" {
		s = append(s, g.Variant)
	}
	if g.For != "" && !strings.Contains(g.Name, "for "+g.For) {
		s = append(s, "for "+g.For)
	}
	return strings.Join(s, ", ")
}

func (p *Page) nothingChosen() {
	p.detail.Objects = []fyne.CanvasObject{container.NewCenter(widgets.Line("Choose a garment to see its fabric and what comes next.", widgets.Quiet))}
	p.detail.Refresh()
}

func (p *Page) garment(id stash.ID) (garment.Garment, bool) {
	for _, g := range p.garments {
		if g.ID == id {
			return g, true
		}
	}
	return garment.Garment{}, false
}

// New asks which pattern, on its own place.
func (p *Page) New() {
	p.host.Tell("Choose a pattern and a size, then find fabric for it.")
	p.host.Go(page.Route{Place: page.Patterns})
}

func (p *Page) findFabric(id stash.ID) {
	if g, ok := p.garment(id); ok {
		p.host.Go(page.Route{Place: page.Patterns, ID: g.PatternID, Size: g.Size, Do: page.FindFabric, For: g.ID})
	}
}

func stripsLast(r stash.Reservation) int {
	if r.UsedFor == pattern.Binding {
		return 1
	}
	return 0
}
