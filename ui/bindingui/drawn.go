package bindingui

import (
	"fmt"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"tallycloth/planner/binding"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
	"tallycloth/ui/page"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// drawnEdge is the form in which an edge is drawn to scale.
type drawnEdge struct {
	host             *page.Host
	form             *widgets.Form
	board            *widgets.PhotoBoard
	step, room, runs *widgets.Choice
	x, y             *widgets.Field
	ring, other      *widgets.Check
	told             *widgets.Short
	grid             widgets.GridSheet
	parts            []binding.Segment
	trouble          error
	take             func(parts []binding.Segment, ring bool)
}

// The ways a drawn line runs.
const (
	smoothly  = "smoothly through the points"
	pointwise = "straight from point to point"
)

const drawWords = "Click the points along the edge, the garment on your right as you go. Drag one to move it, a right click removes it; n, b, arrows, + and Delete do the same."

// Draw opens the form in which an edge is drawn; its parts go into the table.
func (p *Page) Draw() {
	d := p.drawing
	if d == nil || d.grid.Inches != (p.host.Voice().Units == measure.Imperial) {
		d = newDrawnEdge(p.host)
		p.drawing = d
	}
	d.take = func(parts []binding.Segment, ring bool) {
		p.pattern.SetSelected(typed)
		p.quietly(func() {
			p.closed.SetChecked(ring)
			p.parts.set(parts)
		})
		p.work()
		p.host.Tell("The edge is in the table, part by part. Name its parts and its marks there.")
	}
	d.regrid()
	p.host.ShowForm(d.form)
	p.host.Names.Set("binding.draw.send", d.form.SendButton())
	p.host.Names.Set("binding.draw.close", d.form.CloseButton())
	p.host.Focus(d.board)
}

func newDrawnEdge(h *page.Host) *drawnEdge {
	v := h.Voice()
	d := &drawnEdge{host: h}
	write := func(all []measure.Length) (out []string) {
		for _, l := range all {
			out = append(out, v.Fine(l))
		}
		return out
	}
	d.grid.Inches = v.Units == measure.Imperial
	d.step = widgets.NewChoice("Points lie on every", write(widgets.GridSteps[v.Units]), func(string) { d.regrid() })
	d.room = widgets.NewChoice("The grid is so long", write(widgets.GridRooms[v.Units]), func(string) { d.regrid() })
	d.room.SetSelectedIndex(1) // the usual opening has room on it
	d.runs = widgets.NewChoice("The edge runs", []string{smoothly, pointwise}, func(string) { d.changed() })
	d.ring = widgets.NewCheck("Closed in a ring", func(bool) { d.changed() })
	d.other = widgets.NewCheck("The garment is on the left", func(bool) { d.changed() })
	d.x, d.y = d.placeField("Point, to the right", "12 cm"), d.placeField("and up", "8 cm")
	d.x.Entry.OnSubmitted = func(string) { h.Focus(d.y.Entry) }
	d.y.Entry.OnSubmitted = func(string) { d.typed() }
	more := widgets.NewButton("New point there", d.typed)
	clear := widgets.NewButton("Begin again", func() { d.board.SetTrails([]widgets.Trail{{Open: true}}); d.changed() })
	d.told = widgets.ShortLine(drawWords, widgets.Quiet)
	d.board = widgets.NewPhotoBoard(fyne.NewSize(560, 300))
	d.board.Tap, d.board.Changed = d.point, d.changed
	d.board.Key = widgets.EnterEscape(func() { d.form.Submit() }, func() { d.form.Close() })
	d.board.SetTrails([]widgets.Trail{{Open: true}})
	d.form = &widgets.Form{Title: "Draw an edge", Send: "Take this edge", Say: say.Error, Width: 900, Intro: drawWords, Done: d.done,
		Rows: [][]fyne.CanvasObject{{d.board}, {d.told}, {d.step.Object(), d.room.Object(), d.runs.Object()},
			{d.x.Object(), d.y.Object(), container.NewVBox(widgets.Caption(" "), container.NewHBox(more, clear))}, {d.ring, d.other}},
		Fields: []*widgets.Field{d.x, d.y}}
	for name, o := range map[string]fyne.CanvasObject{"draw.board": d.board, "draw.step": d.step, "draw.room": d.room, "draw.runs": d.runs, "draw.ring": d.ring,
		"draw.other": d.other, "draw.x": d.x.Entry, "draw.y": d.y.Entry, "draw.more": more, "draw.clear": clear, "draw.told": d.told} {
		h.Names.Set("binding."+name, o)
	}
	return d
}

// regrid draws the grid anew; points stay where they are.
func (d *drawnEdge) regrid() {
	was, units := d.grid, d.host.Voice().Units
	d.grid.Room = widgets.GridRooms[units][max(d.room.SelectedIndex(), 0)]
	d.grid.Step = widgets.GridSteps[units][max(d.step.SelectedIndex(), 0)]
	if d.board == nil {
		return
	}
	d.grid.Lay(d.board, was)
	d.changed()
}

// point adds a point at the end of the edge.
func (d *drawnEdge) point(s widgets.Spot) {
	d.board.Append(0, s)
	d.changed()
}

// typed adds a point where the fields say.
func (d *drawnEdge) typed() {
	s, told, ok := d.grid.Typed(d.x, d.y, d.bare())
	if told != "" {
		d.form.Complain(told)
	}
	if !ok {
		return
	}
	d.point(s)
	d.x.Set("")
	d.y.Set("")
	d.host.Focus(d.x.Entry)
}

// changed works the edge out anew and says what it is.
func (d *drawnEdge) changed() {
	trails := d.board.Trails()
	var at [][2]float64
	for _, s := range trails[0].Points {
		q := d.grid.At(s)
		at = append(at, [2]float64{float64(q.X), float64(q.Y)})
	}
	ring := d.ring.Checked && len(at) > 2
	if d.runs.Selected != pointwise {
		at = binding.Smooth(at, ring)
	}
	trails[0].Open, trails[0].Curve = !ring, d.curve(at, ring)
	d.board.Refresh()
	if d.other.Checked {
		for i, j := 0, len(at)-1; i < j; i, j = i+1, j-1 {
			at[i], at[j] = at[j], at[i]
		}
	}
	d.parts, d.trouble = binding.EdgeAlong(at, ring)
	d.told.Set(d.says(), widgets.Plain)
}

// curve is the line as it is drawn on the board; none where the points tell it.
func (d *drawnEdge) curve(at [][2]float64, ring bool) []widgets.Spot {
	if d.runs.Selected == pointwise || len(at) < 3 {
		return nil
	}
	var out []widgets.Spot
	for _, q := range at {
		out = append(out, d.grid.Spot(shape.Point{X: int64(q[0]), Y: int64(q[1])}))
	}
	if ring {
		out = append(out, out[0])
	}
	return out
}

// says is what is drawn, in words.
func (d *drawnEdge) says() string {
	if d.trouble != nil {
		return "No edge yet."
	}
	v, total := d.host.Voice(), measure.Length(0)
	var words []string
	for _, s := range d.parts {
		total += s.Length
		text := v.Fine(s.Length)
		switch deg := s.Turning * 180 / math.Pi; {
		case deg > 0.5:
			text += fmt.Sprintf(" turning %.0f° inside", deg)
		case deg < -0.5:
			text += fmt.Sprintf(" turning %.0f° outside", -deg)
		default:
			text += " straight"
		}
		words = append(words, text)
	}
	if len(words) > 4 {
		words = append(words[:3], fmt.Sprintf("%d more parts", len(d.parts)-3))
	}
	return v.Fine(total) + " in all: " + say.And(words) + "."
}

// done takes the edge over.
func (d *drawnEdge) done() error {
	if d.trouble != nil {
		return d.trouble
	}
	d.take(d.parts, d.ring.Checked)
	return nil
}

func (d *drawnEdge) bare() measure.Unit {
	if d.grid.Inches {
		return measure.Inch
	}
	return measure.Centimetre
}

// placeField reads a place on the grid, which may be zero.
func (d *drawnEdge) placeField(name, hint string) *widgets.Field {
	return widgets.NewField(name, hint, func(text string) (string, error) {
		l, err := measure.ParseLength(text, d.bare())
		if err != nil {
			return "", err
		}
		return "= " + d.host.Voice().Fine(l), nil
	})
}
