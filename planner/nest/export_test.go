package nest

import "context"

// For tests outside the package.
var (
	BoundsOf  = bounds
	FloorOf   = leastLength
	GarmentOf = garmentOf
)

// Tidied is a question's layout before and after it is drawn together.
func Tidied(ctx context.Context, in Instance, o Options) (before, after Solution) {
	s := newSearch(ctx, in, o)
	defer s.stop()
	whole := s.o
	s.o = s.keepBack()
	s.run()
	s.o = whole
	before = s.best
	s.tidy()
	return before, s.best
}
