package paperui

import (
	"errors"
	"math"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"tallycloth/planner"
	"tallycloth/planner/exchange/sheet"
	"tallycloth/stash/measure"
	"tallycloth/ui/page"
	"tallycloth/ui/paper"
	"tallycloth/ui/records"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// choices are how something goes onto paper.
type choices struct {
	object              *fyne.Container
	which, way, paper   *widgets.Choice
	line, grid, overlap *widgets.Field
	isFull              bool
	units               measure.System
}

func newChoices(h *page.Host, a Ask, habits planner.Habits, changed func()) *choices {
	c := &choices{isFull: a.Full, units: h.Settings().Units}
	names := []string{records.A4, records.Letter}
	remembered := habits.PaperFor(h.Settings())
	if a.Full {
		names = nil
		for _, p := range paper.Papers {
			names = append(names, p.Name)
		}
		if full := habits.FullPaper; full != "" {
			remembered = full
		}
	}
	c.paper = widgets.NewChoice("Paper", names, nil)
	if remembered != "" {
		c.paper.SetSelected(remembered)
	}
	c.which = widgets.NewChoice(a.WhichName, a.Which, nil)
	var ways []string
	for _, w := range paper.Ways() {
		ways = append(ways, string(w))
	}
	c.way = widgets.NewChoice("How", ways, nil)
	c.line, c.grid, c.overlap = c.field("Width of lines", "0.2 mm"), c.field("Grid every", "none"), c.field("Sheets share", "1 cm")
	again := func(string) { changed() }
	c.paper.OnChanged, c.which.OnChanged = again, again
	c.way.OnChanged = func(string) {
		tiled := c.wayNow() == paper.Tiled
		c.paper.Object().(*fyne.Container).Hidden = !tiled
		c.overlap.Object().(*fyne.Container).Hidden = !tiled
		c.object.Refresh()
		changed()
	}
	for _, f := range []*widgets.Field{c.line, c.grid, c.overlap} {
		f.Entry.OnSubmitted = again
		f.Changed = changed
	}
	for name, o := range map[string]fyne.CanvasObject{"paper.which": c.which, "paper.way": c.way, "paper.paper": c.paper, "paper.line": c.line.Entry, "paper.grid": c.grid.Entry, "paper.overlap": c.overlap.Entry} {
		h.Names.Set(name, o)
	}
	c.object = container.NewVBox()
	if len(a.Which) > 0 {
		c.object.Add(c.which.Object())
	}
	if !a.Full {
		c.object.Add(c.paper.Object())
		return c
	}
	c.object.Add(container.NewGridWithColumns(2, c.way.Object(), c.paper.Object()))
	c.object.Add(container.NewGridWithColumns(3, c.line.Object(), c.grid.Object(), c.overlap.Object()))
	return c
}

var errNoLength = errors.New("type a length, such as 0.3 mm or 5 cm")

// field is a length that may be left out.
func (c *choices) field(name, hint string) *widgets.Field {
	return widgets.NewField(name, hint, func(text string) (string, error) {
		l, err := c.read(text)
		if err != nil || l == 0 {
			return "", err
		}
		return "= " + strconv.FormatFloat(math.Round(l*100)/100, 'f', -1, 64) + " mm", nil
	})
}

// read reads a length in mm; 0 where nothing is typed.
func (c *choices) read(text string) (float64, error) {
	if strings.TrimSpace(text) == "" {
		return 0, nil
	}
	unit := measure.Millimetre
	if c.units == measure.Imperial {
		unit = measure.Inch
	}
	l, err := measure.ParsePositiveLength(text, unit)
	if err != nil {
		return 0, errNoLength
	}
	return float64(l) / float64(measure.Millimetre), nil
}

// wayNow is the way chosen.
func (c *choices) wayNow() paper.Way {
	if !c.isFull {
		return paper.Tiled
	}
	return paper.Way(c.way.Selected)
}

// full is what is chosen for full size, with the paper.
func (c *choices) full() (sheet.Full, error) {
	on, _ := paper.PaperNamed(c.paper.Selected)
	f := sheet.Full{Paper: on}
	for _, x := range []struct {
		field *widgets.Field
		into  *float64
	}{{c.line, &f.Weight}, {c.grid, &f.Grid}, {c.overlap, &f.Overlap}} {
		l, err := c.read(x.field.Text())
		if err != nil {
			return f, err
		}
		*x.into = l
	}
	return f, nil
}

// escape lets Escape close the view from every choice.
func (c *choices) escape(shut func()) {
	for _, x := range []*widgets.Choice{c.which, c.way, c.paper} {
		x.Escape = shut
	}
	for _, f := range []*widgets.Field{c.line, c.grid, c.overlap} {
		f.Entry.Escape = shut
	}
}

// sizeWords says how large a page is.
func sizeWords(v say.Voice, on sheet.Paper) string {
	for _, p := range paper.Papers {
		if p.Paper == on {
			return p.Name
		}
	}
	mm := func(x float64) measure.Length { return measure.Length(x * float64(measure.Millimetre)) }
	return v.Width(mm(on.Width)) + " × " + v.Width(mm(on.Height))
}
