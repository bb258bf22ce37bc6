package patternui

import (
	"context"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"tallycloth/planner"
	"tallycloth/planner/draft"
	"tallycloth/planner/pattern"
	"tallycloth/stash/measure"
	"tallycloth/ui/page"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// quick drafts approximate outlines from what a finished garment measures; they are drawn
// while she types.
type quick struct {
	page *Page

	kind            *widgets.Choice
	name            *widgets.Field
	sizes, measured *widgets.Field
	seam, hem       *widgets.Field
	values, steps   map[string]*widgets.Field
	table           *fyne.Container
	drawn           *widgets.Choice // the size drawn
	preview         *widgets.SceneView
	told, measuring *fyne.Container
	save            *widgets.Button
	object          fyne.CanvasObject
	made            pattern.Pattern
	left            fyne.CanvasObject // what is filled in
	kept            *page.Kept        // until it is saved
}

// Quick drafts outlines from finished measurements.
func (p *Page) Quick() {
	if p.find != nil {
		p.back()
	}
	if p.draft == nil {
		p.draft = newQuick(p)
		p.draft.kept = p.host.KeepRows("Quick outline", func() []fyne.CanvasObject { return []fyne.CanvasObject{p.draft.left} })
	}
	p.draft.usual()
	p.object.Objects = []fyne.CanvasObject{p.draft.object}
	p.object.Refresh()
	p.host.Focus(p.draft.name.Entry)
}

func newQuick(p *Page) *quick {
	q := &quick{page: p, table: container.NewVBox(), told: container.NewVBox(), measuring: container.NewVBox(),
		values: map[string]*widgets.Field{}, steps: map[string]*widgets.Field{}}
	q.fields()
	q.preview = widgets.NewSceneView(320, 330)
	q.drawn = widgets.NewChoice("Size drawn", nil, func(string) { q.draw() })
	q.drawn.Escape = q.leave
	q.save = widgets.NewButton("Keep the pattern", q.keep)
	q.save.Importance = widget.HighImportance
	back := widgets.NewButton("Back to patterns", q.leave)
	for name, o := range map[string]fyne.CanvasObject{"quick.kind": q.kind, "quick.name": q.name.Entry, "quick.sizes": q.sizes.Entry,
		"quick.measured": q.measured.Entry, "quick.seamallowance": q.seam.Entry, "quick.hemallowance": q.hem.Entry, "quick.save": q.save, "quick.back": back, "quick.told": q.told, "quick.drawn": q.drawn} {
		p.host.Names.Set(name, o)
	}
	head := container.NewBorder(nil, nil, widgets.Heading("Quick outline"), container.NewHBox(back, q.save))
	q.left = container.NewVBox(
		widgets.Remark("", "Approximate outlines from what a finished garment measures, lying flat and not stretched. They serve for layouts until you have the true ones.", widgets.Quiet),
		container.NewGridWithColumns(2, q.name.Object(), q.kind.Object()),
		container.NewGridWithColumns(4, q.sizes.Object(), q.measured.Object(), q.seam.Object(), q.hem.Object()),
		q.table)
	right := container.NewVBox(q.told, container.NewGridWithColumns(3, q.drawn.Object()), q.preview, q.measuring)
	split := widgets.Sides(container.NewVScroll(widgets.Inset(q.left)), container.NewVScroll(widgets.Inset(right)), 0.55)
	q.object = container.NewPadded(container.NewBorder(head, nil, nil, nil, split))
	q.ask()
	return q
}

func (q *quick) fields() {
	q.name = widgets.NewField("Name of the pattern", "Pond tee", nil)
	q.name.Needed = "Give the pattern a name."
	var words []string
	for _, k := range draft.Kinds() {
		words = append(words, string(k))
	}
	q.kind = widgets.NewChoice("Kind", words, func(string) { q.ask() })
	q.sizes = widgets.NewField("Sizes", "S, M, L", nil)
	q.sizes.Set("S, M, L")
	q.measured = widgets.NewField("Measured is size", "M", nil)
	q.measured.Set("M")
	q.seam = widgets.NewField("Seam allowance", "", q.page.readLength)
	q.hem = widgets.NewField("Hem allowance", "", q.page.readLength)
	for _, f := range []*widgets.Field{q.name, q.sizes, q.measured, q.seam, q.hem} {
		f.Changed = q.take
		f.Entry.Escape = q.leave
	}
	q.kind.Escape = q.leave
}

// usual shows the allowances of the settings where none are typed, and drafts with them.
func (q *quick) usual() {
	v := q.page.host.Voice()
	seam, hem := q.page.host.Settings().Allowances()
	q.seam.Entry.SetPlaceHolder(v.Fine(seam))
	q.hem.Entry.SetPlaceHolder(v.Fine(hem))
	q.take()
}

// unit is the unit of a bare number: centimetres, or inches.
func (p *Page) unit() measure.Unit {
	if p.host.Settings().Units == measure.Imperial {
		return measure.Inch
	}
	return measure.Centimetre
}

// readLength reads a length above zero and shows it back in full.
func (p *Page) readLength(text string) (string, error) {
	l, err := measure.ParsePositiveLength(text, p.unit())
	if err != nil {
		return "", err
	}
	return "= " + p.host.Voice().Fine(l), nil
}

// readRow reads one measurement, or one for each size.
func (q *quick) readRow(text string) (string, error) {
	var out []string
	for _, t := range strings.Split(text, ";") {
		r, err := q.page.readLength(t)
		if err != nil {
			return "", err
		}
		out = append(out, strings.TrimPrefix(r, "= "))
	}
	return "= " + strings.Join(out, "; "), nil
}

// ask makes a line for each measurement of the kind; what was typed stays where the kind
// before asked for it too.
func (q *quick) ask() {
	asks := draft.Kind(q.kind.Selected).Asks()
	q.table.RemoveAll()
	q.measuring.Objects = []fyne.CanvasObject{widgets.SubHeading("Where the tape lies")}
	var cells []fyne.CanvasObject
	optional := false
	for _, a := range asks {
		if !a.Needed && !optional {
			optional = true
			q.rows(cells)
			cells = nil
			q.table.Add(widgets.SubHeading("If you know it, else by rule"))
		}
		cells = append(cells, q.line(a))
		q.measuring.Add(widgets.Remark("· ", say.Sentence(a.Name+": "+a.Where), widgets.Plain))
	}
	q.rows(cells)
	q.table.Add(widgets.Line("A table instead of a step: one value for each size, such as 86; 92; 98.", widgets.Quiet))
	q.table.Refresh()
	q.take()
}

func (q *quick) rows(cells []fyne.CanvasObject) {
	if len(cells) > 0 {
		q.table.Add(container.NewGridWithColumns(2, cells...))
	}
}

// line is a measurement with its step from size to size.
func (q *quick) line(a draft.Ask) fyne.CanvasObject {
	value, known := q.values[a.Name]
	if !known {
		value = widgets.NewField(capital(a.Name), "", q.readRow)
		step := widgets.NewField("and per size", "", q.page.readLength)
		if by := draft.UsualSteps(draft.Kind(q.kind.Selected), draft.Row{Finished: map[string]measure.Length{a.Name: 1}})[a.Name]; by > 0 {
			step.Set(q.round(by))
		}
		for _, f := range []*widgets.Field{value, step} {
			f.Changed = q.take
			f.Entry.Escape = q.leave
		}
		q.values[a.Name], q.steps[a.Name] = value, step
	}
	q.page.host.Names.Set("quick."+a.Name, value.Entry)
	q.page.host.Names.Set("quick.step."+a.Name, q.steps[a.Name].Entry)
	return container.NewGridWithColumns(2, value.Object(), q.steps[a.Name].Object())
}

// round writes a usual step as people grade: in centimetres by halves where it is large.
func (q *quick) round(by measure.Length) string {
	const half = measure.Centimetre / 2
	if q.page.unit() == measure.Centimetre && by > 2*measure.Centimetre {
		by = (by + half/2) / half * half
	}
	return q.page.host.Voice().Fine(by)
}

func capital(s string) string { return strings.ToUpper(s[:1]) + s[1:] }

// words are what stands in the form.
func (q *quick) words() planner.QuickWords {
	k := draft.Kind(q.kind.Selected)
	w := planner.QuickWords{Name: q.name.Text(), Kind: k, Sizes: q.sizes.Text(), Measured: q.measured.Text(), Seam: q.seam.Text(), Hem: q.hem.Text(),
		Unit: q.page.unit(), Values: map[string]string{}, Steps: map[string]string{}}
	if strings.TrimSpace(w.Name) == "" {
		w.Name = "Quick " + string(k)
	}
	for _, a := range k.Asks() {
		w.Values[a.Name], w.Steps[a.Name] = q.values[a.Name].Text(), q.steps[a.Name].Text()
	}
	return w
}

// take drafts what the form says and draws it, or says what is missing.
func (q *quick) take() {
	if q.save == nil {
		return
	}
	drafted := q.drafted()
	var made pattern.Pattern
	q.page.host.Tasks.Start("patterns.quick", func(context.Context, func(func())) (err error) {
		made, err = drafted()
		return err
	}, func(err error) { q.seen(made, err) })
}

// drafted drafts, wherever it is called, what the form says now.
func (q *quick) drafted() func() (pattern.Pattern, error) {
	w, set := q.words(), q.page.host.Settings()
	return func() (pattern.Pattern, error) {
		f, err := w.Form()
		if err != nil {
			return pattern.Pattern{}, err
		}
		return draft.Quick(set.Allow(f))
	}
}

func (q *quick) seen(made pattern.Pattern, err error) {
	q.told.RemoveAll()
	if err != nil {
		q.made = pattern.Pattern{}
		q.preview.Hide()
		q.drawn.Object().Hide()
		q.save.Disable()
		q.told.Add(widgets.Remark("! ", say.Error(err), widgets.Careful))
		q.told.Refresh()
		return
	}
	q.made = made
	var names []string
	for _, s := range made.Sizes {
		names = append(names, s.Name)
	}
	if q.drawn.Words(names); !q.drawn.Object().Visible() {
		q.drawn.SetSelected(names[len(names)/2])
		q.drawn.Object().Show()
	}
	q.save.Enable()
	q.told.Add(widgets.Remark("≈ ", say.Approximate(q.page.host.Voice(), made), widgets.Accent))
	q.told.Refresh()
	q.draw()
}

func (q *quick) draw() {
	if len(q.made.Sizes) > 0 {
		q.preview.Show()
		q.preview.Draw(piecesScene(q.page.host.Voice(), q.made, q.drawn.Selected))
	}
}

// leave goes back to the patterns; what was typed is still there the next time.
func (q *quick) leave() {
	p := q.page
	p.object.Objects = []fyne.CanvasObject{p.shelf}
	p.object.Refresh()
	p.Focus()
}

// keep saves the pattern and shows it among the others.
func (q *quick) keep() {
	if !q.name.Valid() {
		q.page.host.Focus(q.name.Entry)
		return
	}
	if len(q.made.Sizes) == 0 {
		return
	}
	p, drafted := q.page, q.drafted()
	var kept pattern.Pattern
	p.host.Act("quick outline", func(ctx context.Context) (string, error) {
		made, err := drafted()
		if err != nil {
			return "", err
		}
		kept, err = p.host.Studio.SavePattern(ctx, made)
		return "Kept " + kept.Name + ", with approximate outlines. Ctrl+Z takes it out again.", err
	}, func(err error) {
		if err != nil {
			return
		}
		p.host.Forget(q.kept)
		p.draft = nil
		q.leave()
		p.wanted.ID = kept.ID
		p.Shown()
	})
}
