package stash

// FalseFirst compares two answers for sorting: no stands before yes.
func FalseFirst(a, b bool) int {
	switch {
	case a == b:
		return 0
	case a:
		return 1
	}
	return -1
}
