package stashui

import (
	"context"
	"errors"
	"fmt"
	"strings"

	"fyne.io/fyne/v2"

	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// directions are the words for the three values of direction, in the order of the form.
var directions = []stash.Direction{stash.SameWayInGarment, stash.EitherWay, stash.SameWayForAll}

// EditFabric opens the form with what is known of a fabric. Stretch and recovery are
// not typed there: they are measured.
func (p *Page) EditFabric(fab stash.Fabric) {
	v := p.host.Voice()
	name := needed(widgets.NewField("Name of the fabric", "what you call it", nil), "Give the fabric a name.")
	fibres := widgets.NewField("Fibres", "95% cotton 5% elastane", readFibres)
	weight := widgets.NewField("Weight", "180 g/m² or 5.3 oz", p.readWeight)
	width := needed(p.lengthField("Full width", "150 cm or 60 in", measure.Width), "Say how wide it is, selvedge to selvedge.")
	loss := widgets.NewField("Lost at each selvedge", "1 cm", p.readLoss)
	supplier := widgets.NewField("Supplier", "shop or market", nil)
	colour := widgets.NewField("Colour in words", "", nil)
	care := widgets.NewField("Care", "30 °C, dry flat", readCare)
	tube := widgets.NewCheck("A tube: the full width is that of the tube lying flat", nil)
	tube.Checked = fab.Tubular
	grams := widgets.NewField("Or weigh a swatch", "4.2 g or 0.15 oz", readGrams)
	side := p.lengthField("Its length, or across a round one", "10 cm or 4 in", measure.PieceLength)
	other := p.lengthField("Its width (empty: round)", "10 cm or 4 in", measure.PieceLength)
	weighed := func() {
		if w, err := p.weighed(grams, side, other); err == nil {
			weight.Entry.SetText(measure.FormatWeight(w, v.Units))
		}
	}
	grams.Changed, side.Changed, other.Changed = weighed, weighed, weighed
	notes := widgets.NewField("Notes", "", nil)
	name.Set(fab.Name)
	fibres.Set(fab.Fibres.String())
	weight.Set(measure.FormatWeight(fab.Weight, v.Units))
	width.Set(v.Width(fab.FullWidth))
	loss.Set(v.Width(fab.SelvedgeLoss))
	supplier.Set(fab.Supplier)
	colour.Set(fab.ColourName)
	care.Set(fab.Care)
	notes.Set(fab.Notes)
	made := widgets.NewChoice("How it is made", constructions(), nil)
	made.SetSelected(say.Construction(fab.Construction))
	var words []string
	for _, d := range directions {
		words = append(words, say.Direction(d))
	}
	way := widgets.NewChoice("Tops of pattern pieces point", words, nil)
	way.SetSelected(say.Direction(fab.Direction))
	for n, o := range map[string]fyne.CanvasObject{"form.name": name.Entry, "form.fibres": fibres.Entry, "form.weight": weight.Entry,
		"form.tube": tube, "form.grams": grams.Entry, "form.side": side.Entry, "form.otherside": other.Entry, "form.care": care.Entry, "form.width": width.Entry, "form.loss": loss.Entry, "form.made": made, "form.way": way} {
		p.host.Names.Set(n, o)
	}
	form := &widgets.Form{Title: "Change " + fab.Name, Send: "Keep the changes", Say: say.Error, Width: 720,
		Rows: [][]fyne.CanvasObject{{name.Object(), made.Object()}, {fibres.Object(), weight.Object()}, {grams.Object(), side.Object(), other.Object()},
			{width.Object(), loss.Object()}, {tube}, {way.Object(), colour.Object()}, {supplier.Object(), care.Object()}, {notes.Object()}},
		Fields: []*widgets.Field{name, fibres, weight, grams, side, other, width, loss, colour, supplier, care, notes}}
	form.Done = func() error {
		out := fab
		out.Name, out.Construction, out.Direction = strings.TrimSpace(name.Text()), constructionOf(made), directions[way.SelectedIndex()]
		out.ColourName, out.Supplier, out.Notes, out.Tubular = colour.Text(), supplier.Text(), notes.Text(), tube.Checked
		if care.Text() != fab.Care { // in the order of the symbols
			out.Care = stash.ParseCare(care.Text()).String()
		}
		out.Fibres, _ = stash.ParseFibres(fibres.Text())
		if grams.Text() != "" {
			w, err := p.weighed(grams, side, other)
			if err != nil {
				return err
			}
			out.Weight = w
		}
		// What was not touched keeps its exact value, which the line shows rounded.
		if grams.Text() == "" && weight.Text() != measure.FormatWeight(fab.Weight, v.Units) {
			out.Weight, _ = measure.ParseWeight(weight.Text(), v.Units)
		}
		if width.Text() != v.Width(fab.FullWidth) {
			out.FullWidth = p.lengthIn(width, measure.Width)
		}
		if loss.Text() != v.Width(fab.SelvedgeLoss) {
			out.SelvedgeLoss, _ = measure.ParseLength(loss.Text(), p.bare(measure.Width))
		}
		if err := p.host.Studio.SaveFabric(context.Background(), out); err != nil {
			return err
		}
		p.host.Tell("Kept the changes of " + out.Name + ". Ctrl+Z takes them back.")
		p.Shown()
		return nil
	}
	p.open(form)
}

// weighed is the weight of a swatch by its fields.
func (p *Page) weighed(grams, side, other *widgets.Field) (measure.Weight, error) {
	g, err := stash.ParseGrams(grams.Text())
	if err != nil {
		return 0, err
	}
	s := stash.WeighedSwatch{Grams: g, Length: p.lengthIn(side, measure.PieceLength), Width: p.lengthIn(other, measure.PieceLength)}
	if strings.TrimSpace(other.Text()) == "" {
		s.Diameter, s.Length = s.Length, 0
	}
	return s.Weight()
}

func readGrams(text string) (string, error) {
	g, err := stash.ParseGrams(text)
	if err != nil {
		return "", errors.New(say.Error(err))
	}
	return fmt.Sprintf("= %.4g g", g), nil
}

// readCare shows how care is understood, in the order of the symbols.
func readCare(text string) (string, error) { return "= " + stash.ParseCare(text).String(), nil }

func constructions() []string {
	var out []string
	for _, c := range stash.Constructions() {
		out = append(out, say.Construction(c))
	}
	return out
}

// constructionOf is what stands in a choice of constructions.
func constructionOf(c *widgets.Choice) stash.Construction {
	return stash.Constructions()[max(c.SelectedIndex(), 0)]
}

func readFibres(text string) (string, error) {
	fs, err := stash.ParseFibres(text)
	if err != nil {
		return "", fmt.Errorf("%s", say.Error(err))
	}
	return "= " + fs.String(), nil
}

func (p *Page) readWeight(text string) (string, error) {
	w, err := measure.ParseWeight(text, p.host.Voice().Units)
	if err != nil {
		return "", err
	}
	return "= " + measure.FormatWeight(w, p.host.Voice().Units), nil
}

// readLoss reads what a selvedge loses, which may be nothing.
func (p *Page) readLoss(text string) (string, error) {
	l, err := measure.ParseLength(text, p.bare(measure.Width))
	if err != nil {
		return "", err
	}
	return "= " + p.host.Voice().Width(l), nil
}
