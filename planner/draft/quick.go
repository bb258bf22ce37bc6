package draft

import (
	"cmp"
	"errors"
	"fmt"
	"slices"

	"tallycloth/planner/pattern"
	"tallycloth/stash/measure"
)

// Form asks for approximate outlines of a kind of garment.
type Form struct {
	Name  string
	Kind  Kind
	Sizes []Row // in grading order
	// Seam and Hem are the allowances; zero takes the usual ones.
	Seam, Hem measure.Length
	Units     measure.System // of the shop that the yardage table is for
}

// Row is one size: its name and what the finished garment measures, by the names that
// Kind.Asks lists. What is not needed may be left out and is then found by rule.
type Row struct {
	Name     string
	Finished map[string]measure.Length
}

// Spare is how much longer every pattern piece is at each of its ends than it need be, so that
// the true ones, once she has them, lie where the approximate ones were laid (ours). Widths are not
// wider: they follow from the girths that were measured, and a layout with little width to spare
// is called tight anyway. More all round would make pieces that just lie side by side need another row.
const Spare = 3 * measure.Millimetre

// UsualSeam and UsualHem are the allowances where none are said (ours).
const (
	UsualSeam = 7 * measure.Millimetre
	UsualHem  = 22 * measure.Millimetre
)

// Quick drafts a pattern from finished measurements, marked as approximate. Its outlines
// are longer by Spare at each end; its stitching lines, and so the lengths of edges to finish, are not.
// It refuses, as stash.Invalid with what to do, measurements that no garment has.
func Quick(f Form) (pattern.Pattern, error) {
	k, ok := kinds[f.Kind]
	if !ok {
		return pattern.Pattern{}, invalid("Choose one of: "+listed(Kinds())+".", "Outlines of %q are not drafted here", f.Kind)
	}
	if len(f.Sizes) == 0 {
		return pattern.Pattern{}, invalid("Type the measurements of one size at least.", "There is no size to draft")
	}
	q := &quick{Form: f, asks: k.asks, p: k.frame()}
	if err := q.allowances(); err != nil {
		return pattern.Pattern{}, err
	}
	q.p.Name, q.p.Kind, q.p.Notes = f.Name, string(f.Kind), k.notes
	q.p.Approximate, q.p.Spare = true, Spare
	q.p.Levels = q.levels()
	for _, row := range f.Sizes {
		m, err := q.checked(row)
		if err == nil {
			err = k.draft(q, row.Name, m)
		}
		if err != nil {
			return pattern.Pattern{}, ofSize(len(f.Sizes), row.Name, err)
		}
		q.p.Sizes = append(q.p.Sizes, pattern.Size{Name: row.Name, Body: map[string]measure.Length{}, Finished: m.lengths()})
	}
	q.p.Yards = yards(q.p, ShopOf(f.Units))
	return q.p, q.p.Validate()
}

// quick is a pattern while it is drafted.
type quick struct {
	Form
	asks      []Ask
	p         pattern.Pattern
	seam, hem float64
}

func (q *quick) allowances() error {
	if q.Seam < 0 || q.Hem < 0 || q.Seam > mostSeam || q.Hem > mostHem {
		return invalid("A seam takes up to 3 cm, a hem up to 15 cm.", "An allowance is less than zero or wider than anyone leaves")
	}
	q.p.SeamAllowance, q.p.HemAllowance = cmp.Or(q.Seam, UsualSeam), cmp.Or(q.Hem, UsualHem)
	q.seam, q.hem = q.p.SeamAllowance.Millimetres(), q.p.HemAllowance.Millimetres()
	return nil
}

const (
	mostSeam = 3 * measure.Centimetre
	mostHem  = 15 * measure.Centimetre
)

// levels are the measurements of the kind, the needed ones first.
func (q *quick) levels() []pattern.Level {
	var out []pattern.Level
	for _, a := range q.asks {
		out = append(out, pattern.Level{Name: a.Name, Girth: a.Girth})
	}
	return out
}

// put adds an outline in a size to the pattern piece of that place, with the allowances
// asked, longer by what is to spare.
func (q *quick) put(piece int, size string, grain float64, sides []side, notches ...mark) error {
	for i := range sides {
		s := &sides[i]
		switch {
		case s.onFold():
			continue
		case s.name == "hem":
			s.allowance = q.hem
		case s.allowance == sideSeam:
			s.allowance = q.seam
		}
	}
	var at []pattern.Notch
	for _, n := range notches {
		at = append(at, notchOn(sides[n.side], n.share, n.kind))
	}
	o := grainLine(spared(outline(sides, at...)), grain)
	if err := o.Cut.Validate(); err != nil {
		return &crossed{err}
	}
	q.p.Pieces[piece].Outlines[size] = o
	return nil
}

// spared draws a cutting line out lengthwise, Spare at each end, with its notches.
func spared(o pattern.Outline) pattern.Outline {
	b := o.Cut.Bounds()
	out := func(x int64) int64 { return x + int64(Spare)*(2*x-b.Min.X-b.Max.X)/max(b.Length(), 1) }
	for i := range o.Cut {
		o.Cut[i].X = out(o.Cut[i].X)
	}
	for i := range o.Notches {
		o.Notches[i].At.X = out(o.Notches[i].At.X)
	}
	return o
}

// mark is a notch at a share of the way along a side.
type mark struct {
	side  int
	share float64
	kind  string
}

func (s side) onFold() bool {
	return !slices.ContainsFunc(s.pts, func(p pt) bool { return p.y != 0 })
}

// crossed is an outline that came out of measurements which do not go together.
type crossed struct{ err error }

func (c *crossed) Error() string { return "the outline would cross itself" }
func (c *crossed) Unwrap() error { return c.err }

// ofSize names the size where there are several.
func ofSize(sizes int, name string, err error) error {
	var c *crossed
	if errors.As(err, &c) {
		err = invalid("Measure again: one of them does not go with the others.", "No outline comes of these measurements, it would cross itself")
	}
	if sizes == 1 || name == "" {
		return err
	}
	return inSize(name, err)
}

func listed[T ~string](all []T) string {
	out := ""
	for i, v := range all {
		if i > 0 {
			out += ", "
		}
		out += string(v)
	}
	return out
}

// Graded makes rows from the measurements of one size by steps: those of names before base
// are smaller by a step each, those after it larger. Measures without a step stay.
func Graded(base Row, names []string, steps map[string]measure.Length) ([]Row, error) {
	at := slices.Index(names, base.Name)
	if at < 0 {
		return nil, invalid("Name it among them.", "The size %q that was measured is not among the sizes to draft", base.Name)
	}
	for name := range steps {
		if base.Finished[name] == 0 {
			return nil, invalid("Type it for the size measured, or leave its step out.", "There is a step for the %s, but no %s to start from", name, name)
		}
	}
	out := make([]Row, len(names))
	for i, n := range names {
		out[i] = Row{Name: n, Finished: map[string]measure.Length{}}
		for name, l := range base.Finished {
			out[i].Finished[name] = l + measure.Length(i-at)*steps[name]
		}
		if i > 0 && slices.Contains(names[:i], n) {
			return nil, invalid("Give each size a name of its own.", "The size %s comes twice", n)
		}
	}
	return out, nil
}

// UsualSteps are the steps from size to size of girths in the middle of the table that
// Chart names, 2 in, with lengths 1/4 in: what is left out of them does not grow.
func UsualSteps(k Kind, base Row) map[string]measure.Length {
	out := map[string]measure.Length{}
	for _, a := range k.Asks() {
		if base.Finished[a.Name] > 0 && a.step > 0 {
			out[a.Name] = a.step
		}
	}
	return out
}

// String is the name of the kind.
func (k Kind) String() string { return string(k) }

// cmText writes millimetres as centimetres, for what is refused.
func cmText(mm float64) string { return fmt.Sprintf("%.1f cm", mm/10) }
