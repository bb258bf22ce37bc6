package stashui

import (
	"cmp"
	"fmt"
	"image/color"

	"fyne.io/fyne/v2"

	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// newFabric is the first word of a choice of fabric.
const newFabric = "a new fabric"

// fabricsByName lists the fabrics there are for a choice, those without cloth on the
// shelf too, and finds them again.
func (p *Page) fabricsByName() (words []string, by map[string]stash.Fabric) {
	by = map[string]stash.Fabric{}
	for _, f := range p.fabrics {
		word := f.Name
		if _, twice := by[word]; twice && f.ColourName != "" {
			word = fmt.Sprintf("%s (%s)", f.Name, f.ColourName)
		}
		for n := 2; ; n++ {
			if _, twice := by[word]; !twice {
				break
			}
			word = fmt.Sprintf("%s (%d)", f.Name, n)
		}
		by[word] = f
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

// severalColours is the colour of stripes and prints.
const severalColours = "several colours"

// colours are words for a drawn swatch until there is a photo (ours).
var colours = []struct{ name, hex string }{
	{"undyed", "#e8e0cf"}, {"white", "#f7f5f0"}, {"black", "#2b2a2a"}, {"grey", "#8d8c8a"}, {"brown", "#7a5a43"}, {"sand", "#d2bd97"},
	{"red", "#a93c3a"}, {"rose", "#d58a94"}, {"orange", "#cf7b3c"}, {"yellow", "#dcb850"}, {"green", "#5f8a5b"}, {"olive", "#7b7a45"},
	{"teal", "#3d8585"}, {"blue", "#41649a"}, {"navy", "#2c3957"}, {"violet", "#7a6398"}, {"pink", "#e2b1bd"},
	{severalColours, ""}, // a stripe or a print: Change fabric has room for words
}

func (p *Page) newFabricFields() *fabricFields {
	words, by := p.fabricsByName()
	f := &fabricFields{by: by}
	f.name = needed(widgets.NewField("Name of the fabric", "what you call it", nil), "Give the fabric a name.")
	f.fibres = widgets.NewField("Fibres", "95% cotton 5% elastane", readFibres)
	f.width = needed(widgets.NewField("Full width (tube: 2 × flat)", "150 cm, 60 in, 2 × 50 cm", p.readFullWidth), "Say how wide it is, selvedge to selvedge.")
	f.weight = widgets.NewField("Weight (if known)", "180 g/m² or 5.3 oz", p.readWeight)
	f.make_ = widgets.NewChoice("How it is made", constructions(), nil)
	f.colour = widgets.NewChoice("Colour", colourNames(), nil)
	f.colour.Swatch = colourNamed
	f.known = widgets.NewChoice("Fabric", append([]string{newFabric}, words...), func(word string) { f.fillIn(p, word) })
	for name, o := range map[string]fyne.CanvasObject{"form.fabric": f.known, "form.name": f.name.Entry, "form.made": f.make_,
		"form.fibres": f.fibres.Entry, "form.width": f.width.Entry, "form.weight": f.weight.Entry} {
		p.host.Names.Set(name, o)
	}
	return f
}

func colourNames() []string {
	var names []string
	for _, c := range colours {
		names = append(names, c.name)
	}
	return names
}

// colourNamed is what a word for a colour looks like, nil for several.
func colourNamed(name string) color.Color {
	for _, c := range colours {
		if c.name == name && c.hex != "" {
			return widgets.ParseColour(c.hex)
		}
	}
	return nil
}

// choose shows a fabric that is known.
func (f *fabricFields) choose(id stash.ID) {
	for word, fab := range f.by {
		if fab.ID == id {
			f.known.SetSelected(word)
		}
	}
}

// readFullWidth reads a width and shows it back, of a tube both ways.
func (p *Page) readFullWidth(text string) (string, error) {
	w, tube, err := stash.ParseFullWidth(text, p.bare(measure.Width))
	if err != nil {
		return "", err
	}
	v := p.host.Voice()
	if tube {
		return "= a tube, " + v.Width(w) + " flat, " + v.Width(2*w) + " slit", nil
	}
	return "= " + v.Width(w), nil
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
		f.make_.Enable()
		f.colour.Enable()
		f.make_.SetSelectedIndex(0)
		f.colour.Words(colourNames())
		f.colour.SetSelectedIndex(0)
		return
	}
	f.make_.Disable()
	f.colour.Disable()
	v := p.host.Voice()
	f.name.Set(fab.Name)
	f.fibres.Set(fab.Fibres.String())
	width := v.Width(fab.FullWidth)
	if fab.Tubular {
		width = "2 × " + width
	}
	f.width.Set(width)
	f.weight.Set(measure.FormatWeight(fab.Weight, v.Units))
	f.make_.SetSelected(say.Construction(fab.Construction))
	f.colour.Words([]string{cmp.Or(fab.ColourName, "not noted")})
}

// offer adds a fabric that is new in this purchase to the known ones.
func (f *fabricFields) offer(fab stash.Fabric) {
	word := fab.Name + " (new, above)"
	if _, there := f.by[word]; there {
		return
	}
	f.by[word] = fab
	f.known.Words(append(f.known.Options, word))
}

// clear makes the fields ready for another line.
func (f *fabricFields) clear() {
	f.known.SetSelected(newFabric)
	for _, e := range []*widgets.Field{f.name, f.fibres, f.width, f.weight} {
		e.Set("")
	}
}

// fabric reads the fields.
func (f *fabricFields) fabric(p *Page) stash.Fabric {
	if fab, ok := f.by[f.known.Selected]; ok {
		return fab
	}
	made := constructionOf(f.make_)
	fibres, _ := stash.ParseFibres(f.fibres.Text())
	weight, _ := measure.ParseWeight(f.weight.Text(), p.host.Voice().Units)
	width, tube, _ := stash.ParseFullWidth(f.width.Text(), p.bare(measure.Width))
	fab := stash.Fabric{Name: f.name.Text(), Construction: made, Fibres: fibres, Weight: weight,
		FullWidth: width, Tubular: tube, Direction: made.UsualDirection()}
	for _, c := range colours {
		if c.name == f.colour.Selected {
			fab.Colour, fab.ColourName = c.hex, c.name
		}
	}
	return fab
}
