package historyui

import (
	"context"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"tallycloth/planner"
	"tallycloth/stash"
	"tallycloth/ui/page"
	"tallycloth/ui/records"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// view is one of the records of the place.
type view interface {
	object() fyne.CanvasObject
	shown()     // reads again what it shows
	focus()     // puts the focus where work begins
	asks() bool // whether it is of a period, so that the line of questions stands above it
	// figures are what is printed and written out; lines of history at most so many.
	figures(ctx context.Context, lines int) (records.Figures, error)
}

// Page is the place.
type Page struct {
	host    *page.Host
	names   []string // of the views, as their buttons say
	keys    []string // under which tests find those
	views   []view
	buttons []*widgets.Button
	current int

	period   *widgets.Choice
	from, to *widgets.Field
	days     *fyne.Container
	kind     *widgets.Choice
	filter   *widgets.Entry
	only     only // what the person chose to see alone
	onlyLine *widgets.Short
	onlyBox  *fyne.Container
	ask      *fyne.Container
	count    *widget.Label
	stage    *fyne.Container
	object   fyne.CanvasObject
}

// only is a fabric, cloth or garment that is seen alone.
type only struct {
	fabric, garment stash.ID
	code, name      string
}

const everyKind = "everything"

// New returns the place.
func New(h *page.Host) *Page {
	p := &Page{host: h, count: widget.NewLabel(""), stage: container.NewStack(), current: -1}
	p.questions()
	p.add("Movements", "movements", newMovements(p))
	p.add("Yardage", "yardage", newYardage(p))
	p.add("Value on hand", "value", newValue(p))
	p.add("Garment costs", "costs", newCosts(p))
	p.add("Shopping list", "shopping", newShopping(p))
	tabs := container.NewHBox()
	for _, b := range p.buttons {
		tabs.Add(b)
	}
	print, export := widgets.Primary("On paper", p.print), widgets.NewButton("Export", p.export)
	h.Names.Set("history.print", print)
	h.Names.Set("history.export", export)
	top := container.NewVBox(
		container.NewBorder(nil, nil, container.NewHBox(widgets.Heading("History"), p.count), container.NewHBox(export, print)), tabs, p.ask, p.onlyBox)
	p.object = container.NewPadded(container.NewBorder(top, nil, nil, nil, p.stage))
	p.turn(0)
	return p
}

func (p *Page) add(name, key string, v view) {
	i := len(p.views)
	b := widgets.NewButton(name, func() { p.turn(i); p.views[i].shown(); p.views[i].focus() })
	p.host.Names.Set("history."+key, b)
	p.names, p.keys, p.views, p.buttons = append(p.names, name), append(p.keys, key), append(p.views, v), append(p.buttons, b)
}

// questions makes the line of what is asked for: period, kind and words.
func (p *Page) questions() {
	var periods, words []string
	for _, x := range planner.Periods {
		periods = append(periods, string(x))
	}
	words = []string{everyKind}
	for _, k := range planner.MovementKinds {
		words = append(words, string(k))
	}
	p.from, p.to = p.host.DayField("From", ""), p.host.DayField("To", "")
	for _, f := range []*widgets.Field{p.from, p.to} {
		f.Changed = p.again
		f.Entry.OnSubmitted = func(string) { p.Focus() }
		f.Entry.Escape = p.Focus
	}
	p.days = container.NewGridWithColumns(2, p.from.Object(), p.to.Object())
	p.days.Hide()
	p.period = widgets.NewChoice("Period", periods, nil)
	p.period.SetSelected(string(planner.ThisYear))
	p.period.OnChanged = func(string) { p.periodChosen() }
	p.kind = widgets.NewChoice("What happened", words, nil)
	p.kind.OnChanged = func(string) { p.again() }
	filter := widgets.NewField("Filter", "Fabric, code, garment or note", nil)
	filter.Changed = p.again
	p.filter = filter.Entry
	p.filter.OnSubmitted = func(string) { p.Focus() }
	p.filter.Escape = func() { p.filter.SetText(""); p.Focus() }
	p.ask = container.NewBorder(nil, nil, container.NewHBox(wide(p.period.Object(), 130), p.days, wide(p.kind.Object(), 180)), nil, filter.Object())
	p.onlyLine = widgets.ShortLine("", widgets.Accent)
	all := widgets.NewButton("Show all again", func() { p.alone(only{}) })
	p.onlyBox = container.NewBorder(nil, nil, nil, all, p.onlyLine)
	p.onlyBox.Hide()
	for name, o := range map[string]fyne.CanvasObject{"history.period": p.period, "history.from": p.from.Entry, "history.to": p.to.Entry,
		"history.kind": p.kind, "history.filter": p.filter, "history.all": all, "history.only": p.onlyLine} {
		p.host.Names.Set(name, o)
	}
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
	p.ask.Hidden = !p.views[i].asks()
	p.showOnly()
	p.stage.Objects = []fyne.CanvasObject{p.views[i].object()}
	p.stage.Refresh()
}

func (p *Page) view() view { return p.views[p.current] }

// periodChosen shows the fields for days of one's own, or takes the days of the period.
func (p *Page) periodChosen() {
	p.days.Hidden = planner.Period(p.period.Selected) != planner.FromTo
	p.ask.Refresh()
	p.again()
}

// again reads what is in sight for another question.
func (p *Page) again() { p.view().shown() }

// alone shows one fabric, cloth or garment alone, or everything.
func (p *Page) alone(o only) {
	p.only = o
	p.showOnly()
	p.again()
}

func (p *Page) showOnly() {
	p.onlyBox.Hidden = p.only == only{} || !p.view().asks()
	p.onlyLine.Set("Only "+p.only.name+".", widgets.Accent)
	p.object.Refresh()
}

// past is what is asked for; ok is false while a day is being typed.
func (p *Page) past() (past planner.Past, ok bool) {
	past = planner.Past{FabricID: p.only.fabric, GarmentID: p.only.garment, Code: p.only.code, Words: strings.Fields(p.filter.Text)}
	if p.kind.SelectedIndex() > 0 {
		past.Kinds = []stash.MovementKind{stash.MovementKind(p.kind.Selected)}
	}
	past.From, past.To = planner.Period(p.period.Selected).Days(p.host.Studio.Today())
	if planner.Period(p.period.Selected) == planner.FromTo {
		var begins, ends bool
		past.From, begins = p.host.DayIn(p.from)
		past.To, ends = p.host.DayIn(p.to)
		if !begins || !ends {
			return past, false // a day is still being typed
		}
	}
	ok = (past.From == "" || past.To == "" || past.From <= past.To)
	return past, ok
}

// asked says in words what is asked for.
func (p *Page) asked(past planner.Past) string {
	parts := []string{say.Period(past.From, past.To)}
	if p.only != (only{}) {
		parts = append(parts, "only "+p.only.name)
	}
	if len(past.Kinds) > 0 {
		parts = append(parts, string(past.Kinds[0]))
	}
	if len(past.Words) > 0 {
		parts = append(parts, "with the words "+strings.Join(past.Words, " "))
	}
	return say.Sentence(strings.Join(parts, ", "))
}

// read reads for a view away from the window's thread; of several questions the last counts.
func (p *Page) read(name string, ask func(ctx context.Context) error, done func()) {
	p.host.Tasks.Start("history."+name, func(ctx context.Context, _ func(func())) error { return ask(ctx) }, func(err error) {
		if err != nil {
			p.host.Trouble(err)
			return
		}
		done()
	})
}

// Object is the place's content.
func (p *Page) Object() fyne.CanvasObject { return p.object }

// Shown reads what is in sight again.
func (p *Page) Shown() { p.view().shown() }

// Open follows a route: to the movements of a fabric.
func (p *Page) Open(r page.Route) { p.Shown() }

// Focus puts the focus on the list.
func (p *Page) Focus() { p.view().focus() }

// Find puts the focus into the filter line.
func (p *Page) Find() {
	if !p.view().asks() {
		p.turn(0)
		p.view().shown()
	}
	p.host.Focus(p.filter)
}

// New prints what is in sight.
func (p *Page) New() { p.print() }
