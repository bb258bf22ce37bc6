package sheet

import (
	"fmt"
	"io"
	"math"

	"tallycloth/planner/scene"

	"github.com/tdewolff/canvas"
	"github.com/tdewolff/canvas/renderers/pdf"
)

// mostTiles is the most sheets a full-size print may take.
const mostTiles = 200

// FullSize writes a scene in true size, tiled over sheets that overlap by 1 cm: first a sheet with
// a square of 10 cm and one of 4 in to check the printer by and a map of the tiles, then the
// tiles row by row from the top, with crosses where their edges meet. Errors: an empty
// scene, one of more than 200 sheets, or w's.
func (p *Printer) FullSize(w io.Writer, paper Paper, page Page) error {
	b := page.Scene.Bounds
	if b.Width() <= 0 || b.Height() <= 0 {
		return errEmpty
	}
	t := tile(b, paper)
	if t.columns*t.rows > mostTiles {
		return fmt.Errorf("it would take %d sheets: print it fitted to one instead", t.columns*t.rows)
	}
	c := &checked{w: w}
	doc := pdf.New(c, paper.Width, paper.Height, nil)
	doc.SetInfo(page.Title, "", "", "", "Tallycloth")
	p.cover(doc, paper, page, t)
	for row := range t.rows {
		for col := range t.columns {
			doc = nextPage(doc, c, paper)
			p.tile(doc, paper, page, t, col, row)
		}
	}
	if err := doc.Close(); err != nil {
		return fmt.Errorf("writing the sheets: %w", err)
	}
	return c.wrapped("writing the sheets")
}

// tiling is how a scene is parted over sheets: each shows a window, the next begins
// a step on.
type tiling struct {
	window, step  Paper
	columns, rows int
}

func tile(b scene.Box, paper Paper) tiling {
	t := tiling{window: Paper{paper.Width - 2*margin, paper.Height - 2*margin}}
	t.step = Paper{t.window.Width - overlap, t.window.Height - overlap}
	count := func(total, window, step float64) int {
		return max(1, int(math.Ceil((total-window)/step-1e-9))+1)
	}
	t.columns, t.rows = count(b.Width(), t.window.Width, t.step.Width), count(b.Height(), t.window.Height, t.step.Height)
	return t
}

// name of a tile: rows by letters from the top, columns by numbers.
func (t tiling) name(col, row int) string {
	letters := ""
	for r := row; r >= 0; r = r/26 - 1 {
		letters = string(rune('A'+r%26)) + letters
	}
	return fmt.Sprintf("%s%d", letters, col+1)
}

// cover draws the squares to check the printer by, and the map.
func (p *Printer) cover(doc *pdf.PDF, paper Paper, page Page, t tiling) {
	at := func(x, y float64) canvas.Matrix { return canvas.Identity.Translate(x, y) }
	top := paper.Height - margin
	p.text(doc, page.Title, ink, 7, at(margin, top-3.5), scene.Start)
	top -= 10
	notes := append([]string{"Print at 100 %, without fitting to the page. Measure a square before you cut."}, page.Notes...)
	for _, n := range notes {
		p.text(doc, n, muted, 4.5, at(margin, top-2.3), scene.Start)
		top -= 5.5
	}
	line := canvas.DefaultStyle
	line.Fill, line.Stroke, line.StrokeWidth = canvas.Paint{}, canvas.Paint{Color: ink}, 0.2
	doc.RenderPath(canvas.Rectangle(100, 100), line, at(margin, top-104))
	doc.RenderPath(canvas.Rectangle(101.6, 101.6), line, at(margin, top-104))
	p.text(doc, "inner square: 10 cm a side", ink, 5, at(margin+50, top-50), scene.Middle)
	p.text(doc, "outer square: 4 in a side", ink, 5, at(margin+50, top-58), scene.Middle)
	p.tileMap(doc, page, t, Paper{paper.Width - 2*margin, top - 112 - margin})
}

// tileMap draws the scene small with its tiles named, within room at the foot of the sheet.
func (p *Printer) tileMap(doc *pdf.PDF, page Page, t tiling, room Paper) {
	b := page.Scene.Bounds
	whole := Paper{t.window.Width + float64(t.columns-1)*t.step.Width, t.window.Height + float64(t.rows-1)*t.step.Height}
	scale := min(room.Width/whole.Width, room.Height/whole.Height)
	origin := canvas.Identity.Translate(margin, margin).Scale(scale, scale)
	p.draw(doc, page.Scene, origin.Translate(-b.Min.X, -b.Min.Y+whole.Height-b.Height()), scale)
	line := canvas.DefaultStyle
	line.Fill, line.Stroke, line.StrokeWidth = canvas.Paint{}, canvas.Paint{Color: muted}, 0.2/scale
	for row := range t.rows {
		for col := range t.columns {
			x, y := float64(col)*t.step.Width, whole.Height-t.window.Height-float64(row)*t.step.Height
			doc.RenderPath(canvas.Rectangle(t.window.Width, t.window.Height), line, origin.Translate(x, y))
			p.text(doc, t.name(col, row), muted, min(5/scale, t.window.Width/3), origin.Translate(x+t.window.Width/2, y+t.window.Height/2), scene.Middle)
		}
	}
}

// tile draws one sheet of a full-size print. What falls into the margins is covered
// in white, as the renderers do not clip.
func (p *Printer) tile(doc *pdf.PDF, paper Paper, page Page, t tiling, col, row int) {
	b := page.Scene.Bounds
	left, top := b.Min.X+float64(col)*t.step.Width, b.Max.Y-float64(row)*t.step.Height
	view := canvas.Identity.Translate(margin-left, margin+t.window.Height-top)
	p.draw(doc, page.Scene, view, 1)
	white := canvas.DefaultStyle
	white.Fill = canvas.Paint{Color: canvas.White}
	for _, r := range [][4]float64{{0, 0, paper.Width, margin}, {0, paper.Height - margin, paper.Width, margin}, {0, 0, margin, paper.Height}, {paper.Width - margin, 0, margin, paper.Height}} {
		doc.RenderPath(canvas.Rectangle(r[2], r[3]), white, canvas.Identity.Translate(r[0], r[1]))
	}
	line := canvas.DefaultStyle
	line.Fill, line.Stroke, line.StrokeWidth = canvas.Paint{}, canvas.Paint{Color: muted}, 0.2
	doc.RenderPath(canvas.Rectangle(t.window.Width, t.window.Height), line, canvas.Identity.Translate(margin, margin))
	p.crosses(doc, line, t)
	p.text(doc, page.Title+"   "+t.name(col, row), muted, 4, canvas.Identity.Translate(margin, margin/2), scene.Start)
}

// crosses mark where the next sheets' edges come to lie.
func (p *Printer) crosses(doc *pdf.PDF, line canvas.Style, t tiling) {
	for _, x := range []float64{margin + overlap, margin + t.step.Width} {
		for _, y := range []float64{margin + overlap, margin + t.step.Height} {
			c := &canvas.Path{}
			c.MoveTo(-3, 0)
			c.LineTo(3, 0)
			c.MoveTo(0, -3)
			c.LineTo(0, 3)
			doc.RenderPath(c, line, canvas.Identity.Translate(x, y))
		}
	}
}
