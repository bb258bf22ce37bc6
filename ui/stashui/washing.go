package stashui

import (
	"context"
	"errors"

	"fyne.io/fyne/v2"

	"tallycloth/planner"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/ui/page"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// Wash opens the form for what a cloth measures after washing over any place; after is called when
// it is kept.
func Wash(h *page.Host, c stash.ClothState, after func()) { (&Page{host: h}).washForm(c, after) }

// wash opens the form for what a cloth measures after washing.
func (p *Page) wash(c stash.ClothState) { p.washForm(c, p.Shown) }

func (p *Page) washForm(c stash.ClothState, after func()) {
	p.newSize(c, "wash", &widgets.Form{Title: "Wash " + c.Fabric.Name + " " + c.Cloth.Code, Send: "Keep the new size",
		Intro: "Before washing it measured " + p.host.Voice().Size(c.Cloth) + ". Let it dry flat and rest, then measure. The fabric learns how it changes, and other cloth of it that is not washed yet counts with that."},
		p.host.Studio.Wash, after)
}

// measureAgain opens the form that corrects a length's size.
func (p *Page) measureAgain(c stash.ClothState) {
	p.newSize(c, "measure", &widgets.Form{Title: "Measure " + c.Fabric.Name + " " + c.Cloth.Code + " again", Send: "Keep the size",
		Intro: "The library has it as " + p.host.Voice().Size(c.Cloth) + "."}, p.host.Studio.MeasureAgain, p.Shown)
}

// newSize asks for length and width, and tells what of what is reserved still holds.
func (p *Page) newSize(c stash.ClothState, name string, form *widgets.Form, do func(context.Context, planner.Sizing) (planner.Resized, error), after func()) {
	long := needed(p.lengthField("Length now", p.host.Voice().Length(c.Cloth.Length), measure.FabricLength), "Measure its length along the grain.")
	wide := needed(p.lengthField("Width now", p.host.Voice().Width(c.Cloth.Width), measure.Width), "Measure its width across the grain.")
	note := widgets.NewField("Note", "", nil)
	p.host.Names.Set(name+".length", long.Entry)
	p.host.Names.Set(name+".width", wide.Entry)
	form.Say = say.Error
	form.Rows = [][]fyne.CanvasObject{{long.Object(), wide.Object()}, {note.Object()}}
	form.Fields = []*widgets.Field{long, wide, note}
	var asked planner.Sizing // a size that looked like a slip, and was asked about
	form.Done = func() error {
		v := p.host.Voice()
		z := planner.Sizing{ClothID: c.Cloth.ID, Length: p.lengthIn(long, measure.FabricLength), Width: p.lengthIn(wide, measure.Width)}
		var odd *planner.Odd
		if err := z.Check(c.Cloth); errors.As(err, &odd) && asked != z {
			asked = z
			return &stash.Error{Kind: stash.Invalid, What: "Does that look right? " + say.Sentence(v.Odd(odd)), Do: "If so, press “" + form.Send + "” once more."}
		}
		z.Note, z.Sure = note.Text(), true
		p.resized(name, func(ctx context.Context) (planner.Resized, error) { return do(ctx, z) }, func(r planner.Resized) string {
			told := r.Cloth.Cloth.Code + " measures " + v.Size(r.Cloth.Cloth) + " now."
			if r.Lengthwise != 0 || r.Crosswise != 0 {
				told += " " + r.Cloth.Fabric.Name + " " + say.Changed(r.Lengthwise, r.Crosswise) + "."
			}
			return told
		}, after)
		return nil
	}
	p.open(form)
}

// resized saves a change of a cloth away from the window's thread, as what is reserved on
// it may have to be laid out again, and tells what came of it.
func (p *Page) resized(name string, do func(context.Context) (planner.Resized, error), words func(planner.Resized) string, after func()) {
	lost := ""
	p.host.Act(name, func(ctx context.Context) (string, error) {
		r, err := do(ctx)
		if err != nil {
			return "", err
		}
		told := words(r)
		if more := r.Words(); more != "" {
			told += " " + more
		}
		if len(r.Lost) > 0 {
			lost = told
		}
		return told, nil
	}, func(error) {
		after()
		if lost != "" {
			p.tellLost(lost)
		}
	})
}

// tellLost tells in full that something was released: that is too much for one line at the foot of the window.
func (p *Page) tellLost(told string) {
	p.open(&widgets.Form{Title: "Something was released", Intro: told + " Undo takes all of it back.", Send: "I have read it",
		Say: say.Error, Done: func() error { return nil }})
}
