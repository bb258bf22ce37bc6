package pattern

import "tallycloth/stash/measure"

// Ease is finished minus body at a level, and whether both are known.
func (s Size) Ease(level string) (measure.Length, bool) {
	body, ok := s.Body[level]
	finished, ok2 := s.Finished[level]
	return finished - body, ok && ok2
}

// EaseShare is the ease as a share of the body measure, negative where the garment
// is smaller than the body; false where either is unknown or the body measure is 0.
func (s Size) EaseShare(level string) (measure.Percent, bool) {
	ease, ok := s.Ease(level)
	if body := s.Body[level]; ok && body > 0 {
		return measure.PercentOf(float64(ease) / float64(body)), true
	}
	return 0, false
}

// WearStretch is how far the garment is stretched at a level when it is worn,
// body/finished − 1; 0 where it has ease, false where a measure is unknown or 0.
//
// Source: common practice; it is the definition of negative ease turned round.
func (s Size) WearStretch(level string) (measure.Percent, bool) {
	ease, ok := s.Ease(level)
	finished := s.Finished[level]
	if !ok || finished <= 0 {
		return 0, false
	}
	if ease >= 0 {
		return 0, true
	}
	return measure.PercentOf(float64(-ease) / float64(finished)), true
}
