package sheet

import (
	"fmt"
	"io"
	"math"

	"tallycloth/planner/scene"

	"github.com/tdewolff/canvas"
	"github.com/tdewolff/canvas/renderers/pdf"
)

// Paper is a size of sheet in mm, upright.
type Paper struct{ Width, Height float64 }

// The papers: ISO 216 A4 and ANSI A, "Letter" (8 1/2 × 11 in).
var (
	A4     = Paper{210, 297}
	Letter = Paper{215.9, 279.4}
)

// margin is what printers leave white, in mm; overlap is what tiles share.
const (
	margin  = 12.0
	overlap = 10.0
)

// Page is a scene to put on one sheet.
type Page struct {
	Title string
	Scene scene.Scene
	Notes []string // lines of words under the title
}

// PDF writes pages, each scene fitted on one sheet, lying where it is wider than high, with
// its title, notes, scale and number. Scenes are never enlarged. Errors: no pages, an
// empty scene, or w's.
func (p *Printer) PDF(w io.Writer, paper Paper, pages []Page) error {
	if len(pages) == 0 {
		return errEmpty
	}
	c := &checked{w: w}
	var doc *pdf.PDF
	for i, page := range pages {
		b := page.Scene.Bounds
		if b.Width() <= 0 || b.Height() <= 0 {
			return fmt.Errorf("page %d: %w", i+1, errEmpty)
		}
		on := paper
		if b.Width() > b.Height() {
			on = Paper{paper.Height, paper.Width}
		}
		doc = nextPage(doc, c, on)
		if i == 0 {
			doc.SetInfo(page.Title, "", "", "", "Tallycloth")
		}
		p.page(doc, on, page, fmt.Sprintf("%d of %d", i+1, len(pages)))
	}
	if err := doc.Close(); err != nil {
		return fmt.Errorf("writing the sheets: %w", err)
	}
	return c.wrapped("writing the sheets")
}

func nextPage(doc *pdf.PDF, w io.Writer, on Paper) *pdf.PDF {
	if doc == nil {
		o := pdf.DefaultOptions
		o.ImageEncoding = canvas.Lossy // photos stay small; nothing else is a picture
		return pdf.New(w, on.Width, on.Height, &o)
	}
	doc.NewPage(on.Width, on.Height)
	return doc
}

// page draws one fitted page.
func (p *Printer) page(doc *pdf.PDF, on Paper, page Page, number string) {
	top := on.Height - margin
	at := func(x, y float64) canvas.Matrix { return canvas.Identity.Translate(x, y) }
	p.text(doc, page.Title, ink, 7, at(margin, top-3.5), scene.Start)
	top -= 9
	for _, n := range page.Notes {
		p.text(doc, n, muted, 4.5, at(margin, top-2.3), scene.Start)
		top -= 5.5
	}
	b := page.Scene.Bounds
	bottom := margin + 7
	scale := min(1, (on.Width-2*margin)/b.Width(), (top-bottom)/b.Height())
	p.text(doc, scaleWords(scale), muted, 4, at(margin, margin+2), scene.Start)
	p.text(doc, number, muted, 4, at(on.Width-margin, margin+2), scene.End)
	left := (on.Width - b.Width()*scale) / 2
	view := at(left, top-b.Height()*scale).Scale(scale, scale).Translate(-b.Min.X, -b.Min.Y)
	p.draw(doc, page.Scene, view, scale)
}

// scaleWords says the scale as one reads it.
func scaleWords(scale float64) string {
	if scale > 0.999 {
		return "full size"
	}
	return fmt.Sprintf("1 : %.3g, not for measuring", math.Ceil(1/scale*100)/100)
}
