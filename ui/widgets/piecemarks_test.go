package widgets

import (
	"image"
	"image/color"
	"testing"

	"fyne.io/fyne/v2"

	"tallycloth/stash/shape"
)

// A piece kept in place and one that breaks a rule are told from others without colour: by a
// pin's dark head, and by stripes that leave cloth between them.
func TestMarksOfPieces(t *testing.T) {
	v := newView(t, cloth())
	draw := func(change func(*PicturePiece)) *image.RGBA {
		p := cloth()
		change(&p.Pieces[0])
		v.Redraw(p)
		return v.base.Image.(*image.RGBA)
	}
	grey := func(c color.Color) int { r, g, b, _ := c.RGBA(); return int(r+g+b) >> 8 }
	count := func(a, b *image.RGBA, darker int) (n int) {
		for y := range a.Rect.Dy() {
			for x := range a.Rect.Dx() {
				if grey(a.At(x, y))-grey(b.At(x, y)) > darker {
					n++
				}
			}
		}
		return n
	}
	plain := draw(func(*PicturePiece) {})
	kept := draw(func(p *PicturePiece) { p.Kept = true })
	wrong := draw(func(p *PicturePiece) { p.Wrong = true })
	if n := count(plain, kept, 200); n < 40 || n > 600 {
		t.Errorf("the pin darkens %d pixels", n)
	}
	whole := 0
	for y := range plain.Rect.Dy() {
		for x := range plain.Rect.Dx() {
			if v.pieceAt(float64(x), float64(y)) == 0 {
				whole++
			}
		}
	}
	if n := count(plain, wrong, 60); 5*n < whole || 2*n > whole {
		t.Errorf("stripes darken %d of %d pixels", n, whole)
	}
}

// hand notes what a person does to pieces.
type hand struct{ said []string }

func (h *hand) Held(int, shape.Point)   { h.said = append(h.said, "held") }
func (h *hand) Moved(int, shape.Point)  { h.said = append(h.said, "moved") }
func (h *hand) Nudged(int, shape.Point) { h.said = append(h.said, "nudged") }
func (h *hand) Turned(int)              { h.said = append(h.said, "turned") }
func (h *hand) KeptOrNot(int)           { h.said = append(h.said, "kept") }
func (h *hand) Chosen(i int) {
	h.said = append(h.said, map[bool]string{true: "chosen", false: "none"}[i >= 0])
}

// Pieces are chosen, kept, turned and let be by keys, and by both buttons of the mouse.
func TestHandsOnPieces(t *testing.T) {
	v := newView(t, cloth())
	h := &hand{}
	v.Mover = h
	expect := func(what string, want ...string) {
		t.Helper()
		if len(h.said) != len(want) {
			t.Fatalf("%s: %v, want %v", what, h.said, want)
		}
		for i := range want {
			if h.said[i] != want[i] {
				t.Fatalf("%s: %v, want %v", what, h.said, want)
			}
		}
		h.said = nil
	}
	for _, r := range "nkr" {
		v.TypedRune(r)
	}
	v.TypedKey(&fyne.KeyEvent{Name: fyne.KeyUp})
	v.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	v.TypedRune('b')
	expect("keys", "chosen", "kept", "turned", "nudged", "none", "chosen")
	x, y := v.view(1).at(shape.Point{X: 250_000, Y: 125_000})
	on, off := &fyne.PointEvent{Position: fyne.NewPos(x, y)}, &fyne.PointEvent{Position: fyne.NewPos(600, 30)}
	v.Tapped(off)
	v.Tapped(on)
	v.TappedSecondary(on)
	v.TappedSecondary(off)
	expect("mouse", "none", "chosen", "kept", "none")
}

// The frames of a search leave zoom and place of the picture as they are.
func TestFramesLeaveTheView(t *testing.T) {
	v := newView(t, cloth())
	v.TypedRune('+')
	v.TypedKey(&fyne.KeyEvent{Name: fyne.KeyLeft})
	at := v.view(1)
	p := cloth()
	p.Pieces[0].Outline = p.Pieces[0].Outline.Move(shape.Point{X: 300_000})
	v.Follow(p)
	if v.view(1) != at || v.Picture().Pieces[0].Outline[0] != p.Pieces[0].Outline[0] {
		t.Error("the view jumped, or shows the old picture")
	}
}

// A picture that was asked for earlier and drawn later does not cover the newer one.
func TestNoStalePicture(t *testing.T) {
	v := newView(t, cloth())
	var late []func()
	v.Away = func(work, done func()) { late = append(late, func() { work(); done() }) }
	old, now := cloth(), cloth()
	now.Pieces[0].Outline = now.Pieces[0].Outline.Move(shape.Point{X: 900_000})
	v.Follow(old)
	v.Redraw(now)
	shown := v.base.Image
	for _, f := range late {
		f()
	}
	if len(late) == 0 || v.base.Image != shown {
		t.Errorf("%d drawn late, the newest picture is covered", len(late))
	}
}
