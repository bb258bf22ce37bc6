package widgets

import (
	"image"
	"math"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"pgregory.net/rapid"

	"tallycloth/stash/shape"
	"tallycloth/ui/looks"
)

// cloth is a picture of 2 m × 1 m with one piece in the corner at the start and the low edge.
func cloth() ClothPicture {
	box := func(x, y, l, w int64) shape.Ring {
		return shape.Box{Min: shape.Point{X: x, Y: y}, Max: shape.Point{X: x + l, Y: y + w}}.Ring()
	}
	return ClothPicture{Cloth: shape.Polygon{Outer: box(0, 0, 2_000_000, 1_000_000)}, Colour: "#336699", SelvedgeLow: true,
		Pieces: []PicturePiece{{Name: "A Front", Note: "1 of 2", Outline: box(0, 0, 500_000, 250_000), Top: shape.Point{X: -1000}}}}
}

func newView(t testing.TB, p ClothPicture) *LayoutView {
	t.Helper()
	app := test.NewTempApp(t)
	app.Settings().SetTheme(&looks.Theme{})
	v := NewLayoutView(fyne.NewSize(100, 100))
	w := test.NewTempWindow(t, v)
	w.SetPadded(false)
	w.Resize(fyne.NewSize(640, 400))
	v.Draw(p)
	return v
}

// What is under the pointer stays there while the wheel turns.
func TestZoomKeepsThePlaceUnderThePointer(t *testing.T) {
	v := newView(t, cloth())
	rapid.Check(t, func(t *rapid.T) {
		x, y := rapid.Float32Range(0, 640).Draw(t, "x"), rapid.Float32Range(0, 400).Draw(t, "y")
		before := v.view(1).back(float64(x), float64(y))
		v.Scrolled(&fyne.ScrollEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(x, y)}, Scrolled: fyne.NewDelta(0, rapid.Float32Range(-200, 200).Draw(t, "wheel"))})
		after := v.view(1).back(float64(x), float64(y))
		// A pixel is at least 0.1 mm here; the place may move by less than one.
		if d := math.Hypot(float64(before.X-after.X), float64(before.Y-after.Y)); d > 2000/v.view(1).scale {
			t.Fatalf("it moved by %.0f µm", d)
		}
	})
}

// The face of the cloth is seen: x runs to the right and y up, so the piece in the low
// corner at the start is at the bottom left.
func TestTheFaceIsSeen(t *testing.T) {
	v := newView(t, cloth())
	at := func(x, y int64) int {
		px, py := v.view(1).at(shape.Point{X: x, Y: y})
		return v.pieceAt(float64(px), float64(py))
	}
	if at(100_000, 100_000) != 0 || at(1_900_000, 100_000) != -1 || at(100_000, 900_000) != -1 {
		t.Error("the piece is not where it lies")
	}
	_, low := v.view(1).at(shape.Point{})
	_, high := v.view(1).at(shape.Point{Y: 1_000_000})
	if low <= high {
		t.Errorf("the low edge is drawn at %.0f, above the high one at %.0f", low, high)
	}
	img := v.base.Image.(*image.RGBA)
	if got, ground := img.At(90, int(low)-20), img.At(90, int(high)+20); got == ground {
		t.Error("piece and cloth have one colour")
	}
}

func TestThePointerNamesThePiece(t *testing.T) {
	v := newView(t, cloth())
	said := ""
	v.Hovered = func(s string) { said = s }
	x, y := v.view(1).at(shape.Point{X: 250_000, Y: 125_000})
	v.MouseMoved(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(x, y)}})
	if said != "A Front, 1 of 2" || !v.top.Visible() {
		t.Errorf("it says %q", said)
	}
	v.MouseOut()
	if said != "" || v.top.Visible() {
		t.Errorf("afterwards it says %q", said)
	}
}

// Keys: 0 shows the whole cloth again, wherever it was moved to.
func TestKeysOfTheLayout(t *testing.T) {
	v := newView(t, cloth())
	whole := v.view(1)
	v.TypedRune('+')
	v.TypedKey(&fyne.KeyEvent{Name: fyne.KeyLeft})
	v.TypedKey(&fyne.KeyEvent{Name: fyne.KeyUp})
	if v.view(1) == whole {
		t.Error("+ and arrows change nothing")
	}
	v.TypedRune('0')
	if v.view(1) != whole {
		t.Error("0 does not show the whole cloth")
	}
	got := fyne.KeyName("")
	v.Key = func(k fyne.KeyName) { got = k }
	v.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if got != fyne.KeyEscape {
		t.Error("Escape is kept")
	}
}

// Nothing to draw, and nothing but a line, are drawn without trouble.
func TestEmptyPictures(t *testing.T) {
	for _, p := range []ClothPicture{{}, {Cloth: shape.Polygon{Outer: shape.Ring{{}, {X: 5}, {X: 9}}}}} {
		v := newView(t, p)
		v.TypedRune('+')
		v.MouseMoved(&desktop.MouseEvent{})
	}
}

// crowd is 200 pieces of 80 vertices, as large a layout as the window is made for.
func crowd() ClothPicture {
	p := ClothPicture{Cloth: shape.Polygon{Outer: shape.Box{Max: shape.Point{X: 6_000_000, Y: 1_500_000}}.Ring()}, Colour: "#7d8a4e", Grid: 100_000}
	for i := range int64(200) {
		var r shape.Ring
		for k := range 80 {
			sin, cos := math.Sincos(2 * math.Pi * float64(k) / 80)
			r = append(r, shape.Point{X: i%20*300_000 + 150_000 + int64(120_000*cos), Y: i/20*150_000 + 75_000 + int64(60_000*sin)})
		}
		p.Pieces = append(p.Pieces, PicturePiece{Name: "A", Outline: r, Top: shape.Point{X: -1}})
	}
	return p
}

// BenchmarkPaint200 draws the crisp picture, which happens away from the window's thread.
func BenchmarkPaint200(b *testing.B) {
	v := newView(b, crowd())
	img := image.NewRGBA(image.Rect(0, 0, 1000, 700))
	for b.Loop() {
		v.picture.paint(img, v.view(1), 11)
	}
}

// BenchmarkDrag200 is what a step of dragging costs on the window's thread.
func BenchmarkDrag200(b *testing.B) {
	v := newView(b, crowd())
	v.Resize(fyne.NewSize(1000, 700))
	v.Away = func(work, done func()) {}
	for b.Loop() {
		v.Dragged(&fyne.DragEvent{Dragged: fyne.NewDelta(1, 1)})
	}
}

// BenchmarkHover200 is what a step of the pointer costs on the window's thread.
func BenchmarkHover200(b *testing.B) {
	v := newView(b, crowd())
	v.Resize(fyne.NewSize(1000, 700))
	x := float32(0)
	for b.Loop() {
		x = float32(math.Mod(float64(x)+7, 1000))
		v.MouseMoved(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(x, 350)}})
	}
}

type scrolling struct{ times int }

func (p *scrolling) Scrolled(*fyne.ScrollEvent) { p.times++ }

// TestWheelMovesThePage: on a page that scrolls, the wheel does not stop at a drawing.
func TestWheelMovesThePage(t *testing.T) {
	test.NewApp()
	v := NewLayoutView(fyne.NewSize(240, 200))
	wheel := &fyne.ScrollEvent{Scrolled: fyne.NewDelta(0, -40)}
	before := v.zoom
	v.Scrolled(wheel)
	alone := v.zoom
	p := &scrolling{}
	v.LieOn(p)
	v.Scrolled(wheel)
	if alone == before || v.zoom != alone || p.times != 1 {
		t.Errorf("zoom %v, alone %v, on a page %v; the page moved %d times", before, alone, v.zoom, p.times)
	}
}
