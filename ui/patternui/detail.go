package patternui

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/ui/page"
	"tallycloth/ui/paperui"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

func (p *Page) nothingChosen() {
	p.detail.Objects = []fyne.CanvasObject{container.NewCenter(widgets.Line("Choose a pattern to see its pattern pieces and what it asks.", widgets.Quiet))}
	p.detail.Refresh()
}

// show fills the detail for a pattern.
func (p *Page) show(id stash.ID) {
	q, ok := p.pattern(id)
	if !ok {
		p.nothingChosen()
		return
	}
	p.detail.Objects = []fyne.CanvasObject{container.NewVScroll(widgets.Inset(p.detailOf(q)))}
	p.detail.Refresh()
}

func (p *Page) detailOf(q pattern.Pattern) fyne.CanvasObject {
	size := p.sizeOf(q)
	about := strings.Trim(q.Kind+" · "+q.Maker, " ·")
	body := container.NewVBox(widgets.Heading(q.Name), widgets.Line(about, widgets.Quiet), p.actions(q, size))
	if q.Approximate {
		body.Add(widgets.Remark("≈ ", say.Approximate(p.host.Voice(), q), widgets.Accent))
	}
	if s := piecesScene(p.host.Voice(), q, size); len(s.Items) > 0 {
		view := widgets.NewSceneView(260, 330)
		view.Draw(s)
		body.Add(view)
	}
	p.addMeasures(body, q, size)
	if bareChart(q) {
		chart := widgets.NewButton("Start a body chart from a table", func() { p.startChart(q) })
		p.host.Names.Set("pattern.chart", chart)
		body.Add(container.NewHBox(chart))
	}
	if blendable(q) {
		blend := widgets.NewButton("Blend sizes", func() { p.blend(q, size) })
		p.host.Names.Set("pattern.blend", blend)
		body.Add(container.NewHBox(blend))
	}
	p.addAsks(body, q, size)
	p.addEdges(body, q)
	addWork(body, q)
	if q.Notes != "" {
		body.Add(widgets.SubHeading("Notes"))
		body.Add(widgets.Remark("", q.Notes, widgets.Plain))
	}
	if c := say.Caution(q); c != "" {
		body.Add(widgets.Remark("! ", c, widgets.Careful))
	}
	return body
}

func (p *Page) actions(q pattern.Pattern, size string) fyne.CanvasObject {
	var names []string
	for _, s := range q.Sizes {
		names = append(names, s.Name)
	}
	sizes := widgets.NewChoice("Size", names, nil)
	sizes.SetSelected(size)
	sizes.Escape = p.Focus
	sizes.OnChanged = func(s string) {
		p.size[q.ID] = s
		p.show(q.ID)
		p.focusSize()
	}
	find := widgets.NewButton("Find fabric", p.FindFabric)
	find.Importance = widget.HighImportance
	strips := widgets.NewButton("Work out strips", func() {
		p.host.Go(page.Route{Place: page.Binding, ID: q.ID, Size: p.sizeOf(q), Do: page.WorkStrips})
	})
	want := widgets.NewButton("Add to garments", func() { p.want(q) })
	p.host.Names.Set("pattern.size", sizes)
	p.host.Names.Set("pattern.find", find)
	p.host.Names.Set("pattern.strips", strips)
	p.host.Names.Set("pattern.want", want)
	buttons, more := container.New(layout.NewRowWrapLayout(), find), container.New(layout.NewRowWrapLayout())
	if len(q.Edges) > 0 {
		buttons.Add(strips)
	}
	buttons.Add(want)
	if hasOutlines(q) {
		save := widgets.NewButton("Export outlines", func() { p.saveOutlines(q, size) })
		edit := widgets.NewButton("Edit outlines", func() { p.EditOutlines(q, size) })
		p.host.Names.Set("pattern.outlines", save)
		p.host.Names.Set("pattern.edit", edit)
		more.Add(edit)
		more.Add(save)
	}
	if outlined(q, size) {
		full := widgets.NewButton("Full size on paper", func() { paperui.Pieces(p.host, q, size) })
		p.host.Names.Set("pattern.full", full)
		more.Add(full)
	}
	both := container.NewVBox(buttons, more)
	if len(more.Objects) == 0 {
		both.Remove(more)
	}
	return container.NewBorder(nil, nil, container.NewGridWrap(fyne.NewSize(widgets.Scaled(110), sizes.Object().MinSize().Height), sizes.Object()), nil,
		container.NewVBox(widgets.Caption(" "), both))
}

// outlined says whether a pattern has an outline in a size.
func outlined(q pattern.Pattern, size string) bool {
	return slices.ContainsFunc(q.Pieces, func(x pattern.Piece) bool { _, ok := x.Outlines[size]; return ok })
}

// focusSize keeps the focus on the choice of size, which was made anew.
func (p *Page) focusSize() {
	if f, ok := p.host.Names.Get("pattern.size").(fyne.Focusable); ok {
		p.host.Focus(f)
	}
}

// want asks for whom, and adds a garment that is wanted.
func (p *Page) want(q pattern.Pattern) {
	size := p.sizeOf(q)
	name := widgets.NewField("Name", q.Name, nil)
	who := widgets.NewField("For whom", "", nil)
	p.host.Names.Set("want.name", name.Entry)
	p.host.Names.Set("want.who", who.Entry)
	form := &widgets.Form{Title: "A garment that is wanted", About: q.Name + ", size " + size, Intro: q.Name + ", size " + size + ".", Send: "Add to garments", Say: say.Error, Width: 420,
		Rows: [][]fyne.CanvasObject{{name.Object(), who.Object()}}, Fields: []*widgets.Field{name, who}}
	form.Done = func() error {
		p.host.Act("want", func(ctx context.Context) (string, error) {
			g, err := p.host.Studio.NewGarment(ctx, q.ID, size, strings.TrimSpace(name.Text()), strings.TrimSpace(who.Text()))
			return g.Name + " is wanted. Find fabric for it next.", err
		}, nil)
		return nil
	}
	p.host.ShowForm(form)
	p.host.Names.Set("want.send", form.SendButton())
}

// addMeasures lists body and finished measurements of a size with their ease.
func (p *Page) addMeasures(body *fyne.Container, q pattern.Pattern, size string) {
	s, ok := q.Size(size)
	if !ok || len(s.Finished)+len(s.Body) == 0 {
		return
	}
	v := p.host.Voice()
	body.Add(widgets.SubHeading("Measurements in size " + size))
	rows := [][]string{{"", "Body", "Garment", "Ease"}}
	for _, l := range q.Levels {
		row := []string{l.Name, "", "", ""}
		if x, ok := s.Body[l.Name]; ok {
			row[1] = v.Width(x)
		}
		if x, ok := s.Finished[l.Name]; ok {
			row[2] = v.Width(x)
		}
		if e, ok := s.Ease(l.Name); ok && l.Girth {
			row[3] = v.Signed(e)
		}
		rows = append(rows, row)
	}
	body.Add(widgets.Figures(rows))
}

// addAsks lists what each use asks of its fabric, and the yardage table for the size.
func (p *Page) addAsks(body *fyne.Container, q pattern.Pattern, size string) {
	v := p.host.Voice()
	if len(q.Roles) > 0 {
		body.Add(widgets.SubHeading("What it asks of its fabrics"))
	}
	for _, r := range q.Roles {
		optional := ""
		if r.Optional {
			optional = ", optional"
		}
		body.Add(widgets.Remark("· ", say.Sentence(r.Name+optional+": "+v.Asks(r)), widgets.Plain))
	}
	if rows := v.YardageRows(q, size); len(rows) > 1 {
		body.Add(widgets.SubHeading("Yardage table for size " + size))
		body.Add(widgets.Figures(rows))
		if hasOutlines(q) {
			body.Add(widgets.Remark("", "What to buy before there is cloth to look at: a row for each pattern piece that finds no room beside another, strips and raw ends with it, rounded up as shops sell. A layout often takes less: Find fabric shows how much of each cloth.", widgets.Quiet))
		}
	}
}

func (p *Page) addEdges(body *fyne.Container, q pattern.Pattern) {
	if len(q.Edges) == 0 {
		return
	}
	body.Add(widgets.SubHeading("Edges to finish"))
	for _, e := range q.Edges {
		text := e.Name
		if e.Count > 1 {
			text += fmt.Sprintf(", %d of them", e.Count)
		}
		if e.Finish != "" {
			text += ": " + e.Finish
		}
		if e.Width > 0 {
			text += ", " + p.host.Voice().Fine(e.Width) + " wide"
		}
		body.Add(widgets.Remark("· ", say.Sentence(text), widgets.Plain))
	}
}

// addWork lists the order of work with its stops.
func addWork(body *fyne.Container, q pattern.Pattern) {
	if len(q.Work) == 0 {
		return
	}
	body.Add(widgets.SubHeading("Order of work"))
	for i, s := range q.Work {
		tone := widgets.Plain
		if s.TryOn {
			tone = widgets.Accent
		}
		body.Add(widgets.Remark(fmt.Sprintf("%d ", i+1), s.Text, tone))
	}
}
