package stashui

import (
	"context"
	"errors"

	"fyne.io/fyne/v2"

	"tallycloth/planner"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// move opens the form for where a cloth is kept now.
func (p *Page) move(c stash.ClothState) {
	where := needed(widgets.NewField("Where it is kept now", c.Cloth.Place, nil), "Say where it is kept, such as: hall cupboard.")
	p.host.Names.Set("move.place", where.Entry)
	form := &widgets.Form{Title: "Move " + c.Fabric.Name + " " + c.Cloth.Code, Send: "Keep the place", Say: say.Error,
		Rows: [][]fyne.CanvasObject{{where.Object()}}, Fields: []*widgets.Field{where}}
	form.Done = func() error {
		if err := p.host.Studio.MoveCloth(context.Background(), c.Cloth.ID, where.Text()); err != nil {
			return err
		}
		p.host.Tell(c.Cloth.Code + " is kept there now: " + where.Text() + ".")
		p.Shown()
		return nil
	}
	p.open(form)
}

// flaw opens the form for a hole or a stain.
func (p *Page) flaw(c stash.ClothState) {
	along := needed(p.lengthField("From the left end to its middle", "62 cm", measure.FabricLength), "Measure from the end that is drawn to the left.")
	across := needed(p.lengthField("From the lower edge to its middle", "41 cm", measure.Width), "Measure from the edge that is drawn at the bottom.")
	long := needed(p.lengthField("How long along the grain", "3 cm", measure.PieceLength), "Measure it with a little to spare.")
	wide := needed(p.lengthField("How wide across", "2 cm", measure.PieceLength), "Measure it with a little to spare.")
	note := widgets.NewField("What it is", "moth hole", nil)
	for name, f := range map[string]*widgets.Field{"flaw.along": along, "flaw.across": across, "flaw.length": long, "flaw.width": wide, "flaw.note": note} {
		p.host.Names.Set(name, f.Entry)
	}
	form := &widgets.Form{Title: "A flaw in " + c.Fabric.Name + " " + c.Cloth.Code, Send: "Keep the flaw", Say: say.Error, Width: 560,
		Intro: "As the cloth is drawn here. Nothing is cut over it from now on; what is reserved there is laid out again.",
		Rows:  [][]fyne.CanvasObject{{along.Object(), across.Object()}, {long.Object(), wide.Object()}, {note.Object()}}, Fields: []*widgets.Field{along, across, long, wide, note}}
	form.Done = func() error {
		if p.lengthIn(along, measure.FabricLength) > c.Cloth.Length || p.lengthIn(across, measure.Width) > c.Cloth.Width {
			return errors.New("the flaw would lie off the cloth: measure where it lies again")
		}
		f := planner.Flaw{ClothID: c.Cloth.ID, Along: p.lengthIn(along, measure.FabricLength), Across: p.lengthIn(across, measure.Width),
			Length: p.lengthIn(long, measure.PieceLength), Width: p.lengthIn(wide, measure.PieceLength), Note: note.Text()}
		p.resized("flaw", func(ctx context.Context) (planner.Resized, error) { return p.host.Studio.FlawFound(ctx, f) },
			func(r planner.Resized) string { return r.Cloth.Cloth.Code + " has a flaw now." }, p.Shown)
		return nil
	}
	p.open(form)
}
