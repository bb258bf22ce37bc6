package binding

import (
	"fmt"
	"math"

	"tallycloth/stash/measure"
)

// Work works a job out: widths, lengths, ratios, marks and checks.
//
// The ratio of a segment is, in this order: the one typed; the job's rule of thumb
// shared out; by the curve. Free parts are cut to the length wanted ÷ (1 + drawn out).
// A strip that is stretched when sewn is cut wider, see narrowed. A check that fails
// does not stop it: the strip is worked out and says what to change.
//
// Errors say what is missing or cannot be: no segments, a length of zero, a finish wider
// than its curve has room for, a ratio or hold-in far outside what cloth does.
func Work(j Job, f FabricFacts) (Strip, error) {
	width, err := j.Finish.CutWidth()
	if err != nil {
		return Strip{}, fmt.Errorf("%s: %w", named(j.Name), err)
	}
	if err := j.check(); err != nil {
		return Strip{}, fmt.Errorf("%s: %w", named(j.Name), err)
	}
	f = f.of(j)
	s := Strip{Job: j, Parts: ratioed(j, f)}
	most := 0.0
	for i := range s.Parts {
		p := &s.Parts[i]
		if p.Ratio <= 0 {
			return Strip{}, fmt.Errorf("%s: %w", named(j.Name), invalid(
				fmt.Sprintf("the finish is wider than the curve of %s has room for", named(p.Segment.Name)), "Make the finish narrower, or check how far the curve turns."))
		}
		p.stretches(j.Finish.Reach())
		most = max(most, p.Sewn)
	}
	s.CutWidth = narrowed(width, most, f)
	s.layOut()
	s.Marks = marks(s)
	s.Checks = checks(s, f)
	return s, nil
}

// layOut gives every part its place on the strip. Ends of parts are rounded once,
// from the strip's start, so that lengths sum to the whole.
func (s *Strip) layOut() {
	before, after := s.ends()
	var strip float64
	last := measure.Length(0)
	s.ClearElastic = 0
	for i := range s.Parts {
		p := &s.Parts[i]
		strip += p.Ratio * float64(p.Segment.Whole())
		end := rounded(strip)
		p.From, p.Length = before+last, end-last
		last = end
		if p.Segment.Free && s.Job.ClearElastic {
			s.ClearElastic += p.Segment.Whole()
		}
	}
	s.Length, s.CutLength = last, before+last+after
}

// ends returns what is cut beyond the strip's length before its start and after its
// end: half of the closing join each for a ring; for an open strip the extra and the lap at
// a free end, a seam where the end is caught.
func (s Strip) ends() (before, after measure.Length) {
	j := s.Job
	if j.Closed {
		take := j.JoinTake(s.CutWidth)
		return take / 2, take - take/2
	}
	end := func(p StripPart) measure.Length {
		if p.Segment.Free {
			return j.EndExtra + j.Lap
		}
		return j.joinSeam()
	}
	return end(s.Parts[0]), end(s.Parts[len(s.Parts)-1])
}

// narrowed returns the width to cut a strip that narrows while it is sewn stretched by
// e: w/(1 − n). The bench reads the narrowing N at bench stretch S; at e it is taken in
// proportion, n = N·e/S, at most N (derived here: small strains are near enough linear).
// Where S is not known it is N.
func narrowed(w measure.Length, e float64, f FabricFacts) measure.Length {
	n := f.Narrowing.Fraction()
	if s := f.Stretch.Fraction(); s > 0 {
		n *= min(1, max(0, e)/s)
	}
	if n <= 0 || n >= 1 {
		return w
	}
	return rounded(float64(w) / (1 - n))
}

// Bounds of what is taken for meant.
const (
	leastRatio, mostRatio   = 0.4, 1.5
	leastHoldIn, mostHoldIn = 0.8, 1.05
	longestEdge             = 100 * measure.Metre
	mostCount               = 1000
	mostDrawn               = 0.5
)

// check refuses what cannot be worked out.
func (j Job) check() error {
	switch {
	case len(j.Segments) == 0:
		return invalid("there is no edge yet", "Type the length of the edge, or choose an opening of a pattern.")
	case j.Count < 0 || j.Count > mostCount:
		return invalid(fmt.Sprintf("%d strips cannot be cut", j.Count), fmt.Sprintf("Type a number from 1 to %d.", mostCount))
	case j.HoldIn != 0 && !between(j.HoldIn, leastHoldIn, mostHoldIn):
		return invalid(fmt.Sprintf("a hold-in of %.4g is outside what a strip takes", j.HoldIn), "Type 0.92 to 0.98; 0.95 is usual.")
	case j.Rule != 0 && !between(j.Rule, leastRatio, mostRatio):
		return invalid(fmt.Sprintf("a strip of %.4g of its edge cannot be sewn", j.Rule), "Type for instance 85 % for jersey or 75 % for rib.")
	case !between(j.Drawn, 0, mostDrawn):
		return invalid("free parts do not draw out that far", "Type how much longer a strap became in sewing, usually about 3 %.")
	case j.EndExtra < 0 || j.Lap < 0 || j.JoinSeam < 0 || j.Passes < 0:
		return invalid("a length is negative", "Type zero or more.")
	}
	total := measure.Length(0)
	for i, s := range j.Segments {
		if err := s.check(i); err != nil {
			return err
		}
		total += s.Whole()
	}
	if total > longestEdge {
		return invalid("the edge is longer than 100 m", "Check the lengths and their units.")
	}
	return nil
}

func (s Segment) check(i int) error {
	name := s.Name
	if name == "" {
		name = fmt.Sprintf("part %d", i+1)
	}
	switch {
	case s.Length <= 0 || s.Whole() <= 0 || s.Length > longestEdge:
		return invalid(fmt.Sprintf("%s has no length", name), "Type its length on the stitching line.")
	case math.IsNaN(s.Turning) || math.Abs(s.Turning) > 4*math.Pi:
		return invalid(fmt.Sprintf("%s turns more than twice round", name), "Type how far the curve turns; a whole ring turns 360°.")
	case s.Ratio != 0 && !between(s.Ratio, leastRatio, mostRatio):
		return invalid(fmt.Sprintf("%s: a strip of %.4g of its edge cannot be sewn", name, s.Ratio), "Type a ratio from 0.7 to 1.")
	case s.Share < 0 || math.IsNaN(s.Share) || math.IsInf(s.Share, 0):
		return invalid(fmt.Sprintf("%s: its share is negative", name), "Type zero or more.")
	}
	return nil
}

func between(v, low, high float64) bool { return v >= low && v <= high }

// named gives what has no name one.
func named(name string) string {
	if name == "" {
		return "the strip"
	}
	return name
}
