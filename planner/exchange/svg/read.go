package svg

import (
	"context"
	"errors"
	"fmt"
	"io"
	"strings"

	"tallycloth/planner/exchange/drawn"
)

// Options say how to read.
type Options struct {
	// Unit is what one unit of the drawing measures, in mm. Zero takes it from the
	// file; a file that does not say gives ErrNoUnits.
	Unit   float64
	Limits drawn.Limits // zero fields take DefaultLimits
}

// Read reads a drawing. What it cannot read of it is in its warnings; a drawing
// without any outline is not an error.
//
// Errors are a *stash.Error that says what to do: not SVG, damaged, past a limit, an
// object that contains itself, no units (errors.Is with drawn.ErrNoUnits). A context that
// ends, and a reader that fails, come back wrapped.
func Read(ctx context.Context, r io.Reader, o Options) (drawn.Drawing, error) {
	lim := o.Limits.Or(DefaultLimits())
	src, err := source(r, lim)
	if errors.Is(err, drawn.ErrBytes) {
		return drawn.Drawing{}, lim.TooLarge()
	}
	if err != nil {
		return drawn.Drawing{}, err
	}
	doc, err := parse(ctx, src, lim)
	if err != nil {
		return drawn.Drawing{}, err
	}
	w := walker{ctx: ctx, doc: doc, lim: lim, points: lim.Points, out: drawn.Collector{Limits: lim}, using: map[*node]bool{}, unknown: map[string]bool{}}
	return w.run(o)
}

func (w *walker) run(o Options) (drawn.Drawing, error) {
	m, scale, err := w.page(w.doc.root, o)
	if err != nil {
		return drawn.Drawing{}, err
	}
	if unread := w.doc.sheet.Unread; len(unread) > 0 {
		w.warn(drawn.Warning{Reason: drawn.NotRead, What: fmt.Sprintf("the style rules for %s are not understood, so hidden objects may have been brought in", shorten(strings.Join(unread, ", "))),
			Do: "Save the drawing as plain SVG."})
	}
	if err := w.visit(w.doc.root, state{m: m, view: viewOf(w.doc.root, [2]float64{})}); err != nil {
		return drawn.Drawing{}, err
	}
	if w.unpainted > 0 {
		w.warn(drawn.Warning{Reason: drawn.Hidden, What: "boxes with neither a line nor a colour were left out, as nothing of them is seen", Do: "Give them a line in the editor if one is wanted."})
	}
	return w.out.Finish(w.ctx, scale)
}
