package patternui

import (
	"context"
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"tallycloth/planner"
	"tallycloth/planner/match"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/ui/answer"
	"tallycloth/ui/page"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// finder compares the shelf with a pattern: results as they come on the left, the
// chosen one with its grounds and its layout on the right.
type finder struct {
	page    *Page
	pattern pattern.Pattern
	forID   stash.ID // the garment cloth is looked for, or NoID

	size, role *widgets.Choice
	strips     *widgets.Check
	list       *widgets.RowList
	panel      *answer.Panel
	state      *widget.Label
	stop       *widgets.Button
	reserve    *widgets.Button
	object     fyne.CanvasObject
	findings   []planner.Finding
	note       *widget.Label        // what is to be said about the layout in hand
	hand       *byHand              // the layout in sight, once it is in hand
	hands      map[stash.ID]*byHand // of each cloth, its layout once it was in hand
	asked      asked                // what the findings answer
	last       stash.ID             // the cloth chosen last
	try        *widgets.Button      // goes on searching, or stops that
	handRow    handRow
}

// asked is all that the layouts in hand depend on beside their cloth.
type asked struct {
	search   planner.Search
	settings planner.Settings
}

// compare brings the comparison into sight and starts it.
func (p *Page) compare(q pattern.Pattern, size string, forID stash.ID) {
	f := &finder{page: p, pattern: q, forID: forID, hands: map[stash.ID]*byHand{}}
	f.build(size)
	p.find = f
	p.object.Objects = []fyne.CanvasObject{f.object}
	p.object.Refresh()
	p.host.Focus(f.list)
	f.look()
}

// back leaves the comparison.
func (p *Page) back() {
	p.host.Tasks.Stop("patterns.find")
	p.find.stopAll()
	p.find = nil
	p.object.Objects = []fyne.CanvasObject{p.shelf}
	p.object.Refresh()
	p.Focus()
}

func (f *finder) build(size string) {
	h := f.page.host
	var sizes, roles []string
	for _, s := range f.pattern.Sizes {
		sizes = append(sizes, s.Name)
	}
	for _, r := range f.pattern.Roles {
		roles = append(roles, r.Name)
	}
	if len(roles) == 0 {
		roles = []string{pattern.Main}
	}
	f.size = widgets.NewChoice("Size", sizes, nil)
	f.size.SetSelected(size)
	f.role = widgets.NewChoice("Used for", roles, nil)
	f.strips = widgets.NewCheck("with its binding strips", func(bool) { f.look() })
	f.size.OnChanged = func(s string) { f.page.size[f.pattern.ID] = s; f.look() }
	f.role.OnChanged = func(string) { f.look() }
	f.list = widgets.NewRowList([]widgets.Column{{Title: "Is it enough?", Width: 236}, {Title: "To spare", Width: 66, Right: true, Yields: 1}})
	f.list.Pictured = true
	f.list.Chosen = func(r widgets.Row) { f.show(r.Key.(stash.ID)) }
	f.list.Act = func(widgets.Row) { f.Reserve() }
	leave := func(k fyne.KeyName) {
		if k == fyne.KeyEscape {
			f.leave()
		}
	}
	f.list.Key = leave
	f.size.Escape, f.role.Escape, f.strips.Escape = f.leave, f.leave, f.leave
	f.panel = answer.NewPanel(fyne.NewSize(300, 260))
	f.panel.Hover = h.Tell
	f.panel.View.Key = leave
	f.panel.View.Away = h.Away("find")
	f.state = widget.NewLabel("")
	f.state.Truncation = fyne.TextTruncateEllipsis
	f.stop = widgets.NewButton("Stop", f.halt)
	f.reserve = widgets.NewButton("Reserve", f.Reserve)
	f.reserve.Importance = widget.HighImportance
	f.reserve.Disable()
	back := widgets.NewButton("Back to patterns", f.goBack)
	if f.forID != stash.NoID {
		back.SetText("Back to the garment")
	}
	under := f.underDrawing(leave)
	for name, o := range map[string]fyne.CanvasObject{
		"find.size": f.size, "find.role": f.role, "find.strips": f.strips, "find.list": f.list, "find.state": f.state,
		"find.stop": f.stop, "find.reserve": f.reserve, "find.back": back, "find.layout": f.panel.View,
	} {
		h.Names.Set(name, o)
	}
	narrow := func(o fyne.CanvasObject, w float32) fyne.CanvasObject {
		return container.NewGridWrap(fyne.NewSize(widgets.Scaled(w), o.MinSize().Height), o)
	}
	ask := container.NewHBox(narrow(f.size.Object(), 90), narrow(f.role.Object(), 120), container.NewVBox(widgets.Caption(" "), f.strips))
	head := container.NewBorder(nil, nil, widgets.Heading("Find fabric for "+f.pattern.Name), container.NewHBox(back, f.reserve))
	left := container.NewBorder(container.NewVBox(ask, container.NewBorder(nil, nil, nil, f.stop, f.state), f.list.Header("Cloth")), nil, nil, nil, f.list)
	split := widgets.Sides(left, widgets.Inset(container.NewBorder(nil, under, nil, nil, f.panel.Object())), 0.52)
	f.object = container.NewPadded(container.NewBorder(head, nil, nil, nil, split))
}

// leave stops the search that goes on from the layout in sight, or else goes back.
func (f *finder) leave() {
	if !f.halted() {
		f.goBack()
	}
}

// goBack goes back to where fabric was asked for.
func (f *finder) goBack() {
	if f.forID != stash.NoID {
		f.leaveTo(f.forID)
		return
	}
	f.page.back()
}

// halted stops the search that goes on from the layout in sight; false where none does.
func (f *finder) halted() bool {
	if f.hand == nil || f.hand.stop == nil {
		return false
	}
	f.hand.stop()
	return true
}

// search is the question as the fields put it.
func (f *finder) search() planner.Search {
	return planner.Search{PatternID: f.pattern.ID, Size: f.size.Selected, Role: f.role.Selected, For: f.forID, Strips: f.strips.Checked}
}

// look compares the shelf anew; results are shown as they come.
func (f *finder) look() {
	h := f.page.host
	q := f.search()
	f.findings = nil
	before := f.last
	if now := (asked{q, h.Settings()}); now != f.asked {
		f.stopAll()
		f.asked = now
	}
	f.letGo()
	f.fill()
	f.state.SetText("Looking …")
	f.stop.Show()
	h.Tasks.Start("patterns.find", func(ctx context.Context, show func(func())) error {
		all, err := h.Studio.FindFabric(ctx, q, batched(show, func(some []planner.Finding) {
			f.findings = append(f.findings, some...)
			f.state.SetText(fmt.Sprintf("Looking … %d compared", len(f.findings)))
			f.fill()
		}))
		if err == nil {
			show(func() { f.findings = all })
		}
		return err
	}, func(err error) {
		f.stop.Hide()
		f.sameCloth()
		f.fill()
		f.state.SetText(f.sum())
		if err != nil {
			f.state.SetText("Stopped: " + say.Error(err))
			h.Trouble(err)
		}
		f.chooseAgain(before)
	})
}

// chooseAgain chooses the cloth that was chosen before the shelf was compared again, or
// else the best, where none is chosen by now.
func (f *finder) chooseAgain(before stash.ID) {
	if _, ok := f.list.ChosenRow(); ok || len(f.findings) == 0 {
		return
	}
	for _, d := range f.findings {
		if d.Cloth.Cloth.ID == before && f.hands[before] != nil {
			f.list.Choose(before)
			return
		}
	}
	f.list.Choose(f.findings[0].Cloth.Cloth.ID)
}

// halt stops comparing; what was compared stays.
func (f *finder) halt() {
	f.page.host.Tasks.Stop("patterns.find")
	f.stop.Hide()
	f.state.SetText("Stopped. " + f.sum())
}

// sum says how many of what was compared are enough.
func (f *finder) sum() string {
	n := 0
	for _, d := range f.findings {
		if d.Verdict.Grade <= match.EnoughIf {
			n++
		}
	}
	if len(f.findings) == 0 {
		return "There is no cloth on the shelf yet."
	}
	return fmt.Sprintf("%d of %s would do, best first.", n, say.Count(len(f.findings), "piece of cloth", "pieces of cloth"))
}

func (f *finder) fill() {
	v := f.page.host.Voice()
	var longest measure.Length
	for _, d := range f.findings {
		longest = max(longest, d.Cloth.Cloth.Length)
	}
	f.list.Widen(1, 66)
	if v.Units == measure.Imperial {
		f.list.Widen(1, 96)
	}
	var rows []widgets.Row
	for _, d := range f.findings {
		s := answer.SwatchOf(d.Cloth, longest)
		tone := answer.Tone(d.Verdict.Grade)
		rows = append(rows, widgets.Row{Key: d.Cloth.Cloth.ID, Swatch: &s, Title: d.Cloth.Fabric.Name,
			Sub:   d.Cloth.Cloth.Code + " · " + v.Size(d.Cloth.Cloth),
			Cells: []widgets.Cell{{Text: say.Mark(d.Verdict.Grade) + "  " + say.Grade(d.Verdict.Grade), Under: v.Ground(d.Verdict), Tone: tone}, {Text: v.LeftLength(d.Verdict)}}})
	}
	f.list.Set(rows)
	f.ready()
}

// chosen is the cloth chosen, its layout as it was moved by hand if it was.
func (f *finder) chosen() (planner.Finding, bool) {
	if f.hand != nil {
		return f.hand.now(), true
	}
	r, ok := f.list.ChosenRow()
	if !ok {
		return planner.Finding{}, false
	}
	for _, d := range f.findings {
		if d.Cloth.Cloth.ID == r.Key {
			return d, true
		}
	}
	return planner.Finding{}, false
}

func (f *finder) show(id stash.ID) {
	if f.hand != nil && f.hand.finding.Cloth.Cloth.ID == id {
		return // the list was filled again
	}
	f.last = id
	f.letGo()
	if d, ok := f.chosen(); ok && f.resume(id) {
		f.panel.Say(f.page.host.Voice(), d.Verdict)
	} else if ok {
		f.panel.Show(f.page.host.Voice(), d.Cloth, d.Verdict)
	}
	f.ready()
}

// ready says whether the chosen cloth can be reserved: only with a layout that proves it,
// or with the length that the yardage table says.
func (f *finder) ready() {
	right := f.hand == nil || f.hand.right()
	f.buttons()
	if d, ok := f.chosen(); ok && right && reservable(d) {
		f.reserve.Enable()
		return
	}
	f.reserve.Disable()
}

func reservable(d planner.Finding) bool {
	return d.Verdict.Grade <= match.EnoughIf && (d.Verdict.Layout != nil || len(d.Verdict.Keep) > 0)
}

// leaveTo goes to the garment that cloth was reserved for.
func (f *finder) leaveTo(id stash.ID) {
	f.page.back()
	f.page.host.Go(page.Route{Place: page.Garments, ID: id})
}
