package sheet

import (
	"image/color"

	"tallycloth/planner/scene"

	"github.com/tdewolff/canvas"
)

// text renders one line of words: the font's size is 0.8 of the line's height, as package
// scene reckons with; the middle of the capitals stands at the place.
func (p *Printer) text(r canvas.Renderer, words string, ink color.RGBA, height float64, view canvas.Matrix, align scene.Align) {
	const mmPerPoint = 25.4 / 72
	face := p.font.Face(height*0.8/mmPerPoint, ink)
	runs, width := p.runs(face, words)
	x := 0.0
	switch align {
	case scene.Middle:
		x = -width / 2
	case scene.End:
		x = -width
	}
	y := -face.Metrics().CapHeight / 2
	for _, run := range runs {
		r.RenderText(run.text, view.Translate(x, y))
		x += run.width
	}
}

// run is a text of one script with its width in mm.
type run struct {
	text  *canvas.Text
	width float64
}

// runs parts words by script and repairs their glyphs.
//
// The rendering library fills its shaper's font in a way that a newer text engine takes for a
// cache that says of most Latin letters that the font has none. What it finds missing is
// looked up again here in the font's own character map, with its own advance. What it did find stays,
// so joined scripts are as it shaped them.
func (p *Printer) runs(face *canvas.FontFace, words string) ([]run, float64) {
	var parts []string
	canvas.NewTextLine(face, words, canvas.Left).WalkSpans(func(_, _ float64, s canvas.TextSpan) { parts = append(parts, s.Text) })
	var out []run
	total := 0.0
	for _, part := range parts {
		t := canvas.NewTextLine(face, part, canvas.Left)
		units := int32(0)
		t.WalkSpans(func(_, _ float64, s canvas.TextSpan) {
			for i := range s.Glyphs {
				g := &s.Glyphs[i]
				if g.ID == 0 {
					g.ID = p.font.SFNT.GlyphIndex(g.Text)
					g.XAdvance = int32(p.font.SFNT.GlyphAdvance(g.ID))
				}
				units += g.XAdvance
			}
		})
		width := float64(units) * face.MmPerEm
		out = append(out, run{t, width})
		total += width
	}
	return out, total
}

// Width returns how wide words are at a line height of 1.
func (p *Printer) Width(words string) float64 {
	const mmPerPoint = 25.4 / 72
	_, w := p.runs(p.font.Face(0.8/mmPerPoint, color.Black), words)
	return w
}
