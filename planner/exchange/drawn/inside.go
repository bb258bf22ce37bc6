package drawn

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"slices"

	"tallycloth/stash/shape"
)

// probes is how many points of an outline are tried to see whether it lies in another.
const probes = 16

// How many shapes are compared with each other, and how many points of outlines are looked at then.
const (
	mostNested = 20_000
	mostLooks  = 1_000_000_000
)

// errCrowded is for a drawing with more.
var errCrowded = errors.New("too many shapes to compare")

// nest finds for every shape the smallest usable outline of the same group, or of the
// same path, that it lies in. Shapes of other groups are left apart, because nested
// sizes are often drawn in layers one over the other.
func nest(ctx context.Context, shapes []Found) error {
	outlines := make([]int, 0, len(shapes))
	boxes := make([]shape.Box, len(shapes))
	for i, f := range shapes {
		boxes[i] = shape.Ring(f.points()).Bounds()
		if f.Usable() {
			outlines = append(outlines, i)
		}
	}
	if len(shapes) > mostNested {
		return errCrowded
	}
	slices.SortStableFunc(outlines, func(i, j int) int { return cmp.Compare(shapes[i].Area, shapes[j].Area) })
	looks := mostLooks
	for i := range shapes {
		if ctx.Err() != nil {
			return fmt.Errorf("reading the drawing: %w", ctx.Err())
		}
		f := &shapes[i]
		for _, j := range outlines {
			if !holds(boxes[j], boxes[i]) {
				continue
			}
			g := shapes[j]
			if i == j || !together(*f, g) || f.Area >= g.Area {
				continue
			}
			if looks -= len(g.Ring); looks < 0 {
				return errCrowded
			}
			if liesIn(f.points(), g.Ring) {
				f.Inside = j
				break
			}
		}
	}
	return nil
}

func holds(b, in shape.Box) bool {
	return in.Min.X >= b.Min.X && in.Min.Y >= b.Min.Y && in.Max.X <= b.Max.X && in.Max.Y <= b.Max.Y
}

func together(f, g Found) bool { return f.Object == g.Object || slices.Equal(f.Group, g.Group) }

// points are those of the outline or the line.
func (f Found) points() []shape.Point {
	if f.Ring != nil {
		return f.Ring
	}
	return f.Open
}

// liesIn says whether points spread over a line, whose box lies in that of a ring, all lie in the ring, its
// edge included.
func liesIn(pts []shape.Point, r shape.Ring) bool {
	step := max(1, len(pts)/probes)
	for i := 0; i < len(pts); i += step {
		if !r.Contains(pts[i]) {
			return false
		}
	}
	return true
}
