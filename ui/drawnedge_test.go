package ui

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"tallycloth/ui/page"
	"tallycloth/ui/widgets"
)

// An edge is drawn by typed points: straight sides part at their corner, a ring through four points turns
// once round, and what was drawn stands in the table.
func TestDrawnEdge(t *testing.T) {
	b := full(t)
	b.press("rail.binding")
	b.press("binding.draw")
	b.choose("binding.draw.room", "120 cm")
	corner := func(x, y string) {
		b.put("binding.draw.x", x)
		b.put("binding.draw.y", y)
		b.press("binding.draw.more")
	}
	b.pick("binding.draw.runs", "straight")
	corner("10", "10")
	corner("40", "10")
	corner("40", "50")
	if got := b.short("binding.draw.told"); got != "70 cm in all: 30 cm straight and 40 cm straight." {
		t.Errorf("it says %q", got)
	}
	b.press("binding.draw.send")
	for name, want := range map[string]string{"binding.part.1.length": "30 cm", "binding.part.2.length": "40 cm"} {
		if e := b.shell.Names().Get(name).(*widgets.Entry); e.Text != want {
			t.Errorf("%s says %q", name, e.Text)
		}
	}
	b.press("binding.draw")
	b.press("binding.draw.clear")
	b.pick("binding.draw.runs", "smoothly")
	b.shell.Names().Get("binding.draw.ring").(*widgets.Check).SetChecked(true)
	for _, at := range [][2]string{{"40", "20"}, {"60", "40"}, {"40", "60"}, {"20", "40"}} {
		corner(at[0], at[1])
	}
	if got := b.short("binding.draw.told"); !strings.Contains(got, "turning 360° inside") {
		t.Errorf("it says %q", got)
	}
	b.press("binding.draw.send")
	if e := b.shell.Names().Get("binding.part.1.turns").(*widgets.Entry); e.Text != "360" {
		t.Errorf("the ring turns %q", e.Text)
	}
	if !b.shell.Names().Get("binding.closed").(*widgets.Check).Checked {
		t.Error("the edge is not closed")
	}
}

// With the pointer: points are clicked, the second button takes the last away.
func TestDrawnEdgeByMouse(t *testing.T) {
	b := full(t)
	b.press("rail.binding")
	b.press("binding.draw")
	b.pick("binding.draw.runs", "straight")
	b.choose("binding.draw.room", "120 cm")
	board := b.shell.Names().Get("binding.draw.board").(*widgets.PhotoBoard)
	at := func(x, y float64) fyne.Position { return board.At(widgets.Spot{X: x, Y: y}) }
	for _, s := range [][2]float64{{100, 800}, {300, 800}, {300, 500}} { // 1 px is 1 mm
		board.Tapped(&fyne.PointEvent{Position: at(s[0], s[1])})
	}
	if got := b.short("binding.draw.told"); got != "50 cm in all: 20 cm straight and 30 cm straight." {
		t.Errorf("it says %q", got)
	}
	board.TappedSecondary(&fyne.PointEvent{Position: at(300, 500)})
	if got := b.short("binding.draw.told"); got != "20 cm in all: 20 cm straight." {
		t.Errorf("it says %q", got)
	}
}

// From a garment, the fabric that is kept for it is chosen, also where another was chosen before, and the
// place says whose strips they are until an edge of another kind is chosen.
func TestStripsOfAGarmentBeginWithItsFabric(t *testing.T) {
	b := full(t)
	b.press("rail.binding")
	if w := b.shell.Names().Get("binding.fabric").(*widgets.Choice).Selected; w != "not chosen yet" {
		t.Fatalf("%s is chosen", w)
	}
	for _, c := range b.cloths() {
		if len(c.Reservations) == 0 {
			continue
		}
		for _, other := range b.cloths() {
			if other.Fabric.Name != c.Fabric.Name {
				b.pick("binding.fabric", other.Fabric.Name)
				break
			}
		}
		b.shell.Go(page.Route{Place: page.Binding, ID: c.Reservations[0].GarmentID})
		whose := b.shell.Names().Get("binding.whose").(*widget.Label)
		if !strings.HasPrefix(whose.Text, "for ") {
			t.Errorf("whose strips they are is said as %q", whose.Text)
		}
		if w := b.shell.Names().Get("binding.fabric").(*widgets.Choice).Selected; w != c.Fabric.Name {
			t.Errorf("%s is chosen, %s is kept", w, c.Fabric.Name)
		}
		if b.pick("binding.pattern", "an edge I measured"); whose.Text != "" {
			t.Errorf("of a typed edge it says %q", whose.Text)
		}
		return
	}
	t.Fatal("nothing is reserved in the sample")
}
