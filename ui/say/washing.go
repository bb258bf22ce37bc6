package say

import (
	"tallycloth/planner"
	"tallycloth/stash/measure"
)

// Odd says a change of size that looks like a slip: "it was 2.30 m long and would be 23 m, 900 %
// more".
func (v Voice) Odd(o *planner.Odd) string {
	write, what := v.Length, " long"
	if o.Across {
		write, what = v.Width, " wide"
	}
	by := measure.PercentOf(float64(o.To-o.From) / float64(o.From))
	text := "it was " + write(o.From) + what + " and would be " + write(o.To)
	if by < 0 {
		return text + ", " + Percent(-by) + " less"
	}
	return text + ", " + Percent(by) + " more"
}

// Changed says what washing did: "shrank 5 % in length, grew 1 % in width".
func Changed(along, across measure.Percent) string {
	one := func(p measure.Percent) string {
		switch {
		case p < 0:
			return "shrank " + Percent(-p)
		case p > 0:
			return "grew " + Percent(p)
		}
		return "kept its size"
	}
	if (along < 0) == (across < 0) && along != 0 && across != 0 {
		return one(along) + " in length, " + Percent(max(across, -across)) + " in width"
	}
	return one(along) + " in length, " + one(across) + " in width"
}
