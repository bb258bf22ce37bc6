package drawn

import (
	"cmp"
	"context"
	"fmt"
	"slices"

	"tallycloth/stash/shape"
)

// probes is how many points of an outline are tried to see whether it lies in another.
const probes = 16

// mostNested is how many shapes are compared with each other.
const mostNested = 3000

// nest finds for every shape the smallest usable outline of the same group, or of the
// same path, that it lies in. Shapes of other groups are left apart, because nested
// sizes are often drawn in layers one over the other.
func nest(ctx context.Context, shapes []Found) error {
	outlines := make([]int, 0, len(shapes))
	for i, f := range shapes {
		if f.Usable() {
			outlines = append(outlines, i)
		}
	}
	slices.SortStableFunc(outlines, func(i, j int) int { return cmp.Compare(shapes[i].Area, shapes[j].Area) })
	for i := range shapes {
		if ctx.Err() != nil {
			return fmt.Errorf("reading the drawing: %w", ctx.Err())
		}
		f := &shapes[i]
		for _, j := range outlines {
			if g := shapes[j]; i != j && together(*f, g) && f.Area < g.Area && liesIn(f.points(), g.Ring) {
				f.Inside = j
				break
			}
		}
	}
	return nil
}

func together(f, g Found) bool { return f.Object == g.Object || slices.Equal(f.Group, g.Group) }

// points are those of the outline or the line.
func (f Found) points() []shape.Point {
	if f.Ring != nil {
		return f.Ring
	}
	return f.Open
}

// liesIn says whether points spread over a line all lie in a ring, its edge included.
func liesIn(pts []shape.Point, r shape.Ring) bool {
	box := r.Bounds()
	if b := shape.Ring(pts).Bounds(); b.Min.X < box.Min.X || b.Min.Y < box.Min.Y || b.Max.X > box.Max.X || b.Max.Y > box.Max.Y {
		return false
	}
	step := max(1, len(pts)/probes)
	for i := 0; i < len(pts); i += step {
		if !r.Contains(pts[i]) {
			return false
		}
	}
	return true
}
