package dxf

import (
	"context"
	"fmt"
	"io"
	"slices"
	"strings"

	"tallycloth/planner/exchange/drawn"
)

// Options say how to read.
type Options struct {
	// Unit is what one unit of the drawing measures, in mm. Zero takes it from the
	// file; a file that does not say gives drawn.ErrNoUnits.
	Unit   float64
	Limits drawn.Limits // zero fields take DefaultLimits
}

// Read reads a file into a drawing: with a pattern where it describes one, with outlines
// where not. What it cannot read of it is in its warnings; a drawing without any outline
// is not an error.
//
// Errors are a *stash.Error that says what to do: not DXF, damaged, past a limit, a block
// that contains itself, no units (errors.Is with drawn.ErrNoUnits). A context that ends,
// and a reader that fails, come back wrapped.
func Read(ctx context.Context, r io.Reader, o Options) (drawn.Drawing, error) {
	f, err := Parse(ctx, r, o.Limits)
	if err != nil {
		return drawn.Drawing{}, err
	}
	return f.Drawing(ctx, o)
}

// Drawing makes the drawing of a file.
func (f *File) Drawing(ctx context.Context, o Options) (drawn.Drawing, error) {
	var n notes
	if f.BreaksOff {
		n.add(drawn.NotRead, "", "the file breaks off before its end, so something may be missing", "Save or send it again.")
	}
	f.tellUnread(&n)
	lim := o.Limits.Or(DefaultLimits())
	w := &walker{ctx: ctx, file: f, lim: lim, points: lim.Points, using: map[int]bool{}, notes: &n, looks: mostEdges}
	if blocks := f.pieces(); len(blocks) > 0 {
		return f.style(w, o, blocks)
	}
	return f.plain(w, o)
}

// Bounds of what is worked out for pattern pieces, far above what a file of them needs.
const (
	mostEdges  = 20_000_000 // edges looked at to find what lies on them
	mostPieces = 5000       // each size of each piece
)

// people are words for kinds of entities that are passed over.
var people = map[string]string{
	"HATCH": "hatching", "DIMENSION": "dimensions", "LEADER": "pointers", "MLEADER": "pointers", "IMAGE": "pictures", "SOLID": "filled areas",
	"3DFACE": "surfaces", "MESH": "surfaces", "3DSOLID": "solid bodies", "REGION": "filled areas", "XLINE": "endless lines", "RAY": "endless lines",
	"WIPEOUT": "covers", "MLINE": "multiple lines", "TOLERANCE": "tolerances", "OLE2FRAME": "embedded objects",
}

// tellUnread says which kinds of entities were passed over.
func (f *File) tellUnread(n *notes) {
	kinds := make([]string, 0, len(f.Unread))
	for k := range f.Unread {
		kinds = append(kinds, k)
	}
	slices.Sort(kinds)
	for _, k := range kinds {
		name, ok := people[k]
		if !ok {
			name = fmt.Sprintf("objects of the kind %q", shorten(k))
		}
		n.add(drawn.NotRead, "", fmt.Sprintf("%s were left out, %d in all", name, f.Unread[k]), "Turn them into lines in the program that drew them if they are wanted.")
	}
}

// isPaper tells the blocks that stand for the drawing itself and its sheets.
func isPaper(name string) bool {
	name = strings.ToUpper(name)
	return strings.HasPrefix(name, "*MODEL_SPACE") || strings.HasPrefix(name, "*PAPER_SPACE") || name == "$MODEL_SPACE" || name == "$PAPER_SPACE"
}
