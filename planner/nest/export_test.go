package nest

// For tests outside the package.
var (
	BoundsOf = bounds
	FloorOf  = leastLength
)
