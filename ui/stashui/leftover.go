package stashui

import (
	"cmp"
	"context"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"tallycloth/planner"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
	"tallycloth/ui/answer"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// The shapes of a leftover that a few numbers describe.
const (
	rectangle = "rectangle"
	slanted   = "one end slanted"
	lShaped   = "L-shape: a corner is cut out"
)

// adding is the form for a leftover that was there before the library.
type adding struct {
	page                       *Page
	form                       *widgets.Form
	fabric                     *fabricFields
	shape                      *widgets.Choice
	long, wide                 *widgets.Field
	other, cutLength, cutWidth *widgets.Field  // as the shape asks
	corner                     *fyne.Container // the last two
	place                      *widgets.Field
	low, washed                *widgets.Check
	view                       *widgets.LayoutView // what was typed so far, drawn
}

// AddLeftover opens the form for a leftover that was there before the library.
func (p *Page) AddLeftover() {
	if p.reopened(p.addForm) {
		return
	}
	a := &adding{page: p, fabric: p.newFabricFields()}
	a.fields()
	if c, ok := p.chosen(); ok {
		a.fabric.choose(c.Fabric.ID)
	}
	photo := widgets.NewButton("Take it from a photo", func() { a.instead(p.FromPhoto) })
	draw := widgets.NewButton("Draw it on a grid", func() { a.instead(p.Draw) })
	p.host.Names.Set("form.photo", photo)
	p.host.Names.Set("form.draw", draw)
	f := a.fabric
	a.form = &widgets.Form{Title: "Add leftover", Send: "Add leftover", Say: say.Error, Width: 940, Done: a.send,
		Rows: [][]fyne.CanvasObject{
			{f.known.Object(), f.name.Object(), f.make_.Object(), f.colour.Object()},
			{f.width.Object(), f.fibres.Object(), f.weight.Object(), a.place.Object()},
			{a.shape.Object(), a.long.Object(), a.wide.Object(), container.NewStack(a.other.Object(), a.corner)},
			{container.NewVBox(a.low, a.washed, container.NewHBox(draw, photo)), a.view},
		},
		Fields: []*widgets.Field{f.name, f.width, f.fibres, f.weight, a.long, a.wide, a.other, a.cutLength, a.cutWidth, a.place}}
	for _, field := range a.form.Fields {
		field.Changed = a.draw
	}
	a.low.OnChanged = func(bool) { a.draw() }
	a.shape.OnChanged = func(string) { a.shaped() }
	known := f.known.OnChanged
	f.known.OnChanged = func(word string) { known(word); a.draw() }
	a.shaped()
	p.addForm = a.form
	p.open(a.form)
}

func (a *adding) fields() {
	p := a.page
	a.shape = widgets.NewChoice("Shape", []string{rectangle, slanted, lShaped}, nil)
	a.long = needed(p.lengthField("Length along the selvedge", "60 cm", measure.Width), "Say how long it is.")
	a.wide = needed(p.lengthField("Width", "85 cm", measure.Width), "Say how wide it is.")
	a.other = p.lengthField("Length at the shorter side", "45 cm", measure.Width)
	a.cutLength = p.lengthField("Missing corner: length", "20 cm", measure.Width)
	a.cutWidth = p.lengthField("and its width", "30 cm", measure.Width)
	a.corner = container.NewGridWithColumns(2, a.cutLength.Object(), a.cutWidth.Object())
	a.place = widgets.NewField("Where it is kept", "shelf, box", nil)
	a.low = widgets.NewCheck("A selvedge along the lower side, as drawn here", nil)
	a.washed = widgets.NewCheck("Washed already", nil)
	a.view = widgets.NewLayoutView(fyne.NewSize(300, 130))
	for name, o := range map[string]fyne.CanvasObject{"form.shape": a.shape, "form.length": a.long.Entry, "form.leftwidth": a.wide.Entry,
		"form.other": a.other.Entry, "form.cutlength": a.cutLength.Entry, "form.cutwidth": a.cutWidth.Entry, "form.place": a.place.Entry} {
		p.host.Names.Set(name, o)
	}
}

// instead leaves the form for another way to say the outline, which takes a fabric that is known.
func (a *adding) instead(way func()) {
	if words, _ := a.page.fabricsByName(); len(words) == 0 {
		a.form.Complain("Log a purchase of the fabric first, or say the shape in numbers here.")
		return
	}
	a.form.Close()
	way()
}

// shaped asks for what the shape needs.
func (a *adding) shaped() {
	show := func(f *widgets.Field, on bool, sentence string) {
		f.Needed = ""
		f.Object().Hide()
		if on {
			f.Needed = sentence
			f.Object().Show()
		}
	}
	kind := a.shape.Selected
	show(a.other, kind == slanted, "Measure the leftover at both sides and put the longer one first.")
	show(a.cutLength, kind == lShaped, "Measure how long the missing corner is.")
	show(a.cutWidth, kind == lShaped, "Measure how wide the missing corner is.")
	a.corner.Hidden = kind != lShaped
	a.draw()
	a.form.Refit()
}

// leftover is what the form says.
func (a *adding) leftover() (planner.LeftoverForm, error) {
	p := a.page
	in := planner.LeftoverForm{Fabric: a.fabric.fabric(p), Place: a.place.Text(), Washed: a.washed.Checked, SelvedgeLow: a.low.Checked}
	in.FabricID = in.Fabric.ID
	in.Length, in.Width = p.lengthIn(a.long, measure.Width), p.lengthIn(a.wide, measure.Width)
	x, y := p.lengthIn(a.other, measure.Width), measure.Length(0)
	if a.shape.Selected == lShaped {
		x, y = p.lengthIn(a.cutLength, measure.Width), p.lengthIn(a.cutWidth, measure.Width)
	}
	out, err := leftoverOutline(a.shape.Selected, in.Length, in.Width, x, y)
	in.Outline = shape.Polygon{Outer: out}
	return in, err
}

// draw shows the leftover as it was typed so far, with usual measurements for what is missing, so that it
// is seen which side and which corner are meant.
func (a *adding) draw() {
	in, err := a.leftover()
	l, w := cmp.Or(in.Length, 60*measure.Centimetre), cmp.Or(in.Width, 40*measure.Centimetre)
	if err != nil || in.Length != l || in.Width != w {
		x, y := l*3/4, w/2
		if a.shape.Selected == lShaped {
			x = l / 3
		}
		in.Outline.Outer, _ = leftoverOutline(a.shape.Selected, l, w, x, y) // cannot fail: x and y are smaller
	}
	c := stash.Cloth{Length: l, Width: w, SelvedgeLow: in.SelvedgeLow}
	if len(in.Outline.Outer) > 0 {
		c = c.Shaped(in.Outline)
	}
	a.view.Draw(answer.Picture(a.page.host.Voice(), stash.ClothState{Cloth: c, Fabric: in.Fabric}, nil))
}

func (a *adding) send() error {
	p := a.page
	in, err := a.leftover()
	if err != nil {
		return err
	}
	c, err := p.host.Studio.AddLeftover(context.Background(), in)
	if err != nil {
		return err
	}
	p.saved(c, "Added a leftover of "+c.Fabric.Name+" as "+c.Cloth.Code+".")
	return nil
}

// leftoverOutline is the outline few numbers describe; nil for a rectangle.
func leftoverOutline(kind string, l, w, x, y measure.Length) (shape.Ring, error) {
	ask := func(what, do string) error { return &stash.Error{Kind: stash.Invalid, What: what, Do: do} }
	pt := func(x, y measure.Length) shape.Point { return shape.Point{X: int64(x), Y: int64(y)} }
	switch kind {
	case slanted:
		if x <= 0 || x >= l {
			return nil, ask("the length at the other side is missing or not shorter", "Measure the leftover at both sides and put the longer one first.")
		}
		return shape.Ring{pt(0, 0), pt(l, 0), pt(x, w), pt(0, w)}, nil
	case lShaped:
		if x <= 0 || x >= l || y <= 0 || y >= w {
			return nil, ask("the cut-out is missing or not smaller than the leftover", "Measure how long and how wide the missing corner is.")
		}
		return shape.Ring{pt(0, 0), pt(l, 0), pt(l, w-y), pt(l-x, w-y), pt(l-x, w), pt(0, w)}, nil
	}
	return nil, nil
}
