package say

import "tallycloth/planner/sizing"

// Blended says what a blend of sizes made: the size, and what could not follow.
func Blended(b sizing.Blended) string {
	told := "The pattern has size " + b.Size + " now."
	if len(b.Kept) > 0 {
		told += " Not blended: " + And(b.Kept) + "."
	}
	if len(b.Whole) > 0 {
		told += " No pattern piece could follow at the " + And(b.Whole) + "."
	}
	return told
}
