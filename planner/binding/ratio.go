package binding

import (
	"cmp"
	"math"

	"tallycloth/stash/measure"
)

// Numbers of the trade and our own, see each.
const (
	// HoldIn is how far a strip is held in on a straight edge, k (`common practice`: 0.92–0.98).
	HoldIn = 0.95
	// UsableShare is how much of bench stretch is used in wear (ours).
	UsableShare = 80 * measure.OnePercent
	// sewnShare is how much of bench stretch a strip may be stretched on average
	// when sewn, for the limit of a ratio (ours): S 40 % gives 0.86, 100 % gives 0.71.
	sewnShare = 0.4
	// DrawnOut is how far straps and ties draw out in sewing where it was not measured (ours).
	DrawnOut = 0.03
	// FreeEndExtra is left at a free end until the try-on (`common practice`: 5–8 cm).
	FreeEndExtra = 6 * measure.Centimetre
	// PassingEase is what a closed opening must be longer than the girth it passes (ours).
	PassingEase = 2 * measure.Centimetre
	// nearLimit is how close to the fabric's limit a ratio is warned of (ours).
	nearLimit = 0.02
	// StrapRecovery is good recovery, from memory; straps of less hang longer by evening.
	StrapRecovery = 90 * measure.OnePercent
)

// LeastRatio returns the limit that bench stretch S sets, 1/(1 + 0.4 S) (ours): 40 %
// gives 0.86, 100 % gives 0.71.
func LeastRatio(stretch measure.Percent) float64 {
	return 1 / (1 + sewnShare*stretch.Fraction())
}

// CurveRatio returns r = k(1 − θh/L): the strip to the edge so that its free fold,
// h beyond the stitching line, lies flat when it is held in by k.
//
// Derived here: a curve of length L that turns by θ has, h further in, the length
// L − θh (for an arc θR − θh; for any smooth curve by summing arcs). A strip of that
// length is slack nowhere along its fold; k takes it in a little more. Check: a flat ring
// of 60 cm with h = 2 cm has the inner edge 60 − 2π·2 = 47.43 cm.
//
// Zero or negative where the finish is wider than the curve has room for; L must be
// more than zero.
func CurveRatio(holdIn, turning float64, reach, length measure.Length) float64 {
	return holdIn * fold(turning, reach, length)
}

// fold is 1 − θh/L: the free fold's place to the stitching line.
func fold(turning float64, reach, length measure.Length) float64 {
	return 1 - turning*float64(reach)/float64(length)
}

// most is the greatest ratio: a knit strip is never longer than its edge; bias
// strips of wovens may be eased on.
func most(j Job, f FabricFacts) float64 {
	if j.Grain == Bias && !f.Knit {
		return math.Inf(1)
	}
	return 1
}

// ratioed fills in the ratios of all parts.
func ratioed(j Job, f FabricFacts) []StripPart {
	parts := make([]StripPart, len(j.Segments))
	for i, s := range j.Segments {
		p := StripPart{Segment: s, Curve: 1, Ratio: 1}
		switch {
		case s.Free:
			p.Ratio, p.Basis = 1/(1+j.Drawn), DrawnFor
		default:
			p.Curve = min(CurveRatio(holdIn(j), s.Turning, j.Finish.Reach(), s.Whole()), most(j, f))
			p.Ratio, p.Basis = p.Curve, ByCurve
		}
		if f.Stretch > 0 && !s.Free {
			p.Least = LeastRatio(f.Stretch)
		}
		parts[i] = p
	}
	if j.Rule > 0 && j.By != ByCurve && j.By != ByLimit {
		shareOut(parts, j.Rule, cmp.Or(j.By, ByRule))
	}
	for i, p := range parts {
		if j.By == ByLimit && p.Least > 0 {
			parts[i].Ratio, parts[i].Basis = p.Least, ByLimit
		}
		if p.Segment.Ratio > 0 {
			parts[i].Ratio, parts[i].Basis = p.Segment.Ratio, ByHand
		}
	}
	return parts
}

func holdIn(j Job) float64 {
	if j.HoldIn == 0 {
		return HoldIn
	}
	return j.HoldIn
}

// shareOut gives a rule of thumb R, which belongs to the whole edge, to its sewn
// parts: together they are R of the edge, and each is taken in in proportion to its
// Share, or where none is given to what its curve asks, (1 − r)·L: most in the front
// curve, little at the back. Derived here.
func shareOut(parts []StripPart, rule float64, basis Basis) {
	var edge, weights float64
	for _, p := range parts {
		if !p.Segment.Free {
			edge += float64(p.Segment.Whole())
			weights += weight(p)
		}
	}
	for i, p := range parts {
		if p.Segment.Free {
			continue
		}
		r := rule
		if weights > 0 {
			r = 1 - (1-rule)*edge*weight(p)/weights/float64(p.Segment.Whole())
		}
		parts[i].Ratio, parts[i].Basis = r, basis
	}
}

// weight is a part's share of what a rule of thumb takes in.
func weight(p StripPart) float64 {
	if p.Segment.Share > 0 {
		return p.Segment.Share * float64(p.Segment.Whole())
	}
	return max(0, 1-p.Curve) * float64(p.Segment.Whole())
}

// stretches fills in the two stretches of a part: of the sewn edge, 1/r − 1, and
// of the free fold, (1 − θh/L)/r − 1. A free part has one, as drawn out.
func (p *StripPart) stretches(reach measure.Length) {
	p.Sewn = 1/p.Ratio - 1
	p.Fold = p.Sewn
	if !p.Segment.Free {
		p.Fold = fold(p.Segment.Turning, reach, p.Segment.Whole())/p.Ratio - 1
	}
}

func rounded(f float64) measure.Length { return measure.Length(math.Round(f)) }
