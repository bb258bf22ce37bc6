package sheet

import (
	"cmp"
	"fmt"
	"image/color"
	"slices"
	"strings"

	"tallycloth/planner/scene"

	"github.com/tdewolff/canvas"
	"github.com/tdewolff/canvas/text"
)

// mmPerPoint is a point of type in mm.
const mmPerPoint = 25.4 / 72

// text renders one line of words: the font's size is 0.8 of the line's height, as package
// scene reckons with; the middle of the capitals stands at the place.
func (p *Printer) text(r canvas.Renderer, words string, ink color.RGBA, height float64, view canvas.Matrix, align scene.Align) {
	l := p.set(words, height, ink)
	x := 0.0
	switch align {
	case scene.Middle:
		x = -l.width / 2
	case scene.End:
		x = -l.width
	}
	view = view.Translate(x, -l.capital/2)
	for _, run := range l.runs {
		r.RenderText(run.text, view.Translate(run.x, 0))
	}
	for _, c := range l.codes {
		r.RenderPath(c.digits, canvas.Style{Fill: canvas.Paint{Color: ink}}, view.Translate(c.x, 0))
	}
}

// set is a line of words set in type, in mm.
type set struct {
	runs           []run // from left to right
	width, capital float64
	codes          []code // in boxes that stand for letters no font has
}

// run is words of one direction.
type run struct {
	text  *canvas.Text
	x     float64
	span  canvas.TextSpan
	boxes []rune // what its boxes stand for, in the order of the words
}

// code is the number of a letter, drawn into its box.
type code struct {
	x      float64
	digits *canvas.Path
}

// box stands for a letter that no font has, and holds its number.
const box = '□'

// set sets a line of words: in the font of sheets, or as a whole in the wider one where it has letters
// that the first does not. Right-to-left words stand in their order, joined letters are joined. A
// letter that neither has becomes a box with its number of ISO/IEC 10646 in it.
func (p *Printer) set(words string, height float64, ink color.RGBA) set {
	words, missing := p.known(words)
	font := p.fontOf(words, len(missing) > 0)
	face := font.Face(height*0.8/mmPerPoint, ink)
	out := set{capital: face.Metrics().CapHeight}
	canvas.NewTextLine(face, words, canvas.Left).WalkSpans(func(_, _ float64, s canvas.TextSpan) {
		n := strings.Count(s.Text, string(box))
		out.runs = append(out.runs, run{span: s, boxes: missing[:n]})
		missing = missing[n:]
	})
	byDirection(out.runs)
	for i := range out.runs {
		g := &out.runs[i]
		g.x = out.width
		g.text = turned(face, g.span)
		out.width += g.span.Width
		out.codes = append(out.codes, p.codes(*g, face)...)
	}
	return out
}

// turned is a span alone, in the direction that it has among the others.
func turned(face *canvas.FontFace, s canvas.TextSpan) *canvas.Text {
	own := *face
	own.Direction = s.Direction
	return canvas.NewTextLine(&own, s.Text, canvas.Left)
}

// byDirection puts runs from the order in which they are read into that from left to right: rule L2 of
// UAX #9, the Unicode bidirectional algorithm.
func byDirection(runs []run) {
	highest := 0
	for _, r := range runs {
		highest = max(highest, r.span.Level)
	}
	for level := highest; level > 0; level-- {
		for i := 0; i < len(runs); i++ {
			k := i
			for k < len(runs) && runs[k].span.Level >= level {
				k++
			}
			slices.Reverse(runs[i:k])
			i = max(i, k)
		}
	}
}

// codes are the numbers in the boxes of a run.
func (p *Printer) codes(g run, face *canvas.FontFace) []code {
	if len(g.boxes) == 0 {
		return nil
	}
	sign := face.Font.SFNT.GlyphIndex(box)
	x := g.x
	var at []float64
	for _, l := range g.span.Glyphs {
		if l.ID == sign {
			at = append(at, x)
		}
		x += float64(l.XAdvance) * face.MmPerEm
	}
	if g.span.Direction == text.RightToLeft {
		slices.Reverse(at)
	}
	var out []code
	for i, r := range g.boxes {
		if i < len(at) && r != box {
			out = append(out, code{at[i], p.digits(r, face)})
		}
	}
	return out
}

// known replaces the letters that no font has by boxes, and lists those letters, boxes of the words
// themselves among them. Line ends and tabs become blanks.
func (p *Printer) known(words string) (string, []rune) {
	var out strings.Builder
	var missing []rune
	for _, r := range words {
		switch {
		case r == '\n' || r == '\r' || r == '\t' || r == '\u2028' || r == '\u2029':
			r = ' '
		case unseen(r):
			continue
		case r == box || !p.has(r):
			missing, r = append(missing, r), box
		}
		out.WriteRune(r)
	}
	return out.String(), missing
}

// unseen are marks that choose how a letter looks, and hints that no glyph belongs to.
func unseen(r rune) bool {
	return r >= 0xFE00 && r <= 0xFE0F || r >= 0xE0000 && r <= 0xE0FFF || r >= 0x200B && r <= 0x200D || r == 0x2060 || r == 0xFEFF || r < ' ' || r >= 0x7F && r < 0xA0
}

// ordering are the marks of direction (UAX #9), which the fonts have no glyphs for and need none.
func ordering(r rune) bool {
	return r == 0x200E || r == 0x200F || r == 0x61C || r >= 0x202A && r <= 0x202E || r >= 0x2066 && r <= 0x2069
}

// has says whether one of the fonts has a letter.
func (p *Printer) has(r rune) bool {
	if ordering(r) || p.font.SFNT.GlyphIndex(r) != 0 {
		return true
	}
	wider := p.widerFont()
	return wider != nil && wider.SFNT.GlyphIndex(r) != 0
}

// fontOf is the font that a line is set in: the wider one too where there are boxes, which it has larger.
func (p *Printer) fontOf(words string, boxes bool) *canvas.Font {
	for _, r := range words {
		boxes = boxes || !ordering(r) && p.font.SFNT.GlyphIndex(r) == 0
	}
	if !boxes {
		return p.font
	}
	return cmp.Or(p.widerFont(), p.font)
}

// digits are the number of a letter in two rows, to lie in a box that begins at 0 on the line.
func (p *Printer) digits(r rune, face *canvas.FontFace) *canvas.Path {
	hex := fmt.Sprintf("%04X", r)
	if len(hex)%2 == 1 {
		hex = "0" + hex
	}
	small := p.font.Face(face.Size*0.36/mmPerPoint, color.Black)
	out := &canvas.Path{}
	sfnt := face.Font.SFNT
	side := float64(sfnt.GlyphAdvance(sfnt.GlyphIndex(box))) * face.MmPerEm
	for i, row := range []string{hex[:len(hex)/2], hex[len(hex)/2:]} {
		path, width, err := small.ToPath(row)
		if err != nil {
			continue // the box alone
		}
		up := (0.43 - 0.36*float64(i)) * side
		out = out.Append(path.Translate((side-width)/2, up))
	}
	return out
}

// Width returns how wide words are at a line height of 1.
func (p *Printer) Width(words string) float64 { return p.set(words, 1, color.RGBA{}).width }

// prime has the shaper of a font look up letters whose places in its cache are those of the first 256.
// The rendering library leaves that cache empty, which the text engine takes for an answer: that the
// font has none of them.
func prime(font *canvas.Font) {
	var letters []rune
	for low := rune(0); low < 256; low++ {
		for high := rune(1); high < 0x100; high++ {
			if r := high<<8 | low; font.SFNT.GlyphIndex(r) != 0 {
				letters = append(letters, r)
				break
			}
		}
	}
	canvas.NewTextLine(font.Face(10, color.Black), string(letters), canvas.Left)
}
