package stashui

import (
	"context"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"tallycloth/planner"
	"tallycloth/stash"
	"tallycloth/ui/say"
	"tallycloth/ui/tracing"
	"tallycloth/ui/widgets"
)

// tracer takes the outline of a leftover from a photo.
type tracer struct {
	page *Page
	view *tracing.View

	place             *widgets.Field
	fabric            *widgets.Choice
	washed, low, high *widgets.Check
	by                map[string]stash.Fabric
	whole             fyne.CanvasObject
}

// FromPhoto opens the view that takes a leftover's outline from a photo.
func (p *Page) FromPhoto() {
	words, by := p.fabricsByName()
	if len(words) == 0 {
		p.host.Tell("Log a purchase first, so that there is a fabric the leftover is of.")
		return
	}
	if p.tracer == nil {
		p.tracer = newTracer(p)
	}
	p.tracer.by = by
	p.tracer.fabric.Words(words)
	p.lay(p.tracer)
}

// droppedPicture gives a picture to the outline that is being taken, or makes it a photo
// of the cloth chosen.
func (p *Page) droppedPicture(path string) {
	if p.tracer != nil && p.over == overShelf(p.tracer) {
		p.tracer.view.File.Entry.SetText(path)
		p.tracer.view.Read()
		return
	}
	p.toShelf()
	c, ok := p.chosen()
	if !ok {
		p.host.Tell("Choose the cloth that the photo is of, then drop it again.")
		return
	}
	p.addPhoto(c, path)
}

const firstWords = "Lay the cloth flat on something of another colour, with a sheet of paper beside it. Take the picture from above, so that both are whole in it. Choose the picture, or drop it on the window."

const afterWords = "Drag points that lie wrong; a double click on the line adds one, a right click takes one away. Turn the arrow along the grain. By keyboard: n and b, arrows, + and Delete, m to move a whole hole; Enter adds the leftover."

func newTracer(p *Page) *tracer {
	t := &tracer{page: p}
	t.fabric = widgets.NewChoice("Fabric", nil, nil)
	t.place = widgets.NewField("Where it is kept", "shelf, box", nil)
	t.washed = widgets.NewCheck("Washed already", nil)
	t.low = widgets.NewCheck("Selvedge right of the arrow", nil)
	t.high = widgets.NewCheck("Selvedge left of it", nil)
	asked := container.NewVBox(container.NewGridWithColumns(2, t.fabric.Object(), t.place.Object()), t.washed)
	t.view = tracing.New(p.host, tracing.Words{Prefix: "trace", File: "Picture, with a sheet or a mat's lines beside the cloth", First: firstWords,
		Empty: "Drag the four points onto the cloth and add more along its edge.", After: afterWords, Arrow: "lengthwise", Add: "Add leftover", Keep: t.keep, Leave: p.toShelf},
		container.NewGridWithColumns(2, t.low, t.high), asked)
	for name, o := range map[string]fyne.CanvasObject{"trace.fabric": t.fabric, "trace.place": t.place.Entry, "trace.washed": t.washed, "trace.low": t.low, "trace.high": t.high} {
		p.host.Names.Set(name, o)
	}
	t.place.Entry.Escape, t.fabric.Escape = t.view.ToBoard, t.view.ToBoard
	top := p.heading("A leftover from a photo", widget.NewLabel(""), t.view.Buttons()...)
	split := widgets.Sides(container.NewPadded(t.view.Board), container.NewVScroll(widgets.Inset(t.view.Asked)), 0.64)
	t.whole = container.NewPadded(container.NewBorder(top, nil, nil, nil, split))
	return t
}

func (t *tracer) object() fyne.CanvasObject { return t.whole }

// shown has nothing to read again.
func (t *tracer) shown() {}

func (t *tracer) focus() { t.view.Focus() }

// keep adds the leftover.
func (t *tracer) keep() {
	if t.view.Straight == nil {
		return
	}
	p := t.page
	outline, err := t.view.Drawn()
	if err != nil {
		t.view.Say(widgets.Remark("× ", say.Error(err), widgets.Bad))
		return
	}
	c, err := p.host.Studio.AddLeftover(context.Background(), planner.LeftoverForm{FabricID: t.by[t.fabric.Selected].ID,
		Outline: outline, Place: t.place.Text(), Washed: t.washed.Checked, SelvedgeLow: t.low.Checked, SelvedgeHigh: t.high.Checked})
	if err != nil {
		t.view.Say(widgets.Remark("× ", say.Error(err), widgets.Bad))
		return
	}
	p.tracer = nil
	p.toShelf()
	p.saved(c, "Added a leftover of "+c.Fabric.Name+" as "+c.Cloth.Code+", "+p.host.Voice().Area(c.Area)+".")
}
