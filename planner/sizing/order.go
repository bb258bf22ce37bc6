package sizing

import (
	"cmp"
	"slices"

	"tallycloth/stash/shape"
)

// sortAlong orders points by x, rising or falling.
func sortAlong(pts []shape.Point, rising bool) {
	slices.SortFunc(pts, func(a, b shape.Point) int {
		if rising {
			return cmp.Compare(a.X, b.X)
		}
		return cmp.Compare(b.X, a.X)
	})
}
