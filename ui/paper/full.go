package paper

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"tallycloth/assets"
	"tallycloth/planner"
	"tallycloth/planner/exchange/dxf"
	"tallycloth/planner/exchange/sheet"
	"tallycloth/planner/match"
	"tallycloth/planner/pattern"
	"tallycloth/planner/scene"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
	"tallycloth/ui/say"
)

// Way says how a drawing comes onto paper in full size.
type Way string

// The ways.
const (
	Tiled  Way = "tiled over sheets (PDF)"
	OnePDF Way = "on one page (PDF)"
	OneSVG Way = "on one page (SVG)"
	OneDXF Way = "as a drawing for a plotter (DXF)"
)

// Ways lists them.
func Ways() []Way { return []Way{Tiled, OnePDF, OneSVG, OneDXF} }

// Ending is how the name of a file of that kind ends.
func (w Way) Ending() string {
	switch w {
	case OneSVG:
		return ".svg"
	case OneDXF:
		return ".dxf"
	}
	return ".pdf"
}

// Papers are the papers for tiles by name, the smallest first.
var Papers = []struct {
	Name  string
	Paper sheet.Paper
}{{"A4", sheet.A4}, {"Letter", sheet.Letter}, {"A3", sheet.A3}, {"A0", sheet.A0}}

// PaperNamed returns the paper of a name.
func PaperNamed(name string) (sheet.Paper, bool) {
	for _, p := range Papers {
		if p.Name == name {
			return p.Paper, true
		}
	}
	return sheet.Paper{}, false
}

// LayoutPage is the layout on a cloth of a sheet in full size.
func LayoutPage(v say.Voice, s planner.CuttingSheet, c planner.SheetCloth) sheet.Page {
	k := c.State.Cloth
	page := sheet.Page{Title: s.Title, Scene: Drawing(v.Units, s, c)}
	if !strings.Contains(s.Title, k.Code) {
		page.Title += " on " + k.Code
	}
	page.Notes = []string{c.State.Fabric.Name + ", " + v.Size(k), lie(v, c)}
	return page
}

// PiecesPage is pattern pieces of a pattern in a size in full size: those with the codes given,
// or all. Halves on the fold stay halves. It is refused where there are no outlines.
func PiecesPage(units measure.System, p pattern.Pattern, size string, codes []string) (sheet.Page, error) {
	d := scene.Pieces{Units: units, Room: int64(measure.Metre)}
	for _, q := range p.Pieces {
		if _, ok := q.Outlines[size]; !ok || len(codes) > 0 && !slices.Contains(codes, q.Code) && !slices.Contains(codes, q.Name) {
			continue
		}
		drawn, err := asDrawn(p, q, size)
		if err != nil {
			return sheet.Page{}, err
		}
		d.Pieces = append(d.Pieces, drawn)
	}
	if len(d.Pieces) == 0 {
		return sheet.Page{}, &stash.Error{Kind: stash.NotFound, What: fmt.Sprintf("%s has no outlines in size %s", p.Name, size), Do: "Bring in its outlines, or choose another size"}
	}
	return sheet.Page{Title: p.Name + ", size " + size, Scene: d.Scene()}, nil
}

// asDrawn is a pattern piece in its own frame: a half on the fold as a half, unless its seam
// allowance is added, which makes it whole.
func asDrawn(p pattern.Pattern, q pattern.Piece, size string) (scene.Placed, error) {
	out := scene.Placed{ID: q.Code, Name: q.Code + " " + q.Name, Outline: q.Outlines[size].Cut}
	once := q
	if q.OnFold && !q.WithoutAllowance {
		once.OnFold = false
	} else {
		whole, err := match.AsCut(p, q, size)
		if err != nil {
			return out, err
		}
		out.Outline = whole
	}
	out = Marked(out, once, size, match.Drawn(shape.Placement{}))
	out.Count = CutCount(q)
	if !once.OnFold && q.OnFold {
		out.Count += ", the straight edge"
	}
	return out, nil
}

// Sheet lays a cutting sheet out on paper.
func Sheet(v say.Voice, s planner.CuttingSheet, on sheet.Paper) (*sheet.Document, error) {
	return Report(Cutting(v, s), on)
}

// Report lays a report out on paper.
func Report(r sheet.Report, on sheet.Paper) (*sheet.Document, error) {
	p, err := printer()
	if err != nil {
		return nil, err
	}
	return p.Lay(on, r), nil
}

// printer draws with the fonts of the program.
func printer() (*sheet.Printer, error) { return sheet.New(assets.FontRegular, assets.FontWider) }

// Document lays a page out in full size in a way.
func Document(page sheet.Page, w Way, f sheet.Full) (*sheet.Document, error) {
	p, err := printer()
	if err != nil {
		return nil, err
	}
	lay := p.OnePage
	if w == Tiled {
		lay = p.Tiles
	}
	d, err := lay(page, f)
	if err != nil {
		return nil, &stash.Error{Kind: stash.Invalid, What: say.Sentence("The drawing cannot be printed like this: " + err.Error()), Do: "Choose another paper or another way", Err: err}
	}
	return d, nil
}

// Write writes a document as its way says.
func (w Way) Write(d *sheet.Document) func(io.Writer) error {
	switch w {
	case OneSVG:
		return func(o io.Writer) error { return d.SVG(o, 0) }
	case OneDXF: // without the squares: its unit is in the file
		return func(o io.Writer) error { return dxf.WriteScene(o, d.Drawing, sheet.LineWidth) }
	}
	return d.PDF
}
