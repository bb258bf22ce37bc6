package sheet

import (
	"fmt"
	"image/color"
	"io"
	"strings"

	"tallycloth/planner/scene"
	"tallycloth/stash/measure"

	"github.com/tdewolff/canvas"
)

// Report is figures on paper: parts beneath each other, over as many sheets as they take.
type Report struct {
	Title string
	Notes []string // sentences under the title
	Parts []Part
}

// Part is one part of a report. What it has of these stands in this order.
type Part struct {
	Heading string
	Lines   []string // sentences
	Scene   scene.Scene
	Times   float64       // how many times its true size a scene is drawn at most, zero for once
	Rows    []scene.Scene // of one scale, beneath each other
	Photos  []Photo
	Table   Table
	Boxes   []string // sentences, each with a box to tick before it
}

// Cells that hold a box: to tick, and ticked.
const (
	Box    = "☐"
	Ticked = "☑"
)

// Table is rows of figures. Words that are too long for their column go on beneath.
type Table struct {
	Columns []Column
	Rows    [][]string
	Totals  [][]string // last rows, set off by a line
}

// Column is a column of a table.
type Column struct {
	Title string
	Share float64 // of the width, beside those of the others
	Right bool    // figures
}

// Sizes of a report in mm: line heights, and what lies between.
const (
	titleSize   = 7.0
	headingSize = 5.2
	lineSize    = 4.3
	cellSize    = 3.9
	columnGap   = 3.0
	partGap     = 4.0
)

// Report writes a report on sheets of upright paper. Titles of columns stand on every sheet that
// their table goes on over, sheets have numbers, and words can be searched and copied. Error: w's.
func (p *Printer) Report(w io.Writer, paper Paper, r Report) error {
	return p.Lay(paper, r).PDF(w)
}

// Lay lays a report out as Report does.
func (p *Printer) Lay(paper Paper, r Report) *Document {
	l := &leaves{p: p, paper: paper, width: paper.Width - 2*margin, doc: &Document{Title: r.Title}}
	l.turn()
	l.words(r.Title, titleSize, ink)
	for _, n := range r.Notes {
		l.words(n, lineSize, muted)
	}
	for _, part := range r.Parts {
		l.part(part)
	}
	foot := canvas.Identity.Translate(margin, margin/2+1)
	title := p.fitting(r.Title, 3.6, l.width-30)
	for i := range l.doc.sheets {
		number := fmt.Sprintf("page %d of %d", i+1, len(l.doc.sheets))
		l.doc.sheets[i].mark(func(doc canvas.Renderer) {
			p.text(doc, title, muted, 3.6, foot, scene.Start)
			p.text(doc, number, muted, 3.6, foot.Translate(l.width, 0), scene.End)
		})
	}
	return l.doc
}

// leaves are sheets while they are being laid out.
type leaves struct {
	p     *Printer
	paper Paper
	width float64
	doc   *Document
	y     float64 // where the next line begins, from below
}

// turn begins another sheet.
func (l *leaves) turn() {
	l.doc.add(l.paper)
	l.y = l.paper.Height - margin
}

// room turns the sheet where there is less than a height left.
func (l *leaves) room(height float64) bool {
	if l.y-height >= margin+2 {
		return false
	}
	l.turn()
	return true
}

func (l *leaves) mark(f func(canvas.Renderer)) { l.doc.sheets[len(l.doc.sheets)-1].mark(f) }

// words writes words over the whole width, line by line.
func (l *leaves) words(text string, size float64, c color.RGBA) {
	for _, line := range l.p.wrap(text, size, l.width) {
		l.room(size)
		l.write(line, size, c, margin, l.y-size/2, scene.Start)
		l.y -= size * 1.15
	}
}

func (l *leaves) write(text string, size float64, c color.RGBA, x, y float64, a scene.Align) {
	switch text {
	case "":
		return
	case Box:
		l.box(x, y, size*0.8)
		return
	case Ticked:
		l.box(x, y, size*0.8)
		l.tick(x, y, size*0.8)
		return
	}
	l.mark(func(doc canvas.Renderer) { l.p.text(doc, text, c, size, canvas.Identity.Translate(x, y), a) })
}

func (l *leaves) part(part Part) {
	l.y -= partGap
	l.together(part)
	if part.Heading != "" {
		l.words(part.Heading, headingSize, ink)
		l.y--
	}
	for _, s := range part.Lines {
		l.words(s, lineSize, ink)
	}
	l.scene(part.Scene, part.Times)
	l.rows(part.Rows)
	l.photos(part.Photos)
	if len(part.Table.Columns) > 0 {
		l.table(part.Table)
	}
	for _, s := range part.Boxes {
		l.boxed(s)
	}
}

// leastShrunk is how much smaller than it could be a drawing may become, so that it stays on the
// sheet that its part begins on.
const leastShrunk = 0.7

// together turns the sheet where the head of a part would be left behind: without the first rows
// that follow it, or without its drawing.
func (l *leaves) together(part Part) {
	head := 0.0
	if part.Heading != "" {
		head = headingSize*1.15 + 1
	}
	for _, s := range part.Lines {
		head += float64(len(l.p.wrap(s, lineSize, l.width))) * lineSize * 1.15
	}
	need := head
	if len(part.Boxes) > 0 {
		need += 2 * lineSize * 1.3
	}
	if len(part.Table.Columns) > 0 {
		need = head + 6*cellSize
	}
	if len(part.Photos) > 0 {
		need = head + photoHeight
	}
	if len(part.Rows) > 0 {
		need = head + part.Rows[0].Bounds.Height()*l.scale(part.Rows[0], 1, l.paper.Height-2*margin) + 4
	}
	if scale := l.scale(part.Scene, part.Times, l.paper.Height-2*margin-head); scale > 0 {
		need = head + part.Scene.Bounds.Height()*scale*leastShrunk + 4
	}
	l.room(min(need, l.paper.Height-2*margin-2))
}

// scale is how large a scene is drawn: as wide as the sheet and no higher than room, but no larger than
// so many times what it is; 0 for nothing.
func (l *leaves) scale(s scene.Scene, times, room float64) float64 {
	b := s.Bounds
	if b.Width() <= 0 || b.Height() <= 0 {
		return 0
	}
	return min(max(times, 1), l.width/b.Width(), (room-10)/b.Height())
}

// box draws a box to tick whose left side stands at x, its middle at y.
func (l *leaves) box(x, y, side float64) {
	l.mark(func(doc canvas.Renderer) {
		doc.RenderPath(canvas.Rectangle(side, side), thin(ink, 0.25), canvas.Identity.Translate(x, y-side/2))
	})
}

// tick marks a box as done.
func (l *leaves) tick(x, y, side float64) {
	l.mark(func(doc canvas.Renderer) {
		c := &canvas.Path{}
		c.MoveTo(side*0.2, side*0.5)
		c.LineTo(side*0.42, side*0.25)
		c.LineTo(side*0.85, side*0.85)
		doc.RenderPath(c, thin(ink, 0.4), canvas.Identity.Translate(x, y-side/2))
	})
}

// boxed writes a sentence with a box before it.
func (l *leaves) boxed(text string) {
	const indent = 6.0
	for i, line := range l.p.wrap(text, lineSize, l.width-indent) {
		l.room(lineSize * 1.3)
		if i == 0 {
			l.box(margin, l.y-lineSize/2, 3.4)
		}
		l.write(line, lineSize, ink, margin+indent, l.y-lineSize/2, scene.Start)
		l.y -= lineSize * 1.3
	}
}

// scene draws a scene on what is left of the sheet, or where it would be much smaller there on the next.
func (l *leaves) scene(s scene.Scene, times float64) {
	b := s.Bounds
	whole := l.scale(s, times, l.paper.Height-2*margin)
	if whole <= 0 {
		return
	}
	scale := l.scale(s, times, l.y-margin)
	if scale < whole*leastShrunk {
		l.room(l.y) // on a sheet of its own
		scale = whole
	}
	height := b.Height() * scale
	l.room(height + 2)
	l.y -= height + 1
	view := canvas.Identity.Translate(margin, l.y).Scale(scale, scale).Translate(-b.Min.X, -b.Min.Y)
	l.mark(func(doc canvas.Renderer) { l.p.draw(doc, s, view, scale) })
	l.y--
}

// rows draws scenes beneath each other, as large as the widest of them fits.
func (l *leaves) rows(all []scene.Scene) {
	scale := 1.0
	for _, s := range all {
		if one := l.scale(s, 1, l.paper.Height-2*margin); one > 0 {
			scale = min(scale, one)
		}
	}
	paper := l.paper
	for _, s := range all {
		height := s.Bounds.Height() * scale
		l.room(height + 2)
		l.y -= height + 2
		y, right := l.y, margin+s.Bounds.Width()*scale
		view := canvas.Identity.Translate(margin, y).Scale(scale, scale).Translate(-s.Bounds.Min.X, -s.Bounds.Min.Y)
		l.mark(func(doc canvas.Renderer) {
			l.p.draw(doc, s, view, scale)
			if s.Cut { // the renderers do not clip
				white := canvas.Style{Fill: canvas.Paint{Color: canvas.White}}
				doc.RenderPath(canvas.Rectangle(margin, height), white, canvas.Identity.Translate(0, y))
				doc.RenderPath(canvas.Rectangle(paper.Width-right, height), white, canvas.Identity.Translate(right, y))
			}
		})
	}
	l.y--
}

// table lays out rows, with the titles again on each sheet.
func (l *leaves) table(t Table) {
	left, width := l.columns(t)
	titles := make([]string, len(t.Columns))
	for i, c := range t.Columns {
		titles[i] = c.Title
	}
	head := func() {
		l.row(t, titles, left, width, muted)
		l.line(0.25)
	}
	l.room(4 * cellSize)
	head()
	rows := func(rows [][]string) {
		for _, r := range rows {
			if l.room(l.rowHeight(t, r, width)) {
				head()
			}
			l.row(t, r, left, width, ink)
		}
	}
	rows(t.Rows)
	if len(t.Totals) > 0 {
		l.line(0.35)
		rows(t.Totals)
	}
}

// columns are where columns begin, and how wide they are.
func (l *leaves) columns(t Table) (left, width []float64) {
	whole := 0.0
	for _, c := range t.Columns {
		whole += c.Share
	}
	x := margin
	room := l.width - columnGap*float64(len(t.Columns)-1)
	for _, c := range t.Columns {
		w := room * c.Share / whole
		left, width = append(left, x), append(width, w)
		x += w + columnGap
	}
	return left, width
}

func (l *leaves) rowHeight(t Table, row []string, width []float64) float64 {
	n := 1
	for i := range t.Columns {
		if i < len(row) {
			n = max(n, len(l.p.wrap(row[i], cellSize, width[i])))
		}
	}
	return float64(n)*cellSize*1.1 + 0.9
}

func (l *leaves) row(t Table, row []string, left, width []float64, c color.RGBA) {
	for i, column := range t.Columns {
		if i >= len(row) {
			break
		}
		x, align := left[i], scene.Start
		if column.Right {
			x, align = left[i]+width[i], scene.End
		}
		for k, line := range l.p.wrap(row[i], cellSize, width[i]) {
			l.write(line, cellSize, c, x, l.y-cellSize/2-float64(k)*cellSize*1.1, align)
		}
	}
	l.y -= l.rowHeight(t, row, width)
}

// line rules off what stands above.
func (l *leaves) line(thick float64) {
	y, width := l.y, l.width
	l.mark(func(doc canvas.Renderer) {
		style := canvas.DefaultStyle
		style.Fill = canvas.Paint{Color: muted}
		doc.RenderPath(canvas.Rectangle(width, thick), style, canvas.Identity.Translate(margin, y))
	})
	l.y -= 0.8
}

// words are what of a text stays together on a line so wide: quantities too, where there is room for them.
func (p *Printer) words(text string, size, room float64) []string {
	var out []string
	for _, word := range measure.Words(text) {
		if p.wide(word)*size <= room {
			out = append(out, word)
			continue
		}
		out = append(out, strings.Fields(word)...)
	}
	return out
}

// wrap cuts a text at its blanks into lines no wider than room; a word that is wider is cut.
func (p *Printer) wrap(text string, size, room float64) []string {
	var out []string
	line := ""
	for _, word := range p.words(text, size, room) {
		longer := word
		if line != "" {
			longer = line + " " + word
		}
		if p.wide(longer)*size <= room {
			line = longer
			continue
		}
		if line != "" {
			out, line = append(out, line), ""
		}
		for p.wide(word)*size > room {
			rs := []rune(word)
			n := len(rs) - 1
			for n > 1 && p.wide(string(rs[:n]))*size > room {
				n--
			}
			if n < 1 {
				break
			}
			out, word = append(out, string(rs[:n])), string(rs[n:])
		}
		line = word
	}
	if line != "" {
		out = append(out, line)
	}
	return out
}

// wide is how wide words are at a line height of 1, letter by letter: quicker than shaping
// them, which reports of thousands of lines would be slow with.
func (p *Printer) wide(words string) float64 {
	words, missing := p.known(words)
	font := p.fontOf(words, len(missing) > 0)
	w := 0.0
	for _, r := range words {
		k := letterKey{font, r}
		one, known := p.letters[k]
		if !known {
			if !ordering(r) {
				one = float64(font.SFNT.GlyphAdvance(font.SFNT.GlyphIndex(r))) / float64(font.SFNT.Head.UnitsPerEm) * 0.8
			}
			p.letters[k] = one
		}
		w += one
	}
	return w
}
