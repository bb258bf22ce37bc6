package ui

import (
	"context"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

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
	b.put("wash.width", "12 cm") // a slip, which is asked about
	b.press("form.send")
	if c := b.chosenCloth().Cloth; c.Washed {
		t.Fatal("a slip was believed")
	}
	b.put("wash.width", "120 cm")
	b.press("form.send")
	if !b.chosenCloth().Cloth.Washed { // 1 m may be a slip as well: it is sent once more
		b.press("form.send")
	}
	after := b.chosenCloth().Cloth
	if !after.Washed || after.Length != measure.Metre || after.Width != 120*measure.Centimetre {
		t.Fatalf("it is %+v; %s", after, b.shell.Quiet())
	}
	if q := b.shell.Quiet(); !strings.Contains(q, "in length") {
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

// Labels for everything in the list are looked at from the detail of one, on either sheet of labels, and
// saved; too many labels left out are said, and a file that is there stays as it is.
func TestLabels(t *testing.T) {
	b, _ := onPaper(t)
	b.press("rail.stash")
	l := b.list("stash.list")
	l.Choose(l.Rows()[0].Key)
	code := b.chosenCloth().Cloth.Code
	b.press("stash.labels")
	if text := b.saveOnPaper("one.pdf"); strings.Count(text, "×") != 1 || !strings.Contains(text, code) {
		t.Errorf("not one label, of %s: %s; %s", code, text, b.toldOnPaper())
	}
	b.choose("paper.which", b.shell.Names().Get("paper.which").(*widgets.Choice).Options[1])
	b.choose("paper.paper", "Letter")
	b.put("labels.skip", "30")
	if text := b.toldOnPaper(); !strings.Contains(text, "30 labels") {
		t.Errorf("a whole sheet left out: %q", text)
	}
	b.put("labels.skip", "29")
	if text := b.shell.Names().Get("paper.pages").(*widget.Label).Text; !strings.Contains(text, "of 2, Letter") {
		t.Errorf("it shows %s; %s", text, b.toldOnPaper())
	}
	if text := b.saveOnPaper("all.pdf"); strings.Count(text, "×") != len(l.Rows()) {
		t.Errorf("not %d labels: %s", len(l.Rows()), text)
	}
	b.press("paper.save")
	if !strings.Contains(b.toldOnPaper(), "there already") {
		t.Errorf("saved over: %s", b.toldOnPaper())
	}
	b.press("paper.close")
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

// What is released when a cloth is measured shorter is told in full over the window, not only in the line
// at its foot.
func TestWhatIsReleasedIsTold(t *testing.T) {
	b := full(t)
	b.press("rail.stash")
	l := b.list("stash.list")
	for _, r := range l.Rows() {
		l.Choose(r.Key)
		if c := b.chosenCloth(); c.Cloth.Plain() && len(c.Reservations) > 0 {
			break
		}
	}
	if len(b.chosenCloth().Reservations) == 0 {
		t.Fatal("nothing is reserved on a length")
	}
	b.press("stash.again")
	b.put("measure.length", "3 cm")
	b.put("measure.width", "3 cm")
	b.press("form.send")
	b.press("form.send") // she is sure
	if n := len(b.chosenCloth().Reservations); n != 0 {
		t.Fatalf("%d are reserved on a rag; %s", n, b.shell.Quiet())
	}
	if text := b.shell.Names().Get("form.send").(*widgets.Button).Text; text != "I have read it" {
		t.Errorf("the button of the form says %q", text)
	}
	b.press("form.send")
}
