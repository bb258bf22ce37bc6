package draft

import (
	"tallycloth/planner/pattern"
	"tallycloth/stash"
)

// DemoPatterns are the studio's own patterns, graded over Chart, with IDs from newID:
// tank, sleep shirt and shorts, the same on every call but for the IDs.
func DemoPatterns(newID func() stash.ID) []pattern.Pattern {
	chart := Chart()
	out := []pattern.Pattern{Tank(chart), Tee(chart), Shorts(chart)}
	for i := range out {
		out[i].ID = newID()
		out[i].Yards = demoYards(out[i])
	}
	return out
}
