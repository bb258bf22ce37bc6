package binding

import (
	"cmp"
	"fmt"
	"math"

	"tallycloth/stash/measure"
)

// CheckKind says what a check is about.
type CheckKind string

// The kinds of check.
const (
	CheckSewn      CheckKind = "sewn edge"
	CheckFold      CheckKind = "free fold"
	CheckLimit     CheckKind = "fabric's limit"
	CheckPasses    CheckKind = "opening"
	CheckStitch    CheckKind = "stitch"
	CheckSecondRow CheckKind = "second row"
	CheckRecovery  CheckKind = "recovery"
	CheckLonger    CheckKind = "longer than its edge"
	CheckNear      CheckKind = "near the limit"
	CheckStiff     CheckKind = "too stiff"
	CheckWide      CheckKind = "longer than the fabric is wide"
	CheckNap       CheckKind = "nap or print"
	CheckCrosses   CheckKind = "crossing"
)

// Check is one check in words.
type Check struct {
	Kind CheckKind
	Part string // the segment it is about, or "" for the whole strip
	OK   bool
	// Mind says that it holds and yet wants care: Do says what.
	Mind bool
	// Unknown says that it cannot be told; OK is false then.
	Unknown bool
	Text    string
	Do      string // what to change when it is not, or what to mind
	// Value and Limit are what was compared: fractions of stretch, ratios, or µm.
	Value, Limit float64
}

// slack lets a value on its limit pass in floating point.
const slack = 1e-9

// checks makes all checks of a strip.
func checks(s Strip, f FabricFacts) []Check {
	var out []Check
	out = append(out, s.stretchChecks(f)...)
	out = append(out, s.limitChecks(f)...)
	out = append(out, s.stiffChecks(f)...)
	if s.Job.Passes > 0 && s.Job.Closed {
		out = append(out, s.passes(f))
	}
	if s.Job.Finish.SecondRow > 0 {
		out = append(out, s.secondRow())
	}
	if s.Job.Lockstitch && f.Knit && !(s.Job.Passes > 0 && s.Job.Closed) {
		out = append(out, Check{Kind: CheckStitch, Text: "A plain straight lockstitch does not stretch with this edge", Do: "Sew it with a narrow zigzag, a stretch stitch or an overlocker."})
	}
	out = append(out, s.recovery(f)...)
	out = append(out, s.wide(f)...)
	out = append(out, s.nap(f)...)
	return append(out, s.crosses()...)
}

// known says whether the fabric's stretch is known or assumed; a woven with no
// stretch at all is known by what else was measured.
func (f FabricFacts) known() bool { return f.Stretch > 0 || f.Recovery > 0 || f.Assumed }

// usable is the stretch that may be used, a fraction.
func (f FabricFacts) usable(stretch measure.Percent) float64 {
	share := f.Usable
	if share == 0 {
		share = UsableShare
	}
	return share.Fraction() * stretch.Fraction()
}

// stretchChecks are the two checks of every part: the sewn edge and the free fold, both
// between nothing and usable stretch. Parts that hold are told in one line for each.
func (s Strip) stretchChecks(f FabricFacts) []Check {
	if !f.known() {
		most := s.most(func(p StripPart) float64 { return max(p.Sewn, p.Fold) })
		if s.Job.Finish.Technique.Bought() {
			return []Check{s.pull(most)}
		}
		return []Check{{Kind: CheckSewn, Unknown: true, Value: most,
			Text: fmt.Sprintf("The strip is stretched up to %s when sewn; whether its fabric gives that is not known", percent(most)), Do: "Choose the fabric, or measure its stretch."}}
	}
	limit := f.usable(f.Stretch)
	sewn := s.stretchCheck(CheckSewn, limit, func(p StripPart) float64 { return p.Sewn }, f)
	return append(sewn, s.stretchCheck(CheckFold, limit, func(p StripPart) float64 { return p.Fold }, f)...)
}

// pull says how elastic that is bought is tried before it is cut.
func (s Strip) pull(most float64) Check {
	mark := measure.Length(10 * measure.Centimetre)
	if s.Job.Units == measure.Imperial {
		mark = 4 * measure.Inch
	}
	to := rounded(float64(mark) * (1 + max(most, 0)))
	return Check{Kind: CheckSewn, Unknown: true, Value: most,
		Text: fmt.Sprintf("The elastic is stretched up to %s when sewn; whether it gives that is not known", percent(most)),
		Do:   fmt.Sprintf("Pull %s of it along a ruler: it must reach %s with ease, and spring back.", s.say(mark), s.say(to))}
}

func (s Strip) most(of func(StripPart) float64) float64 {
	most := math.Inf(-1)
	for _, p := range s.Parts {
		most = max(most, of(p))
	}
	return most
}

func (s Strip) stretchCheck(kind CheckKind, limit float64, of func(StripPart) float64, f FabricFacts) []Check {
	var out []Check
	for _, p := range s.Parts {
		v := of(p)
		c := Check{Kind: kind, Part: p.Segment.Name, Value: v, Limit: limit}
		switch {
		case p.Segment.Free && kind == CheckFold:
			continue
		case v > limit+slack:
			c.Text = fmt.Sprintf("%s: the %s is stretched %s, the fabric gives %s in comfort%s", named(p.Segment.Name), kind, percent(v), percent(limit), assumed(f))
			c.Do = "Make the finish narrower, hold it in less, or choose a fabric that stretches more."
		case v < -slack && kind == CheckFold:
			c.Text = fmt.Sprintf("%s: the free fold is %s longer than its place; it stands away and ripples", named(p.Segment.Name), percent(-v))
			c.Do = fmt.Sprintf("Cut this part shorter: at most %s of its edge.", percent(fold(p.Segment.Turning, s.Job.Finish.Reach(), p.Segment.Whole())))
		case v < -slack && s.Job.Grain != Bias:
			c.Kind, c.Text = CheckLonger, fmt.Sprintf("%s: the strip is longer than its edge", named(p.Segment.Name))
			c.Do = "Type a ratio of 1 or less."
		default:
			continue
		}
		out = append(out, c)
	}
	if len(out) > 0 {
		return out
	}
	v := s.most(of)
	return []Check{{Kind: kind, OK: true, Value: v, Limit: limit,
		Text: fmt.Sprintf("The %s is stretched at most %s, the fabric gives %s in comfort%s", kind, percent(v), percent(limit), assumed(f))}}
}

// passes checks that a closed opening passes its girth: the least of strip, seam and
// garment edge, each at its usable stretch, is at least the girth + 2 cm.
func (s Strip) passes(f FabricFacts) Check {
	name := s.Job.PassesName
	if name == "" {
		name = "girth"
	}
	need := s.Job.Passes + PassingEase
	c := Check{Kind: CheckPasses, Limit: float64(need)}
	bought := s.Job.Finish.Technique.Bought()
	opens, by := s.opens(f)
	switch {
	case bought && (opens >= need || by == "own edge" && s.ownStretch(f) == 0):
		c.Unknown = true
		c.Text = fmt.Sprintf("For the %s with 2 cm to spare the elastic must stretch from %s to %s", name, s.say(s.Length), s.say(need))
		c.Do = "Pull as much of it along a ruler before you cut it."
		return c
	case !bought && !f.known():
		c.Unknown = true
		c.Text, c.Do = fmt.Sprintf("Whether the opening passes the %s is not known", name), "Choose the fabric, or measure its stretch."
		return c
	}
	c.Value, c.OK = float64(opens), opens >= need
	c.Text = fmt.Sprintf("The opening reaches %s (by its %s)%s; the %s with 2 cm to spare takes %s", s.say(opens), by, assumed(f), name, s.say(need))
	switch {
	case c.OK:
	case by == "seam":
		c.Do = "A straight lockstitch does not stretch: sew it with a narrow zigzag, a stretch stitch or an overlocker."
	case by == "strip":
		c.Do = "Cut the strip longer, or choose a fabric that stretches more."
	default:
		c.Do = "Make the opening larger, or plan a placket."
	}
	return c
}

// opens returns how far a closed opening stretches in wear, and what stops it.
func (s Strip) opens(f FabricFacts) (measure.Length, string) {
	edge := measure.Length(0)
	for _, p := range s.Parts {
		edge += p.Segment.Whole()
	}
	least, by := rounded(float64(s.Length)*(1+f.usable(f.Stretch))), "strip"
	if l := rounded(float64(edge) * (1 + f.usable(s.ownStretch(f)))); l < least || s.Job.Finish.Technique.Bought() {
		least, by = l, "own edge"
	}
	if s.Job.Lockstitch && edge < least {
		least, by = edge, "seam"
	}
	return least, by
}

// ownStretch is the bench stretch of the garment's own edge.
func (s Strip) ownStretch(f FabricFacts) measure.Percent {
	return cmp.Or(s.Job.EdgeStretch, f.Edge, f.Stretch)
}

// secondRow checks that a second row of stitching lies on the finish at all.
func (s Strip) secondRow() Check {
	row, f := s.Job.Finish.SecondRow, s.Job.Finish.Width
	c := Check{Kind: CheckSecondRow, OK: f > row, Value: float64(f), Limit: float64(row)}
	c.Text = fmt.Sprintf("A second row of stitching %s from the fold lies on a finish of %s", s.say(row), s.say(f))
	if !c.OK {
		c.Text = fmt.Sprintf("A second row of stitching %s from the fold needs a finish wider than that; this one has %s", s.say(row), s.say(f))
		c.Do = "Make the finish wider, or leave the second row out."
	}
	return c
}

// recovery warns of straps that would hang longer by evening.
func (s Strip) recovery(f FabricFacts) []Check {
	free := false
	for _, p := range s.Parts {
		free = free || p.Segment.Free
	}
	if !free || f.Recovery == 0 || s.Job.ClearElastic {
		return nil
	}
	c := Check{Kind: CheckRecovery, OK: f.Recovery >= StrapRecovery, Value: f.Recovery.Fraction(), Limit: measure.Percent(StrapRecovery).Fraction()}
	c.Text = fmt.Sprintf("The fabric recovers %s; straps want %s", percent(c.Value), percent(c.Limit))
	if !c.OK {
		c.Do = "Put clear elastic in the straps, or cut them from a fabric that recovers better."
	}
	return []Check{c}
}

func assumed(f FabricFacts) string {
	if f.Assumed {
		return " (assumed, measure it)"
	}
	return ""
}

// percent writes a fraction in whole percents, in tenths below 10 %.
func percent(f float64) string {
	p := measure.PercentOf(f)
	unit := measure.Percent(100)
	if p < 1000 && p > -1000 {
		unit = 10
	}
	if p < 0 {
		return measure.FormatPercent((p - unit/2) / unit * unit)
	}
	return measure.FormatPercent((p + unit/2) / unit * unit)
}

func (s Strip) say(l measure.Length) string {
	return measure.Style{System: s.Job.Units, Kind: measure.StripLength}.Format(l)
}
