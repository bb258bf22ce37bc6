package patternui

import (
	"context"
	"strings"

	"fyne.io/fyne/v2"

	"tallycloth/planner"
	"tallycloth/planner/garment"
	"tallycloth/stash"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// newGarment is the choice of a garment that is not in the list yet.
const newGarment = "a new garment"

// Reserve keeps the chosen cloth as its layout lies: for the garment it was looked for,
// or for one that is asked for.
func (f *finder) Reserve() {
	d, ok := f.chosen()
	switch {
	case f.hand != nil && f.hand.stop != nil:
		f.page.host.Tell("The search is still on. Stop it first.")
		return
	case f.hand != nil && !f.hand.right():
		f.page.host.Tell("The layout does not hold as it lies: set right what is said under it, or take the step back.")
		return
	}
	if !ok || f.reserve.Disabled() || !reservable(d) {
		f.page.host.Tell("Only cloth that is enough, by a layout or by the yardage table, can be reserved.")
		return
	}
	if g, ok := f.garment(f.forID); ok {
		f.reserveFor(d, g, "", "")
		return
	}
	f.askFor(d)
}

func (f *finder) garment(id stash.ID) (garment.Garment, bool) {
	for _, g := range f.page.garments {
		if g.ID == id && id != stash.NoID {
			return g, true
		}
	}
	return garment.Garment{}, false
}

// open are the garments of this pattern and size that are not cut yet.
func (f *finder) open() (out []garment.Garment) {
	for _, g := range f.page.garments {
		if g.PatternID == f.pattern.ID && g.Size == f.size.Selected && (g.State == garment.Wanted || g.State == garment.Reserved) {
			out = append(out, g)
		}
	}
	return out
}

// askFor asks for which garment the cloth is kept.
func (f *finder) askFor(d planner.Finding) {
	h := f.page.host
	open := f.open()
	words := []string{newGarment}
	for _, g := range open {
		word := g.Name
		if g.For != "" {
			word += ", for " + g.For
		}
		words = append(words, word)
	}
	name := widgets.NewField("Name", f.pattern.Name, nil)
	who := widgets.NewField("For whom", "", nil)
	which := widgets.NewChoice("Garment", words, func(s string) {
		for _, field := range []*widgets.Field{name, who} {
			if s == newGarment {
				field.Entry.Enable()
			} else {
				field.Entry.Disable()
			}
		}
	})
	form := &widgets.Form{Title: "Reserve " + d.Cloth.Fabric.Name, About: f.pattern.Name + ", size " + f.size.Selected, Send: "Reserve", Say: say.Error, Width: 460,
		Intro:  "Keeps " + d.Cloth.Cloth.Code + " as it is drawn, for " + f.pattern.Name + " in size " + f.size.Selected + ".",
		Fields: []*widgets.Field{name, who}, Rows: [][]fyne.CanvasObject{{which.Object()}, {name.Object(), who.Object()}}}
	form.Done = func() error {
		g := garment.Garment{}
		if i := which.SelectedIndex(); i > 0 {
			g = open[i-1]
		}
		f.reserveFor(d, g, strings.TrimSpace(name.Text()), strings.TrimSpace(who.Text()))
		return nil
	}
	h.ShowForm(form)
	h.Names.Set("reserve.which", which)
	h.Names.Set("reserve.name", name.Entry)
	h.Names.Set("reserve.who", who.Entry)
	h.Names.Set("reserve.send", form.SendButton())
}

// reserveFor keeps the cloth for a garment, which is made first where it has no ID.
func (f *finder) reserveFor(d planner.Finding, g garment.Garment, name, who string) {
	h := f.page.host
	q := f.search()
	h.Act("reserve", func(ctx context.Context) (string, error) {
		if g.ID == stash.NoID {
			made, err := h.Studio.NewGarment(ctx, q.PatternID, q.Size, name, who)
			if err != nil {
				return "", err
			}
			g = made
		}
		_, err := h.Studio.Reserve(ctx, g.ID, d, q.Role)
		return "Reserved " + d.Cloth.Fabric.Name + " " + d.Cloth.Cloth.Code + " for " + g.Name + ". Ctrl+Z gives it back.", err
	}, func(err error) {
		if err != nil {
			f.look()
			return
		}
		f.leaveTo(g.ID)
	})
}
