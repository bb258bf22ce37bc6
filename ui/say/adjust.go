package say

import (
	"tallycloth/planner/adjust"
	"tallycloth/planner/pattern"
	"tallycloth/planner/sizing"
	"tallycloth/stash/measure"
)

// Adjustment says an adjustment of a garment.
func (v Voice) Adjustment(s adjust.Step) string {
	out := s.Words(v.style(measure.PieceLength).Exact)
	if s.AfterCut {
		out += " (found after it was cut)"
	}
	return out
}

// Kept says an adjustment that is kept for a person: "take in 1 cm at the waist, kept since 2 Mar 2026".
func (v Voice) Kept(k sizing.Kept) string {
	out := v.Adjustment(k.Step)
	if k.On != "" {
		out += ", kept since " + Day(k.On)
	}
	return out
}

// Adjusted says what became of a garment's measurements in one size, before and after an
// adjustment: finished measurements first, then the edges to finish, as "waist 72 cm, now 68 cm".
func (v Voice) Adjusted(before, after pattern.Pattern) []string {
	var out []string
	add := func(name string, was, now measure.Length) {
		if was != now {
			out = append(out, name+" "+v.Fine(was)+", now "+v.Fine(now))
		}
	}
	if len(before.Sizes) == 0 || len(after.Sizes) == 0 {
		return nil
	}
	a, b := before.Sizes[0], after.Sizes[0]
	for _, l := range before.Levels {
		if _, known := a.Finished[l.Name]; known {
			add(l.Name, a.Finished[l.Name], b.Finished[l.Name])
		}
	}
	for _, e := range before.Edges {
		f, ok := after.Edge(e.Name)
		if !ok {
			continue
		}
		add("edge "+e.Name, edgeLength(before, e, a.Name), edgeLength(after, f, b.Name))
	}
	return out
}

func edgeLength(p pattern.Pattern, e pattern.Edge, size string) measure.Length {
	sum := measure.Length(0)
	parts, _ := p.Measure(e, size)
	for _, s := range parts {
		sum += s.Length
	}
	return sum
}
