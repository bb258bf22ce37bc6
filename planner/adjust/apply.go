package adjust

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"tallycloth/planner/pattern"
	"tallycloth/stash/measure"
)

// Result is a pattern adjusted in one size.
type Result struct {
	// Pattern has the one size alone, its outlines, edges and finished measurements adjusted.
	Pattern pattern.Pattern
	Notes   []string // what must be seen to by hand, in sentences
}

// work is a pattern while it is adjusted.
type work struct {
	p      pattern.Pattern
	size   string
	bodies []*body
	notes  []string
}

// Apply replays steps on the outlines of a pattern in a size. Without a step the pattern
// comes back with that size alone. It refuses, as stash.Invalid with what to do, a size
// without outlines, places that a piece does not have, and outlines that would cross
// themselves; the sentence says which step it is where there are several.
func Apply(p pattern.Pattern, size string, steps []Step) (Result, error) {
	w, err := newWork(p, size)
	if err != nil {
		return Result{}, err
	}
	for i, s := range steps {
		err := s.Validate()
		if err == nil {
			err = w.step(s)
		}
		if err != nil && len(steps) > 1 {
			err = fmt.Errorf("adjustment %d: %w", i+1, err)
		}
		if err != nil {
			return Result{}, err
		}
	}
	return w.result()
}

func newWork(p pattern.Pattern, size string) (*work, error) {
	s, ok := p.Size(size)
	if !ok {
		return nil, invalid(fmt.Sprintf("%s has no size %q", p.Name, size), "Choose one of its sizes.")
	}
	s.Body, s.Finished = maps.Clone(s.Body), maps.Clone(s.Finished)
	w := &work{p: alone(p, s), size: size}
	for _, q := range p.Pieces {
		if _, ok := q.Outlines[size]; ok {
			w.bodies = append(w.bodies, bodyOf(p, q, size))
		}
	}
	return w, nil
}

// alone is a pattern with one size, without its pieces.
func alone(p pattern.Pattern, s pattern.Size) pattern.Pattern {
	p.Sizes, p.Pieces = []pattern.Size{s}, nil
	var yards []pattern.YardageRow
	for _, y := range p.Yards {
		if len(y.Sizes) == 0 || slices.Contains(y.Sizes, s.Name) {
			y.Sizes = nil
			yards = append(yards, y)
		}
	}
	p.Yards = yards
	p.Edges = slices.Clone(p.Edges)
	for i := range p.Edges {
		p.Edges[i].Segments = slices.Clone(p.Edges[i].Segments)
		for k := range p.Edges[i].Segments {
			p.Edges[i].Segments[k].Free = maps.Clone(p.Edges[i].Segments[k].Free)
		}
	}
	return p
}

// result puts the pattern together again.
func (w *work) result() (Result, error) {
	out := Result{Pattern: w.p}
	for _, b := range w.bodies {
		w.notes = append(w.notes, b.settle()...)
		q := b.Piece
		q.Outlines = map[string]pattern.Outline{w.size: b.o}
		out.Pattern.Pieces = append(out.Pattern.Pieces, q)
	}
	out.Notes = w.notes
	return out, out.Pattern.Validate()
}

// step does one step, with the finished measurements that follow.
func (w *work) step(s Step) error {
	if s.Kind == StrapLength {
		return w.straps(s.Length)
	}
	if len(w.bodies) == 0 {
		return invalid(fmt.Sprintf("%s has no outlines in size %s to adjust", w.p.Name, w.size), "Bring its outlines in, or draft quick ones.")
	}
	bodies, err := w.meant(s)
	if err != nil {
		return err
	}
	before := w.girths()
	if err := w.does(s, bodies); err != nil {
		return err
	}
	if s.Keeps() { // panels and halves leave what is finished as it was
		w.follow(before)
	}
	return nil
}

func (w *work) does(s Step, bodies []*body) error {
	switch s.Kind {
	case TakeIn:
		into, goesOn := s.intoSleeve(bodies)
		if err := each(bodies, func(b *body) error {
			if b.sleeve() && s.Seam == "" {
				return b.takeInSleeve(s)
			}
			return b.takeIn(s)
		}); err != nil || !goesOn {
			return err
		}
		return each(w.bodies, func(b *body) error {
			if !b.sleeve() {
				return nil
			}
			return b.takeInSleeve(into)
		})
	case Lengthen:
		return each(bodies, func(b *body) error { return b.lengthen(s) })
	case Strap:
		return each(bodies, func(b *body) error {
			if err := b.strap(s); err != nil {
				return err
			}
			w.longerStraps(b, s.Down)
			return nil
		})
	case Neckline:
		return each(bodies, func(b *body) error { return b.neckline(s) })
	case Panels:
		return w.split(s, bodies[0])
	case Mirror:
		return w.mirror(s, bodies[0])
	}
	return w.hems(s, bodies)
}

func each(bodies []*body, f func(*body) error) error {
	for _, b := range bodies {
		if err := f(b); err != nil {
			return err
		}
	}
	return nil
}

// meant are the pattern pieces a step is for: those named, else all of the body of the garment
// that have its places.
func (w *work) meant(s Step) ([]*body, error) {
	if len(s.Pieces) > 0 {
		return w.named(s.Pieces)
	}
	var out []*body
	var why error
	for _, b := range w.bodies {
		if err := b.serves(s); err != nil {
			why = err
			continue
		}
		out = append(out, b)
	}
	switch {
	case len(out) > 0:
		return out, nil
	case why != nil:
		return nil, why
	}
	return nil, invalid("no pattern piece can be adjusted so", "Name the pattern pieces it is for.")
}

func (w *work) named(codes []string) ([]*body, error) {
	var out []*body
	for _, code := range codes {
		i := slices.IndexFunc(w.bodies, func(b *body) bool { return strings.EqualFold(b.Code, code) })
		if i < 0 {
			return nil, invalid(fmt.Sprintf("%s has no pattern piece %s in size %s", w.p.Name, code, w.size), "Choose one of its pattern pieces.")
		}
		out = append(out, w.bodies[i])
	}
	return out, nil
}

// serves says why a piece that was not named is not meant by a step.
func (b *body) serves(s Step) error {
	for _, p := range []Place{s.At, s.From, s.To} {
		if !p.Said() {
			continue
		}
		if _, err := b.mustDepth(p); err != nil {
			return err
		}
	}
	all := runs(b.o.Cut)
	_, legs := b.levels[Crotch]
	try := b.copy()
	switch {
	case s.Kind == Strap:
		_, err := b.strapNeck()
		return err
	case s.Kind == Neckline:
		return try.neckline(Step{Down: measure.Length(1)})
	case b.sleeve():
		return invalid("a sleeve is adjusted by itself", "Name the pattern pieces it is for.")
	case s.Kind == TakeIn && len(b.sides(all, s.Seam)) == 0:
		return invalid("no seam can be told on "+b.called()+" for this", "Mark the edge of the seam on the pattern piece, or name another seam.")
	case len(b.sides(all, "")) == 0 && !legs:
		return invalid("no side seam can be told on "+b.called(), "Mark its edge on the pattern piece, or name the pattern pieces it is for.")
	}
	return nil
}

// longNow is how long the garment is from its top to the hem.
func (w *work) longNow(b *body) measure.Length {
	if l := w.p.Sizes[0].Finished[pattern.BodyLen]; l > 0 {
		return l
	}
	return measure.Length(b.levels[HemLevel] - b.levels[Top])
}
