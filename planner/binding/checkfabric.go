package binding

import (
	"fmt"
	"math"

	"tallycloth/stash/measure"
)

// limitChecks compare ratios with the fabric's limit; what fails, or is near it, says how
// narrow a finish would do: from k(1 − θh/L) ≥ r the width is at most (1 − r/k)·L/θ.
func (s Strip) limitChecks(f FabricFacts) []Check {
	var out []Check
	for _, p := range s.Parts {
		if p.Least == 0 || p.Ratio >= p.Least+nearLimit-slack || p.Basis == ByLimit || p.Basis == DrawnFor {
			continue
		}
		c := Check{Kind: CheckLimit, Part: p.Segment.Name, Value: p.Ratio, Limit: p.Least, Do: "Take it in less there."}
		words := "%s: a strip of %s of its edge is less than this fabric likes, %s%s"
		wanted := p.Least
		if p.Ratio >= p.Least-slack {
			c.Kind, c.OK, c.Mind = CheckNear, true, true
			words, wanted = "%s: a strip of %s of its edge is near this fabric's limit, %s%s", p.Least+nearLimit
		}
		c.Text = fmt.Sprintf(words, named(p.Segment.Name), tenths(p.Ratio), tenths(p.Least), assumed(f))
		if p.Basis == ByCurve {
			c.Do = s.narrower(p, wanted)
		}
		out = append(out, c)
	}
	return out
}

// tenths writes a ratio in tenths of a percent, so that two that differ look different.
func tenths(f float64) string {
	return measure.FormatPercent((measure.PercentOf(f) + 5) / 10 * 10)
}

// narrower says how wide the finish may be for a part's curve to ask a ratio at least.
func (s Strip) narrower(p StripPart, ratio float64) string {
	if whole, ok := s.roomFor((1 - ratio/holdIn(s.Job)) * float64(p.Segment.Whole()) / math.Abs(p.Segment.Turning)); ok {
		return fmt.Sprintf("Make the finish narrower: at most %s.", s.say(whole))
	}
	return "Choose a fabric that stretches more, or hold it in less."
}

// roomFor rounds a width down to a ruler's marks; false where that is no finish, or
// none narrower than this one.
func (s Strip) roomFor(width float64) (measure.Length, bool) {
	step := measure.Length(measure.Millimetre)
	if s.Job.Units == measure.Imperial {
		step = measure.Inch / 16
	}
	// A tenth of a finger is no finish: then only another fabric helps.
	whole := measure.Length(math.Max(0, math.Min(width, float64(longestEdge)))) / step * step
	return whole, whole >= 2*step && whole < s.Job.Finish.Width
}

// stiffChecks find curves that ask more of the fabric than it has at any ratio: where the
// edge turns, sewn edge and fold differ by θh/L of the longer of them, and the longer must stretch by
// e = |θ|h ÷ the shorter. Derived here; e ≤ usable stretch S gives the width (L/|θ|)·S/(1 + S) where
// the fold is the shorter, (L/|θ|)·S where the sewn edge is.
func (s Strip) stiffChecks(f FabricFacts) []Check {
	if !f.known() {
		return nil
	}
	limit := f.usable(f.Stretch)
	reach := math.Abs(float64(s.Job.Finish.Reach()))
	var out []Check
	for _, p := range s.Parts {
		turn, l := math.Abs(p.Segment.Turning), float64(p.Segment.Whole())
		if p.Segment.Free || turn == 0 {
			continue
		}
		most := math.Max(l, l-p.Segment.Turning*float64(s.Job.Finish.Reach()))
		need := turn * reach / math.Max(most-turn*reach, 1)
		if need <= limit+slack {
			continue
		}
		c := Check{Kind: CheckStiff, Part: p.Segment.Name, Value: need, Limit: limit,
			Text: fmt.Sprintf("%s: the strip is too stiff for this curve at any ratio: one edge must stretch %s more than the other, the fabric gives %s in comfort%s",
				named(p.Segment.Name), percent(need), percent(limit), assumed(f)),
			Do: "Choose a fabric that stretches more, or cut the strip on the bias."}
		room := l / turn * limit
		if most == l {
			room /= 1 + limit
		}
		if whole, ok := s.roomFor(room); ok {
			c.Do = fmt.Sprintf("Make the finish narrower: at most %s. Or choose a fabric that stretches more.", s.say(whole))
		}
		out = append(out, c)
	}
	return out
}

// wide tells of a strip that is longer than the fabric gives in one.
func (s Strip) wide(f FabricFacts) []Check {
	if f.Across <= 0 || s.CutLength <= f.Across || s.Job.Finish.Technique.Bought() {
		return nil
	}
	c := Check{Kind: CheckWide, OK: true, Mind: true, Value: float64(s.CutLength), Limit: float64(f.Across)}
	n := 2
	if take := s.Job.JoinTake(s.CutWidth); f.Across > take {
		n = int((s.CutLength - take + f.Across - take - 1) / (f.Across - take))
	}
	switch s.Job.Grain {
	case Lengthwise:
		c.Text = fmt.Sprintf("The strip, %s, is longer than the cloth, %s", s.say(s.CutLength), s.say(f.Across))
		c.Do = fmt.Sprintf("Join it from %d lengths.", n)
	case Bias:
		c.Text = fmt.Sprintf("The strip, %s, is longer than one cut on the bias, %s", s.say(s.CutLength), s.say(f.Across))
		c.Do = fmt.Sprintf("Join it from %d lengths, or cut continuous bias.", n)
	default:
		c.Text = fmt.Sprintf("The strip, %s, is longer than the fabric is wide, %s", s.say(s.CutLength), s.say(f.Across))
		c.Do = fmt.Sprintf("Join it from %d lengths, or lay it over the fold of a tube; cut lengthwise it stretches as the fabric does that way.", n)
	}
	return []Check{c}
}

// nap tells how a nap or a print lies on the strip.
func (s Strip) nap(f FabricFacts) []Check {
	if s.Job.Finish.Technique.Bought() || !f.OneWay && f.Repeat <= 0 {
		return nil
	}
	c := Check{Kind: CheckNap, OK: true, Mind: true, Value: float64(f.Repeat)}
	what := "nap or print"
	if !f.OneWay {
		what = "print"
	}
	alike := "Mark the same long edge of every strip and sew that one to the garment, joined lengths too."
	switch s.Job.Grain {
	case Lengthwise:
		c.Text = fmt.Sprintf("The %s runs along the strip: round a ring it goes up one side and down the other", what)
		c.Do = "Begin every strip at the same end of the cloth."
	case Bias:
		c.Text = fmt.Sprintf("The %s runs slanting over the strip, on a pair both times the same way and not mirrored", what)
		c.Do = alike
	default:
		c.Text = fmt.Sprintf("The %s runs across the strip: towards the garment or away from it all round", what)
		c.Do = alike
	}
	if f.Repeat > 0 && s.Job.Grain != Lengthwise {
		c.Text += fmt.Sprintf("; a finish of %s shows %s of a repeat of %s", s.say(s.Job.Finish.Width),
			percent(float64(s.Job.Finish.Width)/float64(f.Repeat)), s.say(f.Repeat))
		if s.Job.Grain == Crosswise {
			c.Do += " To look alike, begin every strip at the same place of the print."
		}
	}
	return []Check{c}
}
