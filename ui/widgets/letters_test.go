package widgets

import (
	"image"
	"image/color"
	"math"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"pgregory.net/rapid"

	"tallycloth/assets"
	"tallycloth/ui/looks"
)

func ownFonts(t testing.TB) {
	t.Helper()
	test.NewTempApp(t).Settings().SetTheme(&looks.Theme{Regular: fyne.NewStaticResource("regular.ttf", assets.FontRegular), Bold: fyne.NewStaticResource("bold.ttf", assets.FontBold)})
}

// Rows are set as wide as the toolkit sets the same words (within one unit), in each style. Sizes are whole:
// the toolkit sets others as wide as the next whole one.
func TestLettersAreSetAsTheToolkitDoes(t *testing.T) {
	ownFonts(t)
	for _, style := range []fyne.TextStyle{{}, {Bold: true}, {Italic: true}} {
		for _, words := range []string{"Heather-grey rib 2 × 2", "1.25 m × 159.5 cm", "AVATAR WAVY Tape To", "Größe 42, Ärmel", "30 %"} {
			for _, size := range []float32{11, 13, 21} {
				want := fyne.MeasureText(words, size, style).Width
				_, got := lettersIn(style, float64(size)).fit(words, 1e6)
				if math.Abs(got-float64(want)) > 1 {
					t.Errorf("%q %v at %g: %.2f wide, the toolkit says %.2f", words, style, size, got, want)
				}
			}
		}
	}
}

// A text that is cut has room, begins like the whole one and ends with an ellipsis; one that has room is not cut.
func TestFit(t *testing.T) {
	ownFonts(t)
	l := lettersIn(fyne.TextStyle{}, 13)
	rapid.Check(t, func(t *rapid.T) {
		words := rapid.StringOfN(rapid.RuneFrom([]rune("AVTo il1,.×ß")), 1, 30, -1).Draw(t, "words")
		_, whole := l.fit(words, 1e6)
		width := rapid.Float64Range(14, 300).Draw(t, "width")
		cut, wide := l.fit(words, width)
		switch {
		case whole <= width && cut != words:
			t.Fatalf("%q was cut to %q though it is %g wide in %g", words, cut, whole, width)
		case wide > width+1.0/64:
			t.Fatalf("%q is %g wide in %g", cut, wide, width)
		case cut != words && (len(cut) < 3 || cut[len(cut)-3:] != "…" || cut[:len(cut)-3] != words[:len(cut)-3]):
			t.Fatalf("%q became %q", words, cut)
		}
	})
}

// What is written lies where it is measured to lie, in its colour, and nowhere else.
func TestWrite(t *testing.T) {
	ownFonts(t)
	l := lettersIn(fyne.TextStyle{Bold: true}, 26)
	img := image.NewRGBA(image.Rect(0, 0, 300, 60))
	ink := color.NRGBA{R: 200, G: 10, B: 30, A: 255}
	_, wide := l.fit("Rib HH", 1e6)
	l.write(img, "Rib HH", 40, 10, ink)
	var box image.Rectangle
	full := 0
	for y := range 60 {
		for x := range 300 {
			switch c := img.RGBAAt(x, y); {
			case c == (color.RGBA{ink.R, ink.G, ink.B, 255}):
				full++
				fallthrough
			case c.A > 0:
				box = box.Union(image.Rect(x, y, x+1, y+1))
				if c.R > c.A || int(c.R) > int(ink.R) {
					t.Fatalf("(%d, %d) is %v", x, y, c)
				}
			}
		}
	}
	if box.Min.X < 40 || box.Max.X > 40+int(wide)+1 || box.Min.Y < 10 || box.Max.Y > 10+l.height || box.Dx() < int(wide)-6 || full < 100 {
		t.Errorf("it lies in %v, %.1f wide, %d pixels full", box, wide, full)
	}
	l.write(img, "at the very edge", 290, 50, ink) // is cut, and harms nothing
}

// Letters that the font lacks are left to the toolkit, the rest of the row is drawn.
func TestStrangeLetters(t *testing.T) {
	ownFonts(t)
	l := NewRowList([]Column{{Title: "Size", Width: 80, Right: true}})
	v := newRowView(l)
	v.Resize(fyne.NewSize(400, 46))
	v.show(Row{Key: 1, Title: "綿ジャージー", Sub: "navy", Cells: []Cell{{Text: "2 m"}}})
	if len(v.strange) != 1 || v.strange[0].Text != "綿ジャージー" {
		t.Errorf("left to the toolkit: %v", v.strange)
	}
	v.show(Row{Key: 1, Title: "Cotton jersey", Sub: "navy", Cells: []Cell{{Text: "2 m"}}})
	if len(v.strange) != 0 {
		t.Errorf("left to the toolkit: %v", v.strange)
	}
}

// A row is drawn again when what it says changed, and not when nothing did.
func TestRowIsDrawnWhenItChanges(t *testing.T) {
	ownFonts(t)
	l := NewRowList([]Column{{Title: "Size", Width: 80, Right: true}})
	v := newRowView(l)
	v.Resize(fyne.NewSize(400, 46))
	row := func() Row {
		return Row{Key: 1, Swatch: &Swatch{Colour: "#123456", Length: 1, Free: 1}, Title: "Rib", Sub: "navy", Cells: []Cell{{Text: "2 m", Under: "at most"}}}
	}
	v.show(row())
	pix := func() []byte { return append([]byte(nil), v.img.Image.(*image.RGBA).Pix...) }
	first := pix()
	clear(v.img.Image.(*image.RGBA).Pix)
	v.show(row())
	for _, b := range pix() {
		if b != 0 {
			t.Fatal("it was drawn again though nothing changed")
		}
	}
	for name, change := range map[string]func(*Row){
		"title": func(r *Row) { r.Title = "Ribs" }, "sub": func(r *Row) { r.Sub = "blue" }, "tone": func(r *Row) { r.SubTone = Bad },
		"cell": func(r *Row) { r.Cells[0].Text = "3 m" }, "under": func(r *Row) { r.Cells[0].Under = "" }, "italic": func(r *Row) { r.Cells[0].Italic = true },
		"swatch": func(r *Row) { r.Swatch.Free = 0.2 }, "no swatch": func(r *Row) { r.Swatch = nil },
	} {
		r := row()
		change(&r)
		v.show(r)
		if string(pix()) == string(first) {
			t.Errorf("%s: nothing changed", name)
		}
		v.show(row())
		if string(pix()) != string(first) {
			t.Errorf("%s: what was there before does not come back", name)
		}
	}
}

func BenchmarkRow(b *testing.B) {
	ownFonts(b)
	l := NewRowList([]Column{{Title: "Size", Width: 126, Right: true}, {Title: "Across", Width: 54, Right: true}, {Title: "Where", Width: 122}})
	v := newRowView(l)
	v.Resize(fyne.NewSize(740, 46))
	rows := []Row{
		{Key: 1, Swatch: &Swatch{Length: 1, Free: 1}, Title: "Cotton jersey", Sub: "C-0001 · navy · 95 % cotton, 5 % elastane", Cells: []Cell{{Text: "2.355 m × 159.5 cm"}, {Text: "35 %", Italic: true}, {Text: "hall cupboard", Under: "not washed yet"}}},
		{Key: 2, Swatch: &Swatch{Length: 0.5, Free: 1}, Title: "Rib 2 × 2", Sub: "C-0002 · ochre · 100 % cotton", Cells: []Cell{{Text: "0.5 m × 110 cm"}, {Text: "60 %"}, {Text: "box 3"}}},
	}
	for i := 0; b.Loop(); i++ {
		v.show(rows[i%2])
	}
}
