package ui

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/ui/widgets"
)

// Washing a length from its detail changes its size and says what became of it; one undo
// takes it back. Measuring again corrects it, by keyboard.
func TestWashAndMeasureAgain(t *testing.T) {
	b := full(t)
	b.press("rail.stash")
	l := b.list("stash.list")
	for _, r := range l.Rows() {
		l.Choose(r.Key)
		if c := b.chosenCloth().Cloth; c.Plain() && !c.Washed {
			break
		}
	}
	before := b.chosenCloth().Cloth
	if before.Washed || !before.Plain() {
		t.Fatal("no length is left to wash")
	}
	b.press("stash.wash")
	b.put("wash.length", "1 m")
	b.put("wash.width", "120 cm")
	b.press("form.send")
	after := b.chosenCloth().Cloth
	if !after.Washed || after.Length != measure.Metre || after.Width != 120*measure.Centimetre {
		t.Fatalf("it is %+v; %s", after, b.shell.Quiet())
	}
	if q := b.shell.Quiet(); !strings.Contains(q, "lengthwise") {
		t.Errorf("it says %q", q)
	}
	b.press("stash.again")
	b.put("measure.length", "98 cm")
	b.put("measure.width", "121 cm")
	b.key(fyne.KeyReturn)
	if now := b.chosenCloth().Cloth; now.Length != 98*measure.Centimetre {
		t.Errorf("measured again it is %+v; %s", now, b.shell.Quiet())
	}
	b.ctrl(fyne.KeyZ)
	b.ctrl(fyne.KeyZ)
	if now := b.chosenCloth().Cloth; now.Washed || now.Length != before.Length || now.Width != before.Width {
		t.Errorf("undo left %+v", now)
	}
}

// chosenCloth is the cloth chosen in the stash.
func (b *bench) chosenCloth() stash.ClothState {
	b.t.Helper()
	r, ok := b.list("stash.list").ChosenRow()
	if !ok {
		b.t.Fatal("no cloth is chosen")
	}
	c, err := b.studio.Cloth(context.Background(), r.Key.(stash.ID))
	if err != nil {
		b.t.Fatal(err)
	}
	return c
}

// Labels for everything in the list are written from the detail of one.
func TestLabels(t *testing.T) {
	b := full(t)
	b.press("rail.stash")
	l := b.list("stash.list")
	l.Choose(l.Rows()[0].Key)
	b.press("stash.labels")
	b.choice("labels.which", b.shell.Names().Get("labels.which").(*widgets.Choice).Options[1])
	file := filepath.Join(t.TempDir(), "labels.pdf")
	b.put("labels.skip", "3")
	b.put("labels.path", file)
	b.press("form.send")
	if data, err := os.ReadFile(file); err != nil || !bytes.HasPrefix(data, []byte("%PDF")) || !strings.Contains(b.shell.Quiet(), "labels on ") {
		t.Errorf("%d bytes, %v; it says %q", len(data), err, b.shell.Quiet())
	}
}

// A cloth is moved and a flaw found in it, and both are taken back.
func TestMoveAndFlaw(t *testing.T) {
	b := full(t)
	b.press("rail.stash")
	l := b.list("stash.list")
	l.Choose(l.Rows()[0].Key)
	before := b.chosenCloth()
	b.press("stash.move")
	b.put("move.place", "window seat")
	b.press("form.send")
	if now := b.chosenCloth().Cloth; now.Place != "window seat" {
		t.Errorf("it is kept at %q; %s", now.Place, b.shell.Quiet())
	}
	b.press("stash.flaw")
	b.put("flaw.along", "10 cm")
	b.put("flaw.across", "12 cm")
	b.put("flaw.length", "2 cm")
	b.put("flaw.width", "1 cm")
	b.press("form.send")
	if now := b.chosenCloth(); now.Area >= before.Area || len(now.Cloth.Outline.Holes) != len(before.Cloth.Outline.Holes)+1 {
		t.Errorf("%d of %d are there; %s", now.Area, before.Area, b.shell.Quiet())
	}
	b.press("undo")
	b.press("undo")
	if now := b.chosenCloth(); now.Area != before.Area || now.Cloth.Place != before.Cloth.Place {
		t.Errorf("undo left %+v", now.Cloth)
	}
}
