package garmentui

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"tallycloth/planner/garment"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/ui/page"
	"tallycloth/ui/say"
	"tallycloth/ui/stashui"
	"tallycloth/ui/widgets"
)

// step is what comes next for a garment: in a sentence, for a row, and the name of the button that
// does it.
type step struct{ words, short, button string }

// next is what comes next for a garment.
func (p *Page) next(g garment.Garment) step {
	first := p.unwashed(g)
	switch {
	case len(first) > 0:
		var codes []string
		for _, c := range first {
			codes = append(codes, c.Cloth.Code)
		}
		short := "Wash its fabrics, then cut"
		if len(first) == 1 {
			short = "Wash " + codes[0] + ", then cut"
		}
		return step{"Wash " + say.And(codes) + ", measure again, then cut", short, "garment.wash"}
	case p.unbound(g):
		return step{"Work out its strips, then cut", "Work out strips, then cut", "garment.strips"}
	}
	button := map[garment.State]string{garment.Wanted: "garment.find", garment.Reserved: "garment.cut",
		garment.Cut: "garment.on", garment.Sewing: "garment.on", garment.Fitted: "garment.on"}[g.State]
	return step{say.NextStep(g, g.Steps(p.patterns[g.PatternID])), say.Next(g.State), button}
}

// unwashed is the cloth that is washed before a reserved garment is cut.
func (p *Page) unwashed(g garment.Garment) (out []stash.ClothState) {
	if g.State != garment.Reserved {
		return nil
	}
	for _, r := range p.kept[g.ID] {
		c := p.cloths[r.ClothID]
		same := func(o stash.ClothState) bool { return o.Cloth.ID == c.Cloth.ID }
		if c.Cloth.Code != "" && !c.Cloth.Washed && !slices.ContainsFunc(out, same) {
			out = append(out, c)
		}
	}
	return out
}

// unbound says whether a reserved garment has edges to finish and no strips yet, neither worked out
// nor reserved.
func (p *Page) unbound(g garment.Garment) bool {
	bound := func(r stash.Reservation) bool { return r.UsedFor == pattern.Binding }
	return g.State == garment.Reserved && len(p.patterns[g.PatternID].Edges) > 0 && len(g.Strips) == 0 && !slices.ContainsFunc(p.kept[g.ID], bound)
}

// actions are the buttons of a garment; the one that does what comes next stands out.
func (p *Page) actions(g garment.Garment) fyne.CanvasObject {
	next := p.next(g)
	box := container.NewHBox()
	add := func(name, word string, do func()) *widgets.Button {
		b := widgets.NewButton(word, do)
		if name == next.button {
			b.Importance = widget.HighImportance
		}
		p.host.Names.Set(name, b)
		box.Add(b)
		return b
	}
	if first := p.unwashed(g); len(first) > 0 {
		add("garment.wash", "Wash "+first[0].Cloth.Code, func() { stashui.Wash(p.host, first[0], p.Shown) })
	}
	add("garment.find", "Find fabric", func() { p.findFabric(g.ID) })
	add("garment.strips", "Work out strips", func() {
		p.host.Go(page.Route{Place: page.Binding, ID: g.ID, Do: page.WorkStrips})
	})
	release := add("garment.release", "Release fabric", func() { p.release(g) })
	if len(p.kept[g.ID]) == 0 {
		release.Disable()
	}
	if g.State == garment.Reserved {
		add("garment.cut", "Mark cut", func() { p.cut(g) })
	}
	if to := g.State.Next(); g.State == garment.Cut || g.State == garment.Sewing || g.State == garment.Fitted {
		add("garment.on", "Mark "+string(to), func() { p.goOn(g, to) })
	}
	if g.State == garment.Wanted {
		box.Add(widgets.NewButton("Give up", func() { p.giveUp(g) }))
	}
	return container.NewVBox(box, p.papers(g))
}

// act begins what comes next for the garment of a row, where it asks something first; what is only
// noted has its button chosen, to be pressed.
func (p *Page) act(id stash.ID) {
	g, ok := p.garment(id)
	if !ok {
		return
	}
	b, ok := p.host.Names.Get(p.next(g).button).(*widgets.Button)
	switch {
	case !ok || p.shownID != id:
		return
	case g.State == garment.Wanted || g.State == garment.Reserved:
		b.OnTapped()
	default:
		p.host.Focus(b)
	}
}
