package planner

import (
	"slices"
	"strings"

	"tallycloth/planner/draft"
	"tallycloth/stash/measure"
)

// QuickWords are what a person typed to have outlines drafted: lengths as she writes them, a
// bare number in Unit.
type QuickWords struct {
	Name string
	Kind draft.Kind
	// Sizes are the names of the sizes, smallest first, parted by commas; Measured is the one
	// the values are of.
	Sizes, Measured string
	// Values by measurement: one, of the size measured, or one for each size, parted by
	// semicolons. Steps from size to size go with a single value.
	Values, Steps map[string]string
	Seam, Hem     string
	Unit          measure.Unit
}

// Form reads what was typed. What cannot be read says of which measurement it is.
func (w QuickWords) Form() (draft.Form, error) {
	f := draft.Form{Name: strings.TrimSpace(w.Name), Kind: w.Kind, Units: measure.Metric}
	if w.Unit == measure.Inch {
		f.Units = measure.Imperial
	}
	var err error
	if f.Seam, err = w.allowance("seam allowance", w.Seam); err == nil {
		f.Hem, err = w.allowance("hem allowance", w.Hem)
	}
	if err != nil {
		return f, err
	}
	names := w.sizeNames()
	base := draft.Row{Name: strings.TrimSpace(w.Measured), Finished: map[string]measure.Length{}}
	if base.Name == "" {
		base.Name = names[len(names)/2]
	}
	steps := map[string]measure.Length{}
	tables := map[string][]measure.Length{}
	for name, text := range w.Values {
		if strings.TrimSpace(text) == "" {
			continue
		}
		values, err := w.lengths(name, text)
		switch {
		case err != nil:
			return f, err
		case len(values) == 1:
			base.Finished[name] = values[0]
			if steps[name], err = w.step(name); err != nil {
				return f, err
			}
		case len(values) != len(names):
			return f, invalid("Write one of the size measured, or one for each size, such as 86; 92; 98", "There are %d values for the %s, and %d sizes", len(values), name, len(names))
		default:
			tables[name] = values
		}
	}
	if f.Sizes, err = draft.Graded(base, names, steps); err != nil {
		return f, err
	}
	for name, values := range tables {
		for i, l := range values {
			f.Sizes[i].Finished[name] = l
		}
	}
	return f, nil
}

// sizeNames are the names of the sizes; none is one size.
func (w QuickWords) sizeNames() []string {
	var out []string
	for _, n := range strings.FieldsFunc(w.Sizes, func(r rune) bool { return r == ',' || r == ';' }) {
		if n = strings.TrimSpace(n); n != "" {
			out = append(out, n)
		}
	}
	if len(out) == 0 {
		return []string{"one size"}
	}
	return slices.Clip(out)
}

func (w QuickWords) lengths(name, text string) ([]measure.Length, error) {
	var out []measure.Length
	for _, t := range strings.Split(text, ";") {
		l, err := measure.ParsePositiveLength(t, w.Unit)
		if err != nil {
			return nil, invalid("Write it such as 92 cm or 36 1/4 in", "The %s %q is not a length", name, strings.TrimSpace(t))
		}
		out = append(out, l)
	}
	return out, nil
}

func (w QuickWords) step(name string) (measure.Length, error) {
	text := strings.TrimSpace(w.Steps[name])
	if text == "" || text == "0" {
		return 0, nil
	}
	l, err := measure.ParsePositiveLength(text, w.Unit)
	if err != nil {
		return 0, invalid("Write it such as 4 cm, or leave it empty where it does not grow", "The step %q for the %s is not a length", text, name)
	}
	return l, nil
}

func (w QuickWords) allowance(name, text string) (measure.Length, error) {
	if strings.TrimSpace(text) == "" {
		return 0, nil
	}
	l, err := measure.ParsePositiveLength(text, w.Unit)
	if err != nil {
		return 0, invalid("Write it such as 7 mm", "The %s %q is not a length", name, strings.TrimSpace(text))
	}
	return l, nil
}
