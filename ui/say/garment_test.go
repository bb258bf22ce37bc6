package say

import (
	"testing"

	"tallycloth/planner/garment"
	"tallycloth/planner/pattern"
)

// What comes next is the next step while steps are noted, and what the state says where nobody notes them.
func TestNextStep(t *testing.T) {
	p := pattern.Pattern{Work: []pattern.Step{{Text: "Cut it."}, {Text: "Sew the seams."}, {Text: "Sew the hem."}}}
	for want, g := range map[string]garment.Garment{
		"Finish the edges and hems":            {State: garment.Fitted},
		"Sew it up to the first try-on":        {State: garment.Cut},
		"3. Sew the hem.":                      {State: garment.Sewing, Record: garment.Record{Done: []garment.Done{{Step: "Sew the seams.", On: "2026-03-02"}}}},
		"Everything is sewn: mark it finished": {State: garment.Sewing, Record: garment.Record{Done: []garment.Done{{Step: "Sew the seams."}, {Step: "Sew the hem."}}}},
	} {
		if got := NextStep(g, g.Steps(p)); got != want {
			t.Errorf("%s: got %q, want %q", g.State, got, want)
		}
	}
}
