package stashui

import (
	"context"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"tallycloth/planner"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
	"tallycloth/ui/say"
	"tallycloth/ui/tracing"
	"tallycloth/ui/widgets"
)

// drawer draws the outline of a leftover on a grid, corner by corner.
type drawer struct {
	page *Page

	fabric, fine, room   *widgets.Choice
	x, y, place          *widgets.Field
	washed, low, high    *widgets.Check
	board                *widgets.PhotoBoard
	told                 *fyne.Container
	add                  *widgets.Button
	by                   map[string]stash.Fabric
	whole                fyne.CanvasObject
	outline              shape.Polygon
	grid                 widgets.GridSheet
	handTrail, handPoint int // whose coordinates stand in the fields
	failed, inches       bool
}

// Draw opens the view in which a leftover is drawn.
func (p *Page) Draw() {
	words, by := p.fabricsByName()
	if len(words) == 0 {
		p.host.Tell("Log a purchase first, so that there is a fabric the leftover is of.")
		return
	}
	if p.drawer == nil || p.drawer.inches != (p.host.Voice().Units == measure.Imperial) {
		p.drawer = newDrawer(p)
	}
	p.drawer.by = by
	p.drawer.fabric.Words(words)
	p.lay(p.drawer)
}

func newDrawer(p *Page) *drawer {
	v := p.host.Voice()
	d := &drawer{page: p, told: container.NewVBox(), handTrail: -1, handPoint: -1, inches: v.Units == measure.Imperial}
	write := func(all []measure.Length) (out []string) {
		for _, l := range all {
			out = append(out, v.Fine(l))
		}
		return out
	}
	d.fabric = widgets.NewChoice("Fabric", nil, nil)
	d.fine = widgets.NewChoice("Corners lie on every", write(widgets.GridSteps[v.Units]), func(string) { d.regrid() })
	d.room = widgets.NewChoice("The grid is so long", write(widgets.GridRooms[v.Units]), func(string) { d.regrid() })
	d.x = p.placeField("Corner, along the grain", "35 cm")
	d.y = p.placeField("and across it", "20 cm")
	d.place = widgets.NewField("Where it is kept", "shelf, box", nil)
	d.washed = widgets.NewCheck("Washed already", nil)
	d.low = widgets.NewCheck("Selvedge at the lower edge", func(bool) { d.changed() })
	d.high = widgets.NewCheck("Selvedge at the upper edge", func(bool) { d.changed() })
	d.board = widgets.NewPhotoBoard(fyne.NewSize(420, 320))
	d.board.Tap, d.board.Changed, d.board.Sides = d.corner, d.changed, d.side
	d.board.Key = widgets.EnterEscape(d.keep, d.page.toShelf)
	d.board.Chosen = d.hand
	d.add = widgets.Primary("Add leftover", d.keep)
	d.lay()
	d.board.SetTrails([]widgets.Trail{{}})
	d.regrid()
	return d
}

// lay puts the view together: the grid large, what is asked beside it.
func (d *drawer) lay() {
	p := d.page
	put := widgets.NewButton("Move the corner there", d.typed)
	more := widgets.NewButton("New corner there", d.typedNew)
	less := widgets.NewButton("Remove corner", func() { d.board.Remove(); d.hand() })
	hole := widgets.NewButton("Mark a hole or flaw", d.hole)
	clear := widgets.NewButton("Begin again", func() { d.board.SetTrails([]widgets.Trail{{}}); d.changed(); d.hand() })
	for name, o := range map[string]fyne.CanvasObject{"draw.board": d.board, "draw.fabric": d.fabric, "draw.step": d.fine, "draw.room": d.room, "draw.x": d.x.Entry, "draw.y": d.y.Entry,
		"draw.put": put, "draw.more": more, "draw.less": less, "draw.hole": hole, "draw.clear": clear, "draw.low": d.low, "draw.high": d.high, "draw.place": d.place.Entry,
		"draw.washed": d.washed, "draw.add": d.add, "draw.told": d.told} {
		p.host.Names.Set(name, o)
	}
	d.x.Entry.OnSubmitted = func(string) { p.host.Focus(d.y.Entry) }
	d.y.Entry.OnSubmitted = func(string) { d.typedNew() }
	for _, f := range []*widgets.Field{d.x, d.y, d.place} {
		f.Entry.Escape = func() { p.host.Focus(d.board) }
	}
	for _, c := range []*widgets.Choice{d.fabric, d.fine, d.room} {
		c.Escape = func() { p.host.Focus(d.board) }
	}
	asked := container.NewVBox(container.NewGridWithColumns(2, d.fine.Object(), d.room.Object()),
		container.NewGridWithColumns(2, d.x.Object(), d.y.Object()), container.NewGridWithColumns(2, put, more),
		container.NewGridWithColumns(2, less, hole), container.NewHBox(clear), d.low, d.high, d.told,
		container.NewGridWithColumns(2, d.fabric.Object(), d.place.Object()), d.washed)
	top := p.heading("Draw a leftover", widget.NewLabel(""), d.add)
	split := widgets.Sides(container.NewPadded(d.board), container.NewVScroll(widgets.Inset(asked)), 0.64)
	d.whole = container.NewPadded(container.NewBorder(top, nil, nil, nil, split))
}

func (d *drawer) object() fyne.CanvasObject { return d.whole }

// shown draws the grid anew, in the colours there are now.
func (d *drawer) shown() { d.regrid() }

func (d *drawer) focus() { d.page.host.Focus(d.board) }

// step is how far apart corners may lie.
func (d *drawer) step() measure.Length {
	return widgets.GridSteps[d.page.host.Voice().Units][max(d.fine.SelectedIndex(), 0)]
}

// sheet is the grid as it is chosen.
func (d *drawer) sheet() widgets.GridSheet {
	return widgets.GridSheet{Room: widgets.GridRooms[d.page.host.Voice().Units][max(d.room.SelectedIndex(), 0)], Step: d.step(), Inches: d.inches}
}

// regrid draws the grid anew; corners stay where they are on the cloth.
func (d *drawer) regrid() {
	was := d.grid
	d.grid = d.sheet()
	d.grid.Lay(d.board, was)
	d.changed()
}

// corner adds a corner at the end of the cloth's outline.
func (d *drawer) corner(s widgets.Spot) {
	d.board.Append(0, s)
	d.changed()
}

// side is how long a side is, and whether it is a selvedge.
func (d *drawer) side(trail int, from, to widgets.Spot) string {
	a, b := d.grid.At(from), d.grid.At(to)
	text := d.page.host.Voice().Fine(measure.Length(math.Round(math.Hypot(float64(a.X-b.X), float64(a.Y-b.Y)))))
	if box := d.outline.Bounds(); trail == 0 && a.Y == b.Y && (d.low.Checked && a.Y == box.Min.Y || d.high.Checked && a.Y == box.Max.Y) {
		text += ", selvedge"
	}
	return text
}

// hand puts the coordinates of the corner in hand into the fields.
func (d *drawer) hand() {
	trail, point := d.board.InHand()
	d.handTrail, d.handPoint = trail, point
	if trail < 0 || trail >= len(d.board.Trails()) || point < 0 || point >= len(d.board.Trails()[trail].Points) {
		d.handPoint = -1
		return
	}
	p := d.grid.At(d.board.Trails()[trail].Points[point])
	fine := measure.Style{System: d.page.host.Voice().Units, Kind: measure.StripLength}
	d.x.Set(fine.Exact(measure.Length(p.X)))
	d.y.Set(fine.Exact(measure.Length(p.Y)))
}

// typedSpot is where the fields say.
func (d *drawer) typedSpot() (widgets.Spot, bool) {
	s, told, ok := d.grid.Typed(d.x, d.y, d.page.bare(measure.Width))
	if told != "" {
		d.tell(widgets.Remark("× ", told, widgets.Bad))
	}
	return s, ok
}

// typed moves the corner in hand to where the fields say.
func (d *drawer) typed() {
	if d.handPoint < 0 {
		d.typedNew()
		return
	}
	if s, ok := d.typedSpot(); ok {
		d.board.Trails()[d.handTrail].Points[d.handPoint] = s
		d.board.Refresh()
		d.changed()
	}
}

// typedNew adds a corner where the fields say, behind the last one.
func (d *drawer) typedNew() {
	if s, ok := d.typedSpot(); ok {
		d.corner(s)
		d.x.Set("")
		d.y.Set("")
		d.page.host.Focus(d.x.Entry)
	}
}

// hole marks a hole in the middle of the outline, to be dragged to its place.
func (d *drawer) hole() {
	trails := d.board.Trails()
	if len(trails[0].Points) < 3 {
		d.tell(widgets.Remark("! ", "Draw the outline of the cloth first.", widgets.Careful))
		return
	}
	g := d.board.Grid
	at := tracing.HoleIn(trails[0], g)
	for i, s := range at.Points {
		at.Points[i] = widgets.Spot{X: math.Round(s.X/g) * g, Y: widgets.GridHigh - math.Round((widgets.GridHigh-s.Y)/g)*g}
	}
	d.board.SetTrails(append(append([]widgets.Trail{}, trails...), at))
	d.board.Take(len(trails), 0, true)
	d.page.host.Focus(d.board)
	d.changed()
}

const drawWords = "Click the corners one after the other, all round; the grain runs from left to right. Drag a corner to move it, click a line twice for one more, a right click removes one. By keyboard: type both places and Enter for each corner; on the grid n and b choose one, arrows move it, + and Delete, m moves a whole hole, Enter adds the leftover."

// changed looks at the outline as it is and says what is wrong, or how large it is.
func (d *drawer) changed() {
	rs := tracing.Rings(d.board.Trails(), d.grid.At)
	d.outline = planner.Wound(rs)
	d.hand()
	_, err := planner.OutlineOf(rs)
	d.failed = err != nil
	switch {
	case len(rs[0]) < 3:
		d.tell(widgets.Remark("", drawWords, widgets.Quiet))
		d.add.Disable()
	case err != nil:
		d.tell(widgets.Remark("× ", say.Error(err), widgets.Bad))
		d.add.Disable()
	default:
		v := d.page.host.Voice()
		box := d.outline.Bounds()
		d.tell(widgets.Remark("", v.Area(measure.Area(d.outline.Area()))+", at most "+v.Fine(measure.Length(box.Length()))+" × "+v.Fine(measure.Length(box.Width()))+".", widgets.Plain))
		d.add.Enable()
	}
}

func (d *drawer) tell(o ...fyne.CanvasObject) {
	d.told.Objects = o
	d.told.Refresh()
}

// keep adds the leftover.
func (d *drawer) keep() {
	if d.failed {
		return
	}
	p := d.page
	outline, err := planner.OutlineOf(tracing.Rings(d.board.Trails(), d.grid.At))
	if err == nil {
		var c stash.ClothState
		c, err = p.host.Studio.AddLeftover(context.Background(), planner.LeftoverForm{FabricID: d.by[d.fabric.Selected].ID, Outline: outline,
			Place: d.place.Text(), Washed: d.washed.Checked, SelvedgeLow: d.low.Checked, SelvedgeHigh: d.high.Checked})
		if err == nil {
			p.drawer = nil
			p.toShelf()
			p.saved(c, "Added a leftover of "+c.Fabric.Name+" as "+c.Cloth.Code+", "+p.host.Voice().Area(c.Area)+".")
			return
		}
	}
	d.tell(widgets.Remark("× ", say.Error(err), widgets.Bad))
}

// placeField reads a place on the grid, which may be zero.
func (p *Page) placeField(name, hint string) *widgets.Field {
	v := p.host.Voice()
	return widgets.NewField(name, hint, func(text string) (string, error) {
		l, err := measure.ParseLength(text, p.bare(measure.Width))
		if err != nil {
			return "", err
		}
		return "= " + v.Fine(l), nil
	})
}
