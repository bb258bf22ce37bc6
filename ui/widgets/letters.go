package widgets

import (
	"image"
	"image/color"
	"math"
	"sync"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
	"golang.org/x/image/font"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// letters is a font of the window in one size in pixels, each letter drawn once. Lists write their
// rows with it: the toolkit makes a picture for every text anew, which takes too long for a list
// that moves.
type letters struct {
	mu      sync.Mutex
	face    font.Face
	known   map[rune]bool
	font    *sfnt.Font
	buffer  sfnt.Buffer
	px      fixed.Int26_6
	advance map[rune]fixed.Int26_6
	kern    map[[2]rune]fixed.Int26_6
	drawn   map[letterAt]letter
	ascent  int // pixels from the upper edge of a line to where letters stand
	height  int // of a line
}

// letterAt is a letter at one of four places between two pixels.
type letterAt struct {
	r     rune
	phase fixed.Int26_6
}

// letter is its mask and where that lies from the place where it is written.
type letter struct {
	mask *image.Alpha
	at   image.Point
}

const phases = 4

type lettersKey struct {
	font string
	px   fixed.Int26_6
}

var lettersOf sync.Map // lettersKey → *letters

// lettersIn are the letters of a style so many pixels high; nil where the font cannot be read.
func lettersIn(style fyne.TextStyle, px float64) *letters {
	res := theme.Current().Font(style)
	key := lettersKey{res.Name(), fixed.Int26_6(px * 64)}
	if old, ok := lettersOf.Load(key); ok {
		return old.(*letters)
	}
	l := newLetters(res.Content(), px)
	lettersOf.Store(key, l)
	return l
}

func newLetters(ttf []byte, px float64) *letters {
	f, err := opentype.Parse(ttf)
	if err != nil {
		return nil
	}
	face, err := opentype.NewFace(f, &opentype.FaceOptions{Size: px, DPI: 72})
	if err != nil {
		return nil
	}
	m := face.Metrics()
	return &letters{face: face, font: f, px: fixed.Int26_6(px * 64), known: map[rune]bool{}, advance: map[rune]fixed.Int26_6{}, kern: map[[2]rune]fixed.Int26_6{},
		drawn: map[letterAt]letter{}, ascent: m.Ascent.Ceil(), height: m.Height.Ceil()}
}

// has says whether every letter of a text is in the font.
func (l *letters) has(text string) bool {
	l.mu.Lock()
	defer l.mu.Unlock()
	for _, r := range text {
		known, seen := l.known[r]
		if !seen {
			i, err := l.font.GlyphIndex(&l.buffer, r)
			known = err == nil && i != 0
			l.known[r] = known
		}
		if !known {
			return false
		}
	}
	return true
}

// wide is how far it is from the place of a letter to that of the next, before they come closer.
func (l *letters) wide(r rune) fixed.Int26_6 {
	a, ok := l.advance[r]
	if !ok {
		a, _ = l.face.GlyphAdvance(r)
		l.advance[r] = a
	}
	return a
}

// closer is what is added between two letters, mostly below nothing; before is 0 at the beginning.
func (l *letters) closer(before, r rune) fixed.Int26_6 {
	if before == 0 {
		return 0
	}
	pair := [2]rune{before, r}
	k, ok := l.kern[pair]
	if !ok {
		k = l.kernOf(before, r)
		l.kern[pair] = k
	}
	return k
}

// kernOf asks the font itself: its Face answers in units of the font, whatever its size.
func (l *letters) kernOf(a, b rune) fixed.Int26_6 {
	i, err := l.font.GlyphIndex(&l.buffer, a)
	if err != nil {
		return 0
	}
	j, err := l.font.GlyphIndex(&l.buffer, b)
	if err != nil {
		return 0
	}
	k, err := l.font.Kern(&l.buffer, i, j, l.px, font.HintingNone)
	if err != nil {
		return 0 // ErrNotFound: these two stand as far apart as any
	}
	return k
}

// fit is a text cut at its end, with an ellipsis, to so many pixels, and how wide it then is.
func (l *letters) fit(text string, width float64) (string, float64) {
	l.mu.Lock()
	defer l.mu.Unlock()
	const dots = '…'
	most := fixed.Int26_6(width * 64)
	var x, cutAt fixed.Int26_6
	var before rune
	cut := 0 // bytes of the text that fit with the ellipsis behind them
	for i, r := range text {
		if end := x + l.closer(before, dots) + l.wide(dots); end <= most {
			cut, cutAt = i, end
		}
		x += l.closer(before, r) + l.wide(r)
		before = r
	}
	if x <= most || most <= 0 {
		return text, float64(x) / 64
	}
	return text[:cut] + string(dots), float64(cutAt) / 64
}

// write draws a text in a colour, its line's upper left corner at a pixel.
func (l *letters) write(img *image.RGBA, text string, x float64, y int, c color.NRGBA) {
	l.mu.Lock()
	defer l.mu.Unlock()
	dot := fixed.Int26_6(math.Round(x * 64))
	var before rune
	for _, r := range text {
		dot += l.closer(before, r)
		phase := (dot & 63) * phases / 64 * (64 / phases)
		g := l.letter(letterAt{r, phase})
		if g.mask != nil {
			stain(img, g.mask, image.Pt(dot.Floor(), y+l.ascent).Add(g.at), c)
		}
		dot += l.wide(r)
		before = r
	}
}

// letter draws a letter, once.
func (l *letters) letter(at letterAt) letter {
	if g, ok := l.drawn[at]; ok {
		return g
	}
	var g letter
	box, mask, p, _, ok := l.face.Glyph(fixed.Point26_6{X: at.phase}, at.r)
	if a, is := mask.(*image.Alpha); ok && is && !box.Empty() {
		g = letter{mask: image.NewAlpha(image.Rect(0, 0, box.Dx(), box.Dy())), at: box.Min}
		for y := range box.Dy() {
			copy(g.mask.Pix[y*g.mask.Stride:][:box.Dx()], a.Pix[a.PixOffset(p.X, p.Y+y):])
		}
	}
	l.drawn[at] = g
	return g
}

// stain lays a colour over a picture where a mask is. It does what draw.DrawMask does, for what is small.
func stain(img *image.RGBA, mask *image.Alpha, at image.Point, c color.NRGBA) {
	box := mask.Rect.Add(at).Intersect(img.Rect)
	r, g, b := uint32(c.R), uint32(c.G), uint32(c.B)
	for y := box.Min.Y; y < box.Max.Y; y++ {
		m := mask.Pix[(y-at.Y)*mask.Stride+box.Min.X-at.X:][:box.Dx()]
		row := img.Pix[img.PixOffset(box.Min.X, y):][:4*box.Dx()]
		for i, cover := range m {
			if cover == 0 {
				continue
			}
			a := uint32(cover) * uint32(c.A) / 255
			left := 255 - a
			p := row[4*i:][:4]
			p[0] = uint8((r*a + uint32(p[0])*left) / 255)
			p[1] = uint8((g*a + uint32(p[1])*left) / 255)
			p[2] = uint8((b*a + uint32(p[2])*left) / 255)
			p[3] = uint8((255*a + uint32(p[3])*left) / 255)
		}
	}
}
