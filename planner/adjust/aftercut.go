package adjust

import (
	"fmt"

	"tallycloth/planner/pattern"
	"tallycloth/stash/measure"
)

// MayAfterCut says what cloth that is cut already does not allow: a seam can only be let out by
// its allowance, a hem let down by its own, and no piece becomes another one.
func (s Step) MayAfterCut(p pattern.Pattern) error {
	switch {
	case s.Kind == Panels || s.Kind == Mirror:
		return invalid("the cloth is cut already", "Note it on the next garment, before its cloth is cut.")
	case s.Kind == TakeIn && -s.Amount > p.SeamAllowance:
		return onlyAllowance("let out", p.SeamAllowance)
	case s.Kind == Hem && (s.Amount > p.HemAllowance || s.Round > 0):
		return onlyAllowance("let down", p.HemAllowance)
	case s.Kind == Lengthen && s.Amount > 0:
		return invalid("the cloth is cut already and cannot become longer at a line", "Let the hem down, or note it on the next garment.")
	}
	return nil
}

func onlyAllowance(what string, l measure.Length) error {
	if l == 0 {
		return invalid("there is no allowance that could be "+what, "Note it on the next garment, before its cloth is cut.")
	}
	return invalid(fmt.Sprintf("only the allowance of %.1f cm can be %s once the cloth is cut", l.Millimetres()/10, what),
		"Choose less, or note it on the next garment.")
}

// BeforeCut are the steps that were found before the cloth was cut: they change what is cut.
func BeforeCut(steps []Step) []Step {
	var out []Step
	for _, s := range steps {
		if !s.AfterCut {
			out = append(out, s)
		}
	}
	return out
}

// NextTime are the steps as the next garment takes them over, before its cloth is cut.
func NextTime(steps []Step) []Step {
	var out []Step
	for _, s := range steps {
		s.AfterCut = false
		out = append(out, s)
	}
	return out
}
