package say

import "tallycloth/planner/sizing"

// Blended says what a blend of sizes made: the size, and what could not follow.
func Blended(b sizing.Blended) string {
	return "The pattern has size " + b.Size + " now." + notBlended(b)
}

func notBlended(b sizing.Blended) string {
	told := ""
	if len(b.Kept) > 0 {
		told += " Not blended: " + And(b.Kept) + "."
	}
	if len(b.Whole) > 0 {
		told += " No pattern piece could follow at the " + And(b.Whole) + "."
	}
	return told
}

// WouldBlend says what a blend would be, with what it measures when it is sewn.
func (v Voice) WouldBlend(b sizing.Blended) string {
	told := "Size " + b.Size
	if s, ok := b.Pattern.Size(b.Size); ok {
		var sewn []string
		for _, level := range sizing.LevelsToBlend(b.Pattern) {
			if l := s.Finished[level]; l > 0 {
				sewn = append(sewn, level+" "+v.Width(l))
			}
		}
		if len(sewn) > 0 {
			told += ", sewn " + And(sewn)
		}
	}
	return told + "." + notBlended(b)
}
