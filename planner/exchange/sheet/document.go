package sheet

import (
	"fmt"
	"image"
	"io"

	"tallycloth/planner/scene"

	"github.com/tdewolff/canvas"
	"github.com/tdewolff/canvas/renderers/pdf"
	"github.com/tdewolff/canvas/renderers/rasterizer"
	"github.com/tdewolff/canvas/renderers/svg"
)

// Document is sheets that are laid out and can be looked at before they are written. It draws
// with its Printer, so only one goroutine at a time may use the two.
type Document struct {
	Title string
	// Drawing is what a page in full size shows, with its grid, for other kinds of drawing; empty for
	// all else.
	Drawing scene.Scene
	sheets  []leaf
}

// leaf is one sheet with what is drawn on it, in order.
type leaf struct {
	paper Paper
	marks []func(canvas.Renderer)
}

// Sheets returns how many sheets there are.
func (d *Document) Sheets() int { return len(d.sheets) }

// Paper returns the size of a sheet, from 0.
func (d *Document) Paper(i int) Paper { return d.sheets[i].paper }

// add begins another sheet.
func (d *Document) add(on Paper) *leaf {
	d.sheets = append(d.sheets, leaf{paper: on})
	return &d.sheets[len(d.sheets)-1]
}

func (l *leaf) mark(f func(canvas.Renderer)) { l.marks = append(l.marks, f) }

func (l leaf) draw(r canvas.Renderer) {
	for _, m := range l.marks {
		m(r)
	}
}

// PDF writes the sheets. Words can be searched and copied, and the letters that occur travel
// inside. Errors: no sheets, or w's.
func (d *Document) PDF(w io.Writer) error {
	if len(d.sheets) == 0 {
		return errEmpty
	}
	c := &checked{w: w}
	var doc *pdf.PDF
	for i, l := range d.sheets {
		doc = nextPage(doc, c, l.paper)
		if i == 0 {
			doc.SetInfo(d.Title, "", "", "", "Tallycloth")
		}
		l.draw(doc)
	}
	if err := doc.Close(); err != nil {
		return fmt.Errorf("writing the sheets: %w", err)
	}
	return c.wrapped("writing the sheets")
}

// SVG writes one sheet in full size, from 0. Errors: no such sheet, or w's.
func (d *Document) SVG(w io.Writer, i int) error {
	if i < 0 || i >= len(d.sheets) {
		return errEmpty
	}
	c := &checked{w: w}
	on := d.sheets[i].paper
	r := svg.New(c, on.Width, on.Height, &svg.Options{EmbedFonts: true, SubsetFonts: true, SizeUnits: "mm"})
	d.sheets[i].draw(r)
	if err := r.Close(); err != nil {
		return fmt.Errorf("writing the drawing: %w", err)
	}
	return c.wrapped("writing the drawing")
}

// Picture draws one sheet, from 0, so many pixels high, at most 4000, on white.
func (d *Document) Picture(i, pixels int) (*image.RGBA, error) {
	if i < 0 || i >= len(d.sheets) {
		return nil, errEmpty
	}
	on := d.sheets[i].paper
	r := rasterizer.New(on.Width, on.Height, canvas.DPMM(float64(min(max(pixels, 16), 4000))/on.Height), canvas.LinearColorSpace{})
	r.RenderPath(canvas.Rectangle(on.Width, on.Height), canvas.Style{Fill: canvas.Paint{Color: canvas.White}}, canvas.Identity)
	d.sheets[i].draw(r)
	r.Close()
	out, ok := r.Image.(*image.RGBA)
	if !ok {
		return nil, fmt.Errorf("drawing the sheet: a picture of another kind came out")
	}
	return out, nil
}
