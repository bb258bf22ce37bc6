package ui

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
	"tallycloth/ui/widgets"
)

// grid is the board that a leftover is drawn on.
func (b *bench) grid() *widgets.PhotoBoard {
	b.t.Helper()
	g, ok := b.shell.Names().Get("draw.board").(*widgets.PhotoBoard)
	if !ok {
		b.t.Fatal("there is no grid")
	}
	return g
}

// click taps the grid at a place in centimetres from the lower left, on the usual grid of
// 120 cm with a pixel of a millimetre.
func (b *bench) click(x, y float64) {
	b.t.Helper()
	b.grid().Tapped(&fyne.PointEvent{Position: b.grid().At(widgets.Spot{X: 10 * x, Y: 900 - 10*y})})
}

func (b *bench) drawSays() string {
	var out []string
	for _, o := range b.shell.Names().Get("draw.told").(*fyne.Container).Objects {
		if r, ok := o.(interface{ Said() string }); ok {
			out = append(out, r.Said())
		}
	}
	return strings.Join(out, "\n")
}

// added is the cloth that was not there before.
func (b *bench) added(before []stash.ClothState) stash.ClothState {
	b.t.Helper()
	seen := map[stash.ID]bool{}
	for _, c := range before {
		seen[c.Cloth.ID] = true
	}
	for _, c := range b.cloths() {
		if !seen[c.Cloth.ID] {
			return c
		}
	}
	b.t.Fatalf("nothing was added; %s", b.shell.Quiet())
	return stash.ClothState{}
}

// By mouse: corners snap to the grid, a side's length is said, a corner is dragged, one that
// makes sides cross is refused in a sentence, a hole and a selvedge are marked.
func TestDrawALeftoverByMouse(t *testing.T) {
	b := full(t)
	before := b.cloths()
	b.press("stash.add")
	b.press("form.draw")
	add := b.shell.Names().Get("draw.add").(*widgets.Button)
	for _, c := range [][2]float64{{10.3, 9.8}, {69.9, 10.2}, {55, 50}} {
		b.click(c[0], c[1])
	}
	if s := b.drawSays(); add.Disabled() || !strings.Contains(s, "60 cm × 40 cm") {
		t.Fatalf("after three corners it says %q", s)
	}
	if w := b.grid().Sides(0, b.grid().Trails()[0].Points[0], b.grid().Trails()[0].Points[1]); w != "60 cm" {
		t.Errorf("the lower side is %q", w)
	}
	b.click(40, 5) // under the lower side: the last side crosses it
	if s := b.drawSays(); !add.Disabled() || !strings.Contains(s, "crosses itself") {
		t.Fatalf("crossing, it says %q", s)
	}
	b.dragGrid(0, 3, 10, 50)
	if add.Disabled() {
		t.Fatalf("after dragging it says %q", b.drawSays())
	}
	b.shell.Names().Get("draw.low").(*widgets.Check).SetChecked(true)
	if w := b.grid().Sides(0, b.grid().Trails()[0].Points[0], b.grid().Trails()[0].Points[1]); w != "60 cm, selvedge" {
		t.Errorf("the lower side is %q", w)
	}
	b.press("draw.hole")
	b.press("draw.add")
	c := b.added(before)
	want := int64(measure.Centimetre) * int64(measure.Centimetre)
	if c.Cloth.Outline.Area() != (60+45)*40/2*want-4*want || len(c.Cloth.Outline.Holes) != 1 || !c.Cloth.SelvedgeLow || c.Cloth.SelvedgeHigh {
		t.Errorf("it is %+v", c.Cloth)
	}
	b.press("undo")
	if len(b.cloths()) != len(before) {
		t.Error("undo left it there")
	}
}

// dragGrid drags a corner of the grid to a place in centimetres.
func (b *bench) dragGrid(trail, point int, x, y float64) {
	g := b.grid()
	from, to := g.At(g.Trails()[trail].Points[point]), g.At(widgets.Spot{X: 10 * x, Y: 900 - 10*y})
	g.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: to}, Dragged: fyne.Delta{DX: to.X - from.X, DY: to.Y - from.Y}})
	g.DragEnd()
}

// By keyboard alone: corners are typed, in units of any kind, moved by arrows, one is added
// and removed; the leftover is exactly as typed.
func TestDrawALeftoverByKeyboard(t *testing.T) {
	b := full(t)
	before := b.cloths()
	b.tabTo("stash.add")
	b.key(fyne.KeyReturn)
	b.tabTo("form.draw")
	b.key(fyne.KeyReturn)
	b.tabTo("draw.x")
	for _, c := range [][2]string{{"0", "0"}, {"50", "0"}, {"20 in", "300 mm"}, {"0", "30"}} {
		b.write(c[0])
		b.key(fyne.KeyReturn)
		b.focus("draw.y")
		b.write(c[1])
		b.key(fyne.KeyReturn)
		b.focus("draw.x")
	}
	b.key(fyne.KeyEscape)
	b.focus("draw.board")
	b.write("n") // the first corner again
	b.key(fyne.KeyRight, fyne.KeyUp)
	if p := b.grid().Trails()[0].Points[0]; p != (widgets.Spot{X: 10, Y: 890}) {
		t.Fatalf("the first corner is at %+v", p)
	}
	b.key(fyne.KeyLeft, fyne.KeyDown)
	b.write("+")
	b.key(fyne.KeyDelete)
	b.key(fyne.KeyReturn)
	c := b.added(before)
	want := shape.Ring{{X: 0, Y: 0}, {X: 500_000, Y: 0}, {X: 508_000, Y: 300_000}, {X: 0, Y: 300_000}}
	if c.Cloth.Outline.Outer.Area() != want.Area() || c.Cloth.Length != 508*measure.Millimetre || c.Cloth.Width != 30*measure.Centimetre {
		t.Errorf("it is %+v", c.Cloth)
	}
}

// A finer or longer grid leaves the corners where they are on the cloth, and a place beyond
// the grid is refused.
func TestFinerAndLongerGrid(t *testing.T) {
	b := full(t)
	before := b.cloths()
	b.press("stash.add")
	b.press("form.draw")
	for _, c := range [][2]float64{{10, 10}, {70, 10}, {70, 50}} {
		b.click(c[0], c[1])
	}
	b.choose("draw.step", "5 mm")
	b.choose("draw.room", "240 cm")
	b.put("draw.x", "3 m")
	b.put("draw.y", "2 m")
	b.press("draw.more")
	if s := b.drawSays(); !strings.Contains(s, "beyond the grid") {
		t.Errorf("it says %q", s)
	}
	b.press("draw.add")
	if c := b.added(before).Cloth; c.Length != 60*measure.Centimetre || c.Width != 40*measure.Centimetre {
		t.Errorf("it is %+v", c)
	}
}

// A selvedge where no side runs along the grain is refused, and what was drawn stays.
func TestSelvedgeThatCannotBe(t *testing.T) {
	b := full(t)
	before := b.cloths()
	b.press("stash.add")
	b.press("form.draw")
	for _, c := range [][2]float64{{10, 10}, {70, 10}, {40, 50}} {
		b.click(c[0], c[1])
	}
	b.shell.Names().Get("draw.high").(*widgets.Check).SetChecked(true)
	b.press("draw.add")
	if s := b.drawSays(); !strings.Contains(s, "selvedge") || len(b.cloths()) != len(before) {
		t.Errorf("it says %q", s)
	}
}
