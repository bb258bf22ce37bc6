package garmentui

import (
	"context"
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"tallycloth/planner/garment"
	"tallycloth/stash/measure"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// addWork lists the order of work with its stops: what is done of it, and from cutting on what
// can be noted next.
func (p *Page) addWork(body *fyne.Container, g garment.Garment) {
	steps := g.Steps(p.patterns[g.PatternID])
	body.Add(widgets.SubHeading("Order of work"))
	cut := g.State.Step() >= garment.Cut.Step()
	waiting := false // behind a stop that is not noted
	for i, s := range steps {
		tone := widgets.Plain
		if s.Done() {
			tone = widgets.Quiet
		}
		words := container.NewVBox(widgets.Remark("", say.Step(i, s), tone))
		if s.Done() {
			words.Add(widgets.Remark("", say.Sentence(p.host.Voice().StepNoted(*s.Noted)), widgets.Good))
		}
		var act fyne.CanvasObject
		if itself := s.Done() && s.Noted.On == ""; cut && !waiting && !itself {
			act = container.NewVBox(p.stepButton(g, i+1, s))
		}
		body.Add(container.NewBorder(nil, nil, nil, act, words))
		waiting = waiting || s.TryOn && !s.Done()
	}
}

// stepButton notes a step as done, or takes that back.
func (p *Page) stepButton(g garment.Garment, n int, s garment.StepState) *widgets.Button {
	b := widgets.NewButton("Mark done", func() { p.stepDone(g, n, garment.Done{}) })
	switch {
	case s.Done():
		b.SetText("Not done")
		b.OnTapped = func() { p.stepNotDone(g, n) }
	case s.TryOn:
		b.SetText("Note it")
		b.OnTapped = func() { p.noteStop(g, n, s) }
		b.Importance = widget.HighImportance
	}
	if !s.TryOn || s.Done() {
		b.Importance = widget.LowImportance
	}
	p.host.Names.Set(fmt.Sprintf("garment.step.%d", n), b)
	return b
}

func (p *Page) stepDone(g garment.Garment, n int, d garment.Done) {
	p.host.Act("step", func(ctx context.Context) (string, error) {
		now, err := p.host.Studio.NoteStep(ctx, g.ID, n, d)
		told := fmt.Sprintf("Noted step %d of %s.", n, g.Name)
		if err == nil && now.State != g.State {
			told += " It is " + string(now.State) + " now."
		}
		return told + " Ctrl+Z takes it back.", err
	}, func(error) { p.Shown() })
}

func (p *Page) stepNotDone(g garment.Garment, n int) {
	p.host.Act("step", func(ctx context.Context) (string, error) {
		_, err := p.host.Studio.StepNotDone(ctx, g.ID, n)
		return fmt.Sprintf("Step %d of %s is not done.", n, g.Name), err
	}, func(error) { p.Shown() })
}

// asked are what a stop asks for in words: the label of its field, and a hint.
var asked = map[string][2]string{
	garment.AsksTakeIn: {"Take in at each side seam, at the underarm (empty: nothing)", "1.2"},
	garment.AsksStrap:  {"Length of the strap, as pinned", "31"},
	garment.AsksHem:    {"Shorter by (empty: as it is)", "2"},
}

// noteStop asks what a stop is for.
func (p *Page) noteStop(g garment.Garment, n int, s garment.StepState) {
	words, ok := asked[s.Asks]
	if !ok {
		words = [2]string{"Length (empty: none)", ""}
	}
	v := p.host.Voice()
	value := widgets.NewField(words[0], words[1], func(text string) (string, error) {
		l, err := measure.ParseLength(text, p.unit())
		return "= " + v.Fine(l), err
	})
	note := widgets.NewField("What you saw", "pulls at the back neck", nil)
	day := p.host.DayField("Day", p.host.Studio.Today())
	for name, f := range map[string]*widgets.Field{"form.value": value, "form.note": note, "form.day": day} {
		p.host.Names.Set(name, f.Entry)
	}
	form := &widgets.Form{Title: "Tried on: " + g.Name, About: say.Step(n-1, s), Intro: say.Step(n-1, s), Send: "Note it", Say: say.Error, Width: 640,
		Rows: [][]fyne.CanvasObject{{value.Object(), day.Object()}, {note.Object()}}, Fields: []*widgets.Field{value, day, note}}
	form.Done = func() error {
		d := garment.Done{Note: note.Text()}
		d.On, _ = p.host.DayIn(day)
		if text := strings.TrimSpace(value.Text()); text != "" {
			d.Value, _ = measure.ParseLength(text, p.unit()) // the field has read it
		}
		if _, err := g.StepDone(p.patterns[g.PatternID], n, d); err != nil {
			return err
		}
		p.stepDone(g, n, d)
		return nil
	}
	p.open(form)
}

// open shows a form and names its buttons.
func (p *Page) open(f *widgets.Form) {
	p.host.ShowForm(f)
}

// unit is what a bare number is in: centimetres or inches.
func (p *Page) unit() measure.Unit {
	if p.host.Voice().Units == measure.Imperial {
		return measure.Inch
	}
	return measure.Centimetre
}
