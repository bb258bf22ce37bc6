package match

import (
	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// suit says whether a fabric is right for a role, quantity aside.
type suit struct {
	grade   Grade // Enough, EnoughIf, CannotTell or Unsuitable
	reasons []Reason
	ifs     []If
}

// assumedShare is how much of what is asked an assumed value must reach before it
// is worth measuring: an assumption is a middle value, and cloth of one
// construction differs by about a factor of two (ours). Below, it is unsuitable.
const assumedShare = 0.5

// suits compares a fabric with what a role asks. When cut crosswise the grains
// change places: lengthwise stretch and recovery then serve around the body and
// crosswise ones up and down, and all of them are tested.
func suits(r pattern.Role, f stash.Fabric, cutCrosswise bool) suit {
	along, around := factsOf(f)
	if cutCrosswise {
		along, around = around, along
	}
	s := &suit{}
	s.knit(r, f)
	s.percent(Stretch, around.name, r.StretchAround, around.stretch, StretchAssumed)
	s.percent(Stretch, along.name, r.StretchAlong, along.stretch, StretchAssumed)
	s.percent(Recovery, around.name, r.Recovery, around.recovery, RecoveryAssumed)
	if r.StretchAlong > 0 {
		s.percent(Recovery, along.name, r.Recovery, along.recovery, RecoveryAssumed)
	}
	s.weight(r, f.Weight)
	return *s
}

// worse lowers the grade, never raises it.
func (s *suit) worse(g Grade) { s.grade = max(s.grade, g) }

func (s *suit) knit(r pattern.Role, f stash.Fabric) {
	if !r.Knit {
		return
	}
	switch {
	case f.Construction == "":
		s.worse(CannotTell)
		s.reasons = append(s.reasons, Reason{What: Knit, Bad: true, Missing: true})
	case !f.Construction.Knit():
		s.worse(Unsuitable)
		s.reasons = append(s.reasons, Reason{What: Knit, Bad: true})
	default:
		s.reasons = append(s.reasons, Reason{What: Knit})
	}
}

// percent tests one property. A measured value decides; an assumed one that is
// enough, or near enough to be worth measuring, leaves a condition.
func (s *suit) percent(what, grain string, asked measure.Percent, has fact, assumed Condition) {
	if asked <= 0 {
		return
	}
	r := Reason{What: what, Grain: grain, Asked: int64(asked), Has: int64(has.value), Assumed: has.assumed}
	switch {
	case !has.known:
		r.Missing, r.Bad = true, true
		s.worse(CannotTell)
	case has.value >= asked && !has.assumed:
	case has.assumed && has.value.Fraction() >= assumedShare*asked.Fraction():
		s.worse(EnoughIf)
		s.condition(If{Condition: assumed, Percent: asked})
	default:
		r.Bad = true
		s.worse(Unsuitable)
	}
	s.reasons = append(s.reasons, r)
}

// condition adds one; of two with one name the stricter stays.
func (s *suit) condition(c If) {
	for i := range s.ifs {
		if s.ifs[i].Condition == c.Condition {
			s.ifs[i].Percent = max(s.ifs[i].Percent, c.Percent)
			return
		}
	}
	s.ifs = append(s.ifs, c)
}

// weight tests the limits; a weight that is not known leaves a condition only,
// for it is easily judged by hand.
func (s *suit) weight(r pattern.Role, has measure.Weight) {
	reason := Reason{What: Weight, Has: int64(has)}
	switch {
	case r.WeightMin == 0 && r.WeightMax == 0:
		return
	case has == 0:
		reason.Asked, reason.Missing, reason.Assumed = int64(max(r.WeightMin, r.WeightMax)), true, true
		s.worse(EnoughIf)
		s.condition(If{Condition: WeightAssumed})
	case has < r.WeightMin:
		reason.Asked, reason.Bad = int64(r.WeightMin), true
		s.worse(Unsuitable)
	case r.WeightMax > 0 && has > r.WeightMax:
		reason.Asked, reason.Bad = int64(r.WeightMax), true
		s.worse(Unsuitable)
	default:
		reason.Asked = int64(nearer(r.WeightMin, r.WeightMax, has))
	}
	s.reasons = append(s.reasons, reason)
}

// nearer returns the limit that has is nearer to; zero is no limit.
func nearer(low, high, has measure.Weight) measure.Weight {
	if low == 0 || high != 0 && high-has < has-low {
		return high
	}
	return low
}
