package sheet

import (
	"errors"
	"fmt"
	"io"
	"math"

	"tallycloth/planner/scene"

	"github.com/skip2/go-qrcode"
	"github.com/tdewolff/canvas"
)

// Grid says how labels lie on a sheet, all in mm. Sheets of labels differ a little from
// printer to printer: a sheet of plain paper, printed first, is held against them.
type Grid struct {
	Paper         Paper
	Columns, Rows int
	Left, Top     float64 // of the first label, from the sheet's edges
	Width, Height float64 // of a label
	Across, Down  float64 // from one label to the next
}

// The grids at hand, sizes as they are common in shops (common practice, from memory).
var (
	LabelsA4     = Grid{Paper: A4, Columns: 3, Rows: 8, Left: 0, Top: 0.5, Width: 70, Height: 37, Across: 70, Down: 37}
	LabelsLetter = Grid{Paper: Letter, Columns: 3, Rows: 10, Left: 4.8, Top: 12.7, Width: 66.7, Height: 25.4, Across: 69.8, Down: 25.4}
)

// Validate says whether the labels fit on the sheet and hold a code.
func (g Grid) Validate() error {
	switch {
	case g.Columns < 1 || g.Rows < 1:
		return errors.New("a sheet of labels needs a column and a row at least")
	case g.Width < 40 || g.Height < 20:
		return errors.New("a label needs 40 × 20 mm at least, so that its code can be read")
	case g.Columns > 1 && g.Across < g.Width || g.Rows > 1 && g.Down < g.Height:
		return errors.New("the labels lie over each other")
	case g.Left < 0 || g.Top < 0 || g.Left+float64(g.Columns-1)*g.Across+g.Width > g.Paper.Width+0.01 ||
		g.Top+float64(g.Rows-1)*g.Down+g.Height > g.Paper.Height+0.01:
		return errors.New("the labels reach over the edge of the sheet")
	}
	return nil
}

// Label is what stands on one label.
type Label struct {
	Code  string   // large, and as a QR code
	Lines []string // beside it, the first one the most prominent
}

const (
	labelInset = 3.0 // from the edges of a label, in mm
	// quiet is how many modules around a QR code stay white (ISO/IEC 18004, 6.3.8).
	quiet = 4
)

// Labels writes labels as LabelSheets lays them out.
func (p *Printer) Labels(w io.Writer, g Grid, labels []Label, skip int) error {
	d, err := p.LabelSheets(g, labels, skip)
	if err != nil {
		return err
	}
	return d.PDF(w)
}

// LabelSheets lays labels out, sheet after sheet, leaving out so many places of the first
// sheet, whose labels are used already. Lines that are too long are shortened. Errors: no
// labels, a grid that cannot be, more places left out than a sheet has, or a code of no signs.
func (p *Printer) LabelSheets(g Grid, labels []Label, skip int) (*Document, error) {
	if len(labels) == 0 {
		return nil, errEmpty
	}
	if err := g.Validate(); err != nil {
		return nil, err
	}
	perSheet := g.Columns * g.Rows
	if skip < 0 || skip >= perSheet {
		return nil, fmt.Errorf("a sheet has %d labels: from 0 to %d can be left out", perSheet, perSheet-1)
	}
	d := &Document{Title: "Labels"}
	var on *leaf
	for i, l := range labels {
		k := (i + skip) % perSheet
		if on == nil || k == 0 {
			on = d.add(g.Paper)
		}
		x := g.Left + float64(k%g.Columns)*g.Across
		y := g.Paper.Height - g.Top - float64(k/g.Columns)*g.Down - g.Height
		if err := p.label(on, l, x, y, g); err != nil {
			return nil, err
		}
	}
	return d, nil
}

// label puts one label whose lower left corner lies at (x, y): the QR code to the left,
// the words beside it, the code in letters at the top.
func (p *Printer) label(on *leaf, l Label, x, y float64, g Grid) error {
	side := min(g.Height-2*labelInset, g.Width*0.4)
	dark, err := qr(l.Code, x+labelInset, y+(g.Height-side)/2, side)
	if err != nil {
		return fmt.Errorf("the label %s: %w", l.Code, err)
	}
	on.mark(func(r canvas.Renderer) {
		r.RenderPath(dark, canvas.Style{Fill: canvas.Paint{Color: canvas.Black}}, canvas.Identity)
	})
	left := x + labelInset + side + 2
	room := x + g.Width - labelInset - left
	write := func(words string, size, top float64) {
		words = p.fitting(words, size, room)
		at := canvas.Identity.Translate(left, y+g.Height-top)
		on.mark(func(r canvas.Renderer) { p.text(r, words, ink, size, at, scene.Start) })
	}
	top := labelInset + 3.0
	write(l.Code, 7, top)
	top += 6.3
	for i, line := range l.Lines {
		size := 3.4
		if i == 0 {
			size = 4.2
		}
		if top+size/2 > g.Height-labelInset+1 {
			break
		}
		write(line, size, top)
		top += size + 0.5
	}
	return nil
}

// fitting shortens words to a width.
func (p *Printer) fitting(words string, size, room float64) string {
	if p.Width(words)*size <= room {
		return words
	}
	rs := []rune(words)
	for n := len(rs) - 1; n > 0; n-- {
		if s := string(rs[:n]) + "…"; p.Width(s)*size <= room {
			return s
		}
	}
	return ""
}

// qr is a QR code (ISO/IEC 18004, error correction M) with its white border in a
// square, runs of dark modules as one rectangle each.
func qr(words string, x, y, side float64) (*canvas.Path, error) {
	q, err := qrcode.New(words, qrcode.Medium)
	if err != nil {
		return nil, fmt.Errorf("making its QR code: %w", err)
	}
	q.DisableBorder = true
	rows := q.Bitmap()
	module := side / float64(len(rows)+2*quiet)
	path := &canvas.Path{}
	for j, row := range rows {
		for i := 0; i < len(row); i++ {
			from := i
			for i < len(row) && row[i] {
				i++
			}
			if i > from {
				px, py := x+float64(from+quiet)*module, y+side-float64(j+1+quiet)*module
				path = path.Append(canvas.Rectangle(float64(i-from)*module, module).Translate(px, py))
			}
		}
	}
	return path, nil
}

// Sheets returns how many sheets so many labels take.
func (g Grid) Sheets(labels, skip int) int {
	return int(math.Ceil(float64(labels+skip) / float64(g.Columns*g.Rows)))
}
