package draft

import (
	"errors"
	"fmt"

	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// measured is one size in millimetres by the names of its measurements.
type measured map[string]float64

func invalid(do, what string, args ...any) error {
	return &stash.Error{Kind: stash.Invalid, What: fmt.Sprintf(what, args...), Do: do}
}

// inSize names the size that is refused, in what a person reads too.
func inSize(name string, err error) error {
	var e *stash.Error
	if !errors.As(err, &e) {
		return fmt.Errorf("size %s: %w", name, err)
	}
	of := *e
	of.What += ", in size " + name
	return &of
}

// lengths are the measurements as kept.
func (m measured) lengths() map[string]measure.Length {
	out := map[string]measure.Length{}
	for name, v := range m {
		out[name] = length(v)
	}
	return out
}

// rule gives what was left out.
func (m measured) rule(name string, mm float64) float64 {
	if m[name] == 0 {
		m[name] = mm
	}
	return m[name]
}

// checked reads a row: what is needed must be there, and each must lie in what a garment
// can measure.
func (q *quick) checked(row Row) (measured, error) {
	m := measured{}
	known := map[string]bool{}
	for _, a := range q.asks {
		known[a.Name] = true
		l := row.Finished[a.Name]
		mm := l.Millimetres()
		switch {
		case l == 0 && a.Needed:
			return nil, invalid("Measure it "+a.Where+".", "The %s is missing", a.Name)
		case l == 0:
			continue
		case mm < a.least || mm > a.most:
			return nil, invalid(fmt.Sprintf("It is measured %s, and lies between %s and %s.", a.Where, cmText(a.least), cmText(a.most)), "A %s of %s cannot be", a.Name, cmText(mm))
		}
		m[a.Name] = mm
	}
	for name, l := range row.Finished {
		if !known[name] && l != 0 {
			return nil, invalid("Leave it out.", "A %s is not asked for a %s", name, q.Kind)
		}
	}
	return m, m.together()
}

// pair refuses one measurement that is more than so many times another.
type pair struct {
	name, of string
	most     float64
	do       string
}

// pairs are what of two measurements cannot be on one garment (ours, wide on purpose).
var pairs = []pair{
	{pattern.Bust, pattern.Hip, 1.8, "Measure both all the way round, not half."},
	{pattern.Hip, pattern.Bust, 1.8, "Measure both all the way round, not half."},
	{pattern.Waist, pattern.Hip, 1.15, "Measure the top as it lies, without stretching it."},
	{pattern.Hip, pattern.Waist, 2, "Measure the top as it lies, and spread an elastic out flat."},
	{pattern.Waist, pattern.Bust, 1.5, "Measure both all the way round, not half."},
	{pattern.Bust, pattern.Waist, 1.8, "Measure both all the way round, not half."},
	{UpperArm, pattern.Bust, 0.75, "Measure round one sleeve, below the underarm."},
	{Wrist, UpperArm, 1.4, "Measure round one sleeve, at its hem."},
	{pattern.Thigh, pattern.Hip, 0.85, "Measure round one leg, at the crotch."},
	{LegOpening, pattern.Thigh, 1.4, "Measure round one leg, at its hem."},
	{LegOpening, pattern.Hip, 0.85, "Measure round one leg, at its hem."},
	{HemGirth, pattern.Hip, 2.5, "A wider hem than this is cut as part of a circle, which is not drafted here."},
	{pattern.Hip, HemGirth, 1.3, "Measure the hem all the way round, not half."},
	{NeckWidth, Shoulders, 0.8, "Measure both straight across."},
}

func (m measured) together() error {
	for _, p := range pairs {
		a, b := m[p.name], m[p.of]
		if a > 0 && b > 0 && a > p.most*b {
			return invalid(p.do, "A %s of %s does not go with a %s of %s", p.name, cmText(a), p.of, cmText(b))
		}
	}
	return nil
}
