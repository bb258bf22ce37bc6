package garmentui

import (
	"context"
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"tallycloth/planner"
	"tallycloth/planner/garment"
	"tallycloth/planner/leftover"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
	"tallycloth/ui/answer"
	"tallycloth/ui/paperui"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// What becomes of a leftover.
const (
	asItLies  = "Keep as it lies"
	straight  = "Keep its straight rectangle"
	thrownOut = "Discard"
)

// cutting is the view in which a garment is marked cut: every cloth with what is cut
// from it, and every leftover with what it is still good for and what becomes of it.
type cutting struct {
	page    *Page
	garment garment.Garment
	cloths  []planner.ClothCut
	rows    []*leftRow
	sums    *fyne.Container
	send    *widgets.Button
	label   *widgets.Button // marks it cut, then shows labels for what is kept
}

// leftRow is one leftover.
type leftRow struct {
	cloth  *planner.ClothCut
	left   leftover.Leftover
	name   string
	choice *widgets.Choice
	place  *widgets.Entry
	uses   *fyne.Container
}

// cut opens the view.
func (p *Page) cut(g garment.Garment) {
	p.host.Tell("Looking what is left over …")
	var cloths []planner.ClothCut
	p.host.Tasks.Start("garment.cut", func(ctx context.Context, _ func(func())) (err error) {
		cloths, err = p.host.Studio.CutPlan(ctx, g.ID)
		return err
	}, func(err error) {
		if err != nil {
			p.host.Trouble(err)
			return
		}
		p.host.Tell("")
		p.showCutting(g, cloths)
	})
}

func (p *Page) showCutting(g garment.Garment, cloths []planner.ClothCut) {
	v := &cutting{page: p, garment: g, cloths: cloths, sums: container.NewVBox()}
	p.leaf = container.NewVScroll(nil)
	body := container.NewVBox(widgets.Title("Cut "+g.Name),
		widgets.Remark("", "Cut first, then say here what you kept. Everything else counts as discarded; Ctrl+Z takes all of it back.", widgets.Quiet))
	for i := range v.cloths {
		v.addCloth(body, &v.cloths[i])
	}
	v.send = widgets.Primary("Mark cut", func() { v.mark(nil) })
	v.label = widgets.NewButton("Mark cut, then labels", func() { v.mark(v.labels) })
	back := widgets.NewButton("Back", func() { p.EscapeHere() })
	p.host.Names.Set("cut.send", v.send)
	p.host.Names.Set("cut.labels", v.label)
	p.host.Names.Set("cut.back", back)
	body.Add(v.sums)
	body.Add(container.NewHBox(v.send, v.label, back))
	v.count()
	p.leaf.Content = widgets.Inset(body)
	p.detail.Objects = []fyne.CanvasObject{p.leaf}
	p.detail.Refresh()
	p.cutting = v
	p.host.Focus(v.send)
	v.lookForUses()
}

// EscapeHere goes back from the cutting view to the garment, and says whether it was open.
func (p *Page) EscapeHere() bool {
	if p.cutting == nil {
		return false
	}
	p.host.Tasks.Stop("garment.uses")
	p.show(p.cutting.garment.ID)
	p.Focus()
	return true
}

// addCloth shows one cloth: its picture, and a row for each leftover.
func (v *cutting) addCloth(body *fyne.Container, c *planner.ClothCut) {
	p := v.page
	body.Add(widgets.SubHeading(c.Cloth.Fabric.Name + " " + c.Cloth.Cloth.Code))
	view := widgets.NewLayoutView(fyne.NewSize(240, 200))
	view.LieOn(p.leaf)
	pic := answer.Picture(p.host.Voice(), c.Cloth, nil)
	pic.Reserved = nil
	for _, r := range c.Cut {
		for _, q := range r.Pieces {
			name := q.Name
			if q.Spoiled {
				name += ", spoiled"
			}
			pic.Pieces = append(pic.Pieces, widgets.PicturePiece{Name: name, Outline: q.Outline, Top: q.GrainTo})
		}
	}
	for _, r := range c.Others {
		note := ""
		if o, ok := p.garment(r.GarmentID); ok {
			note = o.Name
		}
		for _, q := range r.Pieces {
			pic.Reserved = append(pic.Reserved, widgets.PicturePiece{Name: q.Name, Note: note, Outline: q.Outline})
		}
	}
	for i, l := range c.Left {
		name := fmt.Sprintf("Leftover %d", len(v.rows)+1)
		pic.Pieces = append(pic.Pieces, widgets.PicturePiece{Name: name, Outline: l.Outline.Outer, Tint: 2 + i})
		v.addRow(c, l, name)
	}
	view.Away = p.host.Away("cut " + c.Cloth.Cloth.ID.String())
	view.Draw(pic)
	view.Hovered = p.host.Tell
	body.Add(view)
	if len(c.Left) == 0 {
		body.Add(widgets.Remark("", "Nothing is left that is worth keeping.", widgets.Plain))
	}
	for _, r := range v.rows {
		if r.cloth == c {
			body.Add(v.rowObject(r))
		}
	}
	if len(c.Others) > 0 {
		body.Add(widgets.Remark("", "What is reserved for other garments moves onto the leftover it lies on.", widgets.Quiet))
	}
}

func (v *cutting) addRow(c *planner.ClothCut, l leftover.Leftover, name string) {
	r := &leftRow{cloth: c, left: l, name: name, uses: container.NewVBox()}
	words := []string{asItLies, straight, thrownOut}
	if l.Area() == measure.Area(l.Straight.Length()*l.Straight.Width()) {
		words = []string{asItLies, thrownOut}
	}
	r.choice = widgets.NewChoice(name, words, func(string) { v.count() })
	r.place = widgets.NewEntry("Where it goes: " + place(c.Cloth.Cloth))
	v.page.host.Names.Set("cut.choice."+fmt.Sprint(len(v.rows)), r.choice)
	v.page.host.Names.Set("cut.place."+fmt.Sprint(len(v.rows)), r.place)
	v.rows = append(v.rows, r)
}

func place(c stash.Cloth) string {
	if c.Place == "" {
		return "not said"
	}
	return c.Place
}

// rowObject is a leftover's name and size, its choice, where it goes, and its uses.
func (v *cutting) rowObject(r *leftRow) fyne.CanvasObject {
	voice := v.page.host.Voice()
	b := r.left.Outline.Bounds()
	text := r.name + ": " + voice.Length(measure.Length(b.Length())) + " × " + voice.Width(measure.Length(b.Width()))
	if r.left.Area() != measure.Area(b.Length()*b.Width()) {
		s := r.left.Straight
		text += ", " + voice.Area(r.left.Area()) + "; the straight rectangle in it is " +
			voice.Free(measure.Length(s.Length())) + " × " + voice.Width(measure.Length(s.Width()))
	}
	if r.left.OnlyStrips {
		text += "; good for binding strips only"
	}
	return container.NewVBox(widgets.Remark("", text+".", widgets.Plain),
		container.NewGridWithColumns(2, r.choice.Bare(), r.place), r.uses)
}

// outline is what of the leftover is kept; ok is false when it is discarded.
func (r *leftRow) outline() (p shape.Polygon, ok bool) {
	switch r.choice.Selected {
	case asItLies:
		return r.left.Outline, true
	case straight:
		return shape.Polygon{Outer: r.left.Straight.Ring()}, true
	}
	return p, false
}

// keeping is what the choices say.
func (v *cutting) keeping() (planner.Keeping, int) {
	out, n := planner.Keeping{}, 0
	for _, r := range v.rows {
		if p, ok := r.outline(); ok {
			id := r.cloth.Cloth.Cloth.ID
			out[id] = append(out[id], planner.Kept{Outline: p, Place: strings.TrimSpace(r.place.Text)})
			n++
		}
	}
	return out, n
}

// count says what is cut, kept and discarded, which add up to what there was.
func (v *cutting) count() {
	var before, cut, kept measure.Area
	for _, c := range v.cloths {
		before += c.Cloth.Cloth.Area()
		for _, r := range c.Cut {
			cut += r.Area()
		}
	}
	for _, r := range v.rows {
		if p, ok := r.outline(); ok {
			kept += measure.Area(p.Area())
		}
	}
	voice := v.page.host.Voice()
	v.sums.Objects = []fyne.CanvasObject{widgets.Remark("", fmt.Sprintf("Of %s, %s is cut, %s is kept and %s discarded.",
		voice.Area(before), voice.Area(cut), voice.Area(kept), voice.Area(before-cut-kept)), widgets.Accent)}
	v.sums.Refresh()
	if _, n := v.keeping(); n > 0 {
		v.label.Enable()
	} else {
		v.label.Disable()
	}
}

// lookForUses shows what is known of what each leftover is still good for, and finds out
// the rest, one leftover after the other.
func (v *cutting) lookForUses() {
	p := v.page
	p.host.Tasks.Start("garment.uses", func(ctx context.Context, show func(func())) error {
		for _, look := range []func(context.Context, stash.ClothState) (planner.GoodFor, error){p.host.Studio.GoodFor, p.workOut} {
			for _, r := range v.rows {
				good, err := look(ctx, planner.LeftoverState(r.cloth.Cloth, r.left.Outline))
				if err != nil {
					return err
				}
				show(func() { r.say(good) })
			}
		}
		return nil
	}, func(err error) { p.host.Trouble(err) })
}

func (p *Page) workOut(ctx context.Context, c stash.ClothState) (planner.GoodFor, error) {
	return p.host.Studio.WorkOutUses(ctx, c, nil)
}

// say shows what the leftover is good for.
func (r *leftRow) say(good planner.GoodFor) {
	const most = 4
	r.uses.Objects = []fyne.CanvasObject{widgets.Remark("", say.GoodFor(good, most), widgets.Quiet)}
	r.uses.Refresh()
}

// mark saves it; then is called with what was kept, if it is not nil.
func (v *cutting) mark(then func([]stash.Cloth)) {
	p, g := v.page, v.garment
	keep, n := v.keeping()
	v.send.Disable()
	v.label.Disable()
	var kept []stash.Cloth
	p.host.Act("cut", func(ctx context.Context) (_ string, err error) {
		kept, err = p.host.Studio.MarkCut(ctx, g.ID, keep)
		var codes []string
		for _, k := range kept {
			codes = append(codes, k.Code)
		}
		told := "Cut " + g.Name + "."
		if n > 0 {
			told += " Kept " + strings.Join(codes, ", ") + ": write the code on each."
		}
		return told + " Ctrl+Z takes it back.", err
	}, func(err error) {
		v.send.Enable()
		v.count()
		if err != nil {
			return
		}
		p.Shown()
		if then != nil {
			then(kept)
		}
	})
}

// labels shows labels for the leftovers that were kept: all of them, or one.
func (v *cutting) labels(kept []stash.Cloth) {
	p := v.page
	var all []stash.ClothState
	p.host.Tasks.Start("cut.labels", func(ctx context.Context, _ func(func())) error {
		for _, k := range kept {
			c, err := p.host.Studio.Cloth(ctx, k.ID)
			if err != nil {
				return err
			}
			all = append(all, c)
		}
		return nil
	}, func(err error) {
		if err != nil {
			p.host.Trouble(err)
			return
		}
		sets := []paperui.LabelSet{{Words: "what is left of " + v.garment.Name, Cloths: all}}
		for _, c := range all {
			if len(all) > 1 {
				sets = append(sets, paperui.LabelSet{Words: c.Fabric.Name + " " + c.Cloth.Code, Cloths: []stash.ClothState{c}})
			}
		}
		paperui.Labels(p.host, sets...)
	})
}
