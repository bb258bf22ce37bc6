package looks

import (
	"bytes"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"
	"golang.org/x/image/font/sfnt"

	"tallycloth/assets"
)

// A lean font has every letter, and sets words without ligatures as wide as the whole one.
func TestLeanFont(t *testing.T) {
	test.NewTempApp(t)
	for name, ttf := range map[string][]byte{"regular": assets.FontRegular, "bold": assets.FontBold, "italic": theme.DefaultTheme().Font(fyne.TextStyle{Italic: true}).Content()} {
		whole := fyne.NewStaticResource(name, ttf)
		light := lean(whole)
		if light != lean(whole) {
			t.Errorf("%s: it is made twice", name)
		}
		a, err := sfnt.Parse(whole.Content())
		if err != nil {
			t.Fatal(err)
		}
		b, err := sfnt.Parse(light.Content())
		if err != nil {
			t.Fatal(err)
		}
		if a.NumGlyphs() != b.NumGlyphs() {
			t.Errorf("%s: %d letters of %d", name, b.NumGlyphs(), a.NumGlyphs())
		}
		for _, words := range []string{"AVATAR Tape WAVY", "1,25 m × 159.5 cm", "Ärmel, Größe", "at least 3 yd"} {
			if w, l := wide(words, fyne.NewStaticResource(name+" whole", ttf)), wide(words, fyne.NewStaticResource(name+" lean", light.Content())); w != l {
				t.Errorf("%s: %q is %g wide, lean %g", name, words, w, l)
			}
		}
	}
}

func wide(words string, font fyne.Resource) float32 {
	c := canvas.NewText(words, nil)
	c.FontSource = font
	return c.MinSize().Width
}

// What is no font stays as it is.
func TestLeanOfAnything(t *testing.T) {
	for _, b := range [][]byte{nil, []byte("x"), []byte("\x00\x01\x00\x00\x00\x09"), bytes.Repeat([]byte("ttcf"), 20), append([]byte("\x00\x01\x00\x00\xff\xff"), make([]byte, 40)...)} {
		if got := without(b, heavy); !bytes.Equal(got, b) {
			t.Errorf("%q became %q", b, got)
		}
	}
	if lean(nil) != nil {
		t.Error("no font became one")
	}
}
