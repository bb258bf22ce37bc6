package bindingui

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"tallycloth/planner"
	"tallycloth/planner/binding"
	"tallycloth/stash/measure"
	"tallycloth/ui/page"
	"tallycloth/ui/widgets"
)

// finishFields say how the edge is finished.
type finishFields struct {
	host                           *page.Host
	technique                      *widgets.Choice
	width, seam, turn, caught, row *widgets.Field
	object                         fyne.CanvasObject
	turnNow                        measure.Length // what goes round the edge where nothing is typed
}

func newFinishFields(h *page.Host, changed func()) *finishFields {
	f := &finishFields{host: h}
	var words []string
	for _, t := range binding.Techniques() {
		words = append(words, string(t))
	}
	f.technique = widgets.NewChoice("Technique", words, func(string) { f.asks(); changed() })
	field := func(name, hint, needed string) *widgets.Field {
		out := widgets.NewField(name, hint, f.read1)
		out.Needed = needed
		out.Changed = changed
		return out
	}
	f.width = field("Finished width", "10 mm", "How wide is the finished edge?")
	f.seam = field("Seam", "10 mm", "How far from the edge is the stitching?")
	f.turn = field("Turn of cloth", "2 mm", "")
	f.caught = field("Caught beneath", "6 mm", "")
	f.row = field("Second row from fold", "none", "")
	f.object = container.NewVBox(
		container.NewGridWithColumns(2, f.technique.Object(), container.NewGridWithColumns(2, f.width.Object(), f.seam.Object())),
		container.NewGridWithColumns(3, f.turn.Object(), f.caught.Object(), f.row.Object()))
	for name, o := range map[string]fyne.CanvasObject{
		"binding.technique": f.technique, "binding.width": f.width.Entry, "binding.seam": f.seam.Entry,
		"binding.turn": f.turn.Entry, "binding.caught": f.caught.Entry, "binding.second": f.row.Entry,
	} {
		h.Names.Set(name, o)
	}
	f.width.Set("1 cm")
	f.seam.Set("1 cm")
	f.turnNow = planner.TurnOfCloth(0)
	f.asks()
	return f
}

// asks lets only what the technique has be typed.
func (f *finishFields) asks() {
	t := binding.Technique(f.technique.Selected)
	r, _ := binding.Finish{Technique: t, Own: f.host.Settings().Recipe(t)}.Recipe()
	for field, n := range map[*widgets.Field]int{f.seam: r.Seams, f.turn: r.Turns, f.caught: r.Caughts} {
		if n > 0 {
			field.Entry.Enable()
		} else {
			field.Entry.Disable()
		}
	}
}

// words offers the techniques there are, and what goes round an edge of a fabric's thickness.
func (f *finishFields) words(thickness measure.Length) {
	f.turnNow = planner.TurnOfCloth(thickness)
	f.turn.Entry.SetPlaceHolder(f.host.Voice().Fine(f.turnNow))
	var words []string
	for _, t := range f.host.Settings().AllTechniques() {
		words = append(words, string(t))
	}
	if !slices.Equal(words, f.technique.Options) {
		f.technique.Words(words)
		f.asks()
	}
}

// set fills the fields in.
func (f *finishFields) set(of binding.Finish) {
	v := f.host.Voice()
	f.technique.SetSelected(string(of.Technique))
	for field, l := range map[*widgets.Field]measure.Length{f.width: of.Width, f.seam: of.Seam, f.turn: of.Turn, f.caught: of.Caught, f.row: of.SecondRow} {
		if l > 0 {
			field.Set(v.Fine(l))
		} else {
			field.Set("")
		}
	}
	f.asks()
}

// read returns the finish; of keeps the exact values of fields that were not touched.
func (f *finishFields) read(of binding.Finish) (out binding.Finish, ok bool) {
	out, ok = of, true
	out.Technique = binding.Technique(f.technique.Selected)
	out.Own = f.host.Settings().Recipe(out.Technique)
	v := f.host.Voice()
	for field, into := range map[*widgets.Field]*measure.Length{f.width: &out.Width, f.seam: &out.Seam, f.turn: &out.Turn, f.caught: &out.Caught, f.row: &out.SecondRow} {
		text := field.Text()
		switch {
		case field.Entry.Disabled() && field != f.row:
			*into = 0
		case text == "" && field == f.turn:
			*into = f.turnNow
		case text == "" && field == f.caught:
			*into = binding.CaughtPlain
		case !field.Valid():
			ok = false
		case text == "":
			*into = 0
		case *into == 0 || v.Fine(*into) != text:
			*into, _ = measure.ParseLength(text, f.unit())
		}
	}
	return out, ok
}

func (f *finishFields) read1(text string) (string, error) {
	l, err := measure.ParseLength(text, f.unit())
	if err != nil {
		return "", err
	}
	return f.host.Voice().Fine(l), nil
}

func (f *finishFields) unit() measure.Unit {
	if f.host.Settings().Units == measure.Imperial {
		return measure.Inch
	}
	return measure.Millimetre
}
