package patternui

import (
	"context"
	"errors"
	"image/color"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"

	"tallycloth/planner/scene"
	"tallycloth/planner/sizing"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// nearSize is how large the small pictures beside the fields are.
const nearSize = 52

// measure asks for measurements of a person on a day; beside the lines a figure shows where
// the tape goes for the one that has the focus.
func (f *people) measure(id stash.ID) {
	who, ok := f.person(id)
	if !ok {
		return
	}
	h := f.page.host
	unit := f.page.unit()
	read := func(text string) (string, error) {
		l, err := measure.ParsePositiveLength(text, unit)
		if err != nil {
			return "", err
		}
		return "= " + h.Voice().Width(l), nil
	}
	date := h.DayField("Day", h.Studio.Today())
	date.Needed = "Say on which day it was measured."
	note := widgets.NewField("Note", "", nil)
	h.Names.Set("measure.date", date.Entry)
	h.Names.Set("measure.note", note.Entry)
	form := &widgets.Form{Title: "Measurements of " + who.Name, Send: "Keep", Say: say.Error, Width: 820, Fields: []*widgets.Field{date, note}}
	figure, words := widgets.NewSceneView(220, 350), container.NewVBox()
	at := func(place sizing.Place) {
		figure.Draw(scene.Figure(place.Name))
		words.Objects = []fyne.CanvasObject{widgets.Remark("", place.Where, widgets.Plain)}
		words.Refresh()
	}
	last := who.Latest("")
	lines := map[string]*widgets.Field{}
	grid := container.NewGridWithColumns(2, date.Object(), note.Object())
	for _, place := range sizing.Places() {
		hint := ""
		if l := last[place.Name]; l > 0 {
			hint = "last " + h.Voice().Width(l)
		}
		line := widgets.NewField(capital(place.Name), hint, read)
		line.Entry.Got = func() { at(place) }
		h.Names.Set("measure."+place.Name, line.Entry)
		lines[place.Name] = line
		form.Fields = append(form.Fields, line)
		near := widgets.NewSceneView(nearSize, nearSize)
		near.Draw(scene.FigureNear(place.Name))
		grid.Add(container.NewBorder(nil, nil, container.NewVBox(near), nil, line.Object()))
	}
	at(sizing.Places()[2])
	room := canvas.NewRectangle(color.Transparent) // of the longest words, so that nothing jumps
	room.SetMinSize(fyne.NewSize(0, 4*theme.TextSize()*1.5))
	side := container.NewVBox(figure, container.NewStack(room, words))
	form.Rows = [][]fyne.CanvasObject{{container.New(&thirds{}, grid, side)}}
	form.Done = func() error { return f.keep(who, date, note.Text(), lines) }
	h.ShowForm(form)
	h.Names.Set("measure.send", form.SendButton())
}

// keep saves what was measured.
func (f *people) keep(who sizing.Person, day *widgets.Field, note string, lines map[string]*widgets.Field) error {
	on, _ := f.page.host.DayIn(day)
	t := sizing.Taken{Date: on, Note: strings.TrimSpace(note), Body: map[string]measure.Length{}}
	for name, line := range lines {
		if strings.TrimSpace(line.Text()) == "" {
			continue
		}
		l, err := measure.ParsePositiveLength(line.Text(), f.page.unit())
		if err != nil {
			return err
		}
		t.Body[name] = l
	}
	if len(t.Body) == 0 {
		return errors.New("type one measurement at least")
	}
	if err := who.With(t).Validate(); err != nil {
		return err
	}
	h := f.page.host
	h.Act("measure person", func(ctx context.Context) (string, error) {
		_, err := h.Studio.MeasurePerson(ctx, who.ID, t)
		return "Kept what " + who.Name + " measures.", err
	}, func(error) { f.read() })
	return nil
}

// thirds gives the first of two views two thirds of the width.
type thirds struct{}

func (thirds) Layout(o []fyne.CanvasObject, s fyne.Size) {
	w := s.Width * 0.64
	o[0].Resize(fyne.NewSize(w, o[0].MinSize().Height))
	o[1].Move(fyne.NewPos(w+16, 0))
	o[1].Resize(fyne.NewSize(s.Width-w-16, s.Height))
}

func (thirds) MinSize(o []fyne.CanvasObject) fyne.Size {
	a, b := o[0].MinSize(), o[1].MinSize()
	return fyne.NewSize(a.Width+b.Width+16, max(a.Height, b.Height))
}
