package binding

import (
	"cmp"
	"slices"

	"tallycloth/stash/measure"
)

// marks places, in order along the strip: its start and end where those are not its cut ends,
// centre and quarter points of the strip (found by folding it), and the marks at the ends of segments.
func marks(s Strip) []Mark {
	before, _ := s.ends()
	var out []Mark
	at := func(name string, onStrip measure.Length) {
		out = append(out, Mark{Name: name, FromEnd: before + onStrip, FromCentre: onStrip - s.Length/2, OnEdge: s.onEdge(onStrip)})
	}
	at("start", 0)
	at("quarter", s.Length/4)
	at("centre", s.Length/2)
	at("three quarters", s.Length-s.Length/4)
	edge, last := measure.Length(0), ""
	for i, p := range s.Parts {
		edge += p.Segment.Whole()
		name := p.Segment.Mark
		if p.Segment.Catches != "" {
			name = joinWords(name, "end of "+p.Segment.Catches)
		}
		switch {
		case i == len(s.Parts)-1:
			last = name
		case name != "":
			at(name, p.From+p.Length-before)
			out[len(out)-1].OnEdge = edge
		}
	}
	at(joinWords("end", last), s.Length)
	if s.Job.Closed { // where it ends it begins
		out[0].Name = joinWords("start", last)
	}
	slices.SortStableFunc(out, func(a, b Mark) int { return cmp.Compare(a.FromEnd, b.FromEnd) })
	return out
}

func joinWords(a, b string) string {
	if a == "" || b == "" {
		return a + b
	}
	return a + ", " + b
}

// onEdge returns where a place on the strip lies on the edge, in proportion within its part.
func (s Strip) onEdge(onStrip measure.Length) measure.Length {
	edge, strip := measure.Length(0), measure.Length(0)
	for _, p := range s.Parts {
		if onStrip <= strip+p.Length && p.Length > 0 {
			return edge + rounded(float64(onStrip-strip)*float64(p.Segment.Whole())/float64(p.Length))
		}
		edge, strip = edge+p.Segment.Whole(), strip+p.Length
	}
	return edge
}

// Row is a mark as it is read off a ruler, rounded.
type Row struct {
	Mark
	// FromEnd, FromCentre and OnEdge of Mark, rounded to the ruler.
	// Step is from the mark before, so that steps sum to FromEnd.
	Step measure.Length
}

// Table returns the marks rounded to 1/16 in or 1 mm. Each place is rounded on its own,
// from the strip's end, so rounding never accumulates: no mark is off by more than half a
// step, and the steps between them sum to the last one exactly.
func (s Strip) Table(units measure.System) []Row {
	out := make([]Row, len(s.Marks))
	last := measure.Length(0)
	for i, m := range s.Marks {
		r := Row{Mark: Mark{Name: m.Name, FromEnd: Ruled(m.FromEnd, units), FromCentre: Ruled(m.FromCentre, units), OnEdge: Ruled(m.OnEdge, units)}}
		r.Step = r.FromEnd - last
		last = r.FromEnd
		out[i] = r
	}
	return out
}

// Ruled rounds a length to the marks of a ruler: 1 mm or 1/16 in, half away from zero.
func Ruled(l measure.Length, units measure.System) measure.Length {
	if l < 0 {
		return -Ruled(-l, units)
	}
	if units == measure.Metric {
		return (l + measure.Millimetre/2) / measure.Millimetre * measure.Millimetre
	}
	sixteenths := (32*l + measure.Inch) / (2 * measure.Inch)
	return (2*sixteenths*measure.Inch + 16) / 32
}
