package ui

import (
	"bytes"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/storage"

	"tallycloth/planner/trace/tracetest"
	"tallycloth/ui/sample"
	"tallycloth/ui/widgets"
)

// drawnPhoto is a photo of a leftover whose outline is known, on disk.
func drawnPhoto(t *testing.T) (string, tracetest.Photo) {
	t.Helper()
	s := tracetest.NewScene(1) // beside a sheet of A4
	photo, err := tracetest.Take(s)
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := jpeg.Encode(&b, photo.Picture, &jpeg.Options{Quality: 95}); err != nil {
		t.Fatal(err)
	}
	return onDisk(t, "leftover.jpg", b.Bytes()), photo
}

func onDisk(t *testing.T, name string, data []byte) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// board is the board with the picture.
func (b *bench) board() *widgets.PhotoBoard { return b.boardOf("trace.board") }

func (b *bench) boardOf(name string) *widgets.PhotoBoard {
	b.t.Helper()
	board, ok := b.shell.Names().Get(name).(*widgets.PhotoBoard)
	if !ok {
		b.t.Fatal("there is no picture")
	}
	return board
}

// submit presses Enter in a line of text.
func (b *bench) submit(name string) {
	b.t.Helper()
	e, ok := b.shell.Names().Get(name).(*widgets.Entry)
	if !ok {
		b.t.Fatalf("there is no line %s", name)
	}
	b.window.Canvas().Focus(e)
	b.key(fyne.KeyReturn)
}

// dragSpot drags a point of the board to a place of the picture, in two moves.
func (b *bench) dragSpot(trail, point int, to widgets.Spot) {
	b.t.Helper()
	dragOn(b.board(), trail, point, to)
}

func dragOn(board *widgets.PhotoBoard, trail, point int, to widgets.Spot) {
	from, end := board.At(board.Trails()[trail].Points[point]), board.At(to)
	half := fyne.NewPos((from.X+end.X)/2, (from.Y+end.Y)/2)
	for _, step := range [][2]fyne.Position{{from, half}, {half, end}} {
		e := &fyne.DragEvent{Dragged: fyne.Delta{DX: step[1].X - step[0].X, DY: step[1].Y - step[0].Y}}
		e.Position = step[1]
		board.Dragged(e)
	}
	board.DragEnd()
}

// area is that of the newest cloth, beside what it should be.
func (b *bench) rightArea(want int64) {
	b.t.Helper()
	for _, c := range b.cloths() {
		if off := float64(c.Area)/float64(want) - 1; math.Abs(off) < 0.02 && !c.Cloth.Plain() {
			return
		}
	}
	b.t.Errorf("no leftover has about %.4f m²", float64(want)/1e12)
}

// TestLeftoverFromPhotoByMouse goes the whole way with the mouse: a picture, its four
// corners, the outline, a point and a hole more, the leftover.
func TestLeftoverFromPhotoByMouse(t *testing.T) {
	b := full(t)
	path, photo := drawnPhoto(t)
	b.press("stash.add")
	b.press("form.photo")
	b.put("trace.file", path)
	b.submit("trace.file")
	for i, c := range photo.Marked.Corners {
		b.dragSpot(0, i, widgets.Spot{X: c.X, Y: c.Y})
	}
	b.press("trace.find")
	board := b.board()
	trails := len(board.Trails())
	if trails != 2+len(photo.Truth.Holes) {
		t.Fatalf("%d trails for %d holes", trails, len(photo.Truth.Holes))
	}
	before := len(board.Trails()[0].Points)
	p, q := board.Trails()[0].Points[0], board.Trails()[0].Points[1]
	middle := &fyne.PointEvent{Position: board.At(widgets.Spot{X: (p.X + q.X) / 2, Y: (p.Y + q.Y) / 2})}
	board.DoubleTapped(middle)
	if n := len(board.Trails()[0].Points); n != before+1 {
		t.Errorf("%d points after a double click, %d before", n, before)
	}
	board.TappedSecondary(middle)
	if n := len(board.Trails()[0].Points); n != before {
		t.Errorf("%d points after the second button", n)
	}
	b.press("trace.hole")
	if n := len(board.Trails()); n != trails+1 {
		t.Errorf("%d trails with another hole", n)
	}
	for range 4 { // its corners go, and with the third the whole
		b.press("trace.less")
	}
	b.press("trace.add")
	b.rightArea(photo.Truth.Area())
	if q := b.shell.Quiet(); !strings.Contains(q, "Added a leftover") {
		t.Errorf("the quiet line says %q", q)
	}
}

// TestLeftoverFromPhotoByKeyboard does the same without a mouse.
func TestLeftoverFromPhotoByKeyboard(t *testing.T) {
	b := full(t)
	path, photo := drawnPhoto(t)
	b.press("stash.add")
	b.tabTo("form.photo")
	b.key(fyne.KeyReturn)
	b.focus("trace.file")
	b.write(path)
	b.key(fyne.KeyReturn)
	b.focus("trace.board")
	board := b.board()
	for i, c := range photo.Marked.Corners {
		if _, at := board.InHand(); at != i {
			t.Fatalf("mark %d is in hand, not %d", at, i)
		}
		b.steer(widgets.Spot{X: c.X, Y: c.Y})
		b.write("n")
	}
	b.key(fyne.KeyReturn)
	if len(board.Trails()) < 2 {
		t.Fatal("nothing was found")
	}
	b.write("+")
	b.key(fyne.KeyDelete)
	b.key(fyne.KeyReturn)
	b.rightArea(photo.Truth.Area())
}

// steer moves the point in hand with the arrows, in large steps and then small ones.
func (b *bench) steer(to widgets.Spot) {
	b.t.Helper()
	board := b.board()
	at := func() widgets.Spot {
		trail, point := board.InHand()
		return board.Trails()[trail].Points[point]
	}
	b.key(fyne.KeyPageUp, fyne.KeyPageUp)
	for range 3 { // 16, 4, 1
		for _, w := range []struct {
			key  fyne.KeyName
			more func() bool
		}{
			{fyne.KeyRight, func() bool { return to.X-at().X > 1 }}, {fyne.KeyLeft, func() bool { return at().X-to.X > 1 }},
			{fyne.KeyDown, func() bool { return to.Y-at().Y > 1 }}, {fyne.KeyUp, func() bool { return at().Y-to.Y > 1 }},
		} {
			for n := 0; w.more() && n < 200; n++ {
				b.key(w.key)
			}
		}
		b.key(fyne.KeyPageDown)
	}
	b.key(fyne.KeyPageUp)
	if d := math.Hypot(at().X-to.X, at().Y-to.Y); d > 3 {
		b.t.Fatalf("the mark stands %.1f pixels off", d)
	}
}

// TestBadPictureIsSaid: what cannot be read is said where it was asked, the path stays.
func TestBadPictureIsSaid(t *testing.T) {
	b := full(t)
	b.press("stash.add")
	b.press("form.photo")
	path := onDisk(t, "notes.jpg", []byte("no picture"))
	b.put("trace.file", path)
	b.submit("trace.file")
	if e := b.shell.Names().Get("trace.file").(*widgets.Entry); e.Text != path {
		t.Errorf("the path became %q", e.Text)
	}
	if f := b.shell.Names().Get("trace.find").(*widgets.Button); !f.Disabled() {
		t.Error("an outline can be looked for in nothing")
	}
	b.press("stash.back")
	b.focus("stash.list")
}

// plainPicture is a small picture on disk.
func plainPicture(t *testing.T) string {
	t.Helper()
	img := image.NewRGBA(image.Rect(0, 0, 120, 80))
	for i := range img.Pix {
		img.Pix[i] = 200
	}
	img.Set(3, 3, color.Black)
	var b bytes.Buffer
	if err := png.Encode(&b, img); err != nil {
		t.Fatal(err)
	}
	return onDisk(t, "swatch.png", b.Bytes())
}

// TestSwatchPhoto adds a photo to the fabric chosen, looks at it, removes it and takes that back.
func TestSwatchPhoto(t *testing.T) {
	b := full(t)
	c := b.cloths()[0]
	b.list("stash.list").Choose(c.Cloth.ID)
	b.press("stash.photo")
	b.write(plainPicture(t))
	b.key(fyne.KeyReturn)
	b.photos(1)
	thumb, ok := b.shell.Names().Get("photo.1").(*widgets.Thumb)
	if !ok || thumb.Words != "swatch" {
		t.Fatalf("%+v", thumb)
	}
	thumb.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	b.press("photo.remove")
	b.photos(0)
	b.ctrl(fyne.KeyZ)
	b.photos(1)
}

// photos checks how many photos the chosen cloth's fabric has.
func (b *bench) photos(want int) {
	b.t.Helper()
	all, err := b.studio.Photos(b.t.Context(), b.cloths()[0].Fabric.ID)
	if err != nil || len(all) != want {
		b.t.Fatalf("%d photos, not %d, %v", len(all), want, err)
	}
}

// TestDroppedPhoto: a picture that is dropped on the window becomes a photo of the cloth
// chosen, or the picture that an outline is taken from.
func TestDroppedPhoto(t *testing.T) {
	b := full(t)
	c := b.cloths()[0]
	b.list("stash.list").Choose(c.Cloth.ID)
	path := plainPicture(t)
	b.shell.Drop(fyne.NewPos(10, 10), []fyne.URI{storage.NewFileURI(path)})
	b.press("form.send")
	b.photos(1)
	b.press("stash.add")
	b.press("form.photo")
	leftover, _ := drawnPhoto(t)
	b.shell.Drop(fyne.NewPos(10, 10), []fyne.URI{storage.NewFileURI(leftover)})
	if len(b.board().Trails()) != 1 {
		t.Error("the dropped picture is not on the board")
	}
	b.photos(1)
}

func TestPhotoWithoutFabrics(t *testing.T) {
	b := newBench(t, sample.Empty())
	b.shell.Drop(fyne.NewPos(10, 10), []fyne.URI{storage.NewFileURI(plainPicture(t))})
	if q := b.shell.Quiet(); !strings.Contains(q, "Choose the cloth") {
		t.Errorf("the quiet line says %q", q)
	}
}
