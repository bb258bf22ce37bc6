package svg

import (
	"tallycloth/planner/exchange/drawn"
	"tallycloth/stash"
)

// DefaultLimits are far above what a drawing of pattern pieces needs.
func DefaultLimits() drawn.Limits {
	return drawn.Limits{Bytes: 50 << 20, Elements: 200_000, Depth: 100, Points: 1_000_000, Outline: 30_000}
}

func invalid(what, do string) error {
	return &stash.Error{Kind: stash.Invalid, What: what, Do: do}
}
