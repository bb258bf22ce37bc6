package ui

import (
	"bytes"
	"image"
	"image/png"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"tallycloth/planner"
	"tallycloth/planner/garment"
	"tallycloth/stash"
	"tallycloth/ui/widgets"
)

// scrapFile is a picture of a test scrap on disk.
func scrapFile(t *testing.T) string {
	t.Helper()
	var b bytes.Buffer
	if err := png.Encode(&b, image.NewRGBA(image.Rect(0, 0, 60, 40))); err != nil {
		t.Fatal(err)
	}
	return onDisk(t, "scrap.png", b.Bytes())
}

// told are the sentences shown in a form beneath its fields.
func (b *bench) told() string {
	var out []string
	if c, ok := b.shell.Names().Get("form.told").(*fyne.Container); ok {
		for _, o := range c.Objects {
			if r, ok := o.(interface{ Said() string }); ok {
				out = append(out, r.Said())
			}
		}
	}
	return strings.Join(out, "\n")
}

// chooseKnit chooses the first length of a knit that is free, and returns it.
func (b *bench) chooseKnit() stash.ClothState {
	b.t.Helper()
	l := b.list("stash.list")
	for _, r := range l.Rows() {
		l.Choose(r.Key)
		if c := b.chosenCloth(); c.Fabric.Construction.Knit() && len(c.Fabric.Stitches) == 0 && c.Cloth.Plain() {
			return c
		}
	}
	b.t.Fatal("no knit is on the shelf")
	return stash.ClothState{}
}

// By mouse: a stitch is noted with the photo of its scrap; while it is typed what speaks
// against it is said; it is changed and removed, and Undo brings it back.
func TestNoteAStitchByMouse(t *testing.T) {
	b := full(t)
	c := b.chooseKnit()
	b.press("stitch.add")
	b.put("form.stitch", "straight")
	b.put("form.needle", "universal 80")
	if s := b.told(); !strings.Contains(s, "ball point") || !strings.Contains(s, "plain lockstitch") {
		t.Fatalf("it says %q", s)
	}
	b.shell.Names().Get("form.still").(*widgets.Check).SetChecked(true)
	b.put("form.needle", "jersey 80/12")
	if s := b.told(); s != "" {
		t.Fatalf("it still says %q", s)
	}
	b.put("form.file", scrapFile(t))
	b.press("form.send")
	b.list("stash.list").Choose(c.Cloth.ID)
	now := b.chosenCloth().Fabric.Stitches
	if len(now) != 1 || now[0].Stitch != "straight" || !now[0].Still {
		t.Fatalf("noted %+v; %s", now, b.shell.Quiet())
	}
	if _, ok := b.shell.Names().Get("stitch.scrap.1").(*widgets.Thumb); !ok {
		t.Error("the scrap is not shown")
	}
	b.press("stitch.change.1")
	if e := b.shell.Names().Get("form.needle").(*widgets.Entry); e.Text != "jersey 80/12" {
		t.Errorf("the form has %q", e.Text)
	}
	b.put("form.tension", "4")
	b.press("form.send")
	if now := b.chosenCloth().Fabric.Stitches; len(now) != 1 || now[0].Tension != "4" {
		t.Errorf("changed to %+v", now)
	}
	b.press("stitch.remove.1")
	if n := len(b.chosenCloth().Fabric.Stitches); n != 0 {
		t.Errorf("%d notes are left", n)
	}
	b.press("undo")
	if n := len(b.chosenCloth().Fabric.Stitches); n != 1 {
		t.Errorf("%d notes after undo", n)
	}
}

// A picture that is none keeps what was typed.
func TestStitchWithABrokenPicture(t *testing.T) {
	b := full(t)
	b.chooseKnit()
	b.press("stitch.add")
	b.put("form.stitch", "zigzag")
	b.put("form.file", onDisk(t, "scrap.png", []byte("no picture")))
	b.press("form.send")
	if len(b.chosenCloth().Fabric.Stitches) != 0 || b.shell.Names().Get("form.stitch").(*widgets.Entry).Text != "zigzag" || b.window.Canvas().Overlays().Top() == nil {
		t.Errorf("it says %q", b.shell.Quiet())
	}
	b.put("form.file", "")
	b.press("form.send")
	if len(b.chosenCloth().Fabric.Stitches) != 1 {
		t.Error("it cannot be sent without the picture")
	}
}

// By keyboard: the note of a fabric is the garment's once that is cut, and changed there
// alone.
func TestStitchesOfAGarmentByKeyboard(t *testing.T) {
	b := full(t)
	ctx := t.Context()
	gs, err := b.studio.Garments(ctx)
	if err != nil {
		t.Fatal(err)
	}
	var g garment.Garment
	var fab stash.Fabric
	for _, x := range gs {
		rs, err := b.studio.Reservations(ctx, x.ID)
		if err != nil {
			t.Fatal(err)
		}
		if x.State == garment.Reserved && len(rs) > 0 {
			c, err := b.studio.Cloth(ctx, rs[0].ClothID)
			if err != nil {
				t.Fatal(err)
			}
			g, fab = x, c.Fabric
		}
	}
	if g.ID == stash.NoID {
		t.Fatal("no garment of the sample is reserved")
	}
	if _, err := b.studio.KeepStitch(ctx, planner.StitchForm{Of: stash.OfFabric, OfID: fab.ID, Note: stash.StitchNote{Stitch: "overlock", Needle: "ball point 80"}}); err != nil {
		t.Fatal(err)
	}
	b.ctrl(fyne.Key3)
	b.list("garments.list").Choose(g.ID)
	b.press("garment.cut")
	b.tabTo("cut.send")
	b.key(fyne.KeyReturn)
	b.list("garments.list").Choose(g.ID)
	b.tabTo("stitch.change.1")
	b.key(fyne.KeyReturn)
	b.focus("form.seam")
	b.write("side")
	b.tabTo("form.tension")
	b.write("5")
	b.key(fyne.KeyReturn)
	now, err := b.studio.Garment(ctx, g.ID)
	if err != nil || len(now.Stitches) != 1 || now.Stitches[0].Tension != "5" || now.Stitches[0].Seam != "side" || now.Stitches[0].FabricID != fab.ID {
		t.Fatalf("%+v, %v; %s", now.Stitches, err, b.shell.Quiet())
	}
	f, err := b.studio.Fabric(ctx, fab.ID)
	if err != nil || len(f.Stitches) != 1 || f.Stitches[0].Tension != "" {
		t.Errorf("the fabric has %+v, %v", f.Stitches, err)
	}
}

// The form fits a small screen with all it has to say.
func TestStitchFormFits(t *testing.T) {
	b := full(t)
	b.chooseKnit()
	b.press("stitch.add")
	b.put("form.stitch", "straight")
	b.put("form.needle", "universal 70/11")
	top := b.window.Canvas().Overlays().Top()
	size := container.NewStack(top).MinSize()
	if size.Width > 1366 || size.Height > 768 {
		t.Errorf("it takes %v", size)
	}
}
