package outlines

import (
	"context"
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"tallycloth/planner/exchange/drawn"
	"tallycloth/planner/exchange/dxf"
	"tallycloth/planner/exchange/pdf"
	"tallycloth/planner/exchange/svg"
	"tallycloth/planner/exchange/table"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
)

// Endings are those of the files that Read understands.
func Endings() []string { return []string{".svg", ".svgz", ".dxf", ".pdf"} }

// Known says whether a name ends like one that Read understands.
func Known(name string) bool {
	for _, e := range Endings() {
		if strings.EqualFold(filepath.Ext(name), e) {
			return true
		}
	}
	return false
}

// Options say how a drawing is read.
type Options struct {
	// Unit is what one unit of the drawing measures in mm, 0 where the file says so itself.
	Unit float64
	// Plan says how the pages of a PDF lie; nil works it out.
	Plan *drawn.Plan
}

// Read reads a drawing by the end of its name, DXF and PDF as such and all else as SVG. The errors
// are those of svg.Read, dxf.Read, pdf.Read and pdf.File.Lay.
func Read(ctx context.Context, r io.Reader, name string, o Options) (drawn.Drawing, error) {
	switch strings.ToLower(filepath.Ext(name)) {
	case ".dxf":
		return dxf.Read(ctx, r, dxf.Options{Unit: o.Unit})
	case ".pdf":
		return readPDF(ctx, r, o)
	}
	return svg.Read(ctx, r, svg.Options{Unit: o.Unit})
}

func readPDF(ctx context.Context, r io.Reader, o Options) (drawn.Drawing, error) {
	f, err := pdf.Read(ctx, r, drawn.Limits{})
	if err != nil {
		return drawn.Drawing{}, err
	}
	if o.Plan != nil {
		return f.Lay(ctx, *o.Plan, "laid as you said", o.Unit)
	}
	found := f.Find()
	return f.Lay(ctx, found.Plan, found.Told, o.Unit)
}

// Save writes the outlines of a pattern, or part of them, into a new file at full size, as
// the end of its name says. Nothing that is there is replaced, and a file that cannot be
// written whole is not left behind. Errors are a *stash.Error that says what to do.
func Save(path string, p pattern.Pattern, part drawn.Part) error {
	write := dxf.WritePattern
	switch strings.ToLower(filepath.Ext(path)) {
	case ".dxf":
	case ".svg":
		write = svg.WritePattern
	default:
		return &stash.Error{Kind: stash.Invalid, What: fmt.Sprintf("%q has no ending that says how to write outlines", filepath.Base(path)), Do: "End the name in .dxf or .svg."}
	}
	if _, err := part.Of(p); err != nil {
		return err
	}
	return table.SaveNew(path, func(w io.Writer) error { return write(w, p, part) })
}
