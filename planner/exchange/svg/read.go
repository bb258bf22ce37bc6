package svg

import (
	"context"
	"errors"
	"fmt"
	"io"
	"strings"
)

// Options say how to read.
type Options struct {
	// Unit is what one unit of the drawing measures, in mm. Zero takes it from the
	// file; a file that does not say gives ErrNoUnits.
	Unit   float64
	Limits Limits // zero fields take DefaultLimits
}

// Read reads a drawing. What it cannot read of it is in Drawing.Warnings; a drawing
// without any outline is not an error.
//
// Errors are a *stash.Error that says what to do: not SVG, damaged, past a limit, an
// object that contains itself, no units (errors.Is with ErrNoUnits). A context that
// ends, and a reader that fails, come back wrapped.
func Read(ctx context.Context, r io.Reader, o Options) (Drawing, error) {
	lim := o.Limits.orDefault()
	src, err := source(r, lim)
	if errors.Is(err, errBytes) {
		return Drawing{}, lim.tooLarge()
	}
	if err != nil {
		return Drawing{}, err
	}
	doc, err := parse(ctx, src, lim)
	if err != nil {
		return Drawing{}, err
	}
	w := walker{ctx: ctx, doc: doc, lim: lim, points: lim.Points, using: map[*node]bool{}, unknown: map[string]bool{}}
	return w.run(o)
}

func (w *walker) run(o Options) (Drawing, error) {
	m, scale, err := w.page(w.doc.root, o)
	if err != nil {
		return Drawing{}, err
	}
	w.out.Scale = scale
	if unread := w.doc.sheet.Unread; len(unread) > 0 {
		w.warn(Warning{Reason: NotRead, What: fmt.Sprintf("the style rules for %s are not understood, so hidden objects may have been brought in", shorten(strings.Join(unread, ", "))),
			Do: "Save the drawing as plain SVG."})
	}
	if err := w.visit(w.doc.root, state{m: m}); err != nil {
		return Drawing{}, err
	}
	if w.dropped > 0 {
		w.out.Warnings = append(w.out.Warnings, Warning{Reason: NotRead, What: fmt.Sprintf("there are %d more warnings like these", w.dropped), Do: "Tidy the drawing in the editor and save again."})
	}
	if len(w.out.Shapes) > mostNested {
		w.out.Warnings = append(w.out.Warnings, Warning{Reason: NotRead, What: "there are so many shapes that lines drawn inside outlines were not told apart", Do: "Save only the pattern pieces."})
	} else if err := nest(w.ctx, w.out.Shapes); err != nil {
		return Drawing{}, err
	}
	w.out.Squares = squares(w.out.Shapes)
	return w.out, nil
}
