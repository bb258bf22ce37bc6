package sheet

import (
	"errors"
	"fmt"
	"io"
	"math"

	"tallycloth/planner/scene"

	"github.com/tdewolff/canvas"
)

// mostTiles is the most sheets a full-size print may take.
const mostTiles = 200

// Papers for full size: ISO 216 A3 and A0.
var (
	A3 = Paper{297, 420}
	A0 = Paper{841, 1189}
)

// Full says how a drawing is printed in full size.
type Full struct {
	Paper   Paper
	Overlap float64 // that neighbouring sheets share, in mm; 0 is 1 cm
	Weight  float64 // of a thin line in mm; 0 is a fifth of a millimetre
	Grid    float64 // distance of grid lines in mm; 0 for none
}

// usualWeight is a thin line in mm: it can be cut along, and printers print it.
const usualWeight = 0.2

func (f Full) weight() float64 {
	if f.Weight > 0 {
		return f.Weight
	}
	return usualWeight
}

// FullSize writes a scene in full size, tiled over sheets that overlap by 1 cm; see Tiles.
func (p *Printer) FullSize(w io.Writer, paper Paper, page Page) error {
	d, err := p.Tiles(page, Full{Paper: paper})
	if err != nil {
		return err
	}
	return d.PDF(w)
}

// Tiles lays a scene out in full size over sheets that overlap: first a sheet with a square
// of 10 cm and one of 4 in to check the printer by and a map of the tiles, then the tiles row
// by row from the top, with crosses where their edges meet and marks that two neighbours
// share. Tiles with nothing to draw are left out. Errors: an empty scene, one of more than
// 200 sheets, an overlap that leaves no room.
func (p *Printer) Tiles(page Page, f Full) (*Document, error) {
	b := page.Scene.Bounds
	if b.Width() <= 0 || b.Height() <= 0 {
		return nil, errEmpty
	}
	t := tile(b, f.Paper, f.Overlap)
	if min(t.step.Width, t.step.Height) < 20 {
		return nil, errors.New("the sheets share too much: let them overlap less")
	}
	if t.columns*t.rows > 100*mostTiles {
		return nil, tooMany(t.columns * t.rows)
	}
	page.Scene = gridded(page.Scene, f.Grid)
	page.Scene.Hair = f.weight()
	boxes := boxesOf(page.Scene)
	for row := range t.rows {
		for col := range t.columns {
			if tells(within(page.Scene, boxes, t.box(b, col, row))) {
				t.there = append(t.there, [2]int{col, row})
			}
		}
	}
	if len(t.there) == 0 {
		return nil, errEmpty
	}
	if len(t.there) > mostTiles {
		return nil, tooMany(len(t.there))
	}
	d := &Document{Title: page.Title}
	d.add(f.Paper).mark(func(r canvas.Renderer) { p.cover(r, f.Paper, page, t) })
	for _, at := range t.there {
		part := within(page.Scene, boxes, t.box(b, at[0], at[1]))
		d.add(f.Paper).mark(func(r canvas.Renderer) { p.tile(r, f.Paper, page.Title, part, b, t, at[0], at[1]) })
	}
	return d, nil
}

func tooMany(n int) error {
	return fmt.Errorf("it would take %d sheets: take larger paper, or one page", n)
}

// tells says whether there is more on a tile than bare cloth, its measures, and words, which nobody needs on
// a sheet of their own: the map has them.
func tells(s scene.Scene) bool {
	for _, it := range s.Items {
		if it.Text != "" {
			continue
		}
		switch it.Style {
		case scene.Cloth, scene.Grid, scene.Free, scene.Edge, scene.Selvedge, scene.Dimension, scene.Fold, scene.Reserved:
		default:
			return true
		}
	}
	return false
}

// tiling is how a scene is parted over sheets: each shows a window, the next begins
// a step on.
type tiling struct {
	window, step  Paper
	overlap       float64
	columns, rows int
	there         [][2]int // columns and rows of the tiles that have something to draw
}

func tile(b scene.Box, paper Paper, shared float64) tiling {
	if shared <= 0 {
		shared = overlap
	}
	t := tiling{window: Paper{paper.Width - 2*margin, paper.Height - 2*margin}, overlap: shared}
	t.step = Paper{t.window.Width - shared, t.window.Height - shared}
	count := func(total, window, step float64) int {
		return max(1, int(math.Ceil((total-window)/step-1e-9))+1)
	}
	t.columns, t.rows = count(b.Width(), t.window.Width, t.step.Width), count(b.Height(), t.window.Height, t.step.Height)
	return t
}

// box is what of a scene a tile shows.
func (t tiling) box(b scene.Box, col, row int) scene.Box {
	left, top := b.Min.X+float64(col)*t.step.Width, b.Max.Y-float64(row)*t.step.Height
	return scene.Box{Min: scene.Point{X: left, Y: top - t.window.Height}, Max: scene.Point{X: left + t.window.Width, Y: top}}
}

// name of a tile: rows by letters from the top, columns by numbers.
func (t tiling) name(col, row int) string {
	letters := ""
	for r := row; r >= 0; r = r/26 - 1 {
		letters = string(rune('A'+r%26)) + letters
	}
	return fmt.Sprintf("%s%d", letters, col+1)
}

// has says whether a tile is printed.
func (t tiling) has(col, row int) bool {
	for _, at := range t.there {
		if at == [2]int{col, row} {
			return true
		}
	}
	return false
}

// cover draws the squares to check the printer by, and the map.
func (p *Printer) cover(doc canvas.Renderer, paper Paper, page Page, t tiling) {
	at := func(x, y float64) canvas.Matrix { return canvas.Identity.Translate(x, y) }
	top := paper.Height - margin
	room := paper.Width - 2*margin
	p.text(doc, p.fitting(page.Title, 7, room), ink, 7, at(margin, top-3.5), scene.Start)
	top -= 10
	notes := append([]string{"Print at 100 %, without fitting to the page. Measure a square before you cut.",
		fmt.Sprintf("Sheets share %s: cut one edge off along its frame, lay it on the crosses of its neighbour, the diamonds over each other.", mmWords(t.overlap))}, page.Notes...)
	const mostNotes = 7
	written := 0
	for _, n := range notes {
		for _, line := range p.wrap(n, 4.5, room) {
			if written++; written <= mostNotes {
				p.text(doc, line, muted, 4.5, at(margin, top-2.3), scene.Start)
				top -= 5.5
			}
		}
	}
	p.squares(doc, margin, top-104)
	p.tileMap(doc, page, t, Paper{room, top - 112 - margin})
}

func mmWords(mm float64) string { return fmt.Sprintf("%.3g mm", mm) }

// squares draws the squares to check the printer by, their lower left corner given.
func (p *Printer) squares(doc canvas.Renderer, x, y float64) {
	line := thin(ink, usualWeight)
	doc.RenderPath(canvas.Rectangle(100, 100), line, canvas.Identity.Translate(x, y))
	doc.RenderPath(canvas.Rectangle(101.6, 101.6), line, canvas.Identity.Translate(x, y))
	p.text(doc, "inner square: 10 cm a side", ink, 5, canvas.Identity.Translate(x+50, y+54), scene.Middle)
	p.text(doc, "outer square: 4 in a side", ink, 5, canvas.Identity.Translate(x+50, y+46), scene.Middle)
}

// tileMap draws the scene small with its tiles named, within room at the foot of the sheet.
func (p *Printer) tileMap(doc canvas.Renderer, page Page, t tiling, room Paper) {
	b := page.Scene.Bounds
	whole := Paper{t.window.Width + float64(t.columns-1)*t.step.Width, t.window.Height + float64(t.rows-1)*t.step.Height}
	scale := min(1, room.Width/whole.Width, room.Height/whole.Height)
	origin := canvas.Identity.Translate(margin, margin).Scale(scale, scale)
	p.draw(doc, page.Scene, origin.Translate(-b.Min.X, -b.Min.Y+whole.Height-b.Height()), scale)
	line := thin(muted, 0.2/scale)
	for row := range t.rows {
		for col := range t.columns {
			x, y := float64(col)*t.step.Width, whole.Height-t.window.Height-float64(row)*t.step.Height
			if !t.has(col, row) {
				continue
			}
			doc.RenderPath(canvas.Rectangle(t.window.Width, t.window.Height), line, origin.Translate(x, y))
			p.text(doc, t.name(col, row), ink, min(5/scale, t.window.Width/3), origin.Translate(x+t.window.Width/2, y+t.window.Height/2), scene.Middle)
		}
	}
}

// tile draws one sheet of a full-size print, of which part falls into its window. What
// reaches into the margins is covered in white, as the renderers do not clip.
func (p *Printer) tile(doc canvas.Renderer, paper Paper, title string, part scene.Scene, b scene.Box, t tiling, col, row int) {
	box := t.box(b, col, row)
	p.draw(doc, part, canvas.Identity.Translate(margin-box.Min.X, margin-box.Min.Y), 1)
	white := canvas.Style{Fill: canvas.Paint{Color: canvas.White}}
	for _, r := range [][4]float64{{0, 0, paper.Width, margin}, {0, paper.Height - margin, paper.Width, margin}, {0, 0, margin, paper.Height}, {paper.Width - margin, 0, margin, paper.Height}} {
		doc.RenderPath(canvas.Rectangle(r[2], r[3]), white, canvas.Identity.Translate(r[0], r[1]))
	}
	line := thin(muted, usualWeight)
	doc.RenderPath(canvas.Rectangle(t.window.Width, t.window.Height), line, canvas.Identity.Translate(margin, margin))
	p.crosses(doc, line, t)
	p.joins(doc, line, t, col, row)
	name := t.name(col, row)
	p.text(doc, p.fitting(title, 4, t.window.Width-25), muted, 4, canvas.Identity.Translate(margin, margin/2), scene.Start)
	p.text(doc, name, ink, 6, canvas.Identity.Translate(margin+t.window.Width, margin/2), scene.End)
}

// crosses mark where the next sheets' edges come to lie.
func (p *Printer) crosses(doc canvas.Renderer, line canvas.Style, t tiling) {
	for _, x := range []float64{margin + t.overlap, margin + t.step.Width} {
		for _, y := range []float64{margin + t.overlap, margin + t.step.Height} {
			c := &canvas.Path{}
			c.MoveTo(-3, 0)
			c.LineTo(3, 0)
			c.MoveTo(0, -3)
			c.LineTo(0, 3)
			doc.RenderPath(c, line, canvas.Identity.Translate(x, y))
		}
	}
}

// joins draws a diamond in the middle of each overlap, the same on both sheets, with the names
// of the two.
func (p *Printer) joins(doc canvas.Renderer, line canvas.Style, t tiling, col, row int) {
	at := func(x, y float64, a, b string) {
		r := min(t.overlap*0.4, 6)
		d := &canvas.Path{}
		d.MoveTo(-r, 0)
		d.LineTo(0, r)
		d.LineTo(r, 0)
		d.LineTo(0, -r)
		d.Close()
		place := canvas.Identity.Translate(margin+x, margin+y)
		doc.RenderPath(d, line, place)
		p.text(doc, a+" / "+b, muted, min(3, r), place.Translate(0, r+2), scene.Middle)
	}
	here := t.name(col, row)
	half := t.overlap / 2
	if t.has(col-1, row) {
		at(half, t.window.Height/2, t.name(col-1, row), here)
	}
	if t.has(col+1, row) {
		at(t.window.Width-half, t.window.Height/2, here, t.name(col+1, row))
	}
	if t.has(col, row-1) {
		at(t.window.Width/2, t.window.Height-half, t.name(col, row-1), here)
	}
	if t.has(col, row+1) {
		at(t.window.Width/2, half, here, t.name(col, row+1))
	}
}
