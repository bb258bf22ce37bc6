package garmentui

import (
	"context"
	"slices"

	"fyne.io/fyne/v2"

	"tallycloth/planner"
	"tallycloth/planner/garment"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// sizesOf are the names of the sizes that a garment could have.
func (p *Page) sizesOf(g garment.Garment) []string {
	var out []string
	for _, s := range p.patterns[g.PatternID].Sizes {
		out = append(out, s.Name)
	}
	return out
}

// change asks what is said of a garment. Its size can be another only while it is wanted.
func (p *Page) change(g garment.Garment) {
	was := planner.FormOf(g)
	name := widgets.NewField("Name", "", nil)
	name.Needed = "Give it a name."
	who := widgets.NewField("Who it is for", "Ida", nil)
	purpose := widgets.NewField("What it is for", "dancing", nil)
	variant := widgets.NewField("Variant", "cropped", nil)
	wanted := p.host.DayField("Wanted for (a day, if there is one)", was.Wanted)
	notes := widgets.NewField("Notes", "", nil)
	sizes := p.sizesOf(g)
	if g.State != garment.Wanted || !slices.Contains(sizes, g.Size) {
		sizes = []string{g.Size}
	}
	size := widgets.NewChoice("Size", sizes, nil)
	size.SetSelected(g.Size)
	for f, text := range map[*widgets.Field]string{name: was.Name, who: was.For, purpose: was.Purpose, variant: was.Variant, notes: was.Notes} {
		f.Set(text)
	}
	for word, o := range map[string]fyne.CanvasObject{"form.name": name.Entry, "form.who": who.Entry, "form.purpose": purpose.Entry, "form.variant": variant.Entry,
		"form.wanted": wanted.Entry, "form.notes": notes.Entry, "form.size": size} {
		p.host.Names.Set(word, o)
	}
	form := &widgets.Form{Title: "Change " + g.Name, Send: "Keep the changes", Say: say.Error, Width: 640,
		Rows:   [][]fyne.CanvasObject{{name.Object(), who.Object()}, {purpose.Object(), variant.Object()}, {size.Object(), wanted.Object()}, {notes.Object()}},
		Fields: []*widgets.Field{name, who, purpose, variant, wanted, notes}}
	form.Done = func() error {
		now := planner.GarmentForm{Name: name.Text(), For: who.Text(), Purpose: purpose.Text(), Variant: variant.Text(), Size: size.Selected,
			Notes: notes.Text()}
		now.Wanted, _ = p.host.DayIn(wanted)
		p.host.Act("change garment", func(ctx context.Context) (string, error) {
			g, err := p.host.Studio.ChangeGarment(ctx, g.ID, now)
			return "Changed " + g.Name + ".", err
		}, func(err error) {
			if err != nil { // what was typed is there again, to be corrected
				p.host.ShowForm(form)
				return
			}
			p.Shown()
		})
		return nil
	}
	p.open(form)
}

// again copies a garment, to make it in another fabric or size.
func (p *Page) again(g garment.Garment) {
	name := widgets.NewField("Name", g.Name+", again", nil)
	size := widgets.NewChoice("Size", p.sizesOf(g), nil)
	size.SetSelected(g.Size)
	proposed := name.Text()
	size.OnChanged = func(to string) { // a name that was not touched follows the size
		if name.Text() == proposed {
			proposed = g.NamedFor(to) + ", again"
			name.Set(proposed)
		}
	}
	p.host.Names.Set("form.name", name.Entry)
	p.host.Names.Set("form.size", size)
	form := &widgets.Form{Title: "Make " + g.Name + " again", Send: "Want it", Say: say.Error,
		Intro: "Pattern, adjustments, person, purpose, variant, seams and notes come along; fabric is found anew.",
		Rows:  [][]fyne.CanvasObject{{name.Object(), size.Object()}}, Fields: []*widgets.Field{name}}
	form.Done = func() error {
		p.host.Act("copy garment", func(ctx context.Context) (string, error) {
			made, err := p.host.Studio.CopyGarment(ctx, g.ID, size.Selected, name.Text())
			if err == nil {
				p.wanted = made.ID
			}
			return made.Name + " is wanted. Find fabric for it next.", err
		}, func(error) { p.Shown() })
		return nil
	}
	p.open(form)
}
