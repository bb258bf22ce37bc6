package binding

import "math"

// Past is a strip that worked before on the same fabric, finished the same way.
type Past struct {
	Words string  // of what and when: "neck, 3 May"
	Ratio float64 // strip to edge over all that was sewn
}

// Offer is one way to come to a strip's ratios, to be held beside the others.
type Offer struct {
	Basis Basis
	Words string  // of a Past; "" for others
	Ratio float64 // strip to edge over all sewn parts
	Rule  float64 // the job's Rule that gives it; zero where it needs none
	Sewn  float64 // the most that the sewn edge of a part stretches
	Fold  float64 // the most that the free fold of a part stretches
	Slack float64 // the least that a free fold stretches; it ripples where that is negative
	Strip Strip
	// Says is the gravest of what the strip's ratios give rise to; its Text is "" when all is well.
	Says Check
}

// Offers works a job out in every way its ratios can be found: by the curve, by the fabric's
// limit where that is known, by a rule of thumb where one is given, by what worked before, and
// as typed where a part has a typed ratio. Ways that cannot be worked out are left out. A job without
// a sewn part has none.
func Offers(j Job, f FabricFacts, rule float64, past []Past) []Offer {
	var out []Offer
	add := func(by Basis, words string, rule float64) {
		k := j
		k.By, k.Rule = by, rule
		if by != ByHand {
			k.Segments = untyped(j.Segments)
		}
		if s, err := Work(k, f); err == nil {
			out = append(out, offer(by, words, rule, s))
		}
	}
	switch {
	case !sewn(j.Segments):
		return nil
	case typed(j.Segments):
		add(ByHand, "", j.Rule)
	}
	add(ByCurve, "", 0)
	if f.of(j).Stretch > 0 {
		add(ByLimit, "", 0)
	}
	if rule > 0 {
		add(ByRule, "", rule)
	}
	for _, p := range past {
		add(ByLast, p.Words, p.Ratio)
	}
	return out
}

// offer sums a strip up.
func offer(by Basis, words string, rule float64, s Strip) Offer {
	o := Offer{Basis: by, Words: words, Rule: rule, Strip: s, Ratio: s.SewnRatio(), Slack: math.Inf(1), Sewn: math.Inf(-1), Fold: math.Inf(-1)}
	for _, p := range s.Parts {
		if !p.Segment.Free {
			o.Sewn, o.Fold, o.Slack = max(o.Sewn, p.Sewn), max(o.Fold, p.Fold), min(o.Slack, p.Fold)
		}
	}
	for _, c := range s.Checks {
		switch c.Kind {
		case CheckSewn, CheckFold, CheckLimit, CheckNear, CheckLonger, CheckStiff, CheckPasses:
			if graver(c, o.Says) {
				o.Says = c
			}
		}
	}
	return o
}

// graver says whether check c weighs more than d: wrong before near a limit before unknown; what holds
// weighs nothing.
func graver(c, d Check) bool {
	weigh := func(c Check) int {
		switch {
		case c.Text == "" || c.OK && !c.Mind:
			return 0
		case c.Unknown:
			return 1
		case c.OK:
			return 2
		}
		return 3
	}
	return weigh(c) > weigh(d)
}

// SewnRatio is the length of strip to the length of edge over all sewn parts; 1 where
// there is none.
func (s Strip) SewnRatio() float64 {
	strip, edge := 0.0, 0.0
	for _, p := range s.Parts {
		if !p.Segment.Free {
			strip += p.Ratio * float64(p.Segment.Whole())
			edge += float64(p.Segment.Whole())
		}
	}
	if edge == 0 {
		return 1
	}
	return strip / edge
}

func sewn(segments []Segment) bool {
	for _, s := range segments {
		if !s.Free {
			return true
		}
	}
	return false
}

func typed(segments []Segment) bool {
	for _, s := range segments {
		if s.Ratio > 0 && !s.Free {
			return true
		}
	}
	return false
}

// untyped returns the segments without typed ratios of sewn parts.
func untyped(segments []Segment) []Segment {
	out := append([]Segment(nil), segments...)
	for i := range out {
		if !out[i].Free {
			out[i].Ratio = 0
		}
	}
	return out
}
