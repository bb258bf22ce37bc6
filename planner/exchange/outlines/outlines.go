package outlines

import (
	"context"
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"tallycloth/planner/exchange/drawn"
	"tallycloth/planner/exchange/dxf"
	"tallycloth/planner/exchange/svg"
	"tallycloth/planner/exchange/table"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
)

// Endings are those of the files that Read understands.
func Endings() []string { return []string{".svg", ".svgz", ".dxf"} }

// Known says whether a name ends like one that Read understands.
func Known(name string) bool {
	for _, e := range Endings() {
		if strings.EqualFold(filepath.Ext(name), e) {
			return true
		}
	}
	return false
}

// Read reads a drawing by the end of its name, DXF as such and all else as SVG. Unit is what one
// unit of the drawing measures in mm, 0 where the file says so itself. The errors are those
// of svg.Read and dxf.Read.
func Read(ctx context.Context, r io.Reader, name string, unit float64) (drawn.Drawing, error) {
	if strings.EqualFold(filepath.Ext(name), ".dxf") {
		return dxf.Read(ctx, r, dxf.Options{Unit: unit})
	}
	return svg.Read(ctx, r, svg.Options{Unit: unit})
}

// Save writes the outlines of a pattern, or part of them, into a new file at true size, as
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
