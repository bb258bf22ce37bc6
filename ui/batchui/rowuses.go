package batchui

import (
	"fmt"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"tallycloth/planner"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/ui/say"
	"tallycloth/ui/stashui"
	"tallycloth/ui/widgets"
)

// useFields ask what one use of fabric may be cut from: a rule, and what the rule needs.
type useFields struct {
	form    *rowForm
	role    pattern.Role
	no      int
	rules   []planner.From // by place in the choice; the first holds where nothing is said
	rule    *widgets.Choice
	beside  *fyne.Container // fabrics, or how near
	fabrics []stash.ID
	near    *widgets.Choice
	nears   []float64
	pick    *widgets.Button
}

// fillUses asks about every use of fabric of a pattern.
func (f *rowForm) fillUses(q pattern.Pattern) {
	f.box.RemoveAll()
	f.uses = nil
	for i, role := range rolesOf(q) {
		u := &useFields{form: f, role: role, no: i + 1, beside: container.NewStack()}
		f.uses = append(f.uses, u)
		f.box.Add(container.NewGridWithColumns(2, u.make(), u.beside))
	}
}

// old is the rule that the row has for the use, if it has one.
func (u *useFields) old() planner.UseRule {
	for _, r := range u.form.old.Uses {
		if r.Role == u.role.Name && u.form.chosen().ID == u.form.old.PatternID {
			return r
		}
	}
	return planner.UseRule{Role: u.role.Name, From: u.rules[0]}
}

// make makes the choice of the rule.
func (u *useFields) make() fyne.CanvasObject {
	u.rules = []planner.From{planner.SameFabric, planner.GoesWith, planner.NamedFabric, planner.AnyFabric, planner.Skipped}
	switch {
	case u.role.Name == pattern.Main:
		u.rules = []planner.From{planner.AnyFabric, planner.NamedFabric}
	case u.role.Optional:
		u.rules = []planner.From{planner.Skipped, planner.SameFabric, planner.GoesWith, planner.NamedFabric, planner.AnyFabric}
	}
	var words []string
	for _, r := range u.rules {
		words = append(words, say.RuleWords(r))
	}
	old := u.old()
	u.fabrics = slices.Clone(old.Fabrics)
	u.nearness(old.Within)
	u.rule = widgets.NewChoice(say.Sentence(u.role.Name)[:len(u.role.Name)]+" may be cut from", words, nil)
	u.rule.SetSelectedIndex(max(slices.Index(u.rules, old.From), 0))
	u.pick = widgets.NewButton("", u.choose)
	u.form.page.host.Names.Set(fmt.Sprintf("form.use.%d", u.no), u.rule)
	u.form.page.host.Names.Set(fmt.Sprintf("form.near.%d", u.no), u.near)
	u.form.page.host.Names.Set(fmt.Sprintf("form.fabrics.%d", u.no), u.pick)
	u.rule.OnChanged = func(string) {
		u.show()
		u.form.form.Refit()
	}
	u.show()
	return u.rule.Object()
}

// nearness makes the choice of how near a colour must be, with the distance that the row has.
func (u *useFields) nearness(within float64) {
	u.nears = []float64{planner.ColourNear, planner.ColourClose, planner.ColourLoose}
	if within > 0 && !slices.Contains(u.nears, within) {
		u.nears = append(u.nears, within)
	}
	var words []string
	for _, n := range u.nears {
		words = append(words, say.Nearness(n))
	}
	u.near = widgets.NewChoice("How near its colour must be", words, nil)
	u.near.SetSelectedIndex(max(slices.Index(u.nears, within), 0))
}

func (u *useFields) from() planner.From { return u.rules[max(u.rule.SelectedIndex(), 0)] }

// show puts beside the rule what it needs.
func (u *useFields) show() {
	u.beside.RemoveAll()
	switch u.from() {
	case planner.GoesWith:
		u.beside.Add(u.near.Object())
	case planner.NamedFabric:
		names, text := "", "Choose fabrics"
		if len(u.fabrics) > 0 {
			var all []string
			for _, id := range u.fabrics {
				all = append(all, u.form.page.fabricName(id))
			}
			names, text = say.And(all), "Choose others"
		}
		u.pick.SetText(text)
		u.beside.Add(container.NewVBox(widgets.Caption("Of these, the best is taken"),
			container.NewBorder(nil, nil, nil, u.pick, container.NewPadded(widgets.ShortLine(names, widgets.Plain)))))
	}
	u.beside.Refresh()
}

// reads is the rule as it is chosen; false where it is the one that holds anyway.
func (u *useFields) reads() (planner.UseRule, bool, error) {
	r := planner.UseRule{Role: u.role.Name, From: u.from()}
	switch r.From {
	case planner.NamedFabric:
		r.Fabrics = u.fabrics
		if len(r.Fabrics) == 0 {
			return r, true, &stash.Error{Kind: stash.Invalid, What: "No fabric is chosen for " + r.Role, Do: "Press Choose fabrics, or cut it from something else"}
		}
	case planner.GoesWith:
		if r.Within = u.nears[max(u.near.SelectedIndex(), 0)]; r.Within == planner.ColourNear {
			r.Within = 0 // where nothing is said
		}
	}
	return r, u.rule.SelectedIndex() > 0, nil
}

// rules are the rules of the row, without those that hold anyway.
func (f *rowForm) rules() ([]planner.UseRule, error) {
	var out []planner.UseRule
	for _, u := range f.uses {
		r, said, err := u.reads()
		if err != nil {
			return nil, err
		}
		if said {
			out = append(out, r)
		}
	}
	return out, nil
}

// mostShown bounds the fabrics listed at once; a filter shows the others.
const mostShown = 40

// choose opens the list of fabrics.
func (u *useFields) choose() {
	p := u.form.page
	chosen := slices.Clone(u.fabrics)
	filter := widgets.NewEntry("Filter: jersey, moss")
	list := container.NewVBox()
	fill := func() {
		list.RemoveAll()
		u.listFabrics(list, filter.Text, &chosen)
		list.Refresh()
	}
	scroll := container.NewVScroll(list)
	scroll.SetMinSize(fyne.NewSize(420, 300))
	filter.OnChanged = func(string) { fill() }
	fill()
	form := &widgets.Form{Title: "Fabrics for " + u.role.Name, Send: "Take these", Say: say.Error, Width: 520,
		Intro: "It is cut from one of the fabrics that you choose, whichever is best.", Rows: [][]fyne.CanvasObject{{filter}, {scroll}}}
	form.Done = func() error {
		if len(chosen) == 0 {
			return &stash.Error{Kind: stash.Invalid, What: "No fabric is chosen", Do: "Choose one at least"}
		}
		u.fabrics = chosen
		u.show()
		return nil
	}
	filter.OnSubmitted = func(string) { form.Submit() }
	filter.Escape = form.Close
	form.Show(p.host.Canvas()) // what was typed is a filter alone
	for name, o := range map[string]fyne.CanvasObject{"fabrics.filter": filter, "fabrics.send": form.SendButton(), "fabrics.close": form.CloseButton()} {
		p.host.Names.Set(name, o)
	}
}

// listFabrics lists the fabrics that answer a filter, those chosen first.
func (u *useFields) listFabrics(list *fyne.Container, filter string, chosen *[]stash.ID) {
	p := u.form.page
	all := slices.Clone(p.fabrics)
	slices.SortStableFunc(all, func(a, b stash.Fabric) int { return place(*chosen, a.ID) - place(*chosen, b.ID) })
	answers, shown, more := stashui.Filter(p.voice(), filter), 0, 0
	for _, f := range all {
		if !answers(stash.ClothState{Fabric: f}) {
			continue
		}
		if shown++; shown > mostShown {
			more++
			continue
		}
		check := widgets.NewCheck(f.Name+" · "+p.onShelf(f.ID), nil)
		check.SetChecked(slices.Contains(*chosen, f.ID))
		check.OnChanged = func(on bool) {
			*chosen = slices.DeleteFunc(*chosen, func(id stash.ID) bool { return id == f.ID })
			if on {
				*chosen = append(*chosen, f.ID)
			}
		}
		p.host.Names.Set(fmt.Sprintf("fabrics.%d", shown), check)
		list.Add(check)
	}
	switch {
	case shown == 0:
		list.Add(widgets.Remark("", "No fabric is like that.", widgets.Quiet))
	case more > 0:
		list.Add(widgets.Remark("", say.Count(more, "more fabric is like that", "more fabrics are like that")+"; filter to see them.", widgets.Quiet))
	}
}

func place(chosen []stash.ID, id stash.ID) int {
	if slices.Contains(chosen, id) {
		return 0
	}
	return 1
}

// onShelf says what there is of a fabric.
func (p *Page) onShelf(id stash.ID) string {
	n, free := 0, measure.Area(0)
	for _, c := range p.cloths {
		if c.Fabric.ID == id {
			n, free = n+1, free+c.FreeArea
		}
	}
	if n == 0 {
		return "none on the shelf"
	}
	return say.Count(n, "piece", "pieces") + ", " + p.voice().Area(free) + " free"
}
