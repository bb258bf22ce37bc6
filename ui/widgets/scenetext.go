package widgets

import (
	"image"
	"image/color"
	"image/draw"
	"math"
	"sync"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
	"golang.org/x/image/font"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/math/fixed"

	"tallycloth/planner/scene"
)

// Words in a picture are drawn no smaller than is readable and no larger than the
// rest of the window's text, whatever the scale of the drawing.
const leastWords, mostWords = 11, 14

type faceKey struct {
	font string
	px   int
}

var (
	facesMu sync.Mutex
	faces   = map[faceKey]font.Face{}
	// drawMu is held while a face is used: faces are shared by all pictures and are not
	// made for two users at once.
	drawMu sync.Mutex
)

// face returns the window's font in so many pixels, or nil when it cannot be read.
func face(px int) font.Face {
	res := theme.TextFont()
	if t := fyne.CurrentApp().Settings().Theme(); t != nil {
		res = t.Font(fyne.TextStyle{})
	}
	facesMu.Lock()
	defer facesMu.Unlock()
	key := faceKey{res.Name(), px}
	if f, ok := faces[key]; ok {
		return f
	}
	var out font.Face
	if f, err := opentype.Parse(res.Content()); err == nil {
		if made, err := opentype.NewFace(f, &opentype.FaceOptions{Size: float64(px), DPI: 72}); err == nil {
			out = made
		}
	}
	faces[key] = out
	return out
}

// paintText draws a text item, level or upright.
func paintText(img *image.RGBA, it scene.Item, m sceneMap, c color.NRGBA) {
	words, box := textMask(it, m, img.Bounds())
	if words != nil {
		draw.DrawMask(img, box, image.NewUniform(c), image.Point{}, words, image.Point{}, draw.Over)
	}
}

// textMask is a text item drawn as a mask, and where it lies; nil where there is no font.
func textMask(it scene.Item, m sceneMap, within image.Rectangle) (*image.Alpha, image.Rectangle) {
	px := textHeight(it, m)
	f := face(px)
	if f == nil {
		return nil, image.Rectangle{}
	}
	words := wordsOf(f, it.Text, px)
	w, h := words.Bounds().Dx(), words.Bounds().Dy()
	upright := math.Mod(math.Abs(it.Turn), 180) > 45 && math.Mod(math.Abs(it.Turn), 180) < 135
	if upright {
		words = quarterTurn(words)
	}
	x, y := m.at(it.At)
	shift := map[scene.Align]float64{scene.Middle: -0.5, scene.Start: 0, scene.End: -1}[it.Align] * float64(w)
	at := image.Pt(int(float64(x)+shift), int(y)-h/2)
	if upright {
		at = image.Pt(int(x)-h/2, int(float64(y)-float64(w)-shift))
	}
	return words, inside(image.Rectangle{at, at.Add(words.Bounds().Size())}, within)
}

// TextBoxes are the places, in pixels, of a scene's texts in a picture so large.
func TextBoxes(s scene.Scene, w, h int) []image.Rectangle {
	var out []image.Rectangle
	m, ok := mapOf(s, w, h)
	for _, it := range s.Items {
		if it.Text != "" && ok {
			_, box := textMask(it, m, image.Rect(0, 0, w, h))
			out = append(out, box)
		}
	}
	return out
}

// textHeight is how high a text item is drawn, in pixels.
func textHeight(it scene.Item, m sceneMap) int {
	return int(math.Round(math.Min(math.Max(it.Size*m.scale*0.8, leastWords), mostWords)))
}

// extent is how wide and high a level text is drawn, in pixels.
func extent(it scene.Item, m sceneMap) (wide, high float64) {
	px := textHeight(it, m)
	if f := face(px); f != nil {
		b := wordsOf(f, it.Text, px).Bounds()
		return float64(b.Dx()), float64(b.Dy())
	}
	return float64(px*len(it.Text)) * 0.6, float64(px)
}

// inside moves a box of words so that none of it is cut off where that can be had.
func inside(box, bounds image.Rectangle) image.Rectangle {
	if d := box.Max.X - bounds.Max.X; d > 0 {
		box = box.Sub(image.Pt(d, 0))
	}
	if d := bounds.Min.X - box.Min.X; d > 0 {
		box = box.Add(image.Pt(d, 0))
	}
	return box
}

// masksMost bounds how many texts are kept drawn; then all are forgotten.
const masksMost = 2000

type maskKey struct {
	face font.Face
	text string
	px   int
}

// masks are texts drawn before: most of a picture's words come again in the next. Nobody draws on one.
var (
	masksMu sync.Mutex
	masks   = map[maskKey]*image.Alpha{}
)

// wordsOf is wordsMask, remembered.
func wordsOf(f font.Face, text string, px int) *image.Alpha {
	key := maskKey{f, text, px}
	masksMu.Lock()
	m, ok := masks[key]
	masksMu.Unlock()
	if ok {
		return m
	}
	m = wordsMask(f, text, px)
	masksMu.Lock()
	defer masksMu.Unlock()
	if len(masks) >= masksMost {
		masks = map[maskKey]*image.Alpha{}
	}
	masks[key] = m
	return m
}

// wordsMask draws a text as a mask.
func wordsMask(f font.Face, text string, px int) *image.Alpha {
	drawMu.Lock()
	defer drawMu.Unlock()
	w := font.MeasureString(f, text).Ceil()
	img := image.NewAlpha(image.Rect(0, 0, max(w, 1), px*4/3))
	d := font.Drawer{Dst: img, Src: image.Opaque, Face: f, Dot: fixed.P(0, px)}
	d.DrawString(text)
	return img
}

// quarterTurn turns a mask counter-clockwise, so that it reads from below.
func quarterTurn(a *image.Alpha) *image.Alpha {
	w, h := a.Bounds().Dx(), a.Bounds().Dy()
	out := image.NewAlpha(image.Rect(0, 0, h, w))
	for y := range h {
		for x := range w {
			out.SetAlpha(y, w-1-x, a.AlphaAt(x, y))
		}
	}
	return out
}
