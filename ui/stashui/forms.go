package stashui

import (
	"context"
	"fmt"
	"strings"

	"fyne.io/fyne/v2"

	"tallycloth/planner"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// lengthField reads a length above zero and shows the reading back in full.
func (p *Page) lengthField(name, hint string, kind measure.Kind) *widgets.Field {
	v := p.host.Voice()
	return widgets.NewField(name, hint, func(text string) (string, error) {
		l, err := measure.ParsePositiveLength(text, p.bare(kind))
		if err != nil {
			return "", err
		}
		return "= " + measure.Style{System: v.Units, Kind: kind}.Format(l), nil
	})
}

// bare is the unit a bare number takes: yards or metres along, inches or
// centimetres across.
func (p *Page) bare(kind measure.Kind) measure.Unit {
	imperial := p.host.Voice().Units == measure.Imperial
	switch {
	case kind == measure.FabricLength && imperial:
		return measure.Yard
	case kind == measure.FabricLength:
		return measure.Metre
	case imperial:
		return measure.Inch
	}
	return measure.Centimetre
}

func (p *Page) lengthIn(f *widgets.Field, kind measure.Kind) measure.Length {
	l, err := measure.ParsePositiveLength(f.Text(), p.bare(kind))
	if err != nil {
		return 0
	}
	return l
}

func needed(f *widgets.Field, sentence string) *widgets.Field {
	f.Needed = sentence
	return f
}

// newFabric is the first word of a choice of fabric.
const newFabric = "a new fabric"

// fabricsByName lists the fabrics there are for a choice, and finds them again.
func (p *Page) fabricsByName() (words []string, by map[string]stash.Fabric) {
	by = map[string]stash.Fabric{}
	seen := map[stash.ID]bool{}
	for _, c := range p.cloths {
		if seen[c.Fabric.ID] {
			continue
		}
		seen[c.Fabric.ID] = true
		word := c.Fabric.Name
		if _, twice := by[word]; twice {
			word = fmt.Sprintf("%s (%s)", word, c.Fabric.ColourName)
		}
		by[word] = c.Fabric
		words = append(words, word)
	}
	return words, by
}

// fabricFields are the fields that describe a new fabric.
type fabricFields struct {
	known  *widgets.Choice
	by     map[string]stash.Fabric
	name   *widgets.Field
	make_  *widgets.Choice
	fibres *widgets.Field
	width  *widgets.Field
	weight *widgets.Field
	colour *widgets.Choice
}

// colours are words for a drawn swatch until there is a photo (ours).
var colours = []struct{ name, hex string }{
	{"undyed", "#e8e0cf"}, {"white", "#f7f5f0"}, {"black", "#2b2a2a"}, {"grey", "#8d8c8a"}, {"brown", "#7a5a43"}, {"sand", "#d2bd97"},
	{"red", "#a93c3a"}, {"rose", "#d58a94"}, {"orange", "#cf7b3c"}, {"yellow", "#dcb850"}, {"green", "#5f8a5b"}, {"olive", "#7b7a45"},
	{"teal", "#3d8585"}, {"blue", "#41649a"}, {"navy", "#2c3957"}, {"violet", "#7a6398"},
}

func (p *Page) newFabricFields() *fabricFields {
	words, by := p.fabricsByName()
	f := &fabricFields{by: by}
	f.name = needed(widgets.NewField("Name of the fabric", "what you call it", nil), "Give the fabric a name.")
	f.fibres = widgets.NewField("Fibres", "95% cotton 5% elastane", readFibres)
	f.width = needed(p.lengthField("Full width", "150 cm or 60 in", measure.Width), "Say how wide it is, selvedge to selvedge.")
	f.weight = widgets.NewField("Weight (if known)", "180 g/m² or 5.3 oz", p.readWeight)
	var names []string
	for _, c := range colours {
		names = append(names, c.name)
	}
	f.make_ = widgets.NewChoice("How it is made", constructions(), nil)
	f.colour = widgets.NewChoice("Colour", names, nil)
	f.known = widgets.NewChoice("Fabric", append([]string{newFabric}, words...), func(word string) { f.fillIn(p, word) })
	for name, o := range map[string]fyne.CanvasObject{"form.fabric": f.known, "form.name": f.name.Entry, "form.made": f.make_,
		"form.fibres": f.fibres.Entry, "form.width": f.width.Entry, "form.weight": f.weight.Entry} {
		p.host.Names.Set(name, o)
	}
	return f
}

// fillIn shows what is known of a fabric that is there already.
func (f *fabricFields) fillIn(p *Page, word string) {
	fab, ok := f.by[word]
	for _, e := range []*widgets.Field{f.name, f.fibres, f.width, f.weight} {
		if ok {
			e.Entry.Disable()
		} else {
			e.Entry.Enable()
		}
	}
	if !ok {
		for _, e := range []*widgets.Field{f.name, f.fibres, f.width, f.weight} {
			e.Set("")
		}
		return
	}
	v := p.host.Voice()
	f.name.Set(fab.Name)
	f.fibres.Set(fab.Fibres.String())
	f.width.Set(measure.Style{System: v.Units, Kind: measure.Width}.Exact(fab.FullWidth))
	f.weight.Set(measure.FormatWeight(fab.Weight, v.Units))
	f.make_.SetSelected(string(fab.Construction))
}

// fabric reads the fields.
func (f *fabricFields) fabric(p *Page) stash.Fabric {
	if fab, ok := f.by[f.known.Selected]; ok {
		return fab
	}
	made := stash.Construction(f.make_.Selected)
	fibres, _ := stash.ParseFibres(f.fibres.Text())
	weight, _ := measure.ParseWeight(f.weight.Text(), p.host.Voice().Units)
	fab := stash.Fabric{Name: f.name.Text(), Construction: made, Fibres: fibres, Weight: weight,
		FullWidth: p.lengthIn(f.width, measure.Width), Direction: made.UsualDirection()}
	for _, c := range colours {
		if c.name == f.colour.Selected {
			fab.Colour, fab.ColourName = c.hex, c.name
		}
	}
	return fab
}

// LogPurchase opens the form for a length that was bought.
func (p *Page) LogPurchase() {
	if p.reopened(p.logForm) {
		return
	}
	f := p.newFabricFields()
	long := needed(p.lengthField("Length", "1.5 m or 1 3/4 yd", measure.FabricLength), "Say how much you bought.")
	currency := p.host.Settings().Currency
	price := widgets.NewField("Price paid (if known)", "24.50 "+currency, func(text string) (string, error) {
		m, err := measure.ParseMoney(text, currency)
		if err != nil {
			return "", err
		}
		return "= " + m.String(), nil
	})
	shop := widgets.NewField("Bought from", "shop or market", nil)
	place := widgets.NewField("Where it is kept", "shelf, box", nil)
	lot := widgets.NewField("Dye lot (if marked)", "", nil)
	trued := widgets.NewCheck("Both ends are straight", nil)
	washed := widgets.NewCheck("Washed already", nil)
	p.host.Names.Set("form.length", long.Entry)
	p.host.Names.Set("form.price", price.Entry)
	p.host.Names.Set("form.shop", shop.Entry)
	p.host.Names.Set("form.place", place.Entry)
	form := &widgets.Form{Title: "Log purchase", Send: "Log purchase", Say: say.Error, Width: 640,
		Rows: [][]fyne.CanvasObject{{f.known.Object(), f.name.Object()}, {f.make_.Object(), f.colour.Object()}, {f.width.Object(), long.Object()},
			{f.fibres.Object(), f.weight.Object()}, {price.Object(), shop.Object()}, {place.Object(), lot.Object()}, {trued, washed}},
		Fields: []*widgets.Field{f.name, f.width, long, f.fibres, f.weight, price, shop, place, lot},
	}
	form.Done = func() error {
		money, _ := measure.ParseMoney(price.Text(), currency)
		fab := f.fabric(p)
		in := planner.PurchaseForm{FabricID: fab.ID, Fabric: fab, Supplier: shop.Text(), Length: p.lengthIn(long, measure.FabricLength),
			Price: money, Lot: lot.Text(), Place: place.Text(), Washed: washed.Checked, Trued: trued.Checked}
		c, err := p.host.Studio.LogPurchase(context.Background(), in)
		if err != nil {
			return err
		}
		p.saved(c, "Logged "+p.host.Voice().Length(c.Cloth.Length)+" of "+c.Fabric.Name+" as "+c.Cloth.Code+".")
		return nil
	}
	p.logForm = form
	p.open(form)
}

// saved tells what was saved and shows it.
func (p *Page) saved(c stash.ClothState, told string) {
	p.wanted = c.Cloth.ID
	p.filter.SetText("")
	p.host.Tell(told)
	p.Shown()
}

// reopened shows a form again that was closed without being sent, with what was typed
// in it, as long as the shelf is as it was.
func (p *Page) reopened(f *widgets.Form) bool {
	if f == nil || f.Sent() || p.formShelf != p.shelfStamp() {
		return false
	}
	p.open(f)
	return true
}

// shelfStamp changes when fabrics come or go, which forms offer to choose from.
func (p *Page) shelfStamp() string {
	words, _ := p.fabricsByName()
	return strings.Join(words, "|")
}

func (p *Page) open(f *widgets.Form) {
	p.formShelf = p.shelfStamp()
	f.Show(p.host.Canvas())
	p.host.Names.Set("form.send", f.SendButton())
	p.host.Names.Set("form.close", f.CloseButton())
}

// The shapes of a leftover that a few numbers describe.
const (
	rectangle = "rectangle"
	slanted   = "one end slanted"
	lShaped   = "L-shape: a corner is cut out"
)

// AddLeftover opens the form for a leftover that was there before the library.
func (p *Page) AddLeftover() {
	if p.reopened(p.addForm) {
		return
	}
	words, by := p.fabricsByName()
	if len(words) == 0 {
		p.host.Tell("Log a purchase first, so that there is a fabric the leftover is of.")
		return
	}
	fabric := widgets.NewChoice("Fabric", words, nil)
	kind := widgets.NewChoice("Shape", []string{rectangle, slanted, lShaped}, nil)
	long := needed(p.lengthField("Length along the selvedge", "60 cm", measure.Width), "Say how long it is.")
	wide := needed(p.lengthField("Width", "85 cm", measure.Width), "Say how wide it is.")
	a := p.lengthField("Length at the other side, or length of the cut-out", "only if not a rectangle", measure.Width)
	b := p.lengthField("Width of the cut-out", "only for an L-shape", measure.Width)
	place := widgets.NewField("Where it is kept", "shelf, box", nil)
	low := widgets.NewCheck("A selvedge on the near side", nil)
	washed := widgets.NewCheck("Washed already", nil)
	for name, o := range map[string]fyne.CanvasObject{"form.fabric": fabric, "form.shape": kind, "form.length": long.Entry, "form.width": wide.Entry,
		"form.other": a.Entry, "form.cutwidth": b.Entry, "form.place": place.Entry} {
		p.host.Names.Set(name, o)
	}
	form := &widgets.Form{Title: "Add leftover", Send: "Add leftover", Say: say.Error, Width: 640,
		Rows:   [][]fyne.CanvasObject{{fabric.Object(), kind.Object()}, {long.Object(), wide.Object()}, {a.Object(), b.Object()}, {place.Object()}, {low, washed}},
		Fields: []*widgets.Field{long, wide, a, b, place}}
	form.Done = func() error {
		in := planner.LeftoverForm{FabricID: by[fabric.Selected].ID, Place: place.Text(), Washed: washed.Checked, SelvedgeLow: low.Checked}
		l, w := p.lengthIn(long, measure.Width), p.lengthIn(wide, measure.Width)
		x, y := p.lengthIn(a, measure.Width), p.lengthIn(b, measure.Width)
		out, err := leftoverOutline(kind.Selected, l, w, x, y)
		if err != nil {
			return err
		}
		in.Length, in.Width, in.Outline = l, w, shape.Polygon{Outer: out}
		c, err := p.host.Studio.AddLeftover(context.Background(), in)
		if err != nil {
			return err
		}
		p.saved(c, "Added a leftover of "+c.Fabric.Name+" as "+c.Cloth.Code+".")
		return nil
	}
	p.addForm = form
	p.open(form)
}

// leftoverOutline is the outline few numbers describe; nil for a rectangle.
func leftoverOutline(kind string, l, w, x, y measure.Length) (shape.Ring, error) {
	ask := func(what, do string) error { return &stash.Error{Kind: stash.Invalid, What: what, Do: do} }
	pt := func(x, y measure.Length) shape.Point { return shape.Point{X: int64(x), Y: int64(y)} }
	switch kind {
	case slanted:
		if x <= 0 || x >= l {
			return nil, ask("the length at the other side is missing or not shorter", "Measure the piece at both sides and put the longer one first.")
		}
		return shape.Ring{pt(0, 0), pt(l, 0), pt(x, w), pt(0, w)}, nil
	case lShaped:
		if x <= 0 || x >= l || y <= 0 || y >= w {
			return nil, ask("the cut-out is missing or not smaller than the piece", "Measure how long and how wide the missing corner is.")
		}
		return shape.Ring{pt(0, 0), pt(l, 0), pt(l, w-y), pt(l-x, w-y), pt(l-x, w), pt(0, w)}, nil
	}
	return nil, nil
}

// MeasureStretch opens the form of a bench test.
func (p *Page) MeasureStretch(fab stash.Fabric) {
	grain := widgets.NewChoice("Along which grain", []string{"crosswise, from selvedge to selvedge", "lengthwise, along the selvedge"}, nil)
	before := needed(p.lengthField("Before", "10 cm", measure.PieceLength), "Mark 10 cm or 4 in and say how long it was.")
	stretched := needed(p.lengthField("Stretched", "14 cm", measure.PieceLength), "Say how long it was while you pulled.")
	after := needed(p.lengthField("After resting", "10.2 cm", measure.PieceLength), "Say how long it was after resting.")
	p.host.Names.Set("form.grain", grain)
	p.host.Names.Set("form.before", before.Entry)
	p.host.Names.Set("form.stretched", stretched.Entry)
	p.host.Names.Set("form.after", after.Entry)
	form := &widgets.Form{Title: "Measure stretch of " + fab.Name, Say: say.Error, Send: "Keep the test",
		Intro: "Fold the cloth away from the selvedge, mark 10 cm or 4 in on the fold. Pull by hand until the edge starts to curl, hold 10 seconds, let it rest for a minute.",
		Rows:  [][]fyne.CanvasObject{{grain.Object()}, {before.Object(), stretched.Object(), after.Object()}}, Fields: []*widgets.Field{before, stretched, after}}
	form.Done = func() error {
		t := planner.StretchTest{Crosswise: grain.SelectedIndex() == 0, Before: p.lengthIn(before, measure.PieceLength),
			Stretched: p.lengthIn(stretched, measure.PieceLength), After: p.lengthIn(after, measure.PieceLength)}
		f, err := p.host.Studio.MeasureStretch(context.Background(), fab.ID, t)
		if err != nil {
			return err
		}
		g := f.Lengthwise
		if t.Crosswise {
			g = f.Crosswise
		}
		p.host.Tell(fmt.Sprintf("%s stretches %s, recovers %s.", f.Name, say.Reading(g.Stretch, g.Stretch), say.Reading(g.Recovery, g.Recovery)))
		p.Shown()
		return nil
	}
	p.open(form)
}

// trueEnds opens the form for straightened ends.
func (p *Page) trueEnds(c stash.ClothState) {
	long := needed(p.lengthField("Length now", "", measure.FabricLength), "Measure what is left between the straight ends.")
	form := &widgets.Form{Title: "Ends trued", Send: "Keep the new length", Say: say.Error, Rows: [][]fyne.CanvasObject{{long.Object()}}, Fields: []*widgets.Field{long}}
	form.Done = func() error {
		if err := p.host.Studio.TrueEnds(context.Background(), c.Cloth.ID, p.lengthIn(long, measure.FabricLength)); err != nil {
			return err
		}
		p.host.Tell("Both ends of " + c.Cloth.Code + " are straight now.")
		p.Shown()
		return nil
	}
	p.open(form)
}

// leave takes a cloth off the shelf; undo brings it back.
func (p *Page) leave(c stash.ClothState, word string, do func(context.Context, stash.ID, string) error) {
	p.host.Act("leave", func(ctx context.Context) (string, error) {
		return word + " " + c.Fabric.Name + " " + c.Cloth.Code + ". Ctrl+Z brings it back.", do(ctx, c.Cloth.ID, "")
	}, func(error) { p.Shown() })
}
