package patternui

import (
	"context"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"tallycloth/planner/scene"
	"tallycloth/planner/sizing"
	"tallycloth/stash"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// people shows who garments are made for, with what was measured of them and when, and
// which size of a pattern is theirs.
type people struct {
	page   *Page
	list   *widgets.RowList
	detail *fyne.Container
	empty  fyne.CanvasObject
	object fyne.CanvasObject

	all     []sizing.Person
	fabrics []stash.Fabric
	wanted  stash.ID // to be chosen once they are read
	pattern string   // last looked at
	fabric  string
	answer  *fyne.Container
}

// anyFabric is the choice of no fabric in particular.
const anyFabric = "what the pattern asks"

// People shows the people.
func (p *Page) People() {
	if p.find != nil {
		p.back()
	}
	if p.folk == nil {
		p.folk = newPeople(p)
	}
	p.object.Objects = []fyne.CanvasObject{p.folk.object}
	p.object.Refresh()
	p.folk.read()
	p.host.Focus(p.folk.list)
}

func newPeople(p *Page) *people {
	f := &people{page: p, detail: container.NewStack(), fabric: anyFabric}
	f.list = widgets.NewRowList([]widgets.Column{{Title: "Bust", Width: 84, Right: true, Yields: 1}, {Title: "Waist", Width: 84, Right: true, Yields: 2}, {Title: "Hip", Width: 84, Right: true, Yields: 3}})
	f.list.Chosen = func(r widgets.Row) { f.show(r.Key.(stash.ID)) }
	f.list.Act = func(r widgets.Row) { f.measure(r.Key.(stash.ID)) }
	f.list.Key = func(k fyne.KeyName) {
		if k == fyne.KeyEscape {
			f.leave()
		}
	}
	add := widgets.NewButton("Add a person", func() { f.edit(sizing.Person{}) })
	add.Importance = widget.HighImportance
	back := widgets.NewButton("Back to patterns", f.leave)
	first := widgets.Primary("Add somebody to sew for", func() { f.edit(sizing.Person{}) })
	p.host.Names.Set("people.first", first)
	f.empty = container.NewCenter(container.NewVBox(widgets.SubHeading("Nobody yet"),
		widgets.Line("People you sew for belong here, with their measurements.", widgets.Quiet), first))
	for name, o := range map[string]fyne.CanvasObject{"people.list": f.list, "people.add": add, "people.back": back} {
		p.host.Names.Set(name, o)
	}
	head := container.NewBorder(nil, nil, widgets.Heading("People"), container.NewHBox(back, add))
	left := container.NewBorder(f.list.Header("Name"), nil, nil, nil, container.NewStack(f.list, f.empty))
	f.object = container.NewPadded(container.NewBorder(head, nil, nil, nil, p.host.Sides("people", container.NewPadded(left), f.detail, 0.4)))
	return f
}

// leave goes back to the patterns.
func (f *people) leave() {
	p := f.page
	p.object.Objects = []fyne.CanvasObject{p.shelf}
	p.object.Refresh()
	p.Focus()
}

// inSight says whether the people are shown.
func (f *people) inSight() bool {
	return f != nil && len(f.page.object.Objects) == 1 && f.page.object.Objects[0] == f.object
}

func (f *people) read() {
	var all []sizing.Person
	var fabrics []stash.Fabric
	h := f.page.host
	h.Tasks.Start("people.read", func(ctx context.Context, _ func(func())) (err error) {
		if all, err = h.Studio.People(ctx); err != nil {
			return err
		}
		fabrics, err = h.Studio.Fabrics(ctx)
		return err
	}, func(err error) {
		if err != nil {
			h.Trouble(err)
			return
		}
		f.all, f.fabrics = all, fabrics
		f.fill()
	})
}

func (f *people) fill() {
	v := f.page.host.Voice()
	var rows []widgets.Row
	for _, p := range f.all {
		b := p.Latest("")
		r := widgets.Row{Key: p.ID, Title: p.Name, Sub: "not measured yet"}
		if n := len(p.Taken); n > 0 {
			r.Sub = "measured " + say.Day(p.Taken[n-1].Date)
		}
		for _, name := range []string{"bust", "waist", "hip"} {
			c := widgets.Cell{}
			if b[name] > 0 {
				c.Text = v.Width(b[name])
			}
			r.Cells = append(r.Cells, c)
		}
		rows = append(rows, r)
	}
	f.list.Set(rows)
	f.empty.Hide()
	if len(rows) == 0 {
		f.empty.Show()
	}
	if f.wanted != stash.NoID && f.list.Choose(f.wanted) {
		f.wanted = stash.NoID
	}
	if r, ok := f.list.ChosenRow(); ok {
		f.show(r.Key.(stash.ID))
	} else {
		f.detail.Objects = nil
		f.detail.Refresh()
	}
}

func (f *people) person(id stash.ID) (sizing.Person, bool) {
	for _, p := range f.all {
		if p.ID == id {
			return p, true
		}
	}
	return sizing.Person{}, false
}

// show fills the detail for a person.
func (f *people) show(id stash.ID) {
	who, ok := f.person(id)
	if !ok {
		return
	}
	h := f.page.host
	measure := widgets.NewButton("Measure", func() { f.measure(id) })
	measure.Importance = widget.HighImportance
	change := widgets.NewButton("Change", func() { f.edit(who) })
	drop := widgets.NewButton("Take off the list", func() { f.drop(who) })
	h.Names.Set("person.measure", measure)
	h.Names.Set("person.change", change)
	h.Names.Set("person.drop", drop)
	body := container.NewVBox(widgets.Heading(who.Name), container.NewHBox(measure, change, drop))
	if who.Notes != "" {
		body.Add(widgets.Remark("", who.Notes, widgets.Plain))
	}
	f.addSize(body, who)
	f.addTaken(body, who)
	f.addKept(body, who)
	f.detail.Objects = []fyne.CanvasObject{container.NewVScroll(widgets.Inset(body))}
	f.detail.Refresh()
}

// addTaken lists measurements, the last three days beside each other.
func (f *people) addTaken(body *fyne.Container, who sizing.Person) {
	if len(who.Taken) == 0 {
		body.Add(widgets.Line("Nothing was measured yet.", widgets.Quiet))
		return
	}
	v := f.page.host.Voice()
	days := who.Taken[max(len(who.Taken)-3, 0):]
	head := []string{""}
	for _, t := range days {
		head = append(head, string(t.Date))
	}
	rows := [][]string{head}
	for _, at := range sizing.Places() {
		row := []string{capital(at.Name)}
		some := false
		for _, t := range days {
			cell := ""
			if l := t.Body[at.Name]; l > 0 {
				cell, some = v.Width(l), true
			}
			row = append(row, cell)
		}
		if some {
			rows = append(rows, row)
		}
	}
	body.Add(widgets.SubHeading("Measurements"))
	body.Add(widgets.Figures(rows))
	for _, t := range days {
		if t.Note != "" {
			body.Add(widgets.Remark("· ", say.Day(t.Date)+": "+t.Note, widgets.Quiet))
		}
	}
}

// addSize asks for a pattern and a fabric and proposes a size.
func (f *people) addSize(body *fyne.Container, who sizing.Person) {
	h := f.page.host
	if len(who.Taken) == 0 || len(f.page.patterns) == 0 {
		return
	}
	var names []string
	for _, q := range f.page.patterns {
		names = append(names, q.Name)
	}
	fabrics := []string{anyFabric}
	for _, x := range f.fabrics {
		fabrics = append(fabrics, x.Name)
	}
	which, in := widgets.NewChoice("Size of the pattern", names, nil), widgets.NewChoice("Worn stretch against", fabrics, nil)
	if f.pattern == "" {
		f.pattern = names[0]
	}
	which.SetSelected(f.pattern)
	in.SetSelected(f.fabric)
	which.Escape, in.Escape = f.leave, f.leave
	f.answer = container.NewVBox()
	which.OnChanged = func(s string) { f.pattern = s; f.propose(who) }
	in.OnChanged = func(s string) { f.fabric = s; f.propose(who) }
	h.Names.Set("person.pattern", which)
	h.Names.Set("person.fabric", in)
	h.Names.Set("person.size", f.answer)
	body.Add(container.NewGridWithColumns(2, which.Object(), in.Object()))
	body.Add(f.answer)
	f.propose(who)
}

// propose shows the size for a person.
func (f *people) propose(who sizing.Person) {
	var pattern, fabric stash.ID
	for _, q := range f.page.patterns {
		if q.Name == f.pattern {
			pattern = q.ID
		}
	}
	for _, x := range f.fabrics {
		if x.Name == f.fabric {
			fabric = x.ID
		}
	}
	h, into := f.page.host, f.answer
	var c sizing.Choice
	h.Tasks.Start("people.size", func(ctx context.Context, _ func(func())) (err error) {
		c, err = h.Studio.SizeFor(ctx, pattern, who.ID, fabric)
		return err
	}, func(err error) {
		into.RemoveAll()
		if err != nil {
			into.Add(widgets.Remark("! ", say.Error(err), widgets.Careful))
		} else {
			f.proposed(into, who, pattern, c)
		}
		into.Refresh()
	})
}

func (f *people) proposed(into *fyne.Container, who sizing.Person, of stash.ID, c sizing.Choice) {
	v := f.page.host.Voice()
	into.Add(container.NewBorder(nil, nil, widgets.SubHeading("Size "+c.Size), f.wants(who, of, c)))
	for _, s := range v.SizeWhy(c) {
		into.Add(widgets.Remark("· ", s, widgets.Plain))
	}
	if slices.Contains(c.Why, sizing.LevelsDiffer) {
		into.Add(f.blends(of, c))
	}
	if s := scene.Eases(c.Options, c.Size); len(s.Items) > 0 {
		view := widgets.NewSceneView(260, 150)
		view.Draw(s)
		into.Add(view)
		into.Add(widgets.Figures(v.EaseRows(c)))
		into.Add(widgets.Line("Firm is more than a third of what the fabric stretches, too tight more than half.", widgets.Quiet))
	}
}

// wants offers to want a garment in the size proposed, or in another.
func (f *people) wants(who sizing.Person, of stash.ID, c sizing.Choice) fyne.CanvasObject {
	h := f.page.host
	q, ok := f.page.pattern(of)
	if !ok {
		return container.NewHBox()
	}
	var names []string
	for _, s := range q.Sizes {
		names = append(names, s.Name)
	}
	size := widgets.NewChoice("Size", names, nil)
	size.SetSelected(c.Size)
	size.Escape = f.leave
	want := widgets.NewButton("Add to garments in this size", func() {
		h.Act("want for", func(ctx context.Context) (string, error) {
			g, err := h.Studio.NewGarment(ctx, of, size.Selected, q.Name+" for "+who.Name, who.Name)
			told := g.Name + " is wanted. Find fabric for it next."
			if len(who.Adjustments) > 0 {
				told = g.Name + " is wanted. Look at it in Garments: what is kept for " + who.Name + " is offered there."
			}
			return told, err
		}, nil)
	})
	h.Names.Set("person.which", size)
	h.Names.Set("person.want", want)
	return container.NewHBox(container.NewGridWrap(fyne.NewSize(widgets.Scaled(100), want.MinSize().Height), size.Bare()), want)
}

// blends offers a size that is what she needs level by level.
func (f *people) blends(of stash.ID, c sizing.Choice) fyne.CanvasObject {
	h := f.page.host
	blend := widgets.NewButton("Blend these sizes", func() {
		h.Act("blend", func(ctx context.Context) (string, error) {
			b, err := h.Studio.KeepBlend(ctx, of, c)
			return say.Blended(b) + " Ctrl+Z takes it out again.", err
		}, func(err error) {
			if err == nil {
				f.page.Shown()
			}
		})
	})
	h.Names.Set("person.blend", blend)
	return container.NewHBox(blend)
}

// drop takes a person off the list.
func (f *people) drop(who sizing.Person) {
	h := f.page.host
	h.Act("drop person", func(ctx context.Context) (string, error) {
		return "Took " + who.Name + " off the list. Ctrl+Z puts it back.", h.Studio.DropPerson(ctx, who.ID)
	}, func(error) { f.read() })
}

// edit asks for name and notes of a person.
func (f *people) edit(who sizing.Person) {
	h := f.page.host
	name := widgets.NewField("Name", "", nil)
	name.Needed = "Type a name, or what you call them."
	notes := widgets.NewField("Notes", "likes it loose", nil)
	name.Set(who.Name)
	notes.Set(who.Notes)
	h.Names.Set("person.name", name.Entry)
	h.Names.Set("person.notes", notes.Entry)
	form := &widgets.Form{Title: "Somebody to sew for", About: who.Name, Send: "Keep", Say: say.Error, Width: 420,
		Rows: [][]fyne.CanvasObject{{name.Object()}, {notes.Object()}}, Fields: []*widgets.Field{name, notes}}
	form.Done = func() error {
		who.Name, who.Notes = strings.TrimSpace(name.Text()), strings.TrimSpace(notes.Text())
		h.Act("person", func(ctx context.Context) (string, error) {
			saved, err := h.Studio.SavePerson(ctx, who)
			f.wanted = saved.ID
			return "Kept " + saved.Name + ".", err
		}, func(error) { f.read() })
		return nil
	}
	h.ShowForm(form)
	h.Names.Set("person.send", form.SendButton())
}
